package plan

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// family is a brief with two pieces written and four to be chosen.
func family(t testing.TB, changes ...brief.Change) []byte {
	t.Helper()
	text, err := os.ReadFile("testdata/family.toml")
	require.NoError(t, err)
	text, err = brief.Edit("family.toml", text, changes)
	require.NoError(t, err)
	return text
}

// tryPlan is a plan, or the error of one that is refused.
func tryPlan(t testing.TB, text []byte) (*Plan, error) {
	t.Helper()
	b, err := brief.Parse("family.toml", text, brief.Options{})
	require.NoError(t, err)
	return Make(context.Background(), b)
}

func origins(p *Plan, origin string) (found []Piece) {
	for _, piece := range p.Pieces {
		if piece.Origin == origin {
			found = append(found, piece)
		}
	}
	return found
}

// TestVaryChooses: six pieces are 15 pairs; that any two differ by more than dE00 4 is a
// judgement of what is enough.
func TestVaryChooses(t *testing.T) {
	p := makePlan(t, "family.toml", family(t))
	chosen := origins(p, "chosen")
	require.Len(t, chosen, 4)
	assert.Equal(t, brief.OneColour, p.Set.Kinship)
	for _, piece := range p.Pieces {
		assert.True(t, slices.ContainsFunc(piece.Runs, func(r WeftRun) bool {
			return r.Pattern == p.Set.Shared
		}), "%s lacks %s", piece.Name, p.Set.Shared)
	}
	least := 1e9
	for _, pair := range p.Set.Pairs {
		if least = min(least, pair.Difference); pair.Difference == p.Set.LeastDifference {
			assert.Equal(t, []string{pair.A, pair.B}, p.Set.Pair)
		}
	}
	assert.Len(t, p.Set.Pairs, 15)
	assert.Equal(t, least, p.Set.LeastDifference)
	assert.GreaterOrEqual(t, p.Set.Bound, p.Set.LeastDifference)
	assert.Greater(t, p.Set.LeastDifference, 4.0)
}

// metres adds up what a colour takes from picks and ends alone.
func metres(p *Plan, colour string) float64 {
	var m float64
	for _, r := range p.Warp.Runs {
		if r.Colour == colour {
			m += float64(r.Ends) * p.Warp.WoundMM / 1000
		}
	}
	edges := []string{p.Warp.Runs[0].Colour, p.Warp.Runs[len(p.Warp.Runs)-1].Colour}
	for _, edge := range edges[:p.Warp.FloatingSelvedgeEnds] {
		if edge == colour {
			m += p.Warp.WoundMM / 1000
		}
	}
	pick := func(name string, picks int) {
		if name == colour {
			m += float64(picks) * p.Warp.ReedWidthMM / 1000 * (1 + p.Cloth.WeftExtra)
		}
	}
	for _, piece := range p.Pieces {
		pick(piece.Hem, 2*(piece.HemPicks+piece.ShowPicks))
		pick(piece.Separator, piece.SeparatorPick)
		for _, r := range piece.Runs {
			pick(r.Ground, r.GroundPicks)
			pick(r.Pattern, r.PatternPicks*p.Cloth.Strands)
		}
	}
	return m
}

// TestVaryOnHand: whatever the shelf holds, a set that is proposed never takes
// more than that of any colour, reckoned anew from picks and ends; and a shelf
// one metre short of a colour gives another set or none.
func TestVaryOnHand(t *testing.T) {
	first := makePlan(t, "family.toml", family(t))
	names := []string{"oat", "barley", "damson", "rosehip", "leaf shade", "dusk blue"}
	proposed, refused := 0, 0
	for i, name := range names {
		for _, less := range []float64{1, 60, 200} {
			y := first.Yarn[slices.IndexFunc(first.Yarn, func(y Yarn) bool {
				return y.Colour == name
			})]
			held := 1.1*(y.TotalM+y.SampleM) - less // the family keeps 10 % to spare
			if held <= 0 {
				continue
			}
			p, err := tryPlan(t,
				family(t, brief.Change{Key: fmt.Sprintf("colour[%d].on_hand", i),
					Value: fmt.Sprintf("\"%.2f m\"", held)}))
			if err != nil {
				refused++
				assert.Contains(t, err.Error(), "vary.within", name)
				continue
			}
			proposed++
			for _, y := range p.Yarn {
				m := metres(p, y.Colour)
				assert.InDelta(t, m, y.TotalM, 0.01)
				assert.LessOrEqual(t, 1.1*(m+y.SampleM), *y.OnHandM+0.005, "%s, with %s cut",
					y.Colour, name)
				assert.Zero(t, y.ShortM, "the spare is kept back")
			}
		}
	}
	assert.NotZero(t, proposed)
	assert.GreaterOrEqual(t, refused, 6, "warp and ground yarn can't be replaced by another choice")
}

// TestVaryRefuses: yarn for some of the pieces only is refused with numbers.
func TestVaryRefuses(t *testing.T) {
	_, err := tryPlan(t,
		family(t, brief.Change{Key: "colour[2].on_hand", Value: `"1000 m"`},
			brief.Change{Key: "colour[3].on_hand", Value: `"1100 m"`},
			brief.Change{Key: "colour[4].on_hand", Value: `"900 m"`},
			brief.Change{Key: "colour[5].on_hand", Value: ""}))
	var problems brief.Problems
	require.ErrorAs(t, err, &problems)
	assert.Regexp(t, `enough for [1-3] of the 4 pieces`, problems[0].What)
	assert.Regexp(t, `lacks .* m of `, problems[0].Hint)
	assert.NotZero(t, problems[0].Line)
}

// chosenRuns are the bodies of chosen pieces, in order.
func chosenRuns(p *Plan) (found []string) {
	for _, piece := range origins(p, "chosen") {
		found = append(found, fmt.Sprint(piece.Runs))
	}
	return found
}

// TestVaryLocked: one proposal written into the brief, as runs or as the rule
// that goes with it, leaves all others and the proof as they were.
func TestVaryLocked(t *testing.T) {
	text := family(t)
	b := parse(t, "family.toml", text)
	before := makePlan(t, "family.toml", text)
	for i := 2; i < 6; i++ {
		piece := before.Pieces[i]
		runs := RunsOf(b, before)
		rule := []brief.Change{{Key: "piece[2].name", Value: `"kept"`}}
		for _, s := range piece.Rule {
			rule = append(rule, brief.Change{Key: "piece[2]." + s.Key, Value: s.Value})
		}
		asRuns := []brief.Change{rule[0],
			{Key: "piece[2].runs", Value: runs[slices.IndexFunc(runs, func(c brief.Change) bool {
				return c.Key == fmt.Sprintf("piece[%d].runs", i)
			})].Value}}
		for _, changes := range [][]brief.Change{rule, asRuns} {
			after := makePlan(t, "family.toml", family(t, changes...))
			assert.Equal(t, piece.Runs, after.Pieces[2].Runs)
			var others []string
			for j := 3; j < 6; j++ {
				others = append(others, fmt.Sprint(after.Pieces[j].Runs))
			}
			for j := 2; j < 6; j++ {
				if j != i {
					assert.Contains(t, others, fmt.Sprint(before.Pieces[j].Runs))
				}
			}
			assert.Equal(t, before.Set.LeastDifference, after.Set.LeastDifference)
			assert.Equal(t, before.Set.Bound, after.Set.Bound)
		}
	}
}

// TestVaryOneMore: with one more piece most proposals stay, seven in ten (a judgement).
func TestVaryOneMore(t *testing.T) {
	var before []string
	stayed, could := 0, 0
	for n := 4; n <= 9; n++ {
		p := makePlan(t, "family.toml",
			family(t, brief.Change{Key: "set.pieces", Value: fmt.Sprint(n)},
				brief.Change{Key: "vary.within", Value: ""}))
		now := chosenRuns(p)
		for _, runs := range before {
			if could++; slices.Contains(now, runs) {
				stayed++
			}
		}
		before = now
	}
	t.Logf("%d of %d stayed", stayed, could)
	assert.Greater(t, 10*stayed, 7*could)
}

// TestVaryKinship: what chosen pieces have in common is what the brief asks for.
func TestVaryKinship(t *testing.T) {
	with := func(kind string) *Plan {
		return makePlan(t, "family.toml",
			family(t, brief.Change{Key: "vary.kinship", Value: tomltext.Quote(kind)}))
	}
	p := with("rhythm")
	for _, piece := range origins(p, "chosen") {
		rhythm := piece.Rule[slices.IndexFunc(piece.Rule, func(s Setting) bool {
			return s.Key == "rhythm"
		})].Value
		assert.Contains(t, rhythm, `kind = "`+p.Set.Shared+`"`)
	}
	p = with("proportions")
	for _, piece := range origins(p, "chosen") {
		var widths []string
		for _, r := range piece.Runs {
			widths = append(widths, fmt.Sprint(r.Units))
		}
		assert.Equal(t, p.Set.Shared, "["+strings.Join(widths, " ")+"]")
	}
	free := with("none")
	assert.Equal(t, "", free.Set.Shared)
}

// TestVaryAlike: a difference out of reach is a warning that names the pair and
// says what the candidates can do.
func TestVaryAlike(t *testing.T) {
	p := makePlan(t, "family.toml", family(t, brief.Change{Key: "vary.at_least", Value: "30"}))
	at := slices.IndexFunc(p.Notes, func(n Note) bool { return n.Code == "set-alike" })
	require.GreaterOrEqual(t, at, 0)
	assert.Equal(t, Warning, p.Notes[at].Level)
	assert.Contains(t, p.Notes[at].Message,
		fmt.Sprintf("%q and %q", p.Set.Pairs[0].A, p.Set.Pairs[0].B))
}

// TestVaryNames: names have no part in the choice, nor in differences.
func TestVaryNames(t *testing.T) {
	text := string(family(t))
	p := makePlan(t, "family.toml", []byte(text))
	q := makePlan(t, "family.toml",
		[]byte(strings.NewReplacer("rosehip", "berry", "damson", "zinc", `"ladder"`, `"steps"`).
			Replace(text)))
	for i := range p.Set.Pairs {
		assert.Equal(t, p.Set.Pairs[i].Difference, q.Set.Pairs[i].Difference)
	}
	assert.Equal(t, p.Set.Bound, q.Set.Bound)
}

// TestDifference: the same from both sides, none for a piece and its end-for-end
// turn, and the quick reckoning is the plain one.
func TestDifference(t *testing.T) {
	b := parse(t, "family.toml", family(t))
	m := newMaker(b)
	require.NoError(t, m.warp())
	d := newDiffer(m.look, m.warpRuns)
	l := m.sourceOf(b.Vary, m.bodyUnits(-1))
	all, err := m.candidates(context.Background(), l, d)
	require.NoError(t, err)
	quick, err := d.distances(context.Background(), all)
	require.NoError(t, err)
	for i := range 60 {
		assert.Zero(t, d.difference(all[i].body, all[i].body.turned()))
		for j := range 60 {
			want := d.difference(all[i].body, all[j].body)
			assert.Equal(t, want, quick.difference(i, j))
			assert.Equal(t, want, d.difference(all[j].body, all[i].body))
			assert.Equal(t, want == 0, i == j)
		}
	}
	l.vary.Candidates /= 2
	fewer, err := m.candidates(context.Background(), l, d)
	require.NoError(t, err)
	assert.Equal(t, fewer, all[:len(fewer)], "more candidates change none")
}

func TestVaryStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Make(ctx, parse(t, "family.toml", family(t)))
	assert.ErrorIs(t, err, context.Canceled)
}

func BenchmarkVary(b *testing.B) {
	text, err := os.ReadFile("testdata/eight.toml")
	require.NoError(b, err)
	for _, n := range []string{"2500", "5000", "10000", "20000"} {
		text, err := brief.Edit("eight.toml", text,
			[]brief.Change{{Key: "vary.candidates", Value: n}})
		require.NoError(b, err)
		b.Run(n, func(b *testing.B) {
			for b.Loop() {
				makePlan(b, "eight.toml", text)
			}
		})
	}
}

// TestVaryFewerWouldDo: what the warning promises of fewer pieces comes true,
// and one piece more than that does not reach it.
func TestVaryFewerWouldDo(t *testing.T) {
	promised := regexp.MustCompile(`; with (\d+) chosen instead of (\d+) they would differ as much`)
	set := func(pieces, atLeast int) *Plan {
		text := family(t, brief.Change{Key: "vary.at_least", Value: fmt.Sprint(atLeast)},
			brief.Change{Key: "set.pieces", Value: fmt.Sprint(pieces)},
			brief.Change{Key: "vary.within", Value: ""})
		crates := strings.Index(string(text), "[[piece]]\nname = \"crates\"")
		// one written piece alone
		return makePlan(t, "family.toml",
			append(text[:crates:crates], text[bytes.Index(text, []byte("[vary]")):]...))
	}
	met := 0
	for atLeast := 5; atLeast <= 16; atLeast++ {
		warning := said(set(6, atLeast), "set-alike")
		if len(warning) == 0 || !promised.MatchString(warning[0]) {
			continue
		}
		words := promised.FindStringSubmatch(warning[0])
		fewer, _ := strconv.Atoi(words[1])
		assert.Equal(t, "5", words[2])
		assert.GreaterOrEqual(t, set(1+fewer, atLeast).Set.LeastDifference, float64(atLeast),
			warning[0])
		assert.Less(t, set(2+fewer, atLeast).Set.LeastDifference, float64(atLeast), warning[0])
		met++
	}
	assert.Positive(t, met)
}
