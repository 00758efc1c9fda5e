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
	origins  [2]int // of the text before and after
}

// between is the step from one text to another: all but what they begin and
// end with alike.
func between(before, after []byte) step {
	start := 0
	for start < len(before) && start < len(after) && before[start] == after[start] {
		start++
	}
	end := 0
	for end < len(before)-start && end < len(after)-start &&
		before[len(before)-1-end] == after[len(after)-1-end] {
		end++
	}
	return step{at: start, old: bytes.Clone(before[start : len(before)-end]),
		new: bytes.Clone(after[start : len(after)-end])}
}

// add remembers a step and forgets what was undone. Steps of one gesture, such
// as a colour being dragged about, become one. The list is made anew, since a
// copy of the bench may go on from the old one.
func (h *history) add(s step, before, after []byte) {
	h.steps = slices.Clone(h.steps[:h.at])
	if last := h.at - 1; s.gesture != "" && last >= 0 && h.steps[last].gesture == s.gesture {
		first := h.steps[last]
		s = s.over(first.back(before), after)
		s.origins[0] = first.origins[0]
		h.steps, h.at = h.steps[:last], last
		if len(s.old)+len(s.new) == 0 && s.origins[0] == s.origins[1] {
			return // it was all put back
		}
	}
	h.steps = append(h.steps, s)
	h.at++
}

// over is the step with what was done kept, between other texts.
func (s step) over(before, after []byte) step {
	b := between(before, after)
	s.at, s.old, s.new = b.at, b.old, b.new
	return s
}

// meet says that the present text is, letter for letter, one from elsewhere.
func (h *history) meet(origin int) {
	h.steps = slices.Clone(h.steps)
	if h.at > 0 {
		h.steps[h.at-1].origins[1] = origin
	}
	if h.at < len(h.steps) {
		h.steps[h.at].origins[0] = origin
	}
}

// after is the text one step back (-1) or forth (1), and that step.
func (h *history) after(text []byte, by int) (to []byte, s step, ok bool) {
	switch {
	case by < 0 && h.at > 0:
		s = h.steps[h.at-1]
		return s.back(text), s, true
	case by > 0 && h.at < len(h.steps):
		s = h.steps[h.at]
		return s.forth(text), s, true
	}
	return nil, step{}, false
}

// then is the text so many steps ago, or ahead, and the step that led to it.
func (h *history) then(text []byte, back int) ([]byte, string) {
	at := h.at
	for ; back > 0; back-- {
		at--
		text = h.steps[at].back(text)
	}
	for ; back < 0; back++ {
		text = h.steps[at].forth(text)
		at++
	}
	if at == 0 {
		return text, ""
	}
	return text, h.steps[at-1].what
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
