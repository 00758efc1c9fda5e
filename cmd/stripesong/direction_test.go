package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNamesGoBackAsEscapes: a colour whose name turns the direction of text is
// written into a brief as an escape, as it came, by all that writes its name.
func TestNamesGoBackAsEscapes(t *testing.T) {
	turned := strings.ReplaceAll(string(read(t, "testdata/small.toml")), "damson", `dam\u202eson`)
	for _, args := range [][]string{
		{"try", "b.toml", "--keep", "3", "--out", "new.toml"},
		{"try", "b.toml", "--keep", "3", "--as-runs", "--out", "new.toml"},
		{"try", "b.toml", "--warp", "--keep", "3", "--out", "new.toml"},
		{"plan", "b.toml", "--json", "--write-runs", "new.toml"},
		{"plan", "b.toml", "--json", "--weft-colours", "dam\u202eson", "--write-runs", "new.toml"},
	} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			t.Chdir(t.TempDir())
			require.NoError(t, os.WriteFile("b.toml", []byte(turned), 0o644))
			code, out, mistakes := call(args...)
			require.Equal(t, exitGood, code, mistakes)
			visible(t, out+mistakes)
			written := string(read(t, filepath.Join(".", "new.toml")))
			visible(t, written)
			as := `dam\u202eson`
			assert.GreaterOrEqual(t, strings.Count(written, as), strings.Count(turned, as))
			code, _, mistakes = call("check", "new.toml")
			assert.Equal(t, exitGood, code, mistakes)
		})
	}
}

// TestOneSpelling: in messages, in a table, in JSON, in drawings, in the packet and in
// a brief that is written, a control that turns text is spelled in one way.
func TestOneSpelling(t *testing.T) {
	small := string(read(t, "testdata/small.toml"))
	t.Chdir(t.TempDir())
	brief := strings.ReplaceAll(small, "damson", `d\u202En`)
	require.NoError(t, os.WriteFile("b.toml", []byte(brief), 0o644))
	_, shown, _ := call("plan", "b.toml", "--out", "o")
	_, answer, _ := call("plan", "b.toml", "--json")
	_, _, mistakes := call("check", "b.toml", "--weft-colours", "d\u202em")
	code, _, _ := call("try", "b.toml", "--keep", "3", "--as-runs")
	require.Equal(t, exitGood, code)
	for name, text := range map[string]string{
		"the table":       shown,
		"JSON":            answer,
		"messages":        mistakes,
		"a brief":         strings.ReplaceAll(string(read(t, "b.toml")), `d\u202En`, ""),
		"a drawing":       string(read(t, "o/piece-01.svg")),
		"the packet":      string(read(t, "o/packet.html")),
		"the spreadsheet": string(read(t, "o/yarn.csv")),
	} {
		t.Run(name, func(t *testing.T) {
			assert.Contains(t, text, `d\u202e`)
			assert.NotContains(t, strings.ToLower(text), `\u{202e}`)
			assert.NotContains(t, text, "202E")
			assert.NotContains(t, text, "d\u202e")
		})
	}
}

// turned is a text with every kind of control that steers: of direction, the
// 8-bit ones, those below space, a separator of lines.
const turned = "x\u202ey\u2066z\u200e\u200f\u061c\u009b31m\u0085\u007f\u0007\u2028\u2029e"

// TestNothingThatSteersIsShown: no command prints or writes one as it is, in its
// answer or in what it says of a mistake.
func TestNothingThatSteersIsShown(t *testing.T) {
	brief := strings.ReplaceAll(string(read(t, "testdata/small.toml")), "damson", escaped(turned))
	brief = strings.Replace(brief, `"first"`, `"`+escaped(turned)+`"`, 1)
	small := string(read(t, "testdata/small.toml"))
	files := map[string]string{
		"b.toml":    brief,
		"run.toml":  strings.ReplaceAll(small, "B 20 damson", "B 20 "+escaped(turned)),
		"raw.toml":  strings.ReplaceAll(small, "B 20 damson", "B 20 x\u202e\u2066\u200f\u061c"),
		"key.toml":  strings.Replace(small, "seed  = 3", `"`+escaped(turned)+`" = 3`, 1),
		"m.toml":    "[width]\n\"" + escaped(turned) + "\" = \"5 cm\"\n",
		"good.toml": "[width]\nreed = \"50 cm\"\nfell = \"47 cm\"\n",
	}
	for name, want := range map[string]int{
		"plan b.toml --out o":                           exitGood,
		"plan b.toml --json":                            exitGood,
		"plan b.toml --weft-colours " + turned:          exitGood,
		"plan b.toml --json --width " + turned:          exitFailed,
		"plan b.toml --" + turned:                       exitFailed,
		"try b.toml --piece x" + turned:                 exitFailed,
		"plan " + turned:                                exitFailed,
		turned:                                          exitFailed,
		"plan run.toml":                                 exitFailed,
		"plan raw.toml":                                 exitFailed,
		"check key.toml":                                exitFailed,
		"check b.toml":                                  exitGood,
		"contrast b.toml --all":                         exitGood,
		"contrast b.toml --json":                        exitGood,
		"contrast b.toml --sight " + turned:             exitFailed,
		"fit b.toml --warp 5yd":                         exitGood,
		"fit b.toml --warp " + turned:                   exitFailed,
		"palette list b.toml":                           exitGood,
		"palette spread b.toml":                         exitGood,
		"palette ramp b.toml --to oat --from " + turned: exitGood,
		"palette mix --from #ffffff --to " + turned:     exitFailed,
		"palette from-photo " + turned:                  exitFailed,
		"palette " + turned:                             exitFailed,
		"try b.toml --piece " + turned:                  exitGood,
		"try b.toml --out " + turned + ".svg":           exitGood,
		"try b.toml --keep 2 --out " + turned:           exitGood,
		"new " + turned + ".toml":                       exitGood,
		"new " + turned + "/x.toml":                     exitFailed,
		"plan b.toml --out " + turned + "/o":            exitGood,
		"calibrate b.toml m.toml":                       exitFailed,
		"calibrate b.toml good.toml --write=" + turned:  exitGood,
		"calibrate b.toml " + turned:                    exitFailed,
		"completion " + turned:                          exitFailed,
		"help " + turned:                                exitFailed,
	} {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			for file, text := range files {
				require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
			}
			code, out, mistakes := call(strings.Split(name, " ")...)
			assert.Equal(t, want, code, mistakes)
			visible(t, out+mistakes)
			require.NoError(t, os.Remove("raw.toml"))
			for _, file := range written(t, ".") {
				visible(t, strings.ReplaceAll(string(read(t, file)), "\r", ""))
			}
		})
	}
}

// escaped is a text in escapes of TOML.
func escaped(s string) string {
	var b strings.Builder
	for _, r := range s {
		fmt.Fprintf(&b, `\u%04X`, r)
	}
	return b.String()
}

// written are the files below dir that a person or a program reads as text.
func written(t *testing.T, dir string) (all []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() &&
			slices.Contains([]string{".toml", ".json", ".csv"}, filepath.Ext(path)) {
			all = append(all, path)
		}
		return err
	}))
	return all
}
