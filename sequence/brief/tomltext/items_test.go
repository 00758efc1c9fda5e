package tomltext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestArrangeItems(t *testing.T) {
	for _, one := range []struct {
		name, text string
		order      []int
		want       string
	}{
		{"on one line", "x = [1, 2,3] # end\n", []int{2, 0, 1}, "x = [3, 1,2] # end\n"},
		{"on lines of their own", "x = [ # first\n  1, # one\n  # of two\n  2 # two\n  # last\n]\n",
			[]int{1, 0},
			"x = [ # first\n  # of two\n  2, # two\n  1, # one\n  # last\n]\n"},
		{"with blank lines", "x = [\n\n  1,\n\n  2,\n]\n", []int{1, 0},
			"x = [\n\n  2,\n\n  1,\n]\n"},
		{"a text over lines", "x = [\n  \"\"\"a\nb\"\"\", # ab\n  \"c\",\n]\n", []int{1, 0},
			"x = [\n  \"c\",\n  \"\"\"a\nb\"\"\", # ab\n]\n"},
		{"two on a line, without comments", "x = [1,\n  2, 3]\n", []int{2, 1, 0},
			"x = [3,\n  2, 1]\n"},
		{"two on a line, with comments", "x = [1, # one\n  2, 3]\n", []int{1, 0, 2},
			"# one\nx = [2, 1, 3]\n"},
		{"commas before", "x = [\n  1\n  , 2 # two\n]\n", []int{1, 0}, "# two\nx = [2, 1]\n"},
		{"as it is", "x = [\n  1, # one\n  2, 3]\n", []int{0, 1, 2},
			"x = [\n  1, # one\n  2, 3]\n"},
	} {
		t.Run(one.name, func(t *testing.T) {
			for _, end := range []string{"\n", "\r\n"} {
				with := func(s string) []byte { return []byte(strings.ReplaceAll(s, "\n", end)) }
				d, err := Parse("b.toml", with(one.text))
				require.NoError(t, err)
				got, err := d.ArrangeItems("x", one.order)
				require.NoError(t, err)
				assert.Equal(t, string(with(one.want)), string(got.Bytes()))
			}
		})
	}
	d, err := Parse("b.toml",
		[]byte("x = [1, 2]\ny = 1\nv = [[1], {a = 1}]\nw = []\n[[z]]\n[[z]]\n"))
	require.NoError(t, err)
	for _, order := range [][]int{nil, {0}, {0, 0}, {0, 1, 2}, {1, 2}, {-1, 0}} {
		_, err = d.ArrangeItems("x", order)
		assert.Error(t, err, order)
	}
	for _, path := range []string{"v", "w", "y", "z", "none"} {
		_, err = d.ArrangeItems(path, []int{1, 0})
		assert.Error(t, err, path)
	}
}

// Whatever a list looks like, its items are arranged and no comment goes.
func FuzzArrangeItems(f *testing.F) {
	for _, text := range texts(f) {
		f.Add(text, "warp.runs")
	}
	f.Add([]byte("x = [ # first\n  1, # one\n  # of two\n  2 # two\n  # last\n]\n"), "x")
	f.Add([]byte("x = [1, # one\n  2, '3'\n,]"), "x")
	f.Add([]byte("x = [\n  1\n  , 2 # two\n]\n"), "x")
	f.Add([]byte("x= [\n  1\n  ,#2   two\n]"), "x")
	f.Fuzz(func(t *testing.T, text []byte, path string) {
		before, err := Parse("b.toml", text)
		if err != nil {
			return
		}
		list := before.Root.Find(path)
		if list == nil || !list.assigned() || !singles(list) {
			return
		}
		n := len(list.Items)
		order := make([]int, n)
		for i := range order {
			order[i] = n - 1 - i
		}
		after, err := before.ArrangeItems(path, order)
		require.NoError(t, err)
		turned := after.Root.Find(path)
		require.Len(t, turned.Items, n)
		for to, from := range order {
			require.True(t, same(list.Items[from], turned.Items[to]), "%q", after.Bytes())
		}
		require.ElementsMatch(t, commentsIn(before.text), commentsIn(after.text), "%q",
			after.Bytes())
	})
}
