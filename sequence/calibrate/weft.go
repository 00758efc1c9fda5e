package calibrate

import (
	"fmt"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

// weftExtra is what a strand of one pick takes beyond the width in the reed,
// over all [[weft]] tables together.
func (c *calibration) weftExtra() error {
	if len(c.m.Weft) == 0 {
		return nil
	}
	used := span{new(big.Rat), new(big.Rat), new(big.Rat)} // millimetres
	passes := new(big.Rat)
	for _, w := range c.m.Weft {
		tex, err := c.tex(w.Colour)
		if err != nil {
			return err
		}
		mm, off := millimetres(w.Used, tex), millimetres(w.Off, tex)
		used = span{exact.Plus(used.low, exact.Minus(mm, off)), exact.Plus(used.best, mm),
			exact.Plus(used.high, exact.Plus(mm, off))}
		passes = exact.Plus(passes, big.NewRat(int64(w.Picks)*int64(w.Strands), 1))
	}
	reed := c.reed()
	extra := func(mm, wide *big.Rat) *big.Rat {
		return exact.Minus(exact.Over(exact.Over(mm, passes), wide), exact.Whole(1))
	}
	s := span{extra(used.low, reed.high), extra(used.best, reed.best), extra(used.high, reed.low)}
	if err := c.thin(exact.Over(used.high, passes), reed); err != nil {
		return err
	}
	if s.high.Sign() < 0 {
		s.high = new(big.Rat) // between the cloth's width and the reed's: nothing extra
	}
	return c.add("weft_extra", c.b.Cloth.Extra.Part, s,
		fmt.Sprintf("%s of yarn to a pick %s wide in the reed",
			c.length(exact.Over(used.best, passes)), c.length(reed.best)),
		"weft", "")
}

// reed is the width in the reed: as measured, or as planned.
func (c *calibration) reed() span {
	if c.m.Width.Reed != nil {
		return spanOf(c.m.Width.Reed)
	}
	return span{c.planned, c.planned, c.planned}
}

// thin refuses picks that take less yarn than the cloth is wide at the fell.
func (c *calibration) thin(pick *big.Rat, reed span) error {
	least := exact.Times(reed.low, exact.Remains(c.b.Cloth.DrawIn.Part))
	if c.m.Width.Fell != nil {
		least = spanOf(c.m.Width.Fell).low
	}
	if pick.Cmp(least) >= 0 {
		return nil
	}
	return c.m.Wrong("weft",
		fmt.Sprintf("%s of yarn to a pick is less than the cloth is wide, %s", c.length(pick),
			c.length(least)),
		"check picks, strands and what was used")
}

// length prints millimetres in the units of the brief.
func (c *calibration) length(mm *big.Rat) string {
	return measure.FormatLength(exact.Float(mm), c.b.Units)
}

func (c *calibration) tex(colour string) (*big.Rat, error) {
	i := c.b.ColourNamed(colour)
	if i == unknown {
		return nil, c.noColour("weft", colour)
	}
	return c.b.Yarns[c.b.Colours[i].Yarn].Tex, nil
}

// noColour is the error of a colour that the brief does not have.
func (c *calibration) noColour(key, colour string) error {
	var names []string
	for _, known := range c.b.Colours {
		names = append(names, known.Name)
	}
	hint := "write it as the brief does"
	if near := brief.Nearest(colour, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return c.m.Wrong(key, fmt.Sprintf("the brief has no colour %q", colour), hint)
}

func millimetres(a measure.Amount, tex *big.Rat) *big.Rat {
	return exact.Times(yarn.MetresOf(a, tex), exact.Whole(1000))
}
