package plan

import (
	"fmt"
	"math"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
)

// Lighter says which of two sides is the lighter, and how plainly.
type Lighter struct {
	Side   string        `json:"side"` // "face" or "back"
	DeltaL float64       `json:"delta_l"`
	DeltaE float64       `json:"delta_e"`
	Grade  palette.Grade `json:"grade"`
	Range  *Range        `json:"range,omitempty"` // nil where nothing is left open

	// Words is the whole of it, such as "back lighter, soft 5.1".
	Words string `json:"words"`
}

// sideLight is the light of one side of a piece's body, by area, in one cloth.
func (m *maker) sideLight(cloth *look.Mixer, piece int, back bool) palette.Linear {
	return m.lightOf(cloth, merged(m.weftRuns[piece]), m.groundIn(piece), back)
}

// sidesOf is the light of either side of a body of merged runs.
func (m *maker) sidesOf(runs []brief.Run, in groundIn) func(*look.Mixer, bool) palette.Linear {
	return func(cloth *look.Mixer, back bool) palette.Linear {
		return m.lightOf(cloth, runs, in, back)
	}
}

// lightOf is the light of one side of weft runs over the whole warp.
func (m *maker) lightOf(cloth *look.Mixer, weft []brief.Run, in groundIn,
	back bool) palette.Linear {
	var parts []palette.Part
	for _, w := range merged(m.warpRuns) {
		for _, r := range weft {
			parts = append(parts, palette.Part{
				Colour: m.look.shadeIn(cloth, w, r, in, back).Light,
				Area:   float64(w.Units * r.Units),
			})
		}
	}
	return palette.Mix(parts...)
}

// lighter compares the two sides of a piece, or of all bodies together where
// piece is -1; nil where they pass for the same.
func (m *maker) lighter(piece int) *Lighter {
	light := func(cloth *look.Mixer, back bool) palette.Linear {
		if piece >= 0 {
			return m.sideLight(cloth, piece, back)
		}
		var parts []palette.Part
		for i := range m.b.Pieces {
			area := float64(float64(units(m.weftRuns[i])) * m.longer(i))
			parts = append(parts, palette.Part{Colour: m.sideLight(cloth, i, back), Area: area})
		}
		return palette.Mix(parts...)
	}
	return lighterOf(m.look.Mixer, light)
}

// lighterOf grades the difference of two sides, in the cloth as it is reckoned
// and in whatever else the brief leaves open.
func lighterOf(cloth *look.Mixer, light func(c *look.Mixer, back bool) palette.Linear) *Lighter {
	apart := func(c *look.Mixer) look.Difference {
		return look.Apart(light(c, false).Lab(), light(c, true).Lab())
	}
	seen := apart(cloth)
	if seen.Grade == palette.Unseen {
		return nil
	}
	l := &Lighter{
		Side:   "face",
		DeltaL: exact.RoundTo(math.Abs(seen.DeltaL), 4),
		DeltaE: exact.RoundTo(seen.DeltaE, 4),
		Grade:  seen.Grade,
	}
	if seen.DeltaL < 0 {
		l.Side = "back"
	}
	words := l.Grade.String()
	if !cloth.Known() {
		l.Range = RangeOf(cloth.RangeOf(apart))
		words = l.Range.Words()
	}
	l.Words = l.Side + " lighter, " + words + " " + oneDecimal(l.DeltaL)
	return l
}

// Distance is how far cloth is looked at from, in metres, as people of its units say it.
func (p *Plan) Distance(metres float64) string { return measure.FormatDistance(metres, p.Units) }

// FromTable is the distance that decides grades.
func (p *Plan) FromTable() string { return p.Distance(look.DecisiveM) }

// AllTogether says which side of all pieces together is the lighter, as in "all
// together back lighter, soft 5.1"; nothing where the sides pass for the same, or
// where there is one piece.
func (p *Plan) AllTogether() string {
	if p.Set.Lighter == nil || len(p.Pieces) < 2 {
		return ""
	}
	return "all together " + p.Set.Lighter.Words
}

// Faintest is how the combination that shows least from a distance in metres is seen
// from there; nil where there is none, or the plan has no such distance.
func Faintest(all []Contrast, distanceM float64) (least *Seen) {
	for _, c := range all {
		if at := c.At(distanceM); at != nil && (least == nil || at.DeltaL < least.DeltaL) {
			least = at
		}
	}
	return least
}

// At is how a combination is seen from a distance in metres; nil where the plan has
// no such distance.
func (c Contrast) At(distanceM float64) *Seen {
	for i := range c.Seen {
		if c.Seen[i].DistanceM == distanceM {
			return &c.Seen[i]
		}
	}
	return nil
}

// Words is the two grades, or one where they are the same: "clear to strong".
func (r *Range) Words() string {
	if r.Grades[0] == r.Grades[1] {
		return r.Grades[0].String()
	}
	return fmt.Sprintf("%v to %v", r.Grades[0], r.Grades[1])
}

// Or is the range in words, or a grade where nothing is left open and r is nil.
func (r *Range) Or(grade palette.Grade) string {
	if r == nil {
		return grade.String()
	}
	return r.Words()
}

// Words is the grade, or its range where something is left open: "clear to
// strong". From so near that threads are seen singly there is no grade.
func (s Seen) Words() string {
	if s.DistanceM < look.SinglyM {
		return "threads seen singly"
	}
	return s.Range.Or(s.Grade)
}
