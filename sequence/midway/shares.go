package midway

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

// takeUp learns the take-up from what is left of the warp, where that was measured.
func (r *reckoner) takeUp() error {
	left, cloth := r.at.Left, r.cloth()
	if left == nil || cloth.Sign() == 0 {
		return nil
	}
	m := r.at.Measurements()
	m.Warp.Wound = &brief.Reading{MM: r.whole(), OffMM: new(big.Rat), Text: r.mm(r.whole())}
	if w := r.at.Wound; w != nil && r.b.Midway == nil {
		m.Warp.Wound = w
	}
	off := new(big.Rat)
	for _, one := range r.pieces[r.already:] {
		if one.off != nil {
			off = exact.Plus(off, one.off)
		}
	}
	m.Warp.Woven = &brief.Reading{MM: cloth, OffMM: off, Text: r.mm(cloth) + " of cloth"}
	rest := r.notWoven(left)
	m.Warp.Leftover = &rest
	share, err := r.learn(m, r.leftKey())
	if err != nil {
		return err
	}
	r.up = share
	return nil
}

// notWoven is what is left of the warp and what went in front: where that was not
// measured it is anything up to the waste of the brief, and so is what lies behind knots.
func (r *reckoner) notWoven(left *brief.Reading) brief.Reading {
	mm, off := exact.Plus(left.MM, r.bare()), left.OffMM
	if r.b.Midway != nil {
		return brief.Reading{MM: mm, OffMM: off, Text: r.mm(mm)}
	}
	unknown := r.b.Loom.Waste.MM
	if tied := r.at.Tied; tied != nil {
		mm, off = exact.Plus(mm, tied.MM), exact.Plus(off, tied.OffMM)
		unknown = atLeast0(exact.Minus(unknown, tied.MM))
	}
	if r.at.Tied == nil || r.at.ToKnots {
		best := exact.Over(unknown, exact.Whole(2))
		if t := r.at.Thrums; t != nil && t.MM.Cmp(unknown) < 0 {
			best = exact.Minus(unknown, t.MM)
		}
		mm, off = exact.Plus(mm, best), exact.Plus(off, larger(best, exact.Minus(unknown, best)))
	}
	return brief.Reading{MM: mm, OffMM: off, Text: r.mm(mm)}
}

func larger(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

// learn is the share that measurements tell; contradictions stand at a key of the
// progress.
func (r *reckoner) learn(m *brief.Measured, key string) (*calibrate.Share, error) {
	a, err := calibrate.Make(r.b, r.p, m, nil)
	var problems brief.Problems
	if errors.As(err, &problems) {
		hint := strings.ReplaceAll(problems[0].Hint, `"within"`, `"ruler"`)
		return nil, r.at.Wrong(key, problems[0].What, hint)
	}
	if err != nil {
		return nil, err
	}
	return &a.Shares[0], nil
}

// weftExtra learns what a pick takes from the yarn there was before the first piece.
func (r *reckoner) weftExtra() error {
	m := r.at.Measurements()
	key := ""
	for _, y := range r.at.Yarns {
		c, err := r.colour(y)
		if err != nil {
			return err
		}
		passes := 0
		for i := range r.woven {
			passes += r.passes(i, c)
		}
		if y.Had == nil || passes == 0 {
			continue
		}
		had, left := r.metres(*y.Had, c), r.metres(y.Left, c)
		used := exact.Minus(had, left)
		if used.Sign() <= 0 {
			return r.at.Wrong(y.Key,
				fmt.Sprintf("of %q as much is left as there was, and %s were thrown with it",
					y.Colour, measure.Count(passes, "pick")),
				"weigh it again, without the cone")
		}
		off := big.NewRat(2, 1)
		if y.Left.Grams != nil || y.Had.Grams != nil {
			off = exact.Times(exact.Whole(2), r.metres(measure.Amount{Grams: r.at.Scale.Grams}, c))
		}
		m.Weft = append(m.Weft, brief.WeftReading{Colour: y.Colour, Picks: passes, Strands: 1,
			Used: measure.Amount{MM: exact.Times(used, exact.Whole(1000))},
			Off:  measure.Amount{MM: exact.Times(off, exact.Whole(1000))}})
		key = y.Key
	}
	if len(m.Weft) == 0 {
		return nil
	}
	share, err := r.learn(m, key)
	r.extra = share
	return err
}

// colour is the number of a colour that the progress names.
func (r *reckoner) colour(y brief.YarnLeft) (int, error) {
	if i := r.b.ColourNamed(y.Colour); i >= 0 {
		return i, nil
	}
	var names []string
	for _, c := range r.b.Colours {
		names = append(names, c.Name)
	}
	hint := "write it as the brief does"
	if near := brief.Nearest(y.Colour, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return 0, r.at.Wrong(y.Key, fmt.Sprintf("the brief has no colour %q", y.Colour), hint)
}

// metres is an amount of a colour's yarn as length.
func (r *reckoner) metres(a measure.Amount, colour int) *big.Rat {
	return yarn.MetresOf(a, r.b.Yarns[r.b.Colours[colour].Yarn].Tex)
}

// passes is how often a strand of a colour lies across the cloth of a piece, its hems and
// the separator after it.
func (r *reckoner) passes(piece, colour int) int {
	t := r.p.Pieces[piece].Thrown(r.b.Colours[colour].Name, r.b.Cloth.Strands)
	return t.Pattern + t.Ground + t.Hem + t.Separator
}

// stock is what is left of one colour.
type stock struct {
	metres   *big.Rat // nil where nobody knows
	reckoned *big.Rat // by the plan; nil where the brief does not say what was on hand
	measured bool
	text     string // as a brief has it
}

// stock is what is left of every colour: what was measured, else what was on hand less
// what the plan has used.
func (r *reckoner) stock() error {
	r.held = make([]stock, len(r.b.Colours))
	for c, colour := range r.b.Colours {
		if colour.OnHandM == nil {
			continue
		}
		left := atLeast0(exact.Minus(colour.OnHandM, r.used(c)))
		r.held[c] = stock{metres: left, reckoned: left, text: r.writeYarn(left)}
	}
	for _, y := range r.at.Yarns {
		c, err := r.colour(y)
		if err != nil {
			return err
		}
		h := &r.held[c]
		h.measured = true
		switch {
		case y.Gone:
			h.metres, h.text = new(big.Rat), "0 m"
		case y.Left.Grams != nil:
			h.metres, h.text = r.metres(y.Left, c), r.writeWeight(y.Left.Grams)
		default:
			h.metres, h.text = r.metres(y.Left, c), y.Left.Text
		}
	}
	return nil
}

// used is the metres of a colour that warp, sample and woven pieces have taken since the
// brief was written, by the plan, with what a pick was measured to take.
func (r *reckoner) used(colour int) *big.Rat {
	weft := 0
	for i := r.already; i < r.woven; i++ {
		weft += r.passes(i, colour)
	}
	pick := exactly(r.p.Cloth.PickM)
	if r.extra != nil && !r.extra.Agrees {
		pick = exact.Times(exact.Over(pick, exact.Plus(exact.Whole(1), r.b.Cloth.Extra.Part)),
			exact.Plus(exact.Whole(1), shareOf(r.extra)))
	}
	sum := exact.Times(exact.Whole(weft), pick)
	for _, y := range r.p.Yarn {
		if y.Colour == r.b.Colours[colour].Name && r.b.Midway == nil {
			sum = exact.Plus(sum, exact.Plus(exactly(y.WarpM), exactly(y.SampleM)))
		}
	}
	return sum
}

// shareOf is a share as a brief has it.
func shareOf(s *calibrate.Share) *big.Rat {
	v, _ := measure.ParseShare(s.Text()) // one of ours
	return v.Part
}

// writeYarn is metres of yarn as a brief has them, rounded down.
func (r *reckoner) writeYarn(metres *big.Rat) string {
	if r.b.Units == "in" {
		return fmt.Sprintf("%d yd", exact.Floor(exact.Over(metres, big.NewRat(9144, 10000))))
	}
	return fmt.Sprintf("%d m", exact.Floor(metres))
}

// writeWeight is grams as a brief has them, rounded down to a hundredth.
func (r *reckoner) writeWeight(grams *big.Rat) string {
	size, unit := exact.Whole(1), " g"
	if r.b.Units == "in" {
		size, unit = big.NewRat(28349523125, 1_000_000_000), " oz"
	}
	hundredths := exact.Floor(exact.Times(exact.Over(grams, size), exact.Whole(100)))
	return sequence.Decimal(big.NewRat(int64(hundredths), 100), 2) + unit
}

// shares are the shares that the measurements tell.
func (r *reckoner) shares() []calibrate.Share {
	all := []calibrate.Share{}
	for _, s := range []*calibrate.Share{r.up, r.extra} {
		if s != nil {
			all = append(all, *s)
		}
	}
	return all
}

// beatAnswer is how the cloth lies against its tape, and the picks that come of it.
func (r *reckoner) beatAnswer() *Beat {
	if r.ratio == nil {
		return nil
	}
	longer, _ := exact.Minus(r.ratio, exact.Whole(1)).Float64()
	c := r.b.Cloth
	return &Beat{Longer: exact.RoundTo(longer, 4), Agrees: r.agrees, Planned: c.Ground.String(),
		Ground: r.picks(c.Ground), Hem: r.picks(c.HemGround)}
}

// picks is a density as it was woven, rounded down, so that no length is told too short.
func (r *reckoner) picks(d measure.Density) string {
	per, unit := big.NewRat(10, 1), "/cm"
	if r.b.Units == "in" {
		per, unit = big.NewRat(254, 10), "/in"
	}
	thousandths := exact.Floor(exact.Times(exact.Times(exact.Over(d.PerMM, r.ratio), per),
		exact.Whole(1000)))
	return sequence.Decimal(big.NewRat(int64(thousandths), 1000), 3) + unit
}
