package weave

import "slices"

// Closed is the structure with a closing end: one end more, on the shaft that the units of
// its block begin with. In a warp that is mirrored in whole units it stands after the
// middle stripe, and from there on every unit is turned round, so that the warp is a true
// mirror image, end by end; in any other it stands after the last unit and lets the last
// block end as it begins. See [Structure.Thread].
//
// ok is false where that can't be: where a unit without its first end reads otherwise from
// behind, or where floats reach over whole blocks, which would then be longer by an end.
func (s *Structure) Closed() (closed *Structure, ok bool) {
	for _, b := range s.Blocks {
		_, bound := s.MostUnits(b.Letter, 0)
		if bound || !slices.Equal(turned(b.Unit[1:]), b.Unit[1:]) {
			return nil, false
		}
	}
	c := s.clone()
	c.Closing = true
	return c, true
}

// Threaded is a strip of the warp as it is threaded.
type Threaded struct {
	Unit    []int // the shaft of each end of one unit, left to right; nil for an unknown block
	Turned  bool  // the unit is turned round
	Closing int   // shaft of the closing end, to the right of its last unit; 0 for none
}

// Thread tells of each strip of a warp how it is threaded.
func (s *Structure) Thread(warp []Strip) []Threaded {
	all := make([]Threaded, len(warp))
	for i, strip := range warp {
		if b, ok := s.Block(strip.Block); ok {
			all[i].Unit = slices.Clone(b.Unit)
		}
	}
	if !s.Closing || len(warp) == 0 {
		return all
	}
	at := closingAt(warp)
	if unit := all[at].Unit; unit != nil {
		all[at].Closing = unit[0]
	}
	for i := at + 1; i < len(all); i++ {
		slices.Reverse(all[i].Unit)
		all[i].Turned = true
	}
	return all
}

// closingAt is the strip that has the closing end: the middle one of a mirrored warp, or
// the last one that belongs to its middle block, else the last of all.
func closingAt(warp []Strip) int {
	if slices.Equal(turned(warp), warp) {
		return (len(warp) - 1) / 2
	}
	var blocks []Strip
	var last []int // the last strip of each of these
	for i, strip := range warp {
		if n := len(blocks); n > 0 && blocks[n-1].Block == strip.Block {
			blocks[n-1].Units += strip.Units
			last[n-1] = i
			continue
		}
		blocks, last = append(blocks, strip), append(last, i)
	}
	if slices.Equal(turned(blocks), blocks) {
		return last[(len(blocks)-1)/2]
	}
	return len(warp) - 1
}

// turned is a list from its end to its beginning.
func turned[T any](list []T) []T {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// ClosingEnds is the ends that a warp has beside its units: 1 with a closing end, else 0.
func (s *Structure) ClosingEnds() int {
	if s.Closing {
		return 1
	}
	return 0
}
