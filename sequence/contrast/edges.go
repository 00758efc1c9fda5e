package contrast

import (
	"slices"

	"stripesong/palette"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// edgeKey is what tells edges apart.
type edgeKey struct {
	warp            [2]int
	on              [2]bool
	ground, pattern int
}

// edges lists how neighbouring warp stripes of different colours show: in plain
// weave on every ground there could be, and where a pattern weft meets them on
// those there are.
func (r *reckoner) edges() []Edge {
	width := make(map[edgeKey]float64)
	var order []edgeKey
	add := func(k edgeKey, widthMM float64) {
		if w, ok := width[k]; !ok || widthMM < w {
			if !ok {
				order = append(order, k)
			}
			width[k] = widthMM
		}
	}
	r.plainEdges(add)
	r.patternEdges(add)
	edges := []Edge{}
	for _, k := range order {
		edges = append(edges, r.edge(k, width[k]))
	}
	return edges
}

// neighbours calls for every two stripes of different colours side by side.
func (r *reckoner) neighbours(call func(i int, warp [2]int, widthMM float64)) {
	runs := r.p.Warp.Runs
	for i := 0; i+1 < len(runs); i++ {
		if runs[i].Colour != runs[i+1].Colour {
			pair := [2]int{r.number[runs[i].Colour], r.number[runs[i+1].Colour]}
			call(i, pair, r.stripeMM(min(runs[i].Ends, runs[i+1].Ends)))
		}
	}
}

func (r *reckoner) plainEdges(add func(edgeKey, float64)) {
	r.neighbours(func(_ int, warp [2]int, widthMM float64) {
		for ground := range r.b.Colours {
			add(edgeKey{warp: ordered(warp), ground: ground, pattern: look.Plain}, widthMM)
		}
	})
}

func (r *reckoner) patternEdges(add func(edgeKey, float64)) {
	warp := r.p.Warp.Runs
	r.neighbours(func(i int, pair [2]int, widthMM float64) {
		for _, piece := range r.p.Pieces {
			for _, run := range piece.Runs {
				if run.Block == "" {
					continue
				}
				k := edgeKey{warp: pair,
					on:     [2]bool{warp[i].Block == run.Block, warp[i+1].Block == run.Block},
					ground: r.number[run.Ground], pattern: r.number[run.Pattern]}
				if pair[0] > pair[1] {
					k.warp, k.on = [2]int{pair[1], pair[0]}, [2]bool{k.on[1], k.on[0]}
				}
				add(k, min(widthMM, r.runMM(run.Units)))
			}
		}
	})
}

// ordered puts the colour first that the brief has first.
func ordered(pair [2]int) [2]int { return [2]int{min(pair[0], pair[1]), max(pair[0], pair[1])} }

func (r *reckoner) edge(k edgeKey, widthMM float64) Edge {
	light := k.light(r.look)
	var stripes [2]Stripe
	for i := range stripes {
		stripes[i] = Stripe{Warp: r.name(k.warp[i]), State: k.state(i), RGB: light[i].RGB()}
	}
	e := Edge{Left: stripes[0], Right: stripes[1], Ground: r.name(k.ground),
		NarrowestMM: exact.RoundTo(widthMM, 4), Meets: k.pattern != look.Plain ||
			slices.Contains(r.grounds, k.ground)}
	if k.pattern != look.Plain {
		e.Pattern = r.name(k.pattern)
	}
	v, near := r.decide(light[0], light[1], widthMM), look.Apart(light[0].Lab(), light[1].Lab())
	e.DeltaL, e.DeltaE, e.HueOnly = exact.RoundTo(near.DeltaL, 4), exact.RoundTo(near.DeltaE, 4),
		v.HueOnly()
	e.SeenL = exact.RoundTo(v.DeltaL, 4)
	e.Grade, e.Vision, e.Seen = v.Grade, v.sight, r.seen(light[0], light[1], widthMM)
	if e.Meets {
		e.Range = r.edgeRange(k, v, widthMM)
	}
	return e
}

// state says where the pattern weft is on one side of an edge.
func (k edgeKey) state(side int) plan.State {
	switch {
	case k.pattern == look.Plain:
		return plan.Plain
	case k.on[side]:
		return plan.Covers
	}
	return plan.Behind
}

// light is what both sides of an edge mix to in a cloth.
func (k edgeKey) light(c *look.Mixer) (light [2]palette.Linear) {
	for i := range light {
		patch := c.Patch(look.Trio{Warp: k.warp[i], Ground: k.ground, Pattern: k.pattern})
		light[i] = patch.Off
		if k.state(i) == plan.Covers {
			light[i] = patch.On
		}
	}
	return light
}

// edgeRange is how far what decides may lie from what is reckoned; nil where the
// brief leaves nothing open.
func (r *reckoner) edgeRange(k edgeKey, v verdict, widthMM float64) *plan.Range {
	if r.look.Known() {
		return nil
	}
	blur := r.blur(widthMM, r.q.DistanceM)
	return plan.RangeOf(r.look.RangeOf(func(c *look.Mixer) look.Difference {
		light := k.light(c)
		return look.SeeBlurred(light[0], light[1], v.sight, blur)
	}))
}

// Words is the grade with its range: "clear to strong".
func (e Edge) Words() string { return e.Range.Or(e.Grade) }
