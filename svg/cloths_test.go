package svg

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// uneven is a structure of the weaver's own: woven over itself the pattern weft
// passes over five sixths of the ends of A and two thirds of B, over the other block
// over one third of B and one sixth of A.
const uneven = `
[structure]
name   = "uneven"
shafts = 4
order  = "P a P b"
units  = { A = [1, 2, 1, 2, 3, 2], B = [3, 4, 1, 4, 1, 4] }
sheds  = { A = [1, 2], B = [3, 4] }
tabby  = { a = [1, 3], b = [2, 4] }
`

// doubled has two pattern picks between ground picks.
const doubled = `
[structure]
name   = "doubled"
shafts = 4
order  = "P P a P P b"
units  = { A = [1, 2, 3, 2], B = [3, 4, 1, 4] }
sheds  = { A = [1, 2], B = [3, 4] }
tabby  = { a = [1, 3], b = [2, 4] }
`

// clothBrief is a small piece in colours far apart, with a plain run, narrow and
// wide stripes and hems of another yarn; structure is a name or a table.
func clothBrief(structure, sett, ground string, strands int) string {
	name, table := structure, ""
	if structure == uneven || structure == doubled {
		name, table = "", structure
	}
	if name != "" {
		name = fmt.Sprintf("structure = %q\n", name)
	}
	return fmt.Sprintf(`title = "Cloths"
[set]
pieces = 1
hem = "3 cm"
[cloth]
%ssett = %q
ground = %q
draw_in = "5%%"
take_up = "8%%"
shrink_width = "10%%"
shrink_length = "10%%"
weft_extra = "10%%"
strands = %d
[loom]
shafts = 8
treadles = 10
width = "100 cm"
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[yarn.linen]
count = "16/1 linen"
[[colour]]
name = "chalk"
hex = "#f4f1e8"
yarn = "cotton"
[[colour]]
name = "marigold"
hex = "#e08a1e"
yarn = "cotton"
[[colour]]
name = "ink"
hex = "#141c3a"
yarn = "linen"
[[colour]]
name = "moss"
hex = "#4d6b2c"
yarn = "cotton"
[warp]
runs = ["A 12 chalk", "B 3 marigold", "A 1 ink", "B 9 chalk", "A 4 marigold"]
[weft]
ground = "chalk"
hem = "ink"
[[piece]]
name = "one"
runs = ["A 9 ink", "plain 3", "B 1 moss", "A 2 marigold", "B 12 ink"]
%s`, name, sett, ground, strands, table)
}

// stripes are even ones in chalk, or moss, and ink.
const stripes = `colours = ["chalk", "ink"]
rhythm = { kind = "even", stripes = 7 }`

// cloths are plans of every structure and of setts and strands from sparse to
// crowded, of all examples and of the corners of the job.
func cloths(t testing.TB) map[string]*plan.Plan {
	made.Lock()
	defer made.Unlock()
	if made.plans != nil {
		return made.plans
	}
	all := corners(t)
	examples, err := filepath.Glob("../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, examples)
	for _, path := range examples {
		all[filepath.Base(filepath.Dir(path))] = planOf(t, path)
	}
	for i, structure := range []string{"halvdrall", "summer-and-winter", uneven, doubled} {
		name := []string{"halvdrall", "summer", "uneven", "doubled"}[i]
		for k, beat := range [][2]string{{"4/cm", "5/cm"}, {"8/cm", "8/cm"}, {"16/cm", "14/cm"}} {
			for _, strands := range []int{1, 2, 3, 6} {
				if !everything() && strands != []int{1, 2, 6}[(i+k)%3] {
					continue
				}
				text := clothBrief(structure, beat[0], beat[1], strands)
				all[fmt.Sprint(name, beat, strands)] = planFrom(t, text)
			}
		}
	}
	curtain := clothBrief("halvdrall", "10/cm", "10/cm", 1)
	curtain = regexp.MustCompile(`runs = .*`).ReplaceAllString(curtain, stripes)
	curtain = strings.Replace(curtain, "hem = ",
		"width = \"150 cm\"\nlength = \"250 cm\"\nhem = ", 1)
	all["curtain"] = planFrom(t, curtain)
	shown := clothBrief("halvdrall", "8/cm", "8/cm", 2)
	all["much in sight"] = planFrom(t,
		strings.Replace(shown, "hem = ", "hem_show = \"6 cm\"\nhem = ", 1))
	for _, sett := range []string{"5/cm", "8/cm", "16/cm"} {
		text := clothBrief("halvdrall", sett, "8/cm", 2)
		text = strings.Replace(text, "[cloth]", "[cloth]\nclosing_end = true", 1)
		all["closed "+sett] = planFrom(t, text)
		mirrored := `runs = ["A 12 chalk", "B 3 marigold", "A 5 ink", "B 3 marigold", "A 12 chalk"]`
		text = strings.Replace(text,
			`runs = ["A 12 chalk", "B 3 marigold", "A 1 ink", "B 9 chalk", "A 4 marigold"]`,
			mirrored, 1)
		require.Contains(t, text, mirrored)
		all["closed and mirrored "+sett] = planFrom(t, text)
	}
	made.plans = all
	return all
}

// everything tells whether every structure is drawn in every sett and from both sides,
// as where all checks are run. Otherwise some of each are.
func everything() bool { return os.Getenv("STRIPESONG_CI") != "" && !testing.Short() }

// made keeps the plans of [cloths], which are only read.
var made struct {
	sync.Mutex
	plans map[string]*plan.Plan
}

// planFrom reckons the plan of a brief's text.
func planFrom(t testing.TB, text string) *plan.Plan {
	t.Helper()
	b, err := brief.Parse("cloth.toml", []byte(text), brief.Options{Shelf: os.ReadFile})
	require.NoError(t, err)
	p, err := plan.Make(t.Context(), b)
	require.NoError(t, err)
	return p
}
