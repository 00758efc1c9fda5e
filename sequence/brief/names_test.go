package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNamesThatAreTooLong: a name goes into every drawing, so that one of half a
// megabyte would make all of them as large.
func TestNamesThatAreTooLong(t *testing.T) {
	long, most := strings.Repeat("ö", MaxName+1), strings.Repeat("ö", MaxName)
	own := "[structure]\nname = \"%\"\nunits = { A = [1, 2, 3, 2], B = [3, 4, 1, 4] }\n" +
		"sheds = { A = [1, 2], B = [3, 4] }\ntabby = { a = [1, 3], b = [2, 4] }\n[cloth]"
	for _, one := range []struct{ what, old, new, says string }{
		{"title", `title = "six"`, `title = "%"`, "b.toml:1:9: title: has 1001 characters"},
		{"yarn", "[yarn.cotton]", `[yarn."%"]`, "yarn: the name of a yarn has 1001 characters"},
		{"structure", "[cloth]", own, "structure.name: has 1001 characters"},
		{"piece", `name = "first"`, `name = "%"`, "piece.name: has 1001 characters"},
		{"colour", `name = "fog"`, `name = "%"`, "colour.name: has 1001 characters"},
	} {
		t.Run(one.what, func(t *testing.T) {
			text := strings.Replace(named, `structure = "halvdrall"`+"\n", "", 1)
			require.Contains(t, text, one.old)
			with := func(name string) error {
				changed := strings.ReplaceAll(one.new, "%", name)
				changed = strings.Replace(text, one.old, changed, 1)
				_, err := Parse("b.toml", []byte(changed), Options{})
				return err
			}
			assert.ErrorContains(t, with(long), one.says)
			if one.what != "colour" { // others name it
				assert.NoError(t, with(most))
			}
		})
	}
	t.Run("a piece that is left out", func(t *testing.T) {
		text := strings.Replace(named, `name = "second"`, `name = "`+long+`"`, 1)
		fewer := Options{Set: []Override{{Key: "set.pieces", Value: "1", Flag: "--pieces"}}}
		_, err := Parse("b.toml", []byte(text), fewer)
		assert.ErrorContains(t, err, "piece.name: has 1001 characters")
	})
}

func TestNamesThatAreEmpty(t *testing.T) {
	for _, one := range []struct{ what, old, new, says string }{
		{"yarn", "[yarn.cotton]", `[yarn.""]`, "yarn: the name of a yarn is empty"},
		{"structure", "[cloth]", "[structure]\nname = \"\"\n[cloth]", "structure.name: is empty"},
		{"piece", `name = "first"`, `name = "  "`, "piece.name: is empty"},
		{"colour", `name = "fog"`, `name = ""`, "colour.name: is empty"},
	} {
		t.Run(one.what, func(t *testing.T) {
			require.Contains(t, named, one.old)
			text := strings.Replace(named, one.old, one.new, 1)
			_, err := Parse("b.toml", []byte(text), Options{})
			assert.ErrorContains(t, err, one.says)
		})
	}
	t.Run("a title", func(t *testing.T) {
		b, err := Parse("b.toml", []byte(strings.Replace(named, `"six"`, `""`, 1)), Options{})
		require.NoError(t, err)
		assert.Equal(t, "untitled", b.Title)
	})
}

// named is a brief with a name of every kind.
const named = `title = "six"
[set]
pieces = 2
width = "30 cm"
length = "40 cm"
[cloth]
structure = "halvdrall"
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
[warp]
colours = ["fog"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "fog"
colours = ["slate"]
rhythm = { kind = "even", stripes = 3 }
[[piece]]
name = "first"
[[piece]]
name = "second"
`
