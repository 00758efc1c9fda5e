package plan_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// consistent holds a plan against itself and against the arithmetic of the brief's format,
// worked out here a second time by walking ends and picks one by one.
func consistent(t *testing.T, b *brief.Brief, p *plan.Plan) {
	t.Helper()
	require.Equal(t, plan.Schema, p.Schema)
	require.Len(t, p.Pieces, b.Set.Pieces)
	consistentCloth(t, b, p)
	consistentWarp(t, b, p)
	for i := range p.Pieces {
		consistentPiece(t, b, p, i)
	}
	consistentYarn(t, b, p)
	consistentSet(t, p)
	consistentText(t, p)
}

// near allows for values kept to four decimals.
func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	if !(math.Abs(want-got) <= 1.01e-4+1e-9*math.Abs(want)) {
		t.Fatalf("%s: want %v, got %v", what, want, got)
	}
}

func float(r *big.Rat) float64 { f, _ := r.Float64(); return f }

func left(part *big.Rat) float64 { return 1 - float(part) }

// consistentCloth: what the plan was reckoned with is what the brief says.
func consistentCloth(t *testing.T, b *brief.Brief, p *plan.Plan) {
	t.Helper()
	c, of := p.Cloth, b.Cloth
	near(t, 10*float(of.Sett.PerMM), c.SettPerCM, "sett")
	near(t, 10*float(of.Sett.PerMM), p.Warp.SettPerCM, "sett of the warp")
	near(t, 10*float(of.Ground.PerMM), c.GroundPerCM, "ground")
	near(t, 10*float(of.HemGround.PerMM), c.HemGroundPerCM, "ground of hems")
	for i, part := range []*big.Rat{of.DrawIn.Part, of.TakeUp.Part, of.ShrinkWidth.Part,
		of.ShrinkLength.Part, of.Extra.Part, b.Set.Spare.Part} {
		near(t, float(part),
			[]float64{c.DrawIn, c.TakeUp, c.ShrinkWidth, c.ShrinkLength, c.WeftExtra, c.Spare}[i],
			"losses")
	}
	near(t, float(b.Set.Hem.MM), c.HemMM, "hem")
	near(t, float(b.Set.HemShow.MM), c.HemShowMM, "in sight beside the hem")
	near(t, float(b.Set.Fringe.MM), c.FringeMM, "fringe")
	near(t, float(b.Loom.Sample.MM), c.SampleMM, "sample")
	near(t, float(b.Loom.Waste.MM), c.WasteMM, "waste")
	require.Equal(t, of.Strands, c.Strands)
}

func consistentWarp(t *testing.T, b *brief.Brief, p *plan.Plan) {
	t.Helper()
	w, units, ends := p.Warp, 0, 0
	var strips []weave.Strip
	for _, r := range w.Runs {
		require.Positive(t, r.Units)
		units, ends = units+r.Units, ends+r.Ends
		strips = append(strips, weave.Strip{Block: r.Block, Units: r.Units})
	}
	heddles := make([]int, p.Weave.Shafts)
	threading := p.Weave.Threading(strips)
	for _, shaft := range threading {
		heddles[shaft-1]++
	}
	require.Equal(t, []int{w.Units, w.Ends, w.Ends, w.Units * p.Weave.UnitEnds()},
		[]int{units, ends, len(threading), ends})
	require.Equal(t, heddles, w.Heddles)
	reed := float64(ends) / float(b.Cloth.Sett.PerMM)
	near(t, reed, w.ReedWidthMM, "reed width")
	near(t, reed*left(b.Cloth.DrawIn.Part), w.WovenWidthMM, "woven width")
	near(t, reed*left(b.Cloth.DrawIn.Part)*left(b.Cloth.ShrinkWidth.Part), w.FinishedWidthMM,
		"finished width")
	near(t, wound(b, p), w.WoundMM, "wound")
	parts := 0.0
	for _, part := range w.MakeUp {
		parts += part.WoundMM
	}
	assert.InDelta(t, w.WoundMM, parts, 1e-4*float64(len(w.MakeUp)+1)+1e-9*parts, "make-up")
}

// wound is the format's formula over what the pieces were given.
func wound(b *brief.Brief, p *plan.Plan) float64 {
	pick := 1 / float(b.Cloth.HemGround.PerMM)
	woven := float64((len(p.Pieces)-1)*b.Set.Separator) * pick
	for _, piece := range p.Pieces {
		body := float64(piece.BodyUnits*p.InOrder(piece.PickOrder).
			GroundPicks()) / float(b.Cloth.Ground.PerMM)
		woven += body + float64(2*(piece.HemPicks+piece.ShowPicks))*pick
	}
	return (woven+float(b.Loom.Sample.MM))/left(b.Cloth.TakeUp.Part) +
		float64(2*len(p.Pieces))*float(b.Set.Fringe.MM) + float(b.Loom.RetieMM()) +
		float(b.Loom.Waste.MM)
}

func consistentPiece(t *testing.T, b *brief.Brief, p *plan.Plan, i int) {
	t.Helper()
	piece := p.Pieces[i]
	for _, picks := range []int{piece.HemPicks, piece.ShowPicks} {
		require.True(t, picks >= 0 && picks%2 == 0, "plain picks come in pairs")
	}
	units := 0
	for _, r := range piece.Runs {
		units += r.Units
		require.Equal(t, r.Units*p.InOrder(piece.PickOrder).GroundPicks(), r.GroundPicks)
		require.Equal(t, r.Block == "", r.Pattern == "")
	}
	require.Equal(t, units, piece.BodyUnits)
	require.Positive(t, units)
	body := float64(units*p.InOrder(piece.PickOrder).GroundPicks()) / float(b.Cloth.Ground.PerMM)
	seen := body + 2*float64(piece.ShowPicks)/float(b.Cloth.HemGround.PerMM)
	near(t, seen*left(b.Cloth.ShrinkLength.Part), piece.FinishedMM, "finished length")
	near(t, seen+2*float64(piece.HemPicks)/float(b.Cloth.HemGround.PerMM), piece.WovenMM,
		"woven length")
	both := piece.Face.PatternShare + piece.Back.PatternShare
	near(t, share(p, piece), both, "what is pattern on one side is ground on the other")
	for _, c := range piece.Contrast {
		consistentContrast(t, c)
	}
}

// share is the area that is pattern on the face or on the back: where the weft
// runs have a block at all, counted for the face where the warp's block is the
// same and for the back where it is another, which together is all of it.
func share(p *plan.Plan, piece plan.Piece) float64 {
	face, back := 0, 0
	for _, w := range p.Warp.Runs {
		for _, r := range piece.Runs {
			switch r.Block {
			case "":
			case w.Block:
				face += w.Units * r.Units
			default:
				back += w.Units * r.Units
			}
		}
	}
	return float64(face+back) / float64(p.Warp.Units*piece.BodyUnits)
}

func consistentContrast(t *testing.T, c plan.Contrast) {
	t.Helper()
	assert.InDelta(t, math.Abs(c.On[0]-c.Off[0]), c.DeltaL, 2e-4)
	require.Len(t, c.Seen, len(look.DistancesM))
	for i, s := range c.Seen {
		require.True(t, s.DeltaL >= 0 && s.DeltaE >= 0)
		if i > 0 {
			assert.LessOrEqual(t, s.DeltaL, c.Seen[i-1].DeltaL+2e-4, "nothing rises with distance")
		}
	}
	require.Contains(t, palette.Sights, c.Vision)
	require.Positive(t, c.NarrowestMM)
}

// consistentYarn walks every pick of every piece and every end of the warp.
func consistentYarn(t *testing.T, b *brief.Brief, p *plan.Plan) {
	t.Helper()
	ends, ground, pattern := make(map[string]int), make(map[string]int), make(map[string]int)
	for _, r := range p.Warp.Runs {
		ends[r.Colour] += r.Ends
	}
	if p.Warp.FloatingSelvedgeEnds > 0 {
		ends[p.Warp.Runs[0].Colour]++
		ends[p.Warp.Runs[len(p.Warp.Runs)-1].Colour]++
	}
	for i, piece := range p.Pieces {
		walk(t, p, piece, b.Cloth.Strands, ground, pattern)
		if i < len(p.Pieces)-1 {
			ground[piece.Separator] += b.Set.Separator
		}
	}
	pick := float64(p.Warp.Ends) / float(b.Cloth.Sett.PerMM) / 1000 *
		(1 + float(b.Cloth.Extra.Part))
	seen := make(map[string]bool)
	for _, y := range p.Yarn {
		require.False(t, seen[y.Colour], "one line a colour")
		seen[y.Colour] = true
		near(t, float64(ends[y.Colour])*wound(b, p)/1000, y.WarpM, y.Colour+" warp")
		near(t, float64(ground[y.Colour])*pick, y.GroundM, y.Colour+" ground")
		near(t, float64(pattern[y.Colour])*pick, y.PatternM, y.Colour+" pattern")
		consistentLine(t, b, y)
	}
	for _, of := range []map[string]int{ends, ground, pattern} {
		for colour, n := range of {
			require.True(t, seen[colour] || n == 0, "%q is in no line", colour)
		}
	}
}

func consistentLine(t *testing.T, b *brief.Brief, y plan.Yarn) {
	t.Helper()
	assert.InDelta(t, y.WarpM+y.GroundM+y.PatternM, y.TotalM, 3e-4+1e-9*y.TotalM)
	assert.InDelta(t, y.TotalM*y.Tex/1000, y.TotalG, 1e-4*(y.Tex/1000+y.TotalM/1000)+1e-4)
	held := 0.0
	if y.OnHandM != nil {
		held = *y.OnHandM
	}
	needed := y.TotalM + y.SampleM // the shelf holds the sample too
	short := max(0, needed*(1+float(b.Set.Spare.Part))-held)
	assert.InDelta(t, short, y.ShortM, 4e-4+1e-9*y.TotalM, y.Colour)
	switch {
	case y.ShortM == 0 && short < 1e-4:
		require.True(t, y.Packages != nil && (*y.Packages == 0 || *y.Packages == 1))
	case y.PackageM != nil:
		require.True(t, y.Packages != nil)
		assert.InDelta(t, math.Ceil(y.ShortM / *y.PackageM), float64(*y.Packages),
			1 + 1e-4 / *y.PackageM * float64(*y.Packages))
	}
}

// walk counts the picks of a piece by colour and looks at each.
func walk(t *testing.T, p *plan.Plan, piece plan.Piece, strands int, ground,
	pattern map[string]int) {
	t.Helper()
	var strips []weave.Strip
	colours := repeat(nil, plan.WeftRun{Ground: piece.Hem}, piece.HemPicks+piece.ShowPicks)
	for _, r := range piece.Runs {
		strips = append(strips, weave.Strip{Block: r.Block, Units: r.Units})
		colours = repeat(colours, r, r.PatternPicks+r.GroundPicks)
	}
	colours = repeat(colours, plan.WeftRun{Ground: piece.Hem}, piece.HemPicks+piece.ShowPicks)
	picks := p.InOrder(piece.PickOrder).Picks(piece.HemPicks+piece.ShowPicks, strips)
	require.Equal(t, piece.Picks, len(picks))
	require.Equal(t, piece.Picks, len(colours))
	tabby := 0
	for i, pick := range picks {
		if pick.Pattern {
			pattern[colours[i].Pattern] += strands
			continue
		}
		require.Equal(t, p.Weave.Tabby[tabby%2], pick.Shed,
			"tabby goes a b a b through hems and body")
		tabby++
		ground[colours[i].Ground]++
	}
}

func repeat(to []plan.WeftRun, r plan.WeftRun, n int) []plan.WeftRun {
	for range n {
		to = append(to, r)
	}
	return to
}

func consistentSet(t *testing.T, p *plan.Plan) {
	t.Helper()
	n := len(p.Pieces)
	require.Len(t, p.Set.Pairs, n*(n-1)/2)
	least := math.Inf(1)
	for _, pair := range p.Set.Pairs {
		require.GreaterOrEqual(t, pair.Difference, 0.0)
		least = min(least, pair.Difference)
	}
	if n < 2 {
		least = 0
	}
	require.Equal(t, least, p.Set.LeastDifference)
	consistentSides(t, p)
}

// consistentSides: what is told of the whole set is the mean of its pieces,
// the longer counting for more.
func consistentSides(t *testing.T, p *plan.Plan) {
	t.Helper()
	var units, faceL, backL, face, back float64
	for _, piece := range p.Pieces {
		n := piece.BodyWovenMM
		units += n
		faceL, backL = faceL+n*piece.Face.MeanL, backL+n*piece.Back.MeanL
		face, back = face+n*piece.Face.PatternShare, back+n*piece.Back.PatternShare
	}
	require.InDelta(t, faceL/units, p.Set.Face.MeanL, 1e-4)
	require.InDelta(t, backL/units, p.Set.Back.MeanL, 1e-4)
	require.InDelta(t, face/units, p.Set.Face.PatternShare, 1e-4)
	require.InDelta(t, back/units, p.Set.Back.PatternShare, 1e-4)
}

// consistentText: the plan survives being written and read, and notes are
// sentences with codes.
func consistentText(t *testing.T, p *plan.Plan) {
	t.Helper()
	text, err := plan.JSON(p)
	require.NoError(t, err, "a number that is none would not be written")
	var again plan.Plan
	require.NoError(t, json.Unmarshal(text, &again))
	rewritten, err := plan.JSON(again)
	require.NoError(t, err)
	require.True(t, bytes.Equal(text, rewritten))
	require.NotContains(t, string(text), ": -0,")
	for _, n := range p.Notes {
		require.Contains(t, []plan.Level{plan.Warning, plan.Remark}, n.Level)
		require.NotEmpty(t, n.Message, n.Code)
		require.Regexp(t, `^[a-z-]+$`, n.Code)
	}
}

// placed holds an error to what errors of a brief promise: problems, each with a
// place that exists and something to do.
func placed(t *testing.T, text []byte, err error) {
	t.Helper()
	var problems brief.Problems
	require.True(t, errors.As(err, &problems), "%v", err)
	require.NotEmpty(t, problems)
	require.LessOrEqual(t, len(problems), 100)
	lines := strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n")
	for _, p := range problems {
		require.NotEmpty(t, p.What)
		require.NotEmpty(t, p.Hint, "%v", p)
		if p.Line == 0 {
			continue
		}
		require.LessOrEqual(t, p.Line, len(lines), "%v", p)
		line := strings.TrimRight(lines[p.Line-1], "\r") // however many
		require.Equal(t, line, p.LineText)
		require.True(t, p.Col >= 1 && p.Col <= utf8.RuneCountInString(line)+2, "%v in %q", p, line)
	}
}
