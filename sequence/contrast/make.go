package contrast

import (
	"context"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// Make answers a question about a brief and the plan made of it. The context
// may stop it early, with the context's error.
func Make(ctx context.Context, b *brief.Brief, p *plan.Plan, q Question) (*Report, error) {
	r := newReckoner(b, p, q.full())
	report := &Report{Schema: Schema, Title: p.Title, Structure: p.Structure, Units: p.Units,
		DistanceM: r.q.DistanceM, Sights: r.q.Sights,
		DistancesM: r.q.distances(), Warp: r.names(r.warp), Grounds: r.names(r.grounds),
		Colours: r.colours(),
		Set:     sides("", p.Set.Face, p.Set.Back, p.Set.Lighter, []plan.More{})}
	for _, piece := range p.Pieces {
		report.Pieces = append(report.Pieces,
			sides(piece.Name, piece.Face, piece.Back, piece.Lighter, piece.MoreSides))
	}
	report.reckoner = r
	var err error
	if report.Pairs, err = r.pairs(ctx); err != nil {
		return nil, err
	}
	report.Edges = r.edges()
	report.Meeting, report.Short = len(r.state.trios), r.state.short()
	report.Mends, report.MendsLeft, err = r.mends(ctx)
	number := 0
	for _, m := range report.Mends {
		for i := range m.Options {
			number++
			m.Options[i].Number = number
		}
	}
	return report, err
}

// reckoner holds what one report needs.
type reckoner struct {
	b       *brief.Brief // with everything the program chose written out
	p       *plan.Plan
	q       Question
	look    *look.Mixer
	number  map[string]int // of a colour in the brief
	warp    []int          // colours of the warp from the left, each once
	grounds []int          // ground colours in use, the most used first
	state   state          // the combinations that meet
	blurs   map[view]palette.Blur
}

func newReckoner(b *brief.Brief, p *plan.Plan, q Question) *reckoner {
	r := &reckoner{p: p, q: q, look: look.Of(b), number: make(map[string]int),
		blurs: make(map[view]palette.Blur)}
	for i, c := range b.Colours {
		r.number[c.Name] = i
	}
	r.b = r.written(b)
	for _, run := range p.Warp.Runs {
		r.warp = appendOnce(r.warp, r.number[run.Colour])
	}
	r.grounds = r.groundsInUse()
	r.state = r.stateOf(p)
	return r
}

func appendOnce[T comparable](list []T, v T) []T {
	if slices.Contains(list, v) {
		return list
	}
	return append(list, v)
}

// groundsInUse is the grounds of the pieces, that of most pieces first, of
// equals the earlier.
func (r *reckoner) groundsInUse() (grounds []int) {
	count := make(map[int]int)
	for _, piece := range r.b.Pieces {
		grounds = appendOnce(grounds, piece.Weft.Ground)
		count[piece.Weft.Ground]++
	}
	sortBy(grounds, func(g int) int64 { return -int64(count[g]) })
	return grounds
}

func (r *reckoner) name(colour int) string { return r.b.Colours[colour].Name }

func (r *reckoner) names(colours []int) []string {
	names := make([]string, len(colours))
	for i, c := range colours {
		names[i] = r.name(c)
	}
	return names
}

// colours lists all colours of the brief and its shelves.
func (r *reckoner) colours() (all []ShelfColour) {
	for i, c := range r.b.Colours {
		all = append(all, ShelfColour{Name: c.Name, RGB: c.RGB,
			Lab: r.look.Light(i).Lab().Rounded(), Shelf: c.Shelf, Uses: r.uses(i)})
	}
	return all
}

func (r *reckoner) uses(colour int) []string {
	uses := []string{}
	if slices.Contains(r.warp, colour) {
		uses = append(uses, AsWarp)
	}
	if slices.Contains(r.grounds, colour) {
		uses = append(uses, AsGround)
	}
	if slices.ContainsFunc(r.state.trios, func(t look.Trio) bool { return t.Pattern == colour }) {
		uses = append(uses, AsPattern)
	}
	return uses
}

func sides(name string, face, back plan.Side, lighter *plan.Lighter, more []plan.More) Sides {
	s := Sides{Name: name, Face: face, Back: back, Lighter: "alike", More: more}
	if lighter != nil {
		s.Lighter, s.LighterBy, s.Words = lighter.Side, lighter.DeltaL, lighter.Words
	}
	return s
}

// seen is what every sight sees of two colours at every distance.
func (r *reckoner) seen(a, b palette.Linear, widthMM float64) []BySight {
	distances := r.q.distances()
	all := make([]BySight, 0, len(palette.Sights))
	for _, sight := range palette.Sights {
		one := BySight{Vision: sight, DeltaL: make([]float64, len(distances)),
			DeltaE: make([]float64, len(distances)), Grades: make([]palette.Grade, len(distances))}
		for i, d := range distances {
			s := look.SeeBlurred(a, b, sight, r.blur(widthMM, d))
			one.DeltaL[i], one.DeltaE[i], one.Grades[i] = exact.RoundTo(s.DeltaL, 4),
				exact.RoundTo(s.DeltaE, 4), s.Grade
		}
		all = append(all, one)
	}
	return all
}
