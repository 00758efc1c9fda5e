package contrast

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
)

// cloth is the brief's cloth with more pattern weft to see, planned when first
// asked for.
type cloth struct {
	change, from, to string
	brief            *brief.Brief
	changes          []brief.Change
	after            *state // nil until planned
	refused          bool
}

// moreStrands is the most strands that are added to a pattern weft, and mostStrands the
// most it may have then (common practice, no source).
const moreStrands, mostStrands = 2, 20

// denser is by how much a beat is made denser; more asks for another sett (common
// practice, no source).
var denser = []*big.Rat{big.NewRat(11, 10), big.NewRat(12, 10)}

// thicker lists thicker pattern wefts and denser beats, the least change first; none
// where a part of the set is woven already.
func (r *reckoner) thicker() (all []*cloth) {
	if r.b.Midway != nil {
		return nil
	}
	for n := r.b.Cloth.Strands + 1; n <= min(r.b.Cloth.Strands+moreStrands, mostStrands); n++ {
		made := *r.b
		made.Cloth.Strands = n
		all = append(all, &cloth{change: Strands, from: strconv.Itoa(r.b.Cloth.Strands),
			to: strconv.Itoa(n), brief: &made,
			changes: []brief.Change{{Key: "cloth.strands", Value: strconv.Itoa(n)}}})
	}
	last := ""
	for _, share := range denser {
		if c := r.beat(share); c != nil && c.to != last {
			all, last = append(all, c), c.to
		}
	}
	return all
}

// beat is the brief's ground picks times a share, brought up to a whole number
// in the unit the brief writes; nil where the text can't be taken apart.
func (r *reckoner) beat(share *big.Rat) *cloth {
	ground := r.b.Cloth.Ground
	number, unit, found := strings.Cut(ground.String(), "/")
	was, ok := new(big.Rat).SetString(strings.TrimSpace(number))
	if !found || !ok || was.Sign() <= 0 {
		return nil
	}
	to := fmt.Sprintf("%d/%s", roundUp(exact.Times(was, share)), strings.TrimSpace(unit))
	dense, err := measure.ParseDensity(to)
	if err != nil {
		return nil
	}
	made := *r.b
	made.Cloth.Ground = dense
	changes := []brief.Change{{Key: "cloth.ground", Value: tomltext.Quote(to)}}
	if made.Cloth.HemGround.PerMM.Cmp(ground.PerMM) == 0 { // it may only have followed the ground
		changes = append(changes,
			brief.Change{Key: "cloth.hem_ground", Value: tomltext.Quote(ground.String())})
	}
	return &cloth{change: Beat, from: ground.String(), to: to, brief: &made, changes: changes}
}

func roundUp(v *big.Rat) int64 {
	n := new(big.Int).Add(v.Num(), new(big.Int).Sub(v.Denom(), big.NewInt(1)))
	return n.Div(n, v.Denom()).Int64()
}

// thickerOption is the least of one kind that lifts a trio to [Target], or else
// the least that lifts it at all; nil where none does.
func (r *reckoner) thickerOption(ctx context.Context, kind string, t look.Trio, pieces []int,
	all []*cloth) (*Option, error) {
	now, _ := r.state.in(t, pieces)
	for target := Target; target > now.Grade; target-- {
		for _, c := range all {
			if c.change != kind {
				continue
			}
			if err := r.plan(ctx, c); err != nil {
				return nil, err
			}
			if c.refused {
				continue
			}
			v, found := c.after.in(t, pieces)
			if !found || v.Grade < target || !r.bearable(v.Grade, c.after.short()) {
				continue
			}
			o := r.option(kind, t, pieces, v, *c.after)
			r.howSure(&o, t, v, *c.after)
			o.From, o.To, o.Changes = c.from, c.to, slices.Concat(c.changes, r.writtenOut(c.brief))
			return &o, nil
		}
	}
	return nil, nil
}

func (r *reckoner) plan(ctx context.Context, c *cloth) error {
	if c.after != nil || c.refused {
		return nil
	}
	after, p, err := r.planned(ctx, c.brief)
	if err != nil {
		return err
	}
	c.after, c.refused = &after, p == nil
	return nil
}
