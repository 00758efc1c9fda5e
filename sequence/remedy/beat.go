package remedy

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

func sortByWeight(ways []way) {
	slices.SortStableFunc(ways, func(a, b way) int { return cmp.Compare(a.weight, b.weight) })
}

// beatWays give the weft room: a strand less, or fewer picks.
func (f *finder) beatWays(t trouble) (all []way) {
	if n := f.b.Cloth.Strands; n > 1 {
		all = append(all,
			way{fmt.Sprintf("%s of pattern weft instead of %d", measure.Count(n-1, "strand"), n),
				[]brief.Change{{Key: "cloth.strands", Value: fmt.Sprint(n - 1)}}, 2})
	}
	hems := []string{"cloth.ground", "cloth.hem_ground"}
	for i, was := range []*big.Rat{f.b.Cloth.Ground.PerMM, f.b.Cloth.HemGround.PerMM} {
		if w, ok := f.opener(t, hems[i], was); ok {
			all = append(all, w)
		}
	}
	return all
}

// mostOpener is how many steps of a density are tried.
const mostOpener = 16

// opener is the closest beat in whole steps below what a key has that ends a
// trouble.
func (f *finder) opener(t trouble, key string, was *big.Rat) (way, bool) {
	w := f.words()
	steps := exact.Over(was, w.dents)
	n := new(big.Int).Quo(new(big.Int).Sub(steps.Num(), big.NewInt(1)), steps.Denom()).Int64()
	for least := max(1, n-mostOpener); n >= least; n-- {
		to := w.density(n)
		what := way{fmt.Sprintf("%s picks instead of %s %s", to, f.densityOf(key), inWhat[key]),
			[]brief.Change{brief.Text(key, to)}, 3}
		if key == "cloth.ground" && f.b.Cloth.HemGround.String() == f.b.Cloth.Ground.String() {
			what.changes = append(what.changes,
				brief.Text("cloth.hem_ground", f.b.Cloth.HemGround.String()))
		}
		if f.ends(t, what) {
			return what, true
		}
	}
	return way{}, false
}

var inWhat = map[string]string{"cloth.ground": "in the body", "cloth.hem_ground": "in the hems"}

func (f *finder) densityOf(key string) string {
	if key == "cloth.ground" {
		return f.b.Cloth.Ground.String()
	}
	return f.b.Cloth.HemGround.String()
}

// density is so many steps as a brief has it: "7.5/cm", "18/in".
func (w words) density(n int64) string {
	if w.unit == "in" {
		return fmt.Sprintf("%d%s", n, w.per)
	}
	if n%2 == 0 {
		return fmt.Sprintf("%d%s", n/2, w.per)
	}
	return fmt.Sprintf("%d.5%s", n/2, w.per)
}

// otherSett is the sett nearest to the brief's that ends a trouble, one step closer or
// more open after the other; where the brief names a reed, of those that it gives.
func (f *finder) otherSett(t trouble, closer int64) []way {
	w, was := f.words(), f.b.Cloth.Sett
	steps := exact.Over(was.PerMM, w.dents)
	first := new(big.Int).Quo(steps.Num(), steps.Denom()).Int64()
	last := was.String()
	for n := int64(1); n <= mostOpener && first+closer*n > 0; n++ {
		to := w.density(first + closer*n)
		if f.b.Loom.Reed != nil {
			sett := exact.Times(w.dents, big.NewRat(first+closer*n, 1))
			to = plan.Sleyed(sett, f.b.Loom.Reed.PerMM, f.b.Units)
		}
		if to == last {
			continue
		}
		last = to
		w := way{fmt.Sprintf("a sett of %s instead of %s", to, was),
			[]brief.Change{brief.Text("cloth.sett", to)}, 3}
		if f.ends(t, w) {
			return []way{w}
		}
	}
	return nil
}

// settWays take the sett that the reed gives.
func (f *finder) settWays() []way {
	gives := new(big.Rat).SetFloat64(f.p.Loom.SleyedPerCM)
	if gives == nil || gives.Sign() <= 0 {
		return nil
	}
	to := decimals(gives) + "/cm"
	if f.b.Units == "in" {
		to = decimals(exact.Times(gives, big.NewRat(254, 100))) + "/in"
	}
	return []way{{"a sett of " + to + ", which the reed gives, instead of " +
		f.b.Cloth.Sett.String(), []brief.Change{brief.Text("cloth.sett", to)}, 2}}
}

// decimals writes a number with at most three decimals.
func decimals(r *big.Rat) string {
	v := exact.Float(r)
	return fmt.Sprintf("%g", exact.RoundTo(v, 3))
}
