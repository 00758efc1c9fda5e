package workbench

import (
	"context"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

func units(all []run) (n int) {
	for _, r := range all {
		n += r.units
	}
	return n
}

func words(all []run) (said []string) {
	for _, r := range all {
		said = append(said, r.String())
	}
	return said
}

func TestEdges(t *testing.T) {
	b := open(t, string(brief.Default()))
	before := warpRuns(b.Plan())
	do(t, b, Op{Do: "edge", Strip: Warp, Run: 1, To: 2})
	after := warpRuns(b.Plan())
	assert.Equal(t, before[1].units+2, after[1].units)
	assert.Equal(t, before[2].units-2, after[2].units)
	assert.Equal(t, units(before), units(after))
	do(t, b, Op{Do: "edge", Strip: Warp, Run: 1, To: -999})
	assert.Equal(t, 1, warpRuns(b.Plan())[1].units, "an edge stops at one unit")
	agrees(t, b)
}

func TestRunsByHand(t *testing.T) {
	b := open(t, string(brief.Default()))
	last := 5
	start := words(pieceRuns(b.Plan(), last))
	for _, one := range []struct {
		name string
		op   Op
		want func([]string) []string
	}{
		{"exchange the second run with the third", Op{Do: "swap", Run: 1},
			func(w []string) []string { w[1], w[2] = w[2], w[1]; return w }},
		{"one unit more", Op{Do: "units", Run: 0, To: 31}, func(w []string) []string {
			w[0] = "A 31 damson"
			return w
		}},
		{"another colour", Op{Do: "recolour", Run: 0, Colour: "rosehip"},
			func(w []string) []string { w[0] = "A 31 rosehip"; return w }},
		{"another block", Op{Do: "reblock", Run: 0, Value: "B"}, func(w []string) []string {
			w[0] = "B 31 rosehip"
			return w
		}},
		{"no block", Op{Do: "reblock", Run: 0, Value: "plain"}, func(w []string) []string {
			w[0] = "plain 31"
			return w
		}},
		{"in two", Op{Do: "split", Run: 0}, func(w []string) []string {
			return append([]string{"plain 16", "plain 15"}, w[1:]...)
		}},
		{"one less", Op{Do: "drop", Run: 1}, func(w []string) []string {
			return append([]string{"plain 31"}, w[2:]...)
		}},
		{"end for end", Op{Do: "turn"}, func(w []string) []string { slices.Reverse(w); return w }},
	} {
		t.Run(one.name, func(t *testing.T) {
			one.op.Strip = last
			start = one.want(slices.Clone(start))
			do(t, b, one.op)
			assert.Equal(t, start, words(pieceRuns(b.Plan(), last)))
			agrees(t, b)
		})
	}
}

func TestMirrored(t *testing.T) {
	got := mirrored([]run{{"A", 3, "x"}, {"B", 2, "y"}, {"A", 4, "z"}})
	assert.Equal(t, []string{"A 3 x", "B 3 y", "A 3 x"}, words(got))
	got = mirrored([]run{{"A", 1, "x"}, {"", 2, ""}, {"A", 1, "z"}})
	assert.Equal(t, []string{"A 1 x", "plain 2", "A 1 x"}, words(got))
}

func TestKeepAndLetLoose(t *testing.T) {
	b := open(t, string(brief.Default()))
	all := func(t *testing.T, op string) {
		for strip := Warp; strip < 6; strip++ {
			do(t, b, Op{Do: op, Strip: strip})
		}
	}
	t.Run("keeping everything changes nothing of the plan", func(t *testing.T) {
		before, err := plan.JSON(b.Plan())
		require.NoError(t, err)
		all(t, "keep")
		after, err := plan.JSON(b.Plan())
		require.NoError(t, err)
		assert.Equal(t, string(before), string(after))
	})
	t.Run("another seed leaves the kept warp and pieces, random ones too", func(t *testing.T) {
		seed, warp, pieces := b.Plan().Seed, words(warpRuns(b.Plan())),
			words(pieceRuns(b.Plan(), 2))
		do(t, b, Op{Do: "seed"})
		assert.NotEqual(t, seed, b.Plan().Seed)
		assert.Equal(t, warp, words(warpRuns(b.Plan())))
		assert.Equal(t, pieces, words(pieceRuns(b.Plan(), 2)))
	})
	t.Run("what is let loose follows its rule", func(t *testing.T) {
		all(t, "loose")
		assert.False(t, b.View().Warp.Kept)
		for _, p := range b.View().Pieces[:5] {
			assert.False(t, p.Kept, p.Name)
		}
		agrees(t, b)
	})
}

// What is kept stays through another set; what is open is chosen anew.
func TestAnotherSetKeepsTheKept(t *testing.T) {
	b := open(t, string(brief.Default()))
	runs := func(piece int) []string { return words(pieceRuns(b.Plan(), piece)) }
	kept := map[string][]string{}
	t.Run("one is kept, the others are opened", func(t *testing.T) {
		do(t, b, Op{Do: "keep", Strip: 1})
		do(t, b, Op{Do: "pieces.open"})
		assert.Len(t, b.View().Pieces, 6)
		for i, p := range b.View().Pieces {
			if p.Kept {
				kept[p.Name] = runs(i)
			}
		}
		assert.Len(t, kept, 2, "the one kept now and the one of the brief")
	})
	t.Run("another seed", func(t *testing.T) {
		before := runs(4)
		do(t, b, Op{Do: "seed"})
		for _, i := range []int{1, 5} {
			name := b.View().Pieces[i].Name
			assert.Equal(t, kept[name], runs(i), name)
		}
		assert.NotEqual(t, before, runs(4))
	})
	t.Run("the piece kept stays where it is", func(t *testing.T) {
		chosen := runs(4)
		do(t, b, Op{Do: "keep", Strip: 4})
		assert.Equal(t, chosen, runs(4))
		agrees(t, b)
	})
}

func TestColours(t *testing.T) {
	b := open(t, string(brief.Default()))
	const odd = "oat \"milk\" <b> 12 \t ü"
	t.Run("another name, wherever it stands", func(t *testing.T) {
		before, said := b.Plan(), comments(string(b.Text()))
		do(t, b, Op{Do: "colour.name", Colour: "oat", Value: odd})
		agrees(t, b)
		assert.Equal(t, said, comments(string(b.Text())), "comments stay")
		for i, r := range b.Plan().Warp.Runs {
			want := before.Warp.Runs[i].Colour
			if want == "oat" {
				want = odd
			}
			assert.Equal(t, want, r.Colour)
		}
	})
	t.Run("another name in runs", func(t *testing.T) {
		do(t, b, Op{Do: "keep", Strip: Warp})
		do(t, b, Op{Do: "colour.name", Colour: odd, Value: "oat"})
		assert.Equal(t, "oat", b.Plan().Warp.Runs[0].Colour)
	})
	t.Run("too little stock", func(t *testing.T) {
		do(t, b, Op{Do: "colour.stock", Colour: "oat", Value: "1 m"})
		assert.Equal(t, Short, b.View().Colours[0].State)
	})
	t.Run("stock not known", func(t *testing.T) {
		do(t, b, Op{Do: "colour.stock", Colour: "oat", Value: ""})
		assert.Equal(t, Unknown, b.View().Colours[0].State)
	})
	t.Run("a new one, used", func(t *testing.T) {
		do(t, b, Op{Do: "colour.add", Colour: "moss", Value: "#556b2f", Key: "linen"})
		do(t, b, Op{Do: "in", Strip: 0, Colour: "moss"})
		assert.Contains(t, colourNames(b, 0), "moss")
	})
	t.Run("one in use is not dropped", func(t *testing.T) {
		_, err := b.Do(context.Background(), Op{Do: "colour.drop", Colour: "moss"})
		assert.Error(t, err)
	})
	t.Run("dropped once it is not", func(t *testing.T) {
		do(t, b, Op{Do: "out", Strip: 0, Colour: "moss"})
		do(t, b, Op{Do: "colour.drop", Colour: "moss"})
		assert.Len(t, b.View().Colours, 7)
		agrees(t, b)
	})
}

// A colour that stands in the shelf file gets a table in the brief, which wins.
func TestColoursOfTheShelf(t *testing.T) {
	text, shelf, _ := strings.Cut(string(brief.Default()), "[yarn.cotton]")
	shelf, rest, _ := strings.Cut("[yarn.cotton]"+shelf, "[warp]")
	options := brief.Options{Shelf: func(string) ([]byte, error) { return []byte(shelf), nil }}
	b, err := Open(context.Background(), "b.toml",
		[]byte("shelf = \"s.toml\"\n"+text+"[warp]"+rest), options)
	require.NoError(t, err)
	was := b.Plan().Yarn
	do(t, b, Op{Do: "colour.hex", Colour: "rosehip", Value: "#abcdef"})
	assert.Contains(t, string(b.Text()), "[[colour]]\nname = \"rosehip\"\nhex = \"#abcdef\"")
	for i, y := range b.Plan().Yarn {
		assert.Equal(t, was[i].Colour, y.Colour)
		assert.Equal(t, was[i].OnHandM, y.OnHandM)
	}
}

func TestPiecesMove(t *testing.T) {
	b := open(t, string(brief.Default()))
	names := func() (all []string) {
		for _, p := range b.Plan().Pieces {
			all = append(all, p.Name)
		}
		return all
	}
	look := func() map[string][]string {
		all := map[string][]string{}
		for i, p := range b.Plan().Pieces {
			all[p.Name] = words(pieceRuns(b.Plan(), i))
		}
		return all
	}
	was := look()
	t.Run("to the front", func(t *testing.T) {
		do(t, b, Op{Do: "piece.move", Strip: 2, To: 0})
		assert.Equal(t, []string{"windfall", "first light", "ladder", "orchard wall", "lantern",
			"last apples"}, names())
		assert.Equal(t, was, look(), "a piece looks the same in another place")
	})
	t.Run("copied", func(t *testing.T) {
		do(t, b, Op{Do: "piece.copy", Strip: 5})
		assert.Equal(t, "last apples 2", names()[6])
		assert.Equal(t, was["last apples"], look()["last apples 2"])
	})
	t.Run("dropped", func(t *testing.T) {
		do(t, b, Op{Do: "piece.drop", Strip: 0})
		delete(was, "windfall")
		was["last apples 2"] = was["last apples"]
		assert.Equal(t, was, look())
	})
	t.Run("a smaller set", func(t *testing.T) {
		do(t, b, Op{Do: "setting", Key: "set.pieces", Value: "3"})
		assert.Equal(t, []string{"first light", "ladder", "orchard wall"}, names())
	})
	t.Run("a larger one", func(t *testing.T) {
		do(t, b, Op{Do: "setting", Key: "set.pieces", Value: "5"})
		assert.Equal(t, "piece 5", names()[4])
	})
	t.Run("a rhythm for a new piece", func(t *testing.T) {
		do(t, b, Op{Do: "rhythm", Strip: 4,
			Rhythm: map[string]string{"kind": "even", "stripes": "3"}})
		assert.Len(t, b.Plan().Pieces[4].Runs, 3)
		agrees(t, b)
	})
}

// Rhythms under headings and in dotted keys give way as a whole.
func TestRhythmsHoweverWritten(t *testing.T) {
	text := strings.Replace(string(brief.Default()),
		"rhythm  = { kind = \"fibonacci\", terms = 5, from = 2, direction = \"falling\", "+
			"mirror = true }", "rhythm.kind = \"even\"\nrhythm.stripes = 3", 1)
	text = strings.Replace(text, "name = \"first light\"\n",
		"name = \"first light\"\n[piece.rhythm]\nkind = \"even\" # so\nstripes = 4\n", 1)
	b := open(t, text)
	do(t, b, Op{Do: "rhythm", Strip: Warp,
		Rhythm: map[string]string{"kind": "repeat", "weights": "2 1,1"}})
	do(t, b, Op{Do: "rhythm", Strip: 0,
		Rhythm: map[string]string{"kind": "euclid", "mirror": "true"}})
	agrees(t, b)
	assert.NotContains(t, string(b.Text()), "[piece.rhythm]")
	assert.Contains(t, string(b.Text()),
		"rhythm = { kind = \"repeat\", weights = [2, 1, 1], times = 2 }")
	for _, kind := range AllLists().Kinds {
		do(t, b, Op{Do: "rhythm", Strip: Warp, Rhythm: map[string]string{"kind": kind.Name}})
		assert.Equal(t, kind.Name, b.View().Warp.Rhythm["kind"])
		for _, p := range kind.Parameters {
			assert.NotEmpty(t, b.View().Warp.Rhythm[p.Key], p.Key)
		}
	}
}

// random makes an operation that may or may not be possible.
func random(chance *rand.Rand, b *Bench) Op {
	all := slices.Sorted(maps.Keys(operations()))
	op := Op{Do: all[chance.IntN(len(all))], Strip: chance.IntN(9) - 2, Run: chance.IntN(9),
		To: chance.IntN(9) - 3}
	names := []string{"none"}
	for _, c := range b.brief.Colours {
		names = append(names, c.Name)
	}
	op.Colour = names[chance.IntN(len(names))]
	values := []string{"#12ab9f", "A", "B", "plain", "shuffle", "cycle", "shares", "300 m", "7",
		"52 cm", "<script>", "new \"name\"", "linen", "in"}
	op.Value = values[chance.IntN(len(values))]
	op.Key = []string{"ground", "hem", "separator", "set.width", "set.length", "cloth.sett",
		"title", "set.pieces", "units", "linen"}[chance.IntN(10)]
	kinds := sequence.KindNames()
	op.Rhythm = map[string]string{"kind": kinds[chance.IntN(len(kinds))],
		"mirror": []string{"true", "false"}[chance.IntN(2)]}
	op.Blocks = map[string]string{"letters": []string{"", "A", "ABA", "BAB"}[chance.IntN(4)],
		"shares": []string{"", "1, 2", "x"}[chance.IntN(3)],
		"edges":  []string{"free", "stripes", ""}[chance.IntN(3)],
		"centre": []string{"", "40%", "1 cm"}[chance.IntN(3)]}
	return op
}

// A thousand random edits: what is done has a plan that the text gives anew,
// what is refused changes nothing, and all of it can be undone and done again.
func TestAThousandEdits(t *testing.T) {
	n := edits()
	chance := rand.New(rand.NewPCG(7, 7))
	b := open(t, string(brief.Default()))
	done := 0
	for i := range n {
		before, op := string(b.Text()), random(chance, b)
		if strings.HasPrefix(op.Do, "piece") && op.Do != "piece.move" && i%4 > 0 ||
			strings.HasSuffix(op.Do, ".open") && i < n*4/5 {
			continue // keep the set small, and most of it quick
		}
		if _, err := b.Do(context.Background(), op); err != nil {
			require.Equal(t, before, string(b.Text()), "%+v", op)
			continue
		}
		done++
		if i%10 == 0 {
			agrees(t, b)
		}
	}
	assert.Greater(t, done, n*3/20, "enough of them were possible")
	end := string(b.Text())
	for undo, _ := b.Steps(); undo > 0; undo-- {
		_, err := b.Undo(context.Background())
		require.NoError(t, err)
	}
	assert.Equal(t, string(brief.Default()), string(b.Text()))
	for _, redo := b.Steps(); redo > 0; redo-- {
		_, err := b.Redo(context.Background())
		require.NoError(t, err)
	}
	assert.Equal(t, end, string(b.Text()))
	agrees(t, b)
}

// colourNames are the colours of a piece's runs.
func colourNames(b *Bench, piece int) (all []string) {
	for _, r := range pieceRuns(b.plan, piece) {
		all = append(all, r.colour)
	}
	return all
}

// The shares of blocks change as asked, and nothing else does.
func TestShare(t *testing.T) {
	b := open(t, string(brief.Default()))
	before := pieceRuns(b.Plan(), 5)
	do(t, b, Op{Do: "share", Strip: 5, Value: "B", To: 50})
	after, of := pieceRuns(b.Plan(), 5), map[string]int{}
	require.Len(t, after, len(before))
	for i := range after {
		of[after[i].block] += after[i].units
		assert.Equal(t, before[i].block+before[i].colour, after[i].block+after[i].colour)
	}
	assert.Equal(t, units(before), units(after))
	assert.Equal(t, of["A"], of["B"], "half and half")
	assert.Equal(t, 16, of[""], "plain stays")
	agrees(t, b)
	_, err := b.Do(context.Background(), Op{Do: "share", Strip: 5, Value: "C", To: 50})
	assert.ErrorContains(t, err, "two blocks")
}

// A stripe divided in another colour can be seen to be.
func TestDividedInAnotherColour(t *testing.T) {
	b := open(t, string(brief.Default()))
	do(t, b, Op{Do: "split", Strip: Warp, Run: 0, Colour: "sloe"})
	runs := warpRuns(b.Plan())
	assert.Equal(t, []string{"A 15 oat", "A 14 sloe"}, words(runs[:2]))
	agrees(t, b)
}

// A kind of yarn that is new is there to be used, and what is said of one is in the text.
func TestYarns(t *testing.T) {
	b := open(t, string(brief.Default()))
	do(t, b, Op{Do: "yarn.set", Colour: "tow", Key: "count", Value: "8/1 linen"})
	do(t, b, Op{Do: "yarn.set", Colour: "tow", Key: "package", Value: "250 g"})
	do(t, b, Op{Do: "colour.yarn", Colour: "sloe", Value: "tow"})
	agrees(t, b)
	yarns := b.View().Yarns
	assert.Equal(t, Yarn{"tow", "8/1 linen", "250 g", ""}, yarns[len(yarns)-1])
	_, err := b.Do(context.Background(),
		Op{Do: "yarn.set", Colour: "a b", Key: "count", Value: "8/1 linen"})
	assert.ErrorContains(t, err, "can't be the name of a yarn")
	_, err = b.Do(context.Background(),
		Op{Do: "yarn.set", Colour: "tow", Key: "count", Value: "thick"})
	assert.Error(t, err)
}
