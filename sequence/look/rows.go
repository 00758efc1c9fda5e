package look

import (
	"slices"

	"stripesong/sequence/weave"
)

// Yarn is one of the three yarns of a patch of cloth.
type Yarn int

// The yarns of a patch, in the order of [Shares].
const (
	PatternYarn Yarn = iota
	WarpYarn
	GroundYarn
)

// Row is a stretch up one weft unit in which what lies on top changes only from
// end to end.
type Row struct {
	From, To float64 // of the height of the unit, 0 at its foot and 1 at its top
	End      float64 // the part of its pitch, in the middle, that an end has

	// Where the pattern pick passes over an end: whether it covers this row, and
	// if not, the shed of the ground pick that lies there.
	float   bool
	between weave.Shed
	// Where it passes under, or there is none: whether a ground pick crosses in
	// this row and in which shed; and whether the pattern is seen in the gaps.
	crossing bool
	ground   weave.Shed
	behind   bool

	pattern weave.Shed // none in plain ground
}

// Top tells which yarn lies on top where a row meets the ends of a shaft: of an
// end's pitch, in the middle and in the gaps on both sides. The back is seen
// turned over.
func (r Row) Top(shaft int, back bool) (end, gap Yarn) {
	over := func(shed weave.Shed) bool { return shed.Covers(shaft) != back }
	if r.pattern != 0 && over(r.pattern) {
		switch {
		case r.float:
			return PatternYarn, PatternYarn
		case over(r.between):
			return GroundYarn, GroundYarn
		}
		return WarpYarn, GroundYarn
	}
	end, gap = WarpYarn, GroundYarn
	if r.crossing && over(r.ground) {
		end = GroundYarn
	}
	if r.behind {
		gap = PatternYarn
	}
	return end, gap
}

// At is the yarn on top at a place in the pitch of an end, told by its distance
// from the middle: 0 there and 1 at the next pitch.
func (r Row) At(shaft int, distance float64, back bool) Yarn {
	end, gap := r.Top(shaft, back)
	if distance < r.End {
		return end
	}
	return gap
}

// Rows divides one weft unit into rows, its foot first. Each pattern pick has an
// equal part of the unit and lies in the middle of it, with the ground picks that
// are woven before and after it at its foot and its top; in plain ground each
// ground pick has an equal part. Since of two neighbouring ground picks one passes
// over an end and the other under it, drawn like that each yarn covers what
// [Widths.Patch] and [Widths.Plain] say.
func (w Widths) Rows(unit []weave.Woven) []Row {
	var rows []Row
	for i, pick := range unit {
		if pick.Pattern {
			rows = append(rows, w.upTo(Row{pattern: pick.Shed}, picksBeside(unit, i, -1))...)
			top := w.upTo(Row{pattern: pick.Shed}, picksBeside(unit, i, 1))
			rows = append(rows, turned(top)...)
		}
	}
	if rows == nil {
		rows = w.plainRows(unit)
	}
	return scaled(rows)
}

// beside is a ground pick beside a pattern pick, and how far it reaches from half
// way between two pattern picks (0) to as near as ground picks come (1).
type beside struct {
	shed weave.Shed
	to   float64
}

// picksBeside lists the ground picks of one side of a pattern pick, below (-1) or
// above (1), the farthest first: of those that stand together before the next
// pattern pick, the half that is nearer to this one.
func picksBeside(unit []weave.Woven, pattern, step int) (all []beside) {
	at := func(k int) weave.Woven {
		n := len(unit)
		return unit[((pattern+step*k)%n+n)%n]
	}
	first := 1
	for at(first).Pattern {
		first++
	}
	count := 0
	for !at(first + count).Pattern {
		count++
	}
	for k := (count - 1) / 2; k >= 0; k-- {
		to := 1 - float64(2*k)/float64(count)
		all = append(all, beside{at(first + k).Shed, to})
	}
	return all
}

// upTo divides the lower half of a pattern pick's part, 0 at its foot and 1 at
// the middle.
func (w Widths) upTo(pick Row, picks []beside) []Row {
	c, t := w.Pattern, w.Ground
	behind := max(1-c, t) // where the pattern begins to be seen in the gaps
	edges := []float64{1, 1 - c, t, behind}
	for _, p := range picks {
		edges = append(edges, float64(p.to*(1-c)), float64(p.to*t))
	}
	return rowsBetween(edges, func(at float64) Row {
		r := pick
		r.End = w.Warp
		r.float, r.between = at > 1-c, shedAt(picks, at, 1-c)
		r.crossing, r.ground = at < t, shedAt(picks, at, t)
		r.behind = at > behind
		return r
	})
}

// shedAt is the shed of the ground pick at a height, the picks reaching up to
// another.
func shedAt(picks []beside, at, top float64) weave.Shed {
	for _, p := range picks {
		if at < float64(p.to*top) {
			return p.shed
		}
	}
	return picks[len(picks)-1].shed
}

// plainRows divides a unit of ground picks alone; an end is seen in half of the
// gap where no pick fills it.
func (w Widths) plainRows(unit []weave.Woven) (rows []Row) {
	for _, pick := range unit {
		half := rowsBetween([]float64{1 - w.Ground, 1}, func(at float64) Row {
			if at < 1-w.Ground {
				return Row{End: (1 + w.Warp) / 2}
			}
			return Row{End: w.Warp, crossing: true, ground: pick.Shed}
		})
		rows = append(append(rows, half...), turned(half)...)
	}
	return rows
}

// rowsBetween makes rows from 0 up, one between every two edges, by what there is
// in the middle of each.
func rowsBetween(edges []float64, what func(at float64) Row) (rows []Row) {
	slices.Sort(edges)
	from := 0.0
	for _, to := range edges {
		if to <= from {
			continue
		}
		r := what((from + to) / 2)
		r.From, r.To = from, to
		rows = append(rows, r)
		from = to
	}
	return rows
}

// turned is rows turned upside down, so that they end where they began.
func turned(rows []Row) []Row {
	all := slices.Clone(rows)
	slices.Reverse(all)
	for i := range all {
		all[i].From, all[i].To = 1-all[i].To, 1-all[i].From
	}
	return all
}

// scaled puts halves, each of 0 to 1, one on the other and brings all to 0..1.
func scaled(rows []Row) []Row {
	halves := 0
	for _, r := range rows {
		if r.To == 1 {
			halves++
		}
	}
	below := 0
	for i := range rows {
		last := rows[i].To == 1
		rows[i].From = (float64(below) + rows[i].From) / float64(halves)
		rows[i].To = (float64(below) + rows[i].To) / float64(halves)
		if last {
			below++
		}
	}
	return rows
}
