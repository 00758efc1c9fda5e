package remedy

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/contrast"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
)

// mostColours is how many colours are tried in place of one that is short.
const mostColours = 6

// yarnWays save yarn of a colour: another colour in its place, narrower stripes, no
// sample, shorter pieces, fewer.
func (f *finder) yarnWays(t trouble) (all []way) {
	y := f.yarn(t.about)
	for _, role := range []string{contrast.AsPattern, contrast.AsGround, contrast.AsWarp} {
		all = append(all, f.recolour(t, role, y)...)
	}
	all = append(all, f.narrowerWays(t, t.about)...)
	for _, w := range f.extras() {
		if strings.HasPrefix(w.what, "weave no sample") || f.ends(t, w) {
			all = append(all, w)
		}
	}
	if w, ok := f.shorter(t); ok {
		all = append(all, w)
	}
	return append(all, f.fewer(t)...)
}

func (f *finder) yarn(colour string) plan.Yarn {
	for _, y := range f.p.Yarn {
		if y.Colour == colour {
			return y
		}
	}
	return plan.Yarn{Colour: colour}
}

// recolour puts other colours in place of one that is short: in as few pieces as
// save enough, or in the warp.
func (f *finder) recolour(t trouble, role string, y plan.Yarn) (all []way) {
	pieces := f.piecesFor(role, y)
	if len(pieces) == 0 && role != contrast.AsWarp || role == contrast.AsWarp && y.WarpM == 0 {
		return nil
	}
	from := f.b.ColourNamed(y.Colour)
	for _, to := range f.others(from, role, pieces) {
		changes := contrast.Swap{Role: role, From: from, To: to, Pieces: pieces}.Changes(f.b, f.p)
		all = append(all, way{f.swapWords(role, from, to, pieces), changes,
			swapWeight(role, len(pieces))})
	}
	return all
}

func swapWeight(role string, pieces int) float64 {
	if role == contrast.AsWarp {
		return 3.5
	}
	return 1 + float64(float64(pieces)/2)
}

func (f *finder) swapWords(role string, from, to int, pieces []int) string {
	what := fmt.Sprintf("%s %q instead of %q", role, f.b.Colours[to].Name, f.b.Colours[from].Name)
	if role == contrast.AsWarp {
		return what
	}
	if len(pieces) == len(f.p.Pieces) {
		return what + " in all pieces"
	}
	names := make([]string, len(pieces))
	for i, n := range pieces {
		names[i] = f.p.Called(n)
	}
	return what + " in " + strings.Join(names, ", ")
}

// others are colours that may stand in for one: of the same yarn, not in the same
// place already, with the most left on the shelf first.
func (f *finder) others(from int, role string, pieces []int) (all []int) {
	for i, c := range f.b.Colours {
		if i != from && c.Yarn == f.b.Colours[from].Yarn && !f.there(i, role, pieces) {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(a, b int) int {
		return int(math.Round(f.spareM(b) - f.spareM(a)))
	})
	return all[:min(len(all), mostColours)]
}

// there tells whether a colour is in the way already where another is to be
// replaced by it.
func (f *finder) there(colour int, role string, pieces []int) bool {
	name := f.b.Colours[colour].Name
	if role == contrast.AsWarp {
		return slices.ContainsFunc(f.p.Warp.Runs, func(r plan.WarpRun) bool {
			return r.Colour == name
		})
	}
	for _, i := range pieces {
		for _, r := range f.p.Pieces[i].Runs {
			if r.Pattern == name || r.Ground == name {
				return true
			}
		}
	}
	return false
}

// spareM is what the shelf has left of a colour; less than nothing where it is
// short, nothing where it is not known.
func (f *finder) spareM(colour int) float64 {
	held := f.b.Colours[colour].OnHandM
	if held == nil {
		return 0
	}
	v := exact.Float(held)
	y := f.yarn(f.b.Colours[colour].Name)
	return v - y.NeededM()
}

// piecesFor are as few pieces as save what is short of a colour in one role, those
// that use most of it first; none where all of them don't.
func (f *finder) piecesFor(role string, y plan.Yarn) []int {
	type use struct {
		piece int
		m     float64
	}
	var uses []use
	for i := range f.p.Pieces {
		if m := f.usedM(role, y.Colour, i); m > 0 {
			uses = append(uses, use{i, m})
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return int(math.Round(b.m - a.m)) })
	lacks := y.NeededM() - *y.OnHandM
	var pieces []int
	for _, u := range uses {
		pieces = append(pieces, u.piece)
		if lacks -= u.m; lacks <= 0 {
			slices.Sort(pieces)
			return pieces
		}
	}
	return nil
}

// usedM is the metres of a colour that a piece takes in one role; none where it is woven
// already.
func (f *finder) usedM(role, colour string, piece int) float64 {
	if f.p.IsWoven(piece) {
		return 0
	}
	thrown := f.p.Pieces[piece].Thrown(colour, f.b.Cloth.Strands)
	picks := 0
	switch role {
	case contrast.AsPattern:
		picks = thrown.Pattern
	case contrast.AsGround:
		picks = thrown.Ground
	}
	return float64(float64(picks) * f.p.Cloth.PickM)
}

// contrastWays are what the contrast report offers, and of each pattern that falls
// short the colours that stand out most in each of its pieces.
func (f *finder) contrastWays() (all []way) {
	report, err := contrast.Make(f.ctx, f.b, f.p, contrast.Question{})
	if err != nil {
		return nil
	}
	told := make(map[string]bool)
	for _, m := range report.Mends {
		for _, o := range m.Options {
			all = append(all, way{o.What(), o.Changes, 1 + float64(float64(len(o.Pieces))/2)})
		}
		if w, ok := f.outstanding(m.Pattern); ok && !told[m.Pattern] {
			told[m.Pattern] = true
			all = append(all, w)
		}
	}
	return all
}

// outstanding puts in place of a pattern colour, piece by piece, the one that is
// farthest from its ground in lightness.
func (f *finder) outstanding(pattern string) (way, bool) {
	from := f.b.ColourNamed(pattern)
	var swaps []way
	for i := range f.p.Pieces {
		if f.usedM(contrast.AsPattern, pattern, i) == 0 {
			continue
		}
		others := f.others(from, contrast.AsPattern, []int{i})
		if len(others) == 0 {
			return way{}, false
		}
		to := slices.MaxFunc(others, func(a, b int) int {
			return cmp.Compare(f.standsOut(a, i), f.standsOut(b, i))
		})
		changes := contrast.Swap{Role: contrast.AsPattern, From: from, To: to,
			Pieces: []int{i}}.Changes(f.b, f.p)
		swaps = append(swaps, way{f.swapWords(contrast.AsPattern, from, to, []int{i}), changes, 1})
	}
	return together(swaps...), len(swaps) > 0
}

// standsOut is how far a colour is from a piece's ground in L*.
func (f *finder) standsOut(colour, piece int) float64 {
	l := func(n int) float64 { return f.b.Colours[n].RGB.Lab().L }
	return math.Abs(l(colour) - l(f.b.Pieces[piece].Weft.Ground))
}

// choiceWays let the program choose better: from more candidates, from more
// colours, or with a lower aim.
func (f *finder) choiceWays() (all []way) {
	if f.b.Vary == nil {
		return nil
	}
	if n := f.b.Vary.Candidates * 4; n <= brief.MaxCandidates {
		all = append(all, way{fmt.Sprintf("%d candidates instead of %d", n, f.b.Vary.Candidates),
			[]brief.Change{{Key: "vary.candidates", Value: fmt.Sprint(n)}}, 1})
	}
	reached := math.Floor(f.p.Set.LeastDifference*10) / 10
	if reached > 0 {
		all = append(all, way{fmt.Sprintf("accept pieces that differ by %.1f", reached),
			[]brief.Change{{Key: "vary.at_least", Value: fmt.Sprintf("%.1f", reached)}}, 3})
	}
	return all
}
