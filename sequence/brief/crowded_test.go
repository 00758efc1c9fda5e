package brief

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// crowds are texts with so many keys together, none of which a brief has.
var crowds = map[string]func(n int) string{
	"braces": func(n int) string { return "x = { " + numbered("k%d = 1", ", ", n) + " }\n" },
	"lines":  func(n int) string { return numbered("k%d = 1\n", "", n) },
	"dotted": func(n int) string { return "[yarn]\n" + numbered("k%d.tex = 1\n", "", n/2) },
	"yarns":  func(n int) string { return numbered("[yarn.k%d]\ntex = 100\n", "", n) },
}

func numbered(form, between string, n int) string {
	all := make([]string, n)
	for i := range all {
		all[i] = fmt.Sprintf(form, i)
	}
	return strings.Join(all, between)
}

// TestCrowded: more keys in one table than the TOML reader takes quickly are refused,
// where they are too many, before it begins; lists of tables may hold more in all.
func TestCrowded(t *testing.T) {
	for _, one := range []struct{ name, at string }{
		{"braces", "b.toml:1:4897"}, {"lines", "b.toml:501:1"},
		{"dotted", "b.toml:252:1"}, {"yarns", "b.toml:1001:2"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", []byte(crowds[one.name](500)), Options{})
			assert.NotContains(t, err.Error(), "too many keys")
			_, err = Parse("b.toml", []byte(crowds[one.name](600)), Options{})
			assert.EqualError(t, err, one.at+": these are too many keys: "+
				"a table may have 500, all headings together 1000")
			problems, _ := err.(Problems)
			assert.Contains(t, problems[0].Hint, "is this the right file?")
		})
	}
	t.Run("a long list of colours in one line", func(t *testing.T) {
		const colour = `{ name = "c%d", hex = "#4b1f3f" }`
		list := "colour = [" + numbered(colour, ", ", 500) + "]\nyarn.cotton.tex = 100\n"
		_, colours, err := Stock(Shelf{"shelf.toml", []byte(list)})
		assert.NoError(t, err)
		assert.Len(t, colours, 500)
	})
	t.Run("equals signs that are no keys", func(t *testing.T) {
		text := "# " + strings.Repeat("=", 3000) + "\n" + small
		_, err := Parse("b.toml", []byte(text), Options{})
		assert.NoError(t, err)
	})
}

// BenchmarkCrowd reads such texts.
func BenchmarkCrowd(b *testing.B) {
	for name, text := range crowds {
		for _, n := range []int{62, 500} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				given := []byte(text(n))
				for b.Loop() {
					Parse("b.toml", given, Options{})
				}
			})
		}
	}
}

// BenchmarkUnknownNames reads a list of names that no colour of a large shelf has.
func BenchmarkUnknownNames(b *testing.B) {
	shelf := numbered("[[colour]]\nname = \"colour number %d\"\nhex = \"#000000\"\n", "", 500)
	for _, n := range []int{5000, 40_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			vary := "[vary]\ncolours = [" + numbered(`"colour of %d"`, ", ", n) + "]\n"
			given := []byte(small + shelf + vary)
			for b.Loop() {
				Parse("b.toml", given, Options{})
			}
		})
	}
}
