package midway

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// TestMadeUpBriefs holds every way of many made-up briefs against what there is: of no
// warp and no yarn it takes more, by sums of this test's own; what is woven stays as it
// was; and the same texts give the same answer.
func TestMadeUpBriefs(t *testing.T) {
	want := 12
	if os.Getenv("STRIPESONG_CI") != "" && !testing.Short() {
		want = 100
	}
	ways, none, refused := 0, 0, 0
	for seed := uint64(1); seed <= uint64(want); seed++ {
		m := &maker{Rand: rand.New(rand.NewPCG(seed, 15))}
		text := m.brief()
		b, err := brief.Parse("brief.toml", []byte(text), brief.Options{})
		require.NoError(t, err, text)
		p, err := plan.Make(context.Background(), b)
		if err != nil {
			continue
		}
		progress := m.progress(b, p)
		at, err := brief.ParseProgress("progress.toml", []byte(progress))
		require.NoError(t, err, progress)
		a, err := Make(context.Background(), source(text), b, p, at)
		if problems := (brief.Problems{}); errors.As(err, &problems) {
			refused++
			continue
		}
		require.NoError(t, err)
		again, err := Make(context.Background(), source(text), b, p, at)
		require.NoError(t, err)
		assert.Equal(t, a, again)
		if len(a.Ways) == 0 {
			none++
			assert.NotEmpty(t, a.Nearest)
		}
		assert.LessOrEqual(t, len(a.Ways), 3)
		for i := range a.Ways {
			ways++
			if !holds(t, b, p, at, a, &a.Ways[i]) {
				t.Logf("seed %d, way %d\n%s\n%s\n%s", seed, i+1, text, progress, a.Ways[i].Text())
				return
			}
		}
	}
	t.Logf("%d ways; %d times none, %d times refused", ways, none, refused)
	assert.Greater(t, ways, want/2, "most rests give something")
	assert.Greater(t, none+refused, want/30, "and some nothing")
}

// holds tells whether a way keeps within what there is.
func holds(t *testing.T, before *brief.Brief, was *plan.Plan, at *brief.Progress, a *Answer,
	w *Way) bool {
	t.Helper()
	b, p := planned(t, string(w.Text()))
	ok := assert.Equal(t, len(a.Woven), b.WovenPieces())
	ok = assert.Greater(t, len(p.Pieces), b.WovenPieces()) && ok
	for i := range a.Woven {
		ok = assert.Equal(t, was.Pieces[i].Runs, p.Pieces[i].Runs, "what is woven stays") && ok
		ok = assert.Equal(t, was.Pieces[i].Hem, p.Pieces[i].Hem) && ok
	}
	for i, piece := range p.Pieces {
		ok = assert.Equal(t, was.Pieces[i].Name, piece.Name) && ok
		units := 0
		for _, run := range piece.Runs {
			ok = assert.Positive(t, run.Units) && ok
			units += run.Units
		}
		ok = assert.Equal(t, piece.BodyUnits, units) && ok
	}
	warp := warpOf(b, p)
	there := b.Midway.Warp.MM
	if at.Left != nil {
		ok = assert.Zero(t, at.Left.MM.Cmp(there), "what was measured is what there is") && ok
	}
	ok = assert.LessOrEqual(t, warp.Cmp(there), 0, "%s of %s", warp.FloatString(3),
		there.FloatString(3)) && ok
	for c, metres := range yarnOf(b, p) {
		held := b.Colours[c].OnHandM
		if held == nil {
			continue
		}
		ok = assert.LessOrEqual(t, metres.Cmp(held), 0, "%s: %s of %s m", b.Colours[c].Name,
			metres.FloatString(3), held.FloatString(3)) && ok
	}
	for _, y := range at.Yarns {
		for i, c := range b.Colours {
			if c.Name == y.Colour && !y.Gone {
				left := measure.Amount{Grams: y.Left.Grams}
				grams := new(big.Rat).
					Quo(new(big.Rat).Mul(orNone(yarnOf(b, p)[i]), b.Yarns[c.Yarn].Tex),
						big.NewRat(1000, 1))
				ok = assert.LessOrEqual(t, grams.Cmp(left.Grams), 0, c.Name) && ok
			}
		}
	}
	for _, pair := range p.Set.Pairs {
		if pair.NumberB <= len(a.Woven) || pair.Difference >= plan.AlikeE {
			continue
		}
		ok = assert.GreaterOrEqual(t, pair.Difference, differ(was, pair), "%+v", pair) && ok
	}
	return ok
}

func orNone(r *big.Rat) *big.Rat {
	if r == nil {
		return new(big.Rat)
	}
	return r
}

// differ is the difference of a pair in another plan.
func differ(p *plan.Plan, of plan.Pair) float64 {
	for _, pair := range p.Set.Pairs {
		if pair.NumberA == of.NumberA && pair.NumberB == of.NumberB {
			return pair.Difference
		}
	}
	return 0
}

// warpOf is the warp that the pieces to come take: cloth over what take-up leaves, with the
// separators before and between them, bare warp for fringes, and what can't be woven.
func warpOf(b *brief.Brief, p *plan.Plan) *big.Rat {
	n := len(b.Midway.Woven)
	perHem := new(big.Rat).Inv(b.Cloth.HemGround.PerMM)
	mm := func(picks int, each *big.Rat) *big.Rat {
		return new(big.Rat).Mul(big.NewRat(int64(picks), 1), each)
	}
	cloth := new(big.Rat)
	for i := n; i < len(p.Pieces); i++ {
		ground := 0
		for _, run := range p.Pieces[i].Runs {
			ground += run.GroundPicks
		}
		cloth.Add(cloth, mm(ground, new(big.Rat).Inv(b.Cloth.Ground.PerMM)))
		cloth.Add(cloth, mm(2*(p.Pieces[i].HemPicks+p.Pieces[i].ShowPicks), perHem))
		if i > 0 {
			cloth.Add(cloth, mm(b.Set.Separator, perHem))
		}
	}
	left := new(big.Rat).Sub(big.NewRat(1, 1), b.Cloth.TakeUp.Part)
	all := new(big.Rat).Quo(cloth, left)
	all.Add(all, mm(2*(len(p.Pieces)-n), b.Set.Fringe.MM))
	return all.Add(all, b.Loom.Waste.MM)
}

// yarnOf is the metres of each colour that the pieces to come take, pick by pick.
func yarnOf(b *brief.Brief, p *plan.Plan) map[int]*big.Rat {
	number := map[string]int{}
	for i, c := range b.Colours {
		number[c.Name] = i
	}
	picks := map[int]int{}
	for i := range p.Pieces {
		piece := p.Pieces[i]
		if i >= len(b.Midway.Woven)-1 && i < len(p.Pieces)-1 {
			picks[number[piece.Separator]] += b.Set.Separator
		}
		if i < len(b.Midway.Woven) {
			continue
		}
		picks[number[piece.Hem]] += 2 * (piece.HemPicks + piece.ShowPicks)
		for _, run := range piece.Runs {
			picks[number[run.Ground]] += run.GroundPicks
			if run.Pattern != "" {
				picks[number[run.Pattern]] += run.PatternPicks * b.Cloth.Strands
			}
		}
	}
	ends := 0
	for _, run := range p.Warp.Runs {
		ends += run.Ends
	}
	each := new(big.Rat).Quo(big.NewRat(int64(ends), 1000), b.Cloth.Sett.PerMM)
	each.Mul(each, new(big.Rat).Add(big.NewRat(1, 1), b.Cloth.Extra.Part))
	metres := map[int]*big.Rat{}
	for c, n := range picks {
		metres[c] = new(big.Rat).Mul(each, big.NewRat(int64(n), 1))
	}
	return metres
}

// maker makes briefs and progress up by chance.
type maker struct {
	*rand.Rand
	strings.Builder
	units string
}

func (m *maker) line(format string, of ...any) { fmt.Fprintf(m, format+"\n", of...) }

func (m *maker) one(of ...string) string { return of[m.IntN(len(of))] }

func (m *maker) length(low, high int) string {
	mm := low + m.IntN(high-low)
	if m.units == "in" {
		return fmt.Sprintf("%.2f in", float64(mm)/25.4)
	}
	return fmt.Sprintf("%d mm", mm)
}

var shades = []string{"#f2efe6", "#d9d2c0", "#1d2a4a", "#24492f", "#4b1f3f", "#7a1f1f", "#b5651d"}

func (m *maker) brief() string {
	m.units = m.one("cm", "in")
	pieces := 2 + m.IntN(5)
	m.line("units = %q\nseed = %d\n[set]\npieces = %d\nwidth = %q", m.units, m.IntN(99), pieces,
		m.length(150, 400))
	m.line("%s = %q\nhem = %q\nhem_show = %q", m.one("length", "woven"), m.length(300, 800),
		m.length(0, 50), m.one("0 cm", "1 cm"))
	m.line("separator = %d\nfringe = %q\nspare = \"10%%\"", m.IntN(4),
		m.one("0 cm", "0 cm", "4 cm"))
	structure := m.one("halvdrall", "summer-and-winter")
	m.line("[cloth]\nstructure = %q\nsett = %q\nground = %q\nhem_ground = %q", structure,
		m.one("8/cm", "20/in"), m.one("7/cm", "18/in"), m.one("9/cm", "22/in"))
	m.line("draw_in = \"5%%\"\ntake_up = %q\nshrink_width = \"8%%\"\nshrink_length = %q\n"+
		"weft_extra = %q\nstrands = %d",
		m.one("7%", "9.5%", "12%"), m.one("0%", "8.25%", "10%"), m.one("0%", "7.5%", "10%"),
		1+m.IntN(2))
	m.line("[loom]\nwaste = %q\nsample = %q\nretie = %q", m.length(400, 900),
		m.one("0 cm", "15 cm"), m.one("0 cm", "25 cm"))
	m.line("[yarn.cotton]\ncount = \"16/2 cotton\"\n[yarn.linen]\ncount = \"20/1 linen\"")
	for i, hex := range shades {
		m.line("[[colour]]\nname = \"c%d\"\nhex = %q\nyarn = %q", i, hex,
			[]string{"cotton", "cotton", "linen", "linen", "linen", "linen", "cotton"}[i])
		if m.IntN(5) > 0 {
			m.line("on_hand = \"%d m\"", 900+m.IntN(4000))
		}
	}
	m.line("[warp]\ncolours = [\"c0\", \"c1\"]\nrhythm = { kind = \"fibonacci\", terms = 4, " +
		"mirror = true }")
	m.line("[weft]\nground = \"c0\"\nseparator = %q\ncolours = [\"c2\", \"c3\"]\n"+
		"rhythm = { kind = \"repeat\", weights = [3, 1, 1], times = 2 }", m.one("c4", "c2", "c1"))
	for i := range m.IntN(pieces + 1) {
		m.piece(structure, i)
	}
	if m.IntN(3) == 0 {
		m.line("[vary]\ncandidates = 60\ncolours = [\"c2\", \"c3\", \"c4\", \"c5\"]\n" +
			"per_piece = [1, 3]\nkinship = \"none\"")
	}
	return m.String()
}

func (m *maker) piece(structure string, i int) {
	m.line("[[piece]]\nname = \"p%d\"", i)
	if structure == "summer-and-winter" && m.IntN(3) == 0 {
		m.line("pick_order = \"P1 a P1 b P2 a P2 b\"")
	}
	switch m.IntN(3) {
	case 0:
		m.line("colours = [\"c%d\", \"c%d\"]\nrhythm = { kind = \"random\", stripes = %d, "+
			"narrowest = 2, widest = 9 }", 2+m.IntN(2), 4+m.IntN(2), 4+m.IntN(5))
	case 1:
		m.line("ground = \"c1\"\nruns = [\"A %d c2\", \"plain %d\", \"B %d c5\"]", 10+m.IntN(200),
			1+m.IntN(9), 10+m.IntN(100))
	}
}

// progress is somewhere on the loom: as planned, or off by some.
func (m *maker) progress(b *brief.Brief, p *plan.Plan) string {
	m.Reset()
	woven := m.IntN(len(p.Pieces))
	m.line("woven = %d", woven)
	used := p.Cloth.SampleMM
	if woven > 0 && m.IntN(2) == 0 {
		off := 1 + float64(m.IntN(60)-20)/1000
		var all []string
		for _, piece := range p.Pieces[:woven] {
			all = append(all, fmt.Sprintf("\"%.0f mm\"", piece.WovenMM*off))
			used += piece.WovenMM * off
		}
		m.line("lengths = [%s]", strings.Join(all, ", "))
	} else {
		for _, piece := range p.Pieces[:woven] {
			used += piece.WovenMM
		}
	}
	if m.IntN(4) == 0 {
		m.line("gone = [\"c%d\"]", 2+m.IntN(2))
	}
	m.line("[warp]")
	left := p.Warp.WoundMM - used/(1-p.Cloth.TakeUp) - p.Cloth.RetieMM -
		float64(2*woven)*p.Cloth.FringeMM - float64(m.IntN(400))
	if m.IntN(4) > 0 && left > 50 {
		m.line("%s = \"%.0f mm\"", m.one("left", "to_knots"), left)
		if m.IntN(2) == 0 {
			m.line("thrums = %q", m.one("45 cm", "18 in"))
		}
	}
	for _, c := range []string{"c0", "c4", "c5"} {
		if m.IntN(3) == 0 {
			m.line("[[yarn]]\ncolour = %q\nleft = \"%d g\"\ncone = \"20 g\"", c, 25+m.IntN(90))
		}
	}
	return m.String()
}
