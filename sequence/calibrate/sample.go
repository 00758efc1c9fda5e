package calibrate

import (
	"fmt"
	"math/big"
	"strconv"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/yarn"
)

// Photos are the crops of a sample's photo, by the key they stand under in the
// file of measurements; see [brief.Measured.Photos].
type Photos map[string]palette.Crop

// Sample is what a washed sample tells of the cloth's look.
type Sample struct {
	Values []Value `json:"values"`
	Fit    *Fit    `json:"fit"` // nil where no photo was given
}

// Value is a plain number of the [cloth] table, learned from a sample.
type Value struct {
	Key      string  `json:"key"` // dotted, of the brief
	Measured float64 `json:"measured"`
	Least    float64 `json:"least"`
	Most     float64 `json:"most"`
	Assumed  float64 `json:"assumed"` // what the brief says, or what is usual
	Agrees   bool    `json:"agrees"`
	Solved   bool    `json:"solved"` // the bounds are narrower than what is credible unseen
	From     string  `json:"from"`   // in words; why not, where it is not solved

	decimals int
}

// Text is the number as a brief has it, such as "1.43".
func (v Value) Text() string { return v.decimal(v.Measured) }

// Between is its least and its most.
func (v Value) Between() (least, most string) { return v.decimal(v.Least), v.decimal(v.Most) }

func (v Value) decimal(n float64) string { return strconv.FormatFloat(n, 'f', v.decimals, 64) }

// changes are the numbers that could be told.
func (s *Sample) changes() (changes []brief.Change) {
	if s == nil {
		return nil
	}
	for _, v := range s.Values {
		if v.Solved {
			changes = append(changes, brief.Change{Key: v.Key, Value: v.Text()})
		}
	}
	return changes
}

// sample learns from the [sample] table: spread from the width of a float, else
// from the photo; scatter from the photo.
func (c *calibration) sample() error {
	s := c.m.Sample
	if s == nil {
		return nil
	}
	t, err := c.trio()
	if err != nil {
		return err
	}
	c.answer.Sample = &Sample{}
	ruled, err := c.floatWidth(t)
	if err != nil {
		return err
	}
	if ruled != nil {
		c.answer.Sample.Values = append(c.answer.Sample.Values, *ruled)
	}
	if s.PatternArea == "" {
		return nil
	}
	seen, err := c.photo()
	if err != nil {
		return err
	}
	return c.fit(t, seen, ruled)
}

// floatWidth is the spread by which strands of the pattern's yarn lie as wide as
// was measured.
func (c *calibration) floatWidth(t look.Trio) (*Value, error) {
	r := c.m.Sample.FloatWidth
	if r == nil {
		return nil, nil
	}
	y := c.b.Yarns[c.b.Colours[t.Pattern].Yarn]
	if y.Wraps != nil {
		return nil, c.m.Wrong("sample.float_width",
			fmt.Sprintf("yarn %q has wraps, which are its width already", y.Name),
			"take either away; a spread is for yarn that is known by its count")
	}
	tex := exact.Float(y.Tex)
	round := look.WidthMM(1, yarn.DiameterMM(tex, 1), c.b.Cloth.Strands)
	wide := spanOf(r)
	times := func(mm *big.Rat) float64 {
		f := exact.Float(mm)
		return exact.RoundTo(f/round, 2)
	}
	v := &Value{Key: "cloth.spread", decimals: 2, Solved: true,
		Measured: times(wide.best), Least: times(wide.low), Most: times(wide.high),
		From: fmt.Sprintf("a float of %s lies %s wide; its yarn is %.2f mm round",
			strands(c.b.Cloth.Strands), r.Text, round)}
	if v.Least > mostSpread || v.Most < leastSpread {
		return nil, c.m.Wrong("sample.float_width",
			fmt.Sprintf("a float of %s would lie %.2f times as wide as its yarn is round (%.2f mm)",
				r.Text, v.Measured, round),
			"measure one float from edge to edge, of washed cloth, and check the yarn's count")
	}
	v.Measured = min(mostSpread, max(leastSpread, v.Measured))
	c.assumed(v, c.b.Cloth.Spread)
	return v, nil
}

func strands(n int) string {
	if n == 1 {
		return "one strand"
	}
	return fmt.Sprintf("%d strands", n)
}

// leastSpread and mostSpread bound the spread that is looked for; a brief may have more.
const leastSpread, mostSpread = 0.8, 3.0

// trio is which colours a sample is woven of: as the file says, or the only ones
// there can be.
func (c *calibration) trio() (t look.Trio, err error) {
	s := c.m.Sample
	if t.Warp, err = c.colour("warp", s.Warp, c.onlyWarp()); err != nil {
		return t, err
	}
	if t.Ground, err = c.colour("ground", s.Ground, c.b.Weft.Ground); err != nil {
		return t, err
	}
	t.Pattern, err = c.colour("pattern", s.Pattern, c.onlyPattern(t))
	return t, err
}

// unknown stands for a colour that can't be told.
const unknown = -1

// onlyWarp is the colour of the warp where it has only one.
func (c *calibration) onlyWarp() int {
	only := unknown
	colours := c.b.Warp.Rule.Colours
	for _, r := range c.b.Warp.Runs {
		colours = append(colours, r.Colour)
	}
	for _, colour := range colours {
		if only != unknown && colour != only {
			return unknown
		}
		only = colour
	}
	return only
}

// onlyPattern is the one colour that was wrapped besides warp and ground, or the
// one pattern colour there is.
func (c *calibration) onlyPattern(t look.Trio) int {
	colours := c.b.Weft.Rule.Colours
	if wraps := c.m.Sample.Wraps; len(wraps) > 0 {
		colours = nil
		for _, w := range wraps {
			if i := c.b.ColourNamed(w.Colour); i != unknown && i != t.Warp && i != t.Ground {
				colours = append(colours, i)
			}
		}
	}
	if len(colours) == 1 {
		return colours[0]
	}
	return unknown
}

func (c *calibration) colour(key, name string, otherwise int) (int, error) {
	key = "sample." + key
	if name == "" {
		if otherwise == unknown {
			return 0, c.m.Wrong(key, "is missing", "say which colour of the brief it was: "+
				key[len("sample."):]+` = "oat"`)
		}
		return otherwise, nil
	}
	i := c.b.ColourNamed(name)
	if i == unknown {
		return 0, c.noColour(key, name)
	}
	return i, nil
}

// assumed puts beside a value what the brief has.
func (c *calibration) assumed(v *Value, said *big.Rat) {
	v.Assumed = exact.Float(said)
	v.Agrees = v.Least <= v.Assumed && v.Assumed <= v.Most
}
