package calibrate

import (
	"fmt"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
)

// Make works out everything that the measurements tell, and the crops of a photo
// that they name. The error, if any, is of type [brief.Problems].
func Make(b *brief.Brief, p *plan.Plan, m *brief.Measured, photos Photos) (*Answer, error) {
	a := &Answer{Schema: Schema, Changed: []Piece{}, Held: []Piece{}}
	c := &calibration{b: b, m: m, photos: photos, answer: a}
	c.planned = exact.Over(exact.Whole(p.Warp.Ends), b.Cloth.Sett.PerMM)
	for _, work := range []func() error{
		c.drawIn, c.takeUp, c.shrinkWidth, c.shrinkLength, c.weftExtra, c.sample} {
		if err := work(); err != nil {
			return nil, err
		}
	}
	if len(a.Shares) == 0 && a.Sample == nil {
		return nil, m.Wrong("", "nothing here gives a percentage",
			"each needs its measurements together: width.reed and width.fell, width.fell and "+
				"width.finished, "+
				"length.woven and length.finished, all three of [warp], a [[weft]] table, or "+
				"a [sample]")
	}
	return a, nil
}

type calibration struct {
	b       *brief.Brief
	m       *brief.Measured
	photos  Photos
	planned *big.Rat // width in the reed as planned
	answer  *Answer
}

// span is a quantity between two bounds.
type span struct{ low, best, high *big.Rat }

func spanOf(r *brief.Reading) span {
	return span{exact.Minus(r.MM, r.OffMM), r.MM, exact.Plus(r.MM, r.OffMM)}
}

// lost is the share of the first that is missing in the second: 1 - to/from.
func lost(from, to span) span {
	one := big.NewRat(1, 1)
	return span{exact.Minus(one, exact.Over(to.high, from.low)),
		exact.Minus(one, exact.Over(to.best, from.best)),
		exact.Minus(one, exact.Over(to.low, from.high))}
}

func (c *calibration) drawIn() error {
	return c.loss("draw_in", c.b.Cloth.DrawIn.Part, c.m.Width.Reed, c.m.Width.Fell, "width.fell",
		"the cloth is wider at the fell than in the reed")
}

func (c *calibration) shrinkWidth() error {
	return c.loss("shrink_width", c.b.Cloth.ShrinkWidth.Part, c.m.Width.Fell, c.m.Width.Finished,
		"width.finished",
		"the finished cloth is wider than it was on the loom")
}

func (c *calibration) shrinkLength() error {
	return c.loss("shrink_length", c.b.Cloth.ShrinkLength.Part, c.m.Long.Woven, c.m.Long.Finished,
		"length.finished",
		"the finished cloth is longer than it was on the loom")
}

func (c *calibration) loss(key string, assumed *big.Rat, from, to *brief.Reading, at,
	contradiction string) error {
	if from == nil || to == nil {
		return nil
	}
	s := lost(spanOf(from), spanOf(to))
	return c.add(key, assumed, s, fmt.Sprintf("%s became %s", from.Text, to.Text), at,
		fmt.Sprintf("%s: %s became %s", contradiction, from.Text, to.Text))
}

func (c *calibration) takeUp() error {
	w := c.m.Warp
	if w.Wound == nil || w.Woven == nil || w.Leftover == nil {
		return nil
	}
	wound, left, woven := spanOf(w.Wound), spanOf(w.Leftover), spanOf(w.Woven)
	used := span{exact.Minus(wound.low, left.high), exact.Minus(wound.best, left.best),
		exact.Minus(wound.high, left.low)}
	if used.low.Sign() <= 0 {
		return c.m.Wrong("warp.leftover",
			fmt.Sprintf("%s left of a warp of %s leaves nothing that was woven", w.Leftover.Text,
				w.Wound.Text), "measure both again")
	}
	return c.add("take_up", c.b.Cloth.TakeUp.Part, lost(used, woven),
		fmt.Sprintf("%s less %s became %s", w.Wound.Text, w.Leftover.Text, w.Woven.Text),
		"warp.woven",
		fmt.Sprintf("the cloth is longer than its warp: %s woven of %s wound with %s left over",
			w.Woven.Text, w.Wound.Text, w.Leftover.Text))
}

// most is the greatest share a brief may hold.
var most = big.NewRat(9, 10)

// add takes a share in, unless its bounds contradict what can be.
func (c *calibration) add(key string, assumed *big.Rat, s span, from, at,
	contradiction string) error {
	const again = "measure both again, under the same tension; \"within\" says how exactly they " +
		"can be read"
	zero := new(big.Rat)
	if s.high.Cmp(zero) < 0 {
		return c.m.Wrong(at, contradiction, again)
	}
	if s.best.Cmp(most) > 0 {
		return c.m.Wrong(at,
			fmt.Sprintf("that is %s, more than can be (%s)", percent(s.best, 1), from), again)
	}
	for _, bound := range []**big.Rat{&s.low, &s.best} {
		if (*bound).Sign() < 0 {
			*bound = zero
		}
	}
	c.answer.Shares = append(c.answer.Shares,
		Share{Key: "cloth." + key, Measured: exact.Rounded(s.best), Least: exact.Rounded(s.low),
			Most:    exact.Rounded(s.high),
			Assumed: exact.Rounded(assumed), Agrees: assumed.Cmp(s.low) >= 0 &&
				assumed.Cmp(s.high) <= 0, From: from, exact: s})
	return nil
}
