package svg

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// shelf is the colours of the fixtures; invented.
var shelf = []plan.Colour{
	{Name: "chalk", RGB: rgb("#f1ede2"), Yarn: "cotton"},
	{Name: "slate", RGB: rgb("#4a5560"), Yarn: "cotton"},
	{Name: "buoy", RGB: rgb("#c2492f"), Yarn: "linen"},
	{Name: "deep water", RGB: rgb("#17394d"), Yarn: "linen"},
	{Name: "lichen", RGB: rgb("#a9ad6c"), Yarn: "cotton"},
	{Name: "rowan", RGB: rgb("#8e2a2b"), Yarn: "cotton"},
	{Name: "cloudberry", RGB: rgb("#e0993e"), Yarn: "cotton"},
	{Name: "moss", RGB: rgb("#5d6b3a"), Yarn: "cotton"},
	{Name: "fog", RGB: rgb("#cfd3d2"), Yarn: "linen"},
	{Name: "plum", RGB: rgb("#57304a"), Yarn: "linen"},
	{Name: "sky", RGB: rgb("#7fa6bf"), Yarn: "linen"},
	{Name: "ochre", RGB: rgb("#b98a2f"), Yarn: "linen"},
}

// sample is a plan small enough to write by hand, before it is filled in.
type sample struct {
	title, units, structure string
	colours                 []plan.Colour
	sett                    float64 // per cm
	warp                    []plan.WarpRun
	names                   []string
	runs                    [][]plan.WeftRun
	ground                  []string
	hemPicks                int
}

// worked is the plan of the worked brief, testdata/worked-brief.toml.
func worked(t testing.TB) *plan.Plan { return planOf(t, "testdata/worked-brief.toml") }

// planOf reckons the plan of a brief.
func planOf(t testing.TB, path string) *plan.Plan {
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	shelf := func(name string) ([]byte, error) {
		return os.ReadFile(filepath.Join(filepath.Dir(path), name))
	}
	b, err := brief.Parse(path, text, brief.Options{Shelf: shelf})
	require.NoError(t, err)
	p, err := plan.Make(t.Context(), b)
	require.NoError(t, err)
	return p
}

// make turns a sample into a plan.
func (s sample) make(t testing.TB) *plan.Plan {
	p := &plan.Plan{Title: s.title, Units: s.units, Structure: s.structure, Colours: s.colours,
		Seed: 7}
	structure, ok := weave.Lookup(s.structure)
	require.True(t, ok)
	for _, run := range s.warp {
		run.Ends = run.Units * structure.UnitEnds()
		p.Warp.Units += run.Units
		p.Warp.Ends += run.Ends
		p.Warp.Runs = append(p.Warp.Runs, run)
	}
	p.Warp.FloatingSelvedgeEnds = 2
	p.Warp.ReedWidthMM = float64(p.Warp.Ends) / s.sett * 10
	p.Warp.FinishedWidthMM = p.Warp.ReedWidthMM * 0.855
	p.Cloth = plan.Cloth{SettPerCM: s.sett, GroundPerCM: s.sett, HemGroundPerCM: s.sett + 1,
		ShrinkLength: 0.1}
	p.Cloth.WeftUnitMM = float64(structure.GroundPicks()) / s.sett * 10
	for i, name := range s.names {
		p.Pieces = append(p.Pieces, s.piece(structure, p, i, name))
	}
	for i := range p.Pieces[1:] {
		p.Pieces[i].SeparatorPick = 2
	}
	fill(t, p)
	return p
}

func (s sample) piece(structure *weave.Structure, p *plan.Plan, i int, name string) plan.Piece {
	ground := s.ground[i%len(s.ground)]
	piece := plan.Piece{Name: name, HemPicks: s.hemPicks, Hem: ground, Separator: ground,
		Picks: 2 * s.hemPicks}
	for _, run := range s.runs[i%len(s.runs)] {
		run.Ground = ground
		run.GroundPicks = run.Units * structure.GroundPicks()
		if run.Block != "" {
			run.PatternPicks = run.Units * structure.PatternPicks()
		}
		piece.BodyUnits += run.Units
		piece.Picks += run.PatternPicks + run.GroundPicks
		piece.Runs = append(piece.Runs, run)
	}
	piece.BodyWovenMM = float64(piece.BodyUnits) * p.Cloth.WeftUnitMM
	piece.HemWovenMM = float64(piece.HemPicks) / p.Cloth.HemGroundPerCM * 10
	piece.WovenMM = piece.BodyWovenMM + 2*piece.HemWovenMM
	piece.FinishedMM = piece.BodyWovenMM * 0.9
	return piece
}

// fill adds what a drawing reads besides: the structure, yarn, mixed colours,
// contrast, differences and notes.
func fill(t testing.TB, p *plan.Plan) {
	structure, ok := weave.Lookup(p.Structure)
	require.True(t, ok)
	p.Weave, p.Schema = structure, plan.Schema
	p.Warp.WoundMM = 3873.1884
	for i := range p.Pieces {
		piece := &p.Pieces[i]
		piece.HemWovenMM = float64(piece.HemPicks) / p.Cloth.HemGroundPerCM * 10
		if len(piece.Contrast) == 0 {
			piece.Contrast = contrasts(p, piece)
		}
		grade(piece)
	}
	p.Yarn = nil
	p.Colours = slices.Clone(p.Colours)
	for i := range p.Colours {
		c := &p.Colours[i]
		lab := lightOf(p, c.Name).Lab()
		c.Lab = [3]float64{lab.L, lab.A, lab.B}
		c.Widths = plan.Widths{
			Pattern: fixtureWidths.Pattern,
			Warp:    fixtureWidths.Warp,
			Ground:  fixtureWidths.Ground,
			Hem:     fixtureWidths.Ground,
		}
		p.Yarn = append(p.Yarn,
			plan.Yarn{Colour: c.Name, Yarn: c.Yarn, TotalM: 1240 / float64(i+1),
				WarpM:   700 / float64(i+1),
				ByPiece: make([]float64, len(p.Pieces))})
	}
	mixes(p)
	pairs(p)
	if p.Notes == nil {
		p.Notes = standing
	}
}

var standing = []plan.Note{
	{Level: "note", Code: "sample-first",
		Message: "colours on a screen are not yarn: wrap a card, weave a sample and wash it " +
			"before trusting contrast and shrinkage"},
	{Level: "note", Code: "dye-bleed",
		Message: "strong dyes may bleed in the first wash: wash the sample with something white"},
	{Level: "warning", Code: "contrast-faint",
		Message: "pattern deep water on warp slate with ground chalk is unseen at 2 m " +
			"(difference in lightness 1.5): choose a lighter pattern weft or a darker ground"},
	{Level: "warning", Code: "short",
		Message: "buoy is short by 120 m for ground and pattern: 1 package of 250 g"},
}

func grade(piece *plan.Piece) {
	for i := range piece.Contrast {
		c := &piece.Contrast[i]
		for j := range c.Seen {
			c.Seen[j].Grade = palette.GradeOf(c.Seen[j].DeltaL, max(c.Seen[j].DeltaL, 2.01))
		}
	}
}

func contrasts(p *plan.Plan, piece *plan.Piece) (all []plan.Contrast) {
	seen := map[[3]string]bool{}
	for _, run := range piece.Runs {
		for _, warp := range p.Warp.Runs {
			key := [3]string{warp.Colour, run.Ground, run.Pattern}
			if run.Block == "" || seen[key] {
				continue
			}
			seen[key] = true
			l := lightOf(p, run.Pattern).Lab().L*0.25 - lightOf(p, warp.Colour).Lab().L*0.25
			c := plan.Contrast{Warp: key[0], Ground: key[1], Pattern: key[2], DeltaL: max(l, -l),
				Vision: palette.Normal}
			for _, m := range []float64{0.4, 2, 5} {
				c.Seen = append(c.Seen, plan.Seen{DistanceM: m, DeltaL: c.DeltaL, DeltaE: c.DeltaL})
			}
			all = append(all, c)
		}
	}
	return all
}

func rgb(hex string) palette.RGB {
	c, err := palette.ParseHex(hex)
	if err != nil {
		panic(err)
	}
	return c
}

func lightOf(p *plan.Plan, name string) palette.Linear {
	for _, c := range p.Colours {
		if c.Name == name {
			return c.RGB.Linear()
		}
	}
	panic("no colour " + name)
}

// fixtureWidths are those of a pattern weft that covers half its room, on a warp
// and a ground that leave no gaps.
var fixtureWidths = look.Widths{Pattern: 0.5, Warp: 1, Ground: 0.5}

// mixes mixes by the shares of [fixtureWidths], with light kept apart.
func mixes(p *plan.Plan) {
	seen := map[plan.Mix]bool{}
	add := func(m plan.Mix, s look.Shares) {
		if seen[m] {
			return
		}
		seen[m] = true
		parts := []palette.Part{
			{Colour: lightOf(p, m.Warp), Area: s.Warp},
			{Colour: lightOf(p, m.Ground), Area: s.Ground},
		}
		if m.Pattern != "" {
			parts = append(parts, palette.Part{Colour: lightOf(p, m.Pattern), Area: s.Pattern})
		}
		light := palette.Mix(parts...)
		lab := light.Lab()
		m.RGB, m.Lab = light.RGB(), [3]float64{lab.L, lab.A, lab.B}
		p.Mixes = append(p.Mixes, m)
	}
	for _, piece := range p.Pieces {
		for _, warp := range p.Warp.Runs {
			if piece.EndPicks() > 0 {
				add(plan.Mix{Warp: warp.Colour, Ground: piece.Hem, State: "hem"},
					fixtureWidths.Plain())
			}
			for _, run := range piece.Runs {
				m := plan.Mix{Warp: warp.Colour, Ground: run.Ground, Pattern: run.Pattern,
					State: "plain"}
				if run.Block == "" {
					add(m, fixtureWidths.Plain())
					continue
				}
				for _, back := range []bool{false, true} {
					m.State = map[bool]plan.State{true: plan.Covers,
						false: plan.Behind}[(run.Block == warp.Block) != back]
					m.Cover = look.Phi(p.Weave, run.Block, warp.Block, back)
					add(m, fixtureWidths.Patch(m.Cover))
				}
			}
		}
	}
}

func pairs(p *plan.Plan) {
	p.Set = plan.Set{LeastDifference: 99}
	for i := range p.Pieces {
		for j := range i {
			d := 2.5 + float64((i*7+j*5)%11)*1.3
			p.Set.LeastDifference = min(p.Set.LeastDifference, d)
			p.Set.Pairs = append(p.Set.Pairs,
				plan.Pair{A: p.Pieces[j].Name, B: p.Pieces[i].Name, NumberA: j + 1, NumberB: i + 1,
					Difference: d})
		}
	}
}

func warpOf(runs ...any) (warp []plan.WarpRun) {
	for i := 0; i < len(runs); i += 3 {
		warp = append(warp, plan.WarpRun{Block: runs[i].(string), Units: runs[i+1].(int),
			Colour: runs[i+2].(string)})
	}
	return warp
}

func weftOf(runs ...any) (weft []plan.WeftRun) {
	for i := 0; i < len(runs); i += 3 {
		weft = append(weft, plan.WeftRun{Block: runs[i].(string), Units: runs[i+1].(int),
			Pattern: runs[i+2].(string)})
	}
	return weft
}

// corners are plans in far corners of the job.
func corners(t testing.TB) map[string]*plan.Plan {
	return map[string]*plan.Plan{
		"worked": worked(t), "one-colour": oneColour(t), "twelve": twelve(t),
		"asymmetric": asymmetric(t),
		"belt":       belt(t), "hostile": hostile(t), "coasters": coasters(t),
		"in sight":  inSight(t),
		"own order": ownOrder(t), "sixty": sixty(t), "forty": forty(t),
	}
}

func oneColour(t testing.TB) *plan.Plan {
	return sample{title: "White on white", units: "cm", structure: "halvdrall", colours: shelf[:1],
		sett:  8,
		warp:  warpOf("A", 40, "chalk", "B", 30, "chalk", "A", 40, "chalk"),
		names: []string{"one", "two"},
		runs: [][]plan.WeftRun{weftOf("A", 100, "chalk", "B", 50, "chalk", "A", 100, "chalk"),
			weftOf("B", 120, "chalk", "A", 130, "chalk")},
		ground: []string{"chalk"}, hemPicks: 30}.make(t)
}

func twelve(t testing.TB) *plan.Plan {
	var runs [][]plan.WeftRun
	var names []string
	for i := range 12 {
		a, b := shelf[(i+2)%12].Name, shelf[(i*5+3)%12].Name
		runs = append(runs, weftOf("A", 20+i*4, a, "B", 30, b, "", 4, "", "A", 50-i*2, a, "B", 30,
			b, "A", 120-i*2, a))
		names = append(names, fmt.Sprintf("towel of the month %d", i+1))
	}
	return sample{title: "A year of towels, one for every month, on one long warp with a " +
		"long title", units: "in", structure: "summer-and-winter", colours: shelf, sett: 8,
		warp: warpOf("A", 20, "chalk", "B", 8, "slate", "A", 12, "fog", "B", 8, "moss", "A", 12,
			"plum", "B", 8, "sky", "A", 12, "ochre", "B", 8, "lichen", "A", 22, "rowan"),
		names: names, runs: runs, ground: []string{"chalk", "fog"}, hemPicks: 30}.make(t)
}

func asymmetric(t testing.TB) *plan.Plan {
	return sample{title: "Off centre", units: "in", structure: "summer-and-winter",
		colours: shelf[2:8], sett: 20 / 2.54,
		warp:  warpOf("A", 70, "lichen", "B", 5, "rowan", "A", 2, "buoy", "B", 33, "lichen"),
		names: []string{"north", "east", "south", "west", "up"},
		runs: [][]plan.WeftRun{weftOf("A", 180, "buoy", "B", 3, "rowan", "A", 40, "buoy"),
			weftOf("B", 220, "moss"),
			weftOf("A", 10, "cloudberry", "", 90, "", "B", 110, "cloudberry")},
		ground: []string{"lichen", "deep water"}, hemPicks: 24}.make(t)
}

func belt(t testing.TB) *plan.Plan {
	var w []any
	for i := range 9 {
		w = append(w, "AB"[i%2:i%2+1], 2+i%3, "fog")
	}
	return sample{title: "Narrow bands", units: "cm", structure: "monks-belt", colours: shelf[8:10],
		sett: 10,
		warp: warpOf(w...), names: []string{"band"}, ground: []string{"fog"}, hemPicks: 10,
		runs: [][]plan.WeftRun{weftOf("A", 4, "plum", "B", 2, "plum", "", 5, "", "A", 4, "plum",
			"B", 90, "plum", "A", 300, "plum")}}.make(t)
}

func hostile(t testing.TB) *plan.Plan {
	colours := []plan.Colour{
		{Name: `<script>alert("x")</script>`, RGB: rgb("#f1ede2"), Yarn: `"/><rect onload='x'>`},
		{Name: "שלום עולם טוב", RGB: rgb("#4a5560"), Yarn: "قطن"},
		{Name: "bell\x07 and tab\t and \x1b[31m", RGB: rgb("#c2492f"), Yarn: "a\u202eb"},
		{Name: "手織りの布の端から端まで見える長い名前の色は切り詰められるべきである手織りの布", RGB: rgb("#17394d"), Yarn: "麻"},
	}
	n := func(i int) string { return colours[i].Name }
	return sample{title: "]]> & <b>\"'\x00\x7f\u2028 bad \xff title", units: "cm",
		structure: "halvdrall", colours: colours, sett: 8,
		warp: warpOf("A", 40, n(0), "B", 30, n(1), "A", 6, n(2), "B", 34, n(3)),
		names: []string{`url(#n1)"`, "--><g>",
			"ABCDEFGHIJ WWWWWWWWWW MMMMMMMMMM WWWWWWWWWW MMMMMMMMMM QQQQQ", "\u202eevil",
			"👩‍👩‍👧‍👦 família é", "手織りの布の端から端まで見える長い名前の色は切り詰められるべき"},
		runs: [][]plan.WeftRun{weftOf("A", 100, n(2), "B", 1, n(3), "A", 149, n(1)),
			weftOf("B", 120, n(3), "A", 130, n(0))}, ground: []string{n(1), n(0)},
		hemPicks: 30}.make(t)
}

// coasters are drawn on the sheet of the set as large as they are.
func coasters(t testing.TB) *plan.Plan {
	return sample{title: "Coasters", units: "cm", structure: "halvdrall", colours: shelf[:4],
		sett:  6,
		warp:  warpOf("A", 4, "chalk", "B", 4, "slate", "A", 4, "chalk"),
		names: []string{"a", "b", "c"},
		runs: [][]plan.WeftRun{weftOf("A", 10, "buoy", "", 2, "", "B", 8, "deep water", "A", 10,
			"buoy")}, ground: []string{"chalk"}, hemPicks: 6}.make(t)
}

// inSight has plain that stays in sight beside its hems, in a colour of its own.
func inSight(t testing.TB) *plan.Plan {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	return planFrom(t, strings.Replace(string(text), "[set]", "[set]\nhem_show = \"14 mm\"", 1))
}

// ownOrder has one piece with two pattern picks between ground picks.
func ownOrder(t testing.TB) *plan.Plan {
	text := clothBrief("halvdrall", "8/cm", "8/cm", 1)
	return planFrom(t, strings.Replace(text, "name = \"one\"",
		"name = \"one\"\npick_order = \"P P a P P b\"", 1))
}

// sixty has sixty warp stripes and as many weft runs.
func sixty(t testing.TB) *plan.Plan {
	var w, f []any
	for i := range 60 {
		w = append(w, "AB"[i%2:i%2+1], 1+i*i%4, shelf[i%6].Name)
		f = append(f, "BA"[i%2:i%2+1], 2+i*i%5, shelf[6+i%6].Name)
	}
	return sample{title: "Sixty stripes", units: "cm", structure: "halvdrall", colours: shelf,
		sett: 8, warp: warpOf(w...),
		names: []string{"first", "second", "third", "fourth", "fifth", "sixth"},
		runs:  [][]plan.WeftRun{weftOf(f...)}, ground: []string{"chalk", "fog", "slate"},
		hemPicks: 30}.make(t)
}

// many is so many pieces of one size, some with long names, some of them shorter.
func many(t testing.TB, pieces int) *plan.Plan {
	s := sample{title: "Many", units: "cm", structure: "halvdrall", colours: shelf[:4], sett: 8,
		warp: warpOf("A", 40, "chalk", "B", 30, "slate", "A", 40, "chalk"), runs: [][]plan.WeftRun{
			weftOf("A", 100, "buoy", "B", 50, "deep water", "A", 100, "buoy"),
			weftOf("B", 90, "buoy", "A", 110, "deep water")}, ground: []string{"chalk", "slate"},
		hemPicks: 30}
	for i := range pieces {
		s.names = append(s.names, strings.Repeat("a long name ", i%4)+"end")
	}
	p := s.make(t)
	for i := range p.Pieces {
		p.Pieces[i].Lighter = &plan.Lighter{Side: "back",
			Words: "back lighter, unseen to faint 2.4"}
	}
	p.Set.Lighter = p.Pieces[0].Lighter
	return p
}

func forty(t testing.TB) *plan.Plan {
	p := twelve(t)
	for i := 12; i < 40; i++ {
		piece := p.Pieces[i%12]
		piece.Name = fmt.Sprintf("piece %d", i+1)
		p.Pieces = append(p.Pieces, piece)
	}
	pairs(p)
	return p
}
