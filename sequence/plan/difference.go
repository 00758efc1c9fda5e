package plan

import (
	"context"
	"math"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/parallel"
)

// AlikeE is the difference (mean dE00) below which two pieces pass for the same, and
// nearlyE that below which they look nearly alike (judgements).
const AlikeE, nearlyE = 1.0, 4.0

// NearlyE is the difference (mean dE00) below which two pieces of a set look nearly
// alike: what the brief asks for, or 4.
func (s Set) NearlyE() float64 {
	if s.AtLeast > 0 {
		return s.AtLeast
	}
	return nearlyE
}

// body is a piece's body as far as differences go: how it looks, run by run.
type body struct {
	looks []int // numbers from differ.look
	ends  []int // where each run ends, in units from the first pick
}

func (b body) length() int { return b.ends[len(b.ends)-1] }

// turned is the body end for end.
func (b body) turned() body {
	n := len(b.looks)
	t := body{looks: make([]int, n), ends: make([]int, n)}
	for i := range n {
		t.looks[i] = b.looks[n-1-i]
		t.ends[i] = b.length()
		if i < n-1 {
			t.ends[i] -= b.ends[n-2-i]
		}
	}
	return t
}

// differ compares what two pieces on one warp show on the face. Differences
// of two ways to look are averaged over the warp's stripes once, and kept as
// whole millionths of dE00, so that no decision hangs on the last bit.
type differ struct {
	look *looks
	// it is warps that are compared, on one weft: read warp for weft and weft for warp
	across  bool
	warp    []brief.Run // see [merged]
	units   int64
	number  map[weftLook]int
	shown   [][]palette.Lab // by look, by warp
	between [][]int64       // by two looks; -1 where not yet known
}

// weftLook is all a weft run has to do with how it looks.
type weftLook struct {
	block, pattern int
	in             groundIn
}

func newDiffer(look *looks, warp []brief.Run) *differ {
	return &differ{look: look, number: make(map[weftLook]int), warp: merged(warp),
		units: int64(units(warp))}
}

// body numbers the looks of a piece's runs.
func (d *differ) body(runs []brief.Run, in groundIn) body {
	b := body{looks: make([]int, len(runs)), ends: make([]int, len(runs))}
	at := 0
	for i, r := range runs {
		at += r.Units
		b.looks[i], b.ends[i] = d.numberOf(weftLook{r.Block, r.Colour, in}), at
	}
	return b
}

func (d *differ) numberOf(l weftLook) int {
	if n, ok := d.number[l]; ok {
		return n
	}
	n := len(d.shown)
	d.number[l] = n
	labs := make([]palette.Lab, len(d.warp))
	for i, w := range d.warp {
		one := brief.Run{Block: l.block, Colour: l.pattern}
		if d.across {
			labs[i] = d.look.lab(one, w, l.in, false)
			continue
		}
		labs[i] = d.look.lab(w, one, l.in, false)
	}
	d.shown = append(d.shown, labs)
	for i := range d.between {
		d.between[i] = append(d.between[i], -1)
	}
	row := make([]int64, n+1)
	for i := range row {
		row[i] = -1
	}
	d.between = append(d.between, row)
	return n
}

// mean is the difference of two looks, averaged over the warp's width, in
// millionths of dE00, half up.
func (d *differ) mean(a, b int) int64 {
	if a == b {
		return 0
	}
	if d.between[a][b] < 0 {
		var sum int64
		for i, w := range d.warp {
			sum += int64(w.Units) * palette.MicroE(d.shown[a][i], d.shown[b][i])
		}
		mean := (2*sum + d.units) / (2 * d.units)
		d.between[a][b], d.between[b][a] = mean, mean
	}
	return d.between[a][b]
}

// settle works out all differences of looks there are, after which they can be
// asked for by several goroutines at a time.
func (d *differ) settle(ctx context.Context) error {
	return parallel.Ranges(ctx, len(d.shown), 1, func(a, _ int) {
		for b := range a {
			d.mean(a, b)
		}
	})
}

// difference is the mean dE00 of two bodies in millionths, the smaller of
// straight and end for end.
func (d *differ) difference(a, b body) int64 {
	return min(d.straight(a, b), d.straight(a, b.turned()))
}

// straight lays both bodies along one length and averages over every stretch
// between joint breakpoints, exactly: places are counted in the product of the
// two lengths.
func (d *differ) straight(a, b body) int64 {
	na, nb := int64(a.length()), int64(b.length())
	var sum, at int64
	for i, j := 0, 0; i < len(a.looks) && j < len(b.looks); {
		endA, endB := int64(a.ends[i])*nb, int64(b.ends[j])*na
		end := min(endA, endB)
		sum += (end - at) * d.mean(a.looks[i], b.looks[j])
		at = end
		if endA == end {
			i++
		}
		if endB == end {
			j++
		}
	}
	return (2*sum + na*nb) / (2 * na * nb)
}

// differences fills in the set: every pair, and the least of them.
func (m *maker) differences(ctx context.Context) error {
	d := newDiffer(m.look, m.warpRuns)
	bodies := make([]body, len(m.weftRuns))
	for i, runs := range m.weftRuns {
		bodies[i] = d.body(runs, m.groundIn(i))
	}
	set := Set{Pairs: []Pair{}, Pair: []string{}, PairNumber: []int{}}
	least := int64(math.MaxInt64)
	for i := range bodies {
		if err := ctx.Err(); err != nil {
			return err
		}
		for j := i + 1; j < len(bodies); j++ {
			diff := d.difference(bodies[i], bodies[j])
			pair := Pair{
				A:          m.b.Pieces[i].Name,
				B:          m.b.Pieces[j].Name,
				Difference: inDeltaE(diff),
				NumberA:    i + 1,
				NumberB:    j + 1,
			}
			if diff < least {
				least, set.Pair, set.PairNumber = diff, []string{pair.A, pair.B},
					[]int{i + 1, j + 1}
			}
			set.Pairs = append(set.Pairs, pair)
		}
	}
	if len(set.Pairs) > 0 {
		set.LeastDifference = inDeltaE(least)
	}
	m.ofChoice(&set)
	m.plan.Set = set
	return nil
}

func inDeltaE(micro int64) float64 { return exact.RoundTo(float64(micro)/1e6, 4) }
