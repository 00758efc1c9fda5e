package remedy

import (
	"fmt"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// mostNarrower is by how many units stripes are narrowed at most.
const mostNarrower = 12

// narrowerWays make the stripes of a colour that is short narrower, in the warp or as
// pattern in the pieces, by as few units as will do, and their neighbours wider.
func (f *finder) narrowerWays(t trouble, colour string) (all []way) {
	for by := 2; by <= mostNarrower; by += 2 {
		if w, ok := f.narrowerPieces(colour, by); !ok {
			break
		} else if f.ends(t, w) {
			all = append(all, w)
			break
		}
	}
	for by := 2; by <= mostNarrower; by += 2 {
		if w, ok := f.narrowerWarp(colour, by); !ok {
			break
		} else if f.ends(t, w) {
			return append(all, w)
		}
	}
	return all
}

// narrowerPieces narrows a colour's stripes in all pieces that have it as pattern; not
// where no stripe gets narrower.
func (f *finder) narrowerPieces(colour string, by int) (way, bool) {
	var pieces []int
	runs := make(map[int]string)
	for i, p := range f.p.Pieces {
		widths, colours := make([]int, len(p.Runs)), make([]string, len(p.Runs))
		for j, r := range p.Runs {
			widths[j], colours[j] = r.Units, r.Pattern
		}
		if !narrow(widths, colours, colour, by) {
			continue
		}
		texts := make([]string, len(p.Runs))
		for j, r := range p.Runs {
			texts[j] = brief.RunText(r.Block, widths[j], r.Pattern)
		}
		pieces, runs[i] = append(pieces, i), brief.RunList(texts)
	}
	if len(pieces) == 0 {
		return way{}, false
	}
	changes, names := f.holdRuled(pieces), make([]string, len(pieces))
	for j, i := range pieces {
		key := fmt.Sprintf("piece[%d].runs", i)
		changes = append(changes, brief.Change{Key: key, Value: runs[i]})
		names[j] = f.p.Called(i)
	}
	what := fmt.Sprintf("%q stripes %d units narrower in %s", colour, by, strings.Join(names, ", "))
	return way{what, changes, narrowerWeight(by, len(pieces))}, true
}

// holdRuled holds those of some pieces that are not written by hand; these keep the length
// that they set.
func (f *finder) holdRuled(pieces []int) []brief.Change {
	var ruled []int
	for _, i := range pieces {
		if f.b.Pieces[i].Weft.Runs == nil {
			ruled = append(ruled, i)
		}
	}
	if len(ruled) == 0 {
		return nil
	}
	return plan.HoldOf(f.b, f.p, ruled)
}

// narrowerWarp narrows a colour's stripes in the warp.
func (f *finder) narrowerWarp(colour string, by int) (way, bool) {
	all := f.p.Warp.Runs
	widths, colours := make([]int, len(all)), make([]string, len(all))
	for j, r := range all {
		widths[j], colours[j] = r.Units, r.Colour
	}
	if !narrow(widths, colours, colour, by) {
		return way{}, false
	}
	texts := make([]string, len(all))
	for j, r := range all {
		texts[j] = brief.RunText(r.Block, widths[j], r.Colour)
	}
	changes := []brief.Change{{Key: "warp.runs", Value: brief.RunList(texts)}}
	what := fmt.Sprintf("%q stripes of the warp %d units narrower", colour, by)
	return way{what, changes, narrowerWeight(by, 2)}, true
}

// narrowerWeight is how invasive it is: a judgement.
func narrowerWeight(by, pieces int) float64 { return 1 + float64(float64(by+pieces)/8) }

// narrow makes every stripe of a colour that keeps a unit narrower by so many units, an
// even number, and gives half of them to the next stripe of another colour on each side,
// or all where there is one on one side only. It tells whether any got narrower.
func narrow(widths []int, colours []string, colour string, by int) (any bool) {
	was := append([]int(nil), widths...)
	for i, c := range colours {
		if c != colour || was[i] <= by {
			continue
		}
		left, right := i-1, i+1
		for left >= 0 && colours[left] == colour {
			left--
		}
		for right < len(colours) && colours[right] == colour {
			right++
		}
		switch {
		case left < 0 && right == len(colours):
			return false
		case left < 0:
			widths[right] += by
		case right == len(colours):
			widths[left] += by
		default:
			widths[left] += by / 2
			widths[right] += by / 2
		}
		widths[i] -= by
		any = true
	}
	return any
}
