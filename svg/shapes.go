package svg

import (
	"math"

	"stripesong/sequence/look"
)

// shaper turns the rows of a weft unit into shapes. Columns are ends as they are
// seen, left to right; heights go from 0 at the foot of the unit to 1 at its top.
type shaper struct {
	xs      []um       // the edges of the columns
	shafts  []int      // of the columns
	rows    []look.Row // of the unit
	widths  look.Widths
	back    bool
	plain   bool    // ground picks alone
	h       um      // height of the unit
	parts   int     // pattern picks in it, or in plain ground picks
	strands int     // of the pattern weft
	margin  float64 // half of the edge that is to be drawn round each thread
}

// shapes is what one weft unit shows over some columns but for the ends: below them
// ground picks as they pass, where ends are wider because no pick fills the gaps, and
// the pattern weft in the gaps; above them ground picks that cross them, and floats.
type shapes struct{ passing, wider, behind, ground, pattern outline }

// extent is a stretch up a unit; it reaches below 0 or above 1 where it goes on
// in the next one.
type extent struct{ from, to float64 }

// block is neighbouring columns that show the same yarn over an extent.
type block struct {
	from, past int
	extent
}

// draw adds what the columns from one to before another show, floats apart.
func (s *shaper) draw(from, past int, all *shapes) {
	gaps := func(x int, r look.Row) bool {
		end, gap := r.Top(s.shafts[x], s.back)
		return gap == look.PatternYarn && end != look.PatternYarn
	}
	for _, b := range s.blocks(from, past, gaps) {
		all.behind = s.band(all.behind, b.from, b.past, b.extent)
	}
	if s.plain {
		all.passing, all.wider = s.plainBands(all.passing, all.wider, from, past)
	}
	for x := from; x < past; x++ {
		for _, e := range s.grounds(x) {
			all.ground = s.crossing(all.ground, x, e, s.betweenFloats(x, e))
		}
	}
}

// plainBands adds ground picks where they pass behind ends, and between them as far as
// gaps are the warp's: of what no pick fills in the gaps, half is.
func (s *shaper) plainBands(passing, wider outline, from, past int) (outline, outline) {
	each := 1 / float64(s.parts)
	half := float64(each * (1 - s.widths.Ground) / 4) // of what is not filled
	for k := range s.parts {
		foot := float64(float64(k) * each)
		passing = s.band(passing, from, past, extent{foot + half, foot + each - half})
		if half > 0 {
			wider = s.band(wider, from, past, extent{foot - half, foot + half})
		}
	}
	if half > 0 {
		wider = s.band(wider, from, past, extent{1 - half, 1 + half})
	}
	return passing, wider
}

// band is an extent all across some columns.
func (s *shaper) band(o outline, from, past int, e extent) outline {
	top := s.y(e.to)
	return o.rect(s.xs[from], top, s.xs[past]-s.xs[from], s.y(e.from)-top)
}

// floats adds the floats that begin before a column and whose middle lies in one of
// some columns.
func (s *shaper) floats(before int, all *shapes, in func(x int) bool) {
	for _, b := range s.blocks(0, len(s.shafts), s.covered) {
		if b.from < before && in((b.from+b.past-1)/2) {
			all.pattern = s.float(all.pattern, b)
		}
	}
}

// y is where a height lies on paper, from the top of the unit down.
func (s *shaper) y(height float64) um { return tens(s.down(height)) }

func (s *shaper) down(height float64) float64 {
	return float64((1 - float64(height)) * float64(s.h))
}

// covered tells whether the pattern weft lies over a column in a row.
func (s *shaper) covered(x int, r look.Row) bool { return s.top(x, r) == look.PatternYarn }

func (s *shaper) top(x int, r look.Row) look.Yarn {
	end, _ := r.Top(s.shafts[x], s.back)
	return end
}

// extents are where rows of a column are as asked for, from the foot up; none
// reaches from one pattern pick to the next.
func (s *shaper) extents(x int, is func(int, look.Row) bool) (all []extent) {
	for _, r := range s.rows {
		if !is(x, r) {
			continue
		}
		if n := len(all) - 1; n >= 0 && all[n].to == r.From &&
			s.part(all[n].from) == s.part(r.From) {
			all[n].to = r.To
			continue
		}
		all = append(all, extent{r.From, r.To})
	}
	return all
}

// part is the pattern pick in whose part of the unit a row lies that begins at a
// height.
func (s *shaper) part(from float64) int { return int(float64(from*float64(s.parts)) + 1e-9) }

// blocks are the extents of some columns, neighbours alike joined.
func (s *shaper) blocks(from, past int, is func(int, look.Row) bool) (all []block) {
	open := map[extent]int{}
	for x := from; x < past; x++ {
		for _, e := range s.extents(x, is) {
			if i, ok := open[e]; ok && all[i].past == x {
				all[i].past++
				continue
			}
			open[e] = len(all)
			all = append(all, block{x, x + 1, e})
		}
	}
	return all
}

// edges are the left and the right edge of an end.
func (s *shaper) edges(x int) (left, right um) {
	half := float64(float64(s.xs[x+1]-s.xs[x])*s.widths.Warp/2) - s.margin
	return tens(s.middle(x) - half), tens(s.middle(x) + half)
}

func (s *shaper) middle(x int) float64 { return float64(float64(s.xs[x]+s.xs[x+1]) / 2) }

// grounds are where ground picks cross a column. One that lies where two units meet
// is given at both.
func (s *shaper) grounds(x int) []extent {
	grounds := func(x int, r look.Row) bool { return s.top(x, r) == look.GroundYarn }
	all := s.joined(s.extents(x, grounds))
	if n := len(all) - 1; n > 0 && all[0].from == 0 && all[n].to == 1 {
		whole := extent{all[n].from - 1, all[0].to}
		all[0], all[n] = whole, extent{whole.from + 1, whole.to + 1}
	}
	return all
}

// joined joins extents where one begins as another ends.
func (s *shaper) joined(all []extent) (some []extent) {
	for _, e := range all {
		if n := len(some) - 1; n >= 0 && some[n].to == e.from {
			some[n].to = e.to
			continue
		}
		some = append(some, e)
	}
	return some
}

// betweenFloats is how far a ground pick goes on beneath the floats below and above
// it; nothing where there is none.
func (s *shaper) betweenFloats(x int, e extent) (beyond extent) {
	half := s.widths.Pattern / 2 / float64(s.parts)
	if below, _ := s.next(x, e.from, -1); below == look.PatternYarn {
		beyond.from = half
	}
	if above, _ := s.next(x, e.to, 1); above == look.PatternYarn {
		beyond.to = half
	}
	return beyond
}

// crossing is a ground pick where it crosses an end.
func (s *shaper) crossing(o outline, x int, e, beyond extent) outline {
	if beyond != (extent{}) {
		left, right := s.edges(x)
		top := s.y(e.to + beyond.to)
		return o.rect(left, top, right-left, s.y(e.from-beyond.from)-top)
	}
	_, above := s.next(x, e.to, 1)
	_, below := s.next(x, e.from, -1)
	length := float64(float64(s.xs[x+1]-s.xs[x]) * s.widths.Warp)
	height := float64((e.to - e.from) * float64(s.h))
	room := height + float64(min(above, below)*float64(s.h))
	l := lensFor(length, height, room, s.way(), false)
	return o.lens(s.middle(x), s.down((e.from+e.to)/2), l.inset(s.margin))
}

// next is the yarn that covers an end above (1) or below (-1) a height, and for how
// far.
func (s *shaper) next(x int, height float64, step int) (yarn look.Yarn, far float64) {
	at := height - math.Floor(height)
	if step < 0 && at == 0 {
		at = 1
	}
	if step > 0 && at == 1 {
		at = 0
	}
	for i := range s.rows {
		r := s.rows[i]
		if step < 0 {
			r = s.rows[len(s.rows)-1-i]
		}
		beyond, edge := r.From >= at-1e-9, r.To
		if step < 0 {
			beyond, edge = r.To <= at+1e-9, r.From
		}
		if !beyond {
			continue
		}
		top := s.top(x, r)
		if far > 0 && top != yarn {
			break
		}
		yarn, far = top, math.Abs(edge-at)
	}
	return yarn, far
}

// thick is how thick one strand of pattern weft and one ground pick are drawn.
func (s *shaper) thick() (all [3]float64) {
	each := float64(s.h) / float64(s.parts)
	all[look.PatternYarn] = each * s.widths.Pattern / float64(s.strands)
	all[look.GroundYarn] = each * s.widths.Ground
	return all
}

// way is from end to end.
func (s *shaper) way() float64 {
	return float64(s.xs[len(s.xs)-1]-s.xs[0]) / float64(len(s.shafts))
}

// float is pattern weft over some ends, a lens for each strand.
func (s *shaper) float(o outline, b block) outline {
	strands := float64(s.strands)
	height, room := float64((b.to-b.extent.from)*float64(s.h)), float64(s.h)/float64(s.parts)
	left, right := float64(s.xs[b.from]), float64(s.xs[b.past])
	l := lensFor(right-left, height/strands, room/strands, s.way(), true)
	middle := s.down((b.extent.from + b.to) / 2)
	for k := range s.strands {
		y := middle + float64((float64(k)-float64((strands-1)/2))*l.height)
		o = o.lens((left+right)/2, y, l.inset(s.margin))
	}
	return o
}
