package look

import (
	"fmt"

	"stripesong/palette"
)

// What is credible of cloth of which no sample was measured: how many times as
// wide as it is round a yarn lies, and how far light spreads from yarn to yarn.
var (
	spreads  = [2]float64{1.3, 1.7}
	scatters = [2]float64{0.01, 0.035}
)

// Credible says in words between which bounds lies what the brief leaves open; "" where
// nothing is open.
func (c *Mixer) Credible() string {
	if c.Known() {
		return ""
	}
	return fmt.Sprintf("for yarn that lies %g to %g times as wide as it is round (spread) and "+
		"light that spreads from %g to %g (scatter): a washed sample tells (stripesong calibrate)",
		spreads[0], spreads[1], scatters[0], scatters[1])
}

// ends is what a number may be: itself where the brief says it, else the ends
// of what is credible.
func ends(said float64, known bool, credible [2]float64) []float64 {
	if known {
		return []float64{said}
	}
	return credible[:]
}

// Range is the least and the greatest that may be seen of a difference, each
// with its own grade.
type Range struct{ Least, Greatest Difference }

// Known reports whether the brief leaves nothing open: then nothing has a range.
func (c *Mixer) Known() bool { return len(c.corners) == 0 }

// Range is how far what a sight sees of a trio may lie from [See], over all
// corners of what the brief leaves open.
func (c *Mixer) Range(t Trio, sight palette.Sight, widthMM, distanceM float64) Range {
	blur := palette.BlurOf(widthMM, distanceM)
	return c.RangeOf(func(c *Mixer) Difference {
		p := c.Patch(t)
		return SeeBlurred(p.On, p.Off, sight, blur)
	})
}

// RangeOf is the least and the greatest difference in lightness that is seen in
// this cloth and in all corners of what the brief leaves open. The least is 0
// where light and dark may change places. Each end has its own grade; that of the
// cloth as it is reckoned lies between them.
func (c *Mixer) RangeOf(seen func(*Mixer) Difference) Range {
	first := seen(c)
	r := Range{first, first}
	darker, lighter := first.DeltaL < 0, first.DeltaL > 0
	for _, corner := range c.corners {
		s := seen(corner)
		darker, lighter = darker || s.DeltaL < 0, lighter || s.DeltaL > 0
		if s.MicroL() < r.Least.MicroL() {
			r.Least = s
		}
		if s.MicroL() > r.Greatest.MicroL() {
			r.Greatest = s
		}
	}
	if darker && lighter {
		r.Least.DeltaL = 0
		r.Least.Grade = palette.GradeOf(0, r.Least.DeltaE)
	}
	r.Least.Grade = min(r.Least.Grade, first.Grade)
	r.Greatest.Grade = max(r.Greatest.Grade, first.Grade)
	return r
}
