package remedy

import (
	"fmt"
	"math"
	"strings"

	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// near is what came nearest to ending a trouble: a way, or none, and by how much it falls
// short.
type near struct {
	way
	excess float64
}

// consider keeps a way whose plan does not end a trouble, if none came nearer and nothing
// else gets worse.
func (f *finder) consider(t trouble, w way, p *plan.Plan) {
	over := excess(t, p)
	if over > 0 && over < f.nearest.excess && !worse(t, f.before, troubles(p)) {
		f.nearest = near{w, over}
	}
}

// unmended is a trouble without a remedy. What came nearest was perhaps planned with what
// the program chose held as it is; it is told of the brief's own plan.
func (f *finder) unmended(t trouble) Unmended {
	u := Unmended{Code: t.code, About: t.about}
	if len(f.nearest.changes) == 0 {
		return u
	}
	p := f.planOf(f.source.Text, f.nearest.changes)
	if p == nil || f.p == nil || worse(t, f.before, troubles(p)) {
		return u
	}
	if over := excess(t, p); over > 0 && over < excess(t, f.p) {
		u.Nearest = f.nearest.what + ", " + f.falling(t, p, over)
	}
	return u
}

// excess is by how much a plan has some trouble, in a unit of its own: only less or
// more count.
func excess(t trouble, p *plan.Plan) float64 {
	switch t.code {
	case "board-short":
		return max(0, p.Warp.WoundMM-p.Loom.BoardMM)
	case "warp-short":
		if p.Midway != nil {
			return max(0, -p.Midway.LeftMM)
		}
		return 0
	case "loom-narrow":
		return max(0, p.Warp.ReedWidthMM-p.Loom.WidthMM)
	case "heddles":
		return float64(heddlesLacking(p))
	case "treadles":
		return float64(max(0, p.Loom.TreadlesUsed-p.Loom.Treadles))
	case "shafts":
		return float64(max(0, p.Weave.Shafts-p.Loom.Shafts))
	case "beat-impossible", "beat-hard":
		return had(t, p, p.Cloth.Beat)
	case "float-long":
		return had(t, p, max(p.Cloth.FloatWeftMM, p.Cloth.FloatWarpMM))
	case "pieces-alike":
		return max(0, plan.AlikeE-p.Set.LeastDifference)
	case "contrast-unseen", "contrast-faint":
		return had(t, p, 100-faintest(p))
	case yarnShort:
		return shortM(t.about, p)
	}
	return float64(troubles(p)[t])
}

// had is a measure of a trouble where a plan has it; else nothing.
func had(t trouble, p *plan.Plan, much float64) float64 {
	if troubles(p)[t] == 0 {
		return 0
	}
	return much
}

func shortM(colour string, p *plan.Plan) float64 {
	for _, y := range p.Yarn {
		if y.Colour == colour && short(y) {
			return y.NeededM() - *y.OnHandM
		}
	}
	return 0
}

// heddlesLacking is how many heddles a loom has too few, in all or shaft by shaft.
func heddlesLacking(p *plan.Plan) (lack int) {
	if p.Loom.HeddlesBy == nil {
		return max(0, p.Warp.Ends-p.Loom.Heddles)
	}
	for i, n := range p.Warp.Heddles {
		if i < len(p.Loom.HeddlesBy) {
			lack += max(0, n-p.Loom.HeddlesBy[i])
		}
	}
	return lack
}

// faintest is the least difference in L* of what meets in a plan, from the distance that
// decides; 100 where nothing does.
func faintest(p *plan.Plan) float64 {
	least := 100.0
	for _, piece := range p.Pieces {
		if at := plan.Faintest(piece.Contrast, look.DecisiveM); at != nil {
			least = min(least, math.Abs(at.DeltaL))
		}
	}
	return least
}

// falling says by how much a way falls short.
func (f *finder) falling(t trouble, p *plan.Plan, excess float64) string {
	count := func(noun string) string {
		return "still " + measure.Count(int(math.Round(excess)), noun) + " short"
	}
	switch t.code {
	case "board-short", "warp-short":
		return "the warp still " + measure.FormatWarp(excess, f.b.Units) + " too long"
	case yarnShort:
		return fmt.Sprintf("still %s short of %q", measure.FormatYarn(excess, f.b.Units), t.about)
	case "loom-narrow":
		return "still " + measure.FormatLength(excess, f.b.Units) + " too wide"
	case "heddles", "treadles", "shafts":
		return count(strings.TrimSuffix(t.code, "s"))
	case "beat-impossible", "beat-hard":
		return fmt.Sprintf("the weft still takes %.0f %% of the room there is", 100*p.Cloth.Beat)
	case "float-long":
		return "floats still " + measure.FormatLength(excess, f.b.Units) + " long"
	case "contrast-unseen", "contrast-faint":
		return "the weakest contrast still " + weakest(p)
	case "pieces-alike", "set-alike":
		return fmt.Sprintf("the least difference still %.1f", p.Set.LeastDifference)
	}
	return "still not enough"
}
