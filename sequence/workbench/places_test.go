package workbench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// commented is the tables of four pieces: with rules of their own, one of them under a
// heading, written out, and with nothing but a name.
const commented = `# the first of all
[[piece]]
name = "reed bed" # as in spring
colours = ["sloe"]
ground = "barley" # the warm one

[[piece]]
name = "weir"
[piece.rhythm] # under a heading
kind = "even" # as it is
stripes = 5

# written out
[[piece]]
name = "lock gate"
runs = ["A 30 damson", "plain 4"]

[[piece]]
name = "towpath"
`

// placed is the built-in brief with these pieces, and some without tables after them.
func placed(t testing.TB, pieces, after string) *Bench {
	t.Helper()
	text := string(brief.Default())
	at := strings.Index(text, "[[piece]]")
	require.Positive(t, at)
	text = strings.Replace(text[:at], "pieces    = 6", "pieces    = 6 ", 1)
	return open(t, text+pieces+after)
}

const fewTried = "\n[vary]\ncandidates = 60\n"

// tables is the text from the first table of a piece on, or what is above it that is
// known to begin so, up to [vary].
func tables(t testing.TB, b *Bench, from string) string {
	t.Helper()
	text := string(b.Text())
	at := strings.Index(text, from)
	require.Positive(t, at, text)
	text, _, _ = strings.Cut(text[at:], "\n[vary]")
	return text
}

func namesOf(b *Bench) (all []string) {
	for _, p := range b.Plan().Pieces {
		all = append(all, p.Name)
	}
	return all
}

// What is left to the program keeps its table, its name and every comment, and nothing
// else moves.
func TestWhatIsLeftToTheProgramKeepsItsPlace(t *testing.T) {
	t.Run("one piece", func(t *testing.T) {
		b := placed(t, commented, fewTried)
		before := namesOf(b)
		do(t, b, Op{Do: "piece.open", Strip: 1})
		assert.Equal(t, strings.Replace(commented, `[piece.rhythm] # under a heading
kind = "even" # as it is
stripes = 5
`, `open = true
# under a heading
# as it is
`, 1), tables(t, b, "# the first of all"))
		assert.Equal(t, before, namesOf(b))
		assert.Equal(t, 1, b.View().At)
		agrees(t, b)
	})
	t.Run("all but the kept", func(t *testing.T) {
		b := placed(t, commented, fewTried)
		before, kept := namesOf(b), words(pieceRuns(b.Plan(), 2))
		do(t, b, Op{Do: "pieces.open"})
		assert.Equal(t, `# the first of all
[[piece]]
name = "reed bed" # as in spring
open = true
# the warm one

[[piece]]
name = "weir"
open = true
# under a heading
# as it is

# written out
[[piece]]
name = "lock gate"
runs = ["A 30 damson", "plain 4"]

[[piece]]
name = "towpath"
open = true
`, tables(t, b, "# the first of all"))
		assert.Equal(t, before, namesOf(b))
		assert.Equal(t, kept, words(pieceRuns(b.Plan(), 2)))
		assert.Equal(t, "all pieces that are not kept are left to the program", b.View().Undo)
		agrees(t, b)
	})
	t.Run("one that has no table is left to it already", func(t *testing.T) {
		b := placed(t, commented, fewTried)
		before := string(b.Text())
		do(t, b, Op{Do: "piece.open", Strip: 4})
		assert.Equal(t, before, string(b.Text()))
	})
	t.Run("a held piece", func(t *testing.T) {
		b := placed(t, "[[piece]]\nname = \"weir\"\nhold = true # for good\n"+
			"runs = [\"A 3 damson\"]\nhem = \"oat\"\n", fewTried)
		do(t, b, Op{Do: "piece.open", Strip: 0})
		assert.Equal(t, "[[piece]]\nname = \"weir\"\nopen = true\n# for good\n",
			tables(t, b, "[[piece]]"))
		agrees(t, b)
	})
}

// A chosen piece that is kept or edited stays where it is and is called what it was.
func TestAChosenPieceIsKeptInItsPlace(t *testing.T) {
	t.Run("without a table", func(t *testing.T) {
		b := placed(t, "[[piece]]\nname = \"weir\"\n", fewTried)
		before, chosen := namesOf(b), words(pieceRuns(b.Plan(), 3))
		do(t, b, Op{Do: "keep", Strip: 3})
		assert.Contains(t, afterVary(t, b), "[[piece]]\nname = \"piece 4\"\nruns = "+
			runList(pieceRuns(b.Plan(), 3))+"\n\n[[piece]]\nname = \"piece 5\"")
		assert.Equal(t, 4, strings.Count(afterVary(t, b), "chosen = true"), "the others")
		assert.Equal(t, before, namesOf(b))
		assert.Equal(t, chosen, words(pieceRuns(b.Plan(), 3)))
		assert.Equal(t, 3, b.View().At)
		agrees(t, b)
	})
	t.Run("with one", func(t *testing.T) {
		b := placed(t, "[[piece]]\nname = \"weir\"\nopen = true # not yet\n", fewTried)
		before := namesOf(b)
		do(t, b, Op{Do: "part", Strip: 0, Key: "hem", Colour: "oat"})
		assert.Equal(t, "[[piece]]\nname = \"weir\"\n# not yet\nruns = "+
			runList(pieceRuns(b.Plan(), 0))+"\nhem = \"oat\"\n",
			tables(t, b, "[[piece]]"))
		assert.Equal(t, before, namesOf(b))
		agrees(t, b)
	})
	t.Run("a name is no edit", func(t *testing.T) {
		b := placed(t, "", fewTried)
		looks := pieceLooks(b, -1)
		do(t, b, Op{Do: "piece.name", Strip: 1, Value: "sedge"})
		assert.Equal(t, "[[piece]]\nopen = true\n\n[[piece]]\nopen = true\nname = \"sedge\"\n",
			tables(t, b, "[[piece]]"))
		assert.Equal(t, looks, pieceLooks(b, -1))
		assert.Equal(t, []string{"piece 1", "sedge", "piece 3", "piece 4", "piece 5", "piece 6"},
			namesOf(b))
		agrees(t, b)
	})
}

// afterVary is what stands after [vary], where new tables are put, behind those before.
func afterVary(t testing.TB, b *Bench) string {
	t.Helper()
	text := strings.Replace(string(b.Text()), fewTried, "", 1)
	return text[strings.Index(text, "[[piece]]"):]
}

// Pieces that are rearranged leave all others in their order, open or not.
func TestRearrangedPiecesLeaveTheOthers(t *testing.T) {
	const named = `[[piece]]
name = "a"

[[piece]]
name = "b"
open = true

[[piece]]
name = "c"

[[piece]]
name = "d"
open = true

[[piece]]
name = "e"
open = true

[[piece]]
name = "f"
`
	for _, one := range []struct {
		name string
		op   Op
		want string
		open string // that the program chooses
		at   int
	}{
		{"an open one moved up", Op{Do: "piece.move", Strip: 1, To: 3}, "a c d b e f", "d e", 3},
		{"an open one moved down", Op{Do: "piece.move", Strip: 4, To: 0}, "e a b c d f", "b d", 0},
		{"a told one moved", Op{Do: "piece.move", Strip: 5, To: 1}, "a f b c d e", "b d e", 1},
		{"an open one copied", Op{Do: "piece.copy", Strip: 1}, "a b b 2 c d e f", "d e", 2},
		{"a told one copied", Op{Do: "piece.copy", Strip: 2}, "a b c c 2 d e f", "b d e", 3},
		{"an open one taken out", Op{Do: "piece.drop", Strip: 1}, "a c d e f", "d e", 1},
		{"the last open one taken out", Op{Do: "piece.drop", Strip: 4}, "a b c d f", "b d", 4},
		{"a told one taken out", Op{Do: "piece.drop", Strip: 2}, "a b d e f", "b d e", 2},
		{"one edited", Op{Do: "split", Strip: 3}, "a b c d e f", "b e", 3},
	} {
		t.Run(one.name, func(t *testing.T) {
			b := placed(t, named, fewTried)
			looks := map[string]string{}
			for i, look := range pieceLooks(b, -1) {
				looks[namesOf(b)[i]] = look
			}
			do(t, b, one.op)
			assert.Equal(t, one.want, strings.Join(namesOf(b), " "))
			assert.Equal(t, one.at, b.View().At)
			var open []string
			for _, p := range b.View().Pieces {
				if p.Chosen {
					open = append(open, p.Name)
				}
			}
			assert.Equal(t, one.open, strings.Join(open, " "))
			for i, look := range pieceLooks(b, -1) {
				name := strings.TrimSuffix(namesOf(b)[i], " 2")
				if one.op.Do != "split" || i != one.op.Strip {
					assert.Equal(t, looks[name], look, name)
				}
			}
			agrees(t, b)
		})
	}
}

// Where pieces without tables draw by chance, which hangs on their places, all others
// look as they did when one is moved or taken out.
func TestDrawnPiecesLookTheSameInOtherPlaces(t *testing.T) {
	text := strings.Replace(string(brief.Default()),
		`rhythm    = { kind = "repeat", weights = [3, 1, 1, 1], times = 2 }`,
		`rhythm    = { kind = "random", stripes = 7, narrowest = 5, widest = 60 }`, 1)
	text = text[:strings.Index(text, "[[piece]]")]
	for _, op := range []Op{{Do: "piece.drop", Strip: 2}, {Do: "piece.move", Strip: 4, To: 1},
		{Do: "piece.copy", Strip: 0}} {
		t.Run(op.Do, func(t *testing.T) {
			b := open(t, text)
			before := pieceLooks(b, -1)
			require.NotEqual(t, before[0], before[1])
			do(t, b, op)
			want := map[string][]string{
				"piece.drop": {before[0], before[1], before[3], before[4], before[5]},
				"piece.move": {before[0], before[4], before[1], before[2], before[3], before[5]},
				"piece.copy": {before[0], before[0], before[1], before[2], before[3], before[4],
					before[5]},
			}[op.Do]
			assert.Equal(t, want, pieceLooks(b, -1))
			agrees(t, b)
		})
	}
}
