package weave

import "math"

// Unbounded is the length of a float that nothing in the structure ends: it
// grows with the width of its block.
const Unbounded = math.MaxInt

// Floats is the longest floats of each thread on each side of the cloth: of
// the weft in ends, of the warp in picks. A float of one is a plain crossing.
type Floats struct {
	WeftFace, WeftBack int // ends the weft passes over, or under, without a break
	WarpFace, WarpBack int // picks an end passes over, or under, without a break
}

// Weft is the longer of the weft floats on face and back, in ends.
func (f Floats) Weft() int { return max(f.WeftFace, f.WeftBack) }

// Warp is the longer of the warp floats on face and back, in picks.
func (f Floats) Warp() int { return max(f.WarpFace, f.WarpBack) }

// LongestFloats is the longest floats the structure can make, found by trying
// every join of threading units and of weft units, plain ground too. A float
// that can cross a whole unit is [Unbounded].
func (s *Structure) LongestFloats() Floats {
	var f Floats
	for _, shed := range s.sheds() {
		var units [][]bool
		for _, b := range s.Blocks {
			units = append(units, Face(b.Unit, shed))
		}
		f.WeftFace = max(f.WeftFace, joined(units, true))
		f.WeftBack = max(f.WeftBack, joined(units, false))
	}
	for shaft := 1; shaft <= s.Shafts; shaft++ {
		units := [][]bool{column(shaft, s.UnitPicks(""))}
		for _, b := range s.Blocks {
			units = append(units, column(shaft, s.UnitPicks(b.Letter)))
		}
		f.WarpBack = max(f.WarpBack, joined(units, true))
		f.WarpFace = max(f.WarpFace, joined(units, false))
	}
	return f
}

// FloatsIn is the longest floats of one warp and one piece. Floats end at the
// edges of the cloth. Each different shed and each shaft is looked at once, so
// the cost is that of reading the threading and the picks.
func FloatsIn(threading []int, picks []Woven) Floats {
	var f Floats
	rows, _ := FaceRows(threading, picks)
	for _, row := range rows {
		f.WeftFace = max(f.WeftFace, longest(row, true))
		f.WeftBack = max(f.WeftBack, longest(row, false))
	}
	var seen Shed
	for _, shaft := range threading {
		if seen.Covers(shaft) {
			continue
		}
		seen |= ShedOf(shaft)
		ends := column(shaft, picks)
		f.WarpBack = max(f.WarpBack, longest(ends, true))
		f.WarpFace = max(f.WarpFace, longest(ends, false))
	}
	return f
}

// FloatsIn is [FloatsIn] of a warp and a piece told in strips.
func (s *Structure) FloatsIn(warp []Strip, hem int, body []Strip) Floats {
	return FloatsIn(s.Threading(warp), s.Picks(hem, body))
}

// MostUnits is the most units side by side that keep a stripe of one block
// from making a weft float of more than ends on either side, in any shed; ok
// is false where the block ties its floats down and there is no such bound.
// It counts the stripe's own ends: [FloatsIn] of the whole has the last word.
func (s *Structure) MostUnits(block string, ends int) (units int, ok bool) {
	b, known := s.Block(block)
	if !known {
		return 0, false
	}
	for _, shed := range s.sheds() {
		row := Face(b.Unit, shed)
		if longest(row, row[0]) == len(row) {
			return ends / len(row), true
		}
	}
	return 0, false
}

// sheds lists the sheds of the structure, tabby first, each once.
func (s *Structure) sheds() []Shed {
	var list []Shed
	for _, t := range s.Treadles(s.every()) {
		list = append(list, t.Shed)
	}
	return list
}

// every is one weft unit of each block.
func (s *Structure) every() []Woven {
	var picks []Woven
	for _, b := range s.Blocks {
		picks = append(picks, s.UnitPicks(b.Letter)...)
	}
	return picks
}

// column is one end seen up the cloth: whether the weft lies on top of it.
func column(shaft int, picks []Woven) []bool {
	up := make([]bool, len(picks))
	for i, p := range picks {
		up[i] = p.Shed.Covers(shaft)
	}
	return up
}

// joined is the longest stretch of a value in any sequence of the units. A
// stretch that takes in no whole unit spans two at most, so pairs are enough.
func joined(units [][]bool, value bool) int {
	most := 0
	for _, left := range units {
		if longest(left, value) == len(left) {
			return Unbounded
		}
		for _, right := range units {
			pair := append(append([]bool(nil), left...), right...)
			most = max(most, longest(pair, value))
		}
	}
	return most
}

// longest is the length of the longest stretch of a value.
func longest(row []bool, value bool) int {
	most, run := 0, 0
	for _, v := range row {
		if v == value {
			run++
			most = max(most, run)
		} else {
			run = 0
		}
	}
	return most
}
