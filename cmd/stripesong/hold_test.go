package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

// openSet is a brief of five pieces, the first written by hand, the others chosen
// by the program.
const openSet = `title = "open set"
[set]
pieces = 5
width = "30 cm"
length = "40 cm"
[cloth]
sett = "8/cm"
ground = "8/cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "fog"
hex = "#cfd3d2"
[[colour]]
name = "slate"
hex = "#4a5560"
[[colour]]
name = "rowan"
hex = "#8e2a2b"
[warp]
colours = ["fog"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "fog"
colours = ["slate", "rowan"]
[vary]
candidates = 60
[[piece]]
name = "one"
runs = ["A 40 slate", "B 60 rowan", "A 40 slate"]
`

// commandSays runs a command that must succeed and returns what it says.
func commandSays(t *testing.T, args ...string) string {
	t.Helper()
	var out, mistakes strings.Builder
	code := run(args, strings.NewReader(""), &out, &mistakes, func(string) string {
		return ""
	}, never)
	require.Equal(t, exitGood, code, "%v: %s", args, mistakes.String())
	return out.String()
}

// Whatever is kept, for whichever piece and however drawn: what changes besides is
// told, no more and no less, and with --hold nothing does. Every way is tried with
// every piece where all checks are run, and a third of them otherwise.
func TestKeepingTellsOrHolds(t *testing.T) {
	before := planned(t, []byte(openSet))
	told := 0
	for _, piece := range []int{1, 3, 5} {
		for k, keep := range []string{"1", "7"} {
			for i, how := range [][]string{{}, {"--as-runs"}, {"--seed", "5"}, {"--warp"}} {
				if os.Getenv("STRIPESONG_CI") == "" && (piece/2+k+i)%3 > 0 {
					continue
				}
				t.Run(fmt.Sprint(piece, keep, how), func(t *testing.T) {
					name := filepath.Join(t.TempDir(), "brief.toml")
					require.NoError(t, os.WriteFile(name, []byte(openSet), 0o600))
					args := append([]string{"try", name, "--count", "8", "--piece",
						fmt.Sprint(piece), "--keep", keep}, how...)
					loose, held := filepath.Join(t.TempDir(), "loose.toml"),
						filepath.Join(t.TempDir(), "held.toml")
					said := commandSays(t, append(args, "--out", loose)...)
					changed := changedBeside(before, planned(t, read(t, loose)), said)
					if len(changed) > 0 {
						told++
						assert.Contains(t, said, "pieces that changed too: "+
							strings.Join(changed, ", ")+"\n")
						code, _, mistakes := call(args...)
						assert.Equal(t, exitFailed, code)
						assert.Contains(t, mistakes,
							": "+strings.Join(changed, ", ")+"\nstripesong: hint: add --hold")
						assert.Contains(t, mistakes, "error: this would change ")
						assert.Equal(t, openSet, string(read(t, name)))
						commandSays(t, append(args, "--anew")...)
						assert.Equal(t, openSet,
							string(read(t, strings.TrimSuffix(name, ".toml")+"-before.toml")))
						assert.Equal(t, string(read(t, loose)), string(read(t, name)))
					} else {
						assert.NotContains(t, said, "other pieces")
					}
					require.NoError(t, os.WriteFile(name, []byte(openSet), 0o600))
					said = commandSays(t, append(args, "--hold", "--out", held)...)
					assert.NotContains(t, said, "other pieces")
					assert.Empty(t, changedBeside(before, planned(t, read(t, held)), said))
				})
			}
		}
	}
	assert.Positive(t, told)
}

// changedBeside are the pieces that differ between two plans, but for the one that a
// choice was written as.
func changedBeside(before, after *plan.Plan, said string) (names []string) {
	for i := range before.Pieces {
		name := fmt.Sprintf("%q", after.Pieces[i].Name)
		about := strings.Contains(said, "as "+name+"\n")
		if !about && fmt.Sprint(before.Pieces[i].Runs) != fmt.Sprint(after.Pieces[i].Runs) {
			names = append(names, name)
		}
	}
	return names
}

// A remedy that is taken tells which pieces are woven otherwise, and offers no flag
// that check does not have.
func TestATakenRemedyTellsWhatItChanges(t *testing.T) {
	text := read(t, "../../examples/short-shelf/brief.toml")
	shelf := read(t, "../../examples/short-shelf/shelf.toml")
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("shelf.toml", shelf, 0o644))
	told := 0
	for n := 1; ; n++ {
		require.NoError(t, os.WriteFile("b.toml", text, 0o644))
		code, out, _ := call("check", "b.toml", "--take", fmt.Sprint(n))
		if code == exitFailed {
			break // there are no more
		}
		assert.NotContains(t, out, "--hold")
		assert.NotContains(t, out, "other pieces")
		told += strings.Count(out, "pieces that changed too: \"")
		if told > 0 && os.Getenv("STRIPESONG_CI") == "" {
			break // the rest where all checks are run
		}
	}
	assert.Positive(t, told, "one remedy is another colour in a piece")
}
