package remedy

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// onLoom is the five towels with two of them woven; of the other three the program chose
// none.
func onLoom(t *testing.T, warp string) (Source, *brief.Brief, *plan.Plan) {
	t.Helper()
	read := func(text []byte) (*brief.Brief, error) {
		return brief.Parse("b", text, brief.Options{})
	}
	b, err := read([]byte(five))
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	changes := append(plan.RunsOf(b, p)[:1], plan.HoldOf(b, p, []int{0, 1, 2, 3, 4})...)
	for _, key := range []string{"piece[0].hold", "piece[1].hold"} {
		changes = append(changes, brief.Change{Key: key})
	}
	changes = append(changes, brief.Change{Key: "midway.woven", Value: `["33 in", "33 in"]`},
		brief.Text("midway.warp", warp), brief.Text("midway.waste", "18 in"))
	text, err := brief.Edit("b", []byte(five), changes)
	require.NoError(t, err)
	b, err = read(text)
	require.NoError(t, err)
	p, err = plan.Make(context.Background(), b)
	require.NoError(t, err)
	return Source{"b", text, read}, b, p
}

// TestWhatIsWovenStays: no way out touches a piece that is woven, or the warp.
func TestWhatIsWovenStays(t *testing.T) {
	s, b, p := onLoom(t, "3 yd")
	require.Contains(t, troubles(p), trouble{code: "warp-short"})
	a, err := Find(context.Background(), s, b, p)
	require.NoError(t, err)
	var ended int
	for _, r := range a.Remedies {
		for _, c := range r.Changes {
			for _, not := range []string{"piece[0]", "piece[1]", "warp.", "loom.", "set.hem",
				"set.width", "cloth."} {
				assert.False(t, strings.HasPrefix(c.Key, not), "%s: %s", r.What, c.Key)
			}
		}
		text, err := brief.Edit(s.Name, s.Text, r.Changes)
		require.NoError(t, err)
		after, err := s.Read(text)
		require.NoError(t, err)
		made, err := plan.Make(context.Background(), after)
		require.NoError(t, err)
		for i := range 2 {
			assert.Equal(t, p.Pieces[i].Runs, made.Pieces[i].Runs)
			assert.Equal(t, p.Pieces[i].Hem, made.Pieces[i].Hem)
		}
		if r.For == "warp-short" || r.For == "" {
			ended++
			assert.GreaterOrEqual(t, made.Midway.LeftMM, 0.0, r.What)
		}
	}
	assert.Positive(t, ended, "shorter or fewer pieces")
}

// TestInstead: of a colour that is gone none is left in the pieces to come, in whatever
// role, and none is taken of which there is too little.
func TestInstead(t *testing.T) {
	s, _, p := onLoom(t, "9 yd")
	used := ""
	for _, run := range p.Pieces[4].Runs {
		used = run.Pattern
	}
	require.NotEmpty(t, used)
	text := strings.Replace(string(s.Text), "name = \""+used+"\"\n", "name = \""+used+"\"\n#", 1)
	at := strings.Index(text, "name = \""+used+"\"")
	head, tail := text[:at], text[at:]
	tail = strings.Replace(tail, "on_hand = \"8 oz\"", "on_hand = \"0 oz\"", 1)
	text = head + strings.Replace(tail, "\n#hex", "\nhex", 1)
	s.Text = []byte(text)
	b, err := s.Read(s.Text)
	require.NoError(t, err)
	p, err = plan.Make(context.Background(), b)
	require.NoError(t, err)
	require.NotEmpty(t, shortYarns(p))
	found, err := Instead(context.Background(), s, b, p)
	require.NoError(t, err)
	require.NotEmpty(t, found)
	for _, r := range found {
		changed, err := brief.Edit(s.Name, s.Text, r.Changes)
		require.NoError(t, err)
		after, err := s.Read(changed)
		require.NoError(t, err)
		made, err := plan.Make(context.Background(), after)
		require.NoError(t, err)
		for i := range 2 {
			assert.Equal(t, p.Pieces[i].Runs, made.Pieces[i].Runs)
		}
		for _, piece := range made.Pieces[2:] {
			for _, run := range piece.Runs {
				assert.NotEqual(t, used, run.Pattern, r.What)
				assert.NotEqual(t, used, run.Ground, r.What)
			}
		}
		assert.Empty(t, shortYarns(made), r.What)
	}
}
