package workbench

import (
	"bytes"
	"slices"
)

// history is the steps taken, of which the first at are in force.
type history struct {
	steps []step
	at    int
}

// step is one change of a text: at a byte, what stood there and what stands
// there now. The rest of the text is the same.
type step struct {
	at       int
	old, new []byte
	what     string
	gesture  string
}

// between is the step from one text to another: all but what they begin and
// end with alike.
func between(before, after []byte) step {
	start := 0
	for start < len(before) && start < len(after) && before[start] == after[start] {
		start++
	}
	end := 0
	for end < len(before)-start && end < len(after)-start && before[len(before)-1-end] == after[len(after)-1-end] {
		end++
	}
	return step{at: start, old: bytes.Clone(before[start : len(before)-end]), new: bytes.Clone(after[start : len(after)-end])}
}

// add remembers a step and forgets what was undone. Steps of one gesture, such
// as a colour being dragged about, become one. The list is made anew, since a
// copy of the bench may go on from the old one.
func (h *history) add(before, after []byte, what, gesture string) {
	h.steps = slices.Clone(h.steps[:h.at])
	if last := h.at - 1; gesture != "" && last >= 0 && h.steps[last].gesture == gesture {
		before = h.steps[last].back(before)
		h.steps, h.at = h.steps[:last], last
	}
	s := between(before, after)
	s.what, s.gesture = what, gesture
	h.steps = append(h.steps, s)
	h.at++
}

// amend makes more of the latest step, which led to a text and shall lead to
// another.
func (h *history) amend(text, to []byte) {
	h.steps = slices.Clone(h.steps)
	last := &h.steps[h.at-1]
	s := between(last.back(text), to)
	s.what, s.gesture = last.what, last.gesture
	*last = s
}

// after is the text one step back (-1) or forth (1), and what that step is.
func (h *history) after(text []byte, by int) (to []byte, what string, ok bool) {
	switch {
	case by < 0 && h.at > 0:
		s := h.steps[h.at-1]
		return s.back(text), s.what, true
	case by > 0 && h.at < len(h.steps):
		s := h.steps[h.at]
		return s.forth(text), s.what, true
	}
	return nil, "", false
}

func (s step) back(text []byte) []byte {
	return slices.Replace(slices.Clone(text), s.at, s.at+len(s.new), s.old...)
}

func (s step) forth(text []byte) []byte {
	return slices.Replace(slices.Clone(text), s.at, s.at+len(s.old), s.new...)
}

// next is what would be undone and what redone; "" for nothing.
func (h *history) next() (undo, redo string) {
	if h.at > 0 {
		undo = h.steps[h.at-1].what
	}
	if h.at < len(h.steps) {
		redo = h.steps[h.at].what
	}
	return undo, redo
}
