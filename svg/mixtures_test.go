package svg

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/contrast"
	"stripesong/sequence/plan"
)

// reportOf is the report on a brief with changes made.
func reportOf(t testing.TB, text []byte, changes ...brief.Change) *contrast.Report {
	t.Helper()
	text, err := brief.Edit("test.toml", text, changes)
	require.NoError(t, err)
	b, err := brief.Parse("test.toml", text,
		brief.Options{More: []brief.Shelf{{Name: "more.toml", Text: moreColours(t)}}})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	r, err := contrast.Make(context.Background(), b, p, contrast.Question{})
	require.NoError(t, err)
	return r
}

// moreColours is a shelf whose names try to be more than names.
func moreColours(t testing.TB) []byte {
	var b strings.Builder
	b.WriteString("[yarn.cotton]\ncount = \"8/2 cotton\"\n")
	for i := range 40 {
		b.WriteString("[[colour]]\nyarn = \"cotton\"\nname = '" + strconv.Itoa(i) +
			` </text><script> "onload=x` + "'\nhex = \"#" + shelf[i%len(shelf)].RGB.Hex()[1:] +
			"\"\n")
	}
	return []byte(b.String())
}

// sheets draws the sheet of mixtures and of swatches.
func sheets(t testing.TB) map[string][]byte {
	all := make(map[string][]byte)
	for name, changes := range map[string][]brief.Change{
		"default":  nil,
		"one warp": {{Key: "warp.colours", Value: `["oat"]`}},
		"long title": {{Key: "title",
			Value: `"` + strings.Repeat("Orchard & <kitchen> towels ", 20) + `"`}},
		"many warps": {{Key: "warp.colours",
			Value: `["oat", "barley", "damson", "rosehip", "leaf shade", "sloe"]`},
			{Key: "warp.rhythm", Value: `{ kind = "even", stripes = 12 }`}},
	} {
		var b bytes.Buffer
		require.NoError(t, Contrast(&b, reportOf(t, brief.Default(), changes...)), name)
		all[name] = b.Bytes()
	}
	for _, n := range []int{0, 1, 9} {
		var b bytes.Buffer
		require.NoError(t, Swatches(&b, `A "title" <b>`, "from a photo & a shelf", swatchesOf(n)))
		all[strconv.Itoa(n)+" swatches"] = b.Bytes()
	}
	return all
}

func swatchesOf(n int) (all []Swatch) {
	for i := range n {
		all = append(all, Swatch{Name: shelf[i%len(shelf)].Name + strings.Repeat(" and more", i),
			Colour: shelf[i%len(shelf)].RGB,
			Note:   "12.3 % of the picture; for #123456, 4.2 dE00 off"})
	}
	return all
}

func TestSheetsHoldNothingOfTheUsersButText(t *testing.T) {
	for name, text := range sheets(t) {
		tree(t, text).walk(func(n *node) {
			require.True(t, elements[n.Name], "%s: <%s>", name, n.Name)
			for key, value := range n.Attr {
				require.NotNil(t, attribute[key], "%s: %s=%q", name, key, value)
				require.Regexp(t, attribute[key], value, "%s: %s", name, key)
			}
		})
	}
}

func TestNoTextOfASheetOverlaps(t *testing.T) {
	for name, text := range sheets(t) {
		size := strings.Fields(tree(t, text).Attr["viewBox"])
		w, _ := strconv.ParseFloat(size[2], 64)
		h, _ := strconv.ParseFloat(size[3], 64)
		all := boxes(t, text)
		require.NotEmpty(t, all)
		for i, a := range all {
			assert.True(t, a.x0 > 0 && a.y0 > 0 && a.x1 < w && a.y1 < h, "%s: off the sheet: %+v",
				name, a)
			for _, b := range all[:i] {
				assert.False(t, a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1,
					"%s: %+v over %+v", name, a, b)
			}
		}
	}
}

// TestALargeShelfStaysReadable: the best and those in use are drawn, and how
// many are left out is said.
func TestALargeShelfStaysReadable(t *testing.T) {
	r := reportOf(t, brief.Default())
	var b bytes.Buffer
	require.NoError(t, Contrast(&b, r))
	text := b.String()
	assert.Equal(t, mixRows*2, strings.Count(text, "on barley over barley"),
		"a cell for each row, in colour and in grey")
	assert.Contains(t, text, "31 more pattern colours") // 47 less 16
	for _, used := range []string{"damson", "rosehip", "leaf shade", "sloe"} {
		assert.Contains(t, text, used+" on oat over oat")
	}
}

func TestGoldenSheets(t *testing.T) {
	b, err := brief.Parse("default.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	r, err := contrast.Make(context.Background(), b, p, contrast.Question{})
	require.NoError(t, err)
	for name, draw := range map[string]func(*bytes.Buffer) error{
		"contrast.svg": func(to *bytes.Buffer) error { return Contrast(to, r) },
		"swatches.svg": func(to *bytes.Buffer) error {
			return Swatches(to, "Nine", "as they come", swatchesOf(9))
		},
	} {
		var drawn bytes.Buffer
		require.NoError(t, draw(&drawn))
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, drawn.Bytes(), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, drawn.Bytes()),
			"%s differs from its golden file; look at it and run with -update", name)
	}
}

func TestSheetsReturnWriteErrors(t *testing.T) {
	r := reportOf(t, brief.Default())
	assert.Error(t, Contrast(new(failing), r))
	assert.Error(t, Swatches(new(failing), "x", "", swatchesOf(3)))
}
