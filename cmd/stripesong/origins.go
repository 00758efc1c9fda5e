package main

import (
	"maps"
	"slices"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/unsaved"
)

// origins are the texts from elsewhere that the work on a page goes back to. They are
// numbered in the order in which something else wrote them to the brief's file: 0 is
// the file as it was opened, each later one was read from the file when it had changed,
// and below 0 is what unsaved work was begun with that was taken up again.
//
// A text may take the place of the file unasked where it goes back to the same origin
// as the file or to a later one: only the page's own work goes then, which can be had
// back by undoing. A text that goes back to an earlier origin lacks what something else
// wrote to the file since.
type origins struct {
	sums  map[int]string // of the file when it last held each
	holds int            // the origin of the file as it is known
}

func newOrigins(text []byte) origins { return origins{sums: map[int]string{0: unsaved.Sum(text)}} }

// conflict is why the page is to be asked before a text of an origin is written over
// the file; "" for no reason. Both are told by their sums.
func (o *origins) conflict(origin int, file, text string) engine.Why {
	switch {
	case file == gone:
		return engine.Gone
	case file != o.sums[o.holds]:
		return engine.Changed
	case origin < o.holds && text != file:
		return engine.Older
	}
	return ""
}

// saved says that the file now is a text of an origin.
func (o *origins) saved(origin int, text string) {
	if text != o.sums[o.holds] {
		o.sums[origin], o.holds = text, origin
	}
}

// file numbers the file as it is now.
func (o *origins) file(sum string) int {
	if sum == o.sums[o.holds] {
		return o.holds
	}
	origin := slices.Max(slices.Collect(maps.Keys(o.sums))) + 1
	o.sums[origin] = sum
	return origin
}

// known says that the file as it was numbered is the one that is known now.
func (o *origins) known(origin int) { o.holds = origin }

// earlier numbers what unsaved work was begun with. It is the file as it is known where
// that is the same, or where the work itself is.
func (o *origins) earlier(began, work string) int {
	if file := o.sums[o.holds]; file == began || file == work {
		return o.holds
	}
	origin := slices.Min(slices.Collect(maps.Keys(o.sums))) - 1
	o.sums[origin] = began
	return origin
}

// base is the sum of the file that a text of an origin goes on from.
func (o *origins) base(origin int) string { return o.sums[origin] }
