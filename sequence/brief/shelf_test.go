package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wool is a shelf with a colour of its own and one that the small brief has too.
const wool = `[yarn.wool]
tex = 250

[[colour]]
name    = "moss"
hex     = "#556b2f"
yarn    = "wool"
on_hand = "1 kg"

[[colour]]
name = "oat"
hex  = "#000000"
yarn = "wool"
`

func names(colours []Colour) (all []string) {
	for _, c := range colours {
		all = append(all, c.Name+" "+c.RGB.Hex())
	}
	return all
}

func TestShelves(t *testing.T) {
	want := []string{"oat #efe6d2", "plum #5a2a4a", "moss #556b2f"}
	t.Run("the one the brief names", func(t *testing.T) {
		text := "shelf = \"wool.toml\"\n" + small
		b, err := Parse("b.toml", []byte(text), Options{Shelf: func(name string) ([]byte, error) {
			assert.Equal(t, "wool.toml", name)
			return []byte(wool), nil
		}})
		require.NoError(t, err)
		assert.Equal(t, want, names(b.Colours), "the brief's own colours win")
		assert.True(t, b.Colours[2].Shelf)
		assert.Equal(t, "4000", b.Colours[2].OnHandM.RatString())
	})
	t.Run("further ones, which may be briefs", func(t *testing.T) {
		more := []Shelf{{"wool.toml", []byte("title = \"Wool\"\n[set]\npieces = 9\n" + wool)}}
		b, err := Parse("b.toml", []byte(small), Options{More: more})
		require.NoError(t, err)
		assert.Equal(t, want, names(b.Colours))
		assert.Equal(t, 2, b.Set.Pieces)
	})
	t.Run("a further one that is no TOML", func(t *testing.T) {
		more := []Shelf{{"wool.toml", []byte("= 3")}}
		_, err := Parse("b.toml", []byte(small), Options{More: more})
		assert.EqualError(t, err, "wool.toml:1:1: invalid character at start of key: U+003D '='")
	})
}

func TestStock(t *testing.T) {
	t.Run("of a shelf", func(t *testing.T) {
		yarns, colours, err := Stock(Shelf{"wool.toml", []byte(wool)})
		require.NoError(t, err)
		assert.Len(t, yarns, 1)
		assert.Equal(t, []string{"moss #556b2f", "oat #000000"}, names(colours))
	})
	t.Run("of a brief", func(t *testing.T) {
		_, colours, err := Stock(Shelf{"b.toml", []byte(small)})
		require.NoError(t, err)
		assert.Equal(t, []string{"oat #efe6d2", "plum #5a2a4a"}, names(colours))
	})
	t.Run("of yarns that are only named", func(t *testing.T) {
		_, only, _ := strings.Cut(wool, "tex = 250\n")
		yarns, colours, err := Stock(Shelf{"c.toml", []byte(only)})
		require.NoError(t, err)
		assert.Equal(t, "wool", yarns[0].Name)
		assert.Nil(t, colours[0].OnHandM, "a weight of an unknown yarn is no length")
	})
	for _, one := range []struct{ name, text, says string }{
		{"no colours", "title = \"x\"\n", "s.toml:1:1: colour: is missing"},
		{"no TOML", "= 3", "s.toml:1:1: invalid character at start of key: U+003D '='"},
		{"an unknown key", wool + "shade = 1\n", "s.toml:14:1: colour.shade: there is no such key"},
	} {
		t.Run(one.name+" is refused", func(t *testing.T) {
			_, _, err := Stock(Shelf{"s.toml", []byte(one.text)})
			assert.EqualError(t, err, one.says)
		})
	}
}

func TestScatterOf(t *testing.T) {
	for _, one := range []struct{ name, text, want string }{
		{"the brief's", changed(t, set("cloth.scatter", "0.25")), "1/4"},
		{"the usual one, of a shelf", wool, "1/50"},
	} {
		t.Run(one.name, func(t *testing.T) {
			got := ScatterOf("b.toml", []byte(one.text), Options{})
			assert.Equal(t, one.want, got.RatString())
		})
	}
}
