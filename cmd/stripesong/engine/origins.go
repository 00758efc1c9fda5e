package engine

import (
	"maps"
	"slices"
)

// Origins are the texts from elsewhere that the work on a page goes back to. They are
// numbered in the order in which something else wrote them to the brief's file: 0 is
// the file as it was opened, each later one was read from the file when it had changed,
// and below 0 is what unsaved work was begun with that was taken up again.
//
// A text may take the place of the file unasked where it goes back to the same origin
// as the file or to a later one: only the page's own work goes then, which can be had
// back by undoing. A text that goes back to an earlier origin lacks what something else
// wrote to the file since.
type Origins struct {
	sums  map[int]string // of the file when it last held each
	holds int            // the origin of the file as it is known
	told  string         // the sum of the file that the page was asked about; "" for none
}

// NewOrigins begins with the file as it was opened, told by its sum.
func NewOrigins(sum string) Origins { return Origins{sums: map[int]string{0: sum}} }

// NoFile is the sum of no file.
const NoFile = "no file"

// Conflict is why the page is to be asked before a text of an origin is written over
// the file; "" for no reason, or where it was asked about this very file before and says
// to write over it. Both are told by their sums.
func (o *Origins) Conflict(origin int, file, text string, over bool) Why {
	why := o.reason(origin, file, text)
	if over && file == o.told {
		return ""
	}
	if why != "" {
		o.told = file
	}
	return why
}

func (o *Origins) reason(origin int, file, text string) Why {
	switch {
	case file == NoFile:
		return Gone
	case file != o.sums[o.holds]:
		return Changed
	case origin < o.holds && text != file:
		return Older
	}
	return ""
}

// Saved says that the file now is a text of an origin.
func (o *Origins) Saved(origin int, text string) {
	o.told = ""
	if text != o.sums[o.holds] {
		o.sums[origin], o.holds = text, origin
	}
}

// File numbers the file as it is now.
func (o *Origins) File(sum string) int {
	if sum == o.sums[o.holds] {
		return o.holds
	}
	origin := slices.Max(slices.Collect(maps.Keys(o.sums))) + 1
	o.sums[origin] = sum
	return origin
}

// Known says that the file as it was numbered is the one that is known now.
func (o *Origins) Known(origin int) { o.holds, o.told = origin, "" }

// Earlier numbers what unsaved work was begun with. It is the file as it is known where
// that is the same, or where the work itself is.
func (o *Origins) Earlier(began, work string) int {
	if file := o.sums[o.holds]; file == began || file == work {
		return o.holds
	}
	origin := slices.Min(slices.Collect(maps.Keys(o.sums))) - 1
	o.sums[origin] = began
	return origin
}

// Base is the sum of the file that a text of an origin goes on from.
func (o *Origins) Base(origin int) string { return o.sums[origin] }

// Holds is the origin of the file as it is known.
func (o *Origins) Holds() int { return o.holds }
