package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// tried is a sheet of trials of the worked brief, and what it draws.
func tried(t testing.TB, text []byte, what plan.Trying) (*plan.Trials, []byte) {
	t.Helper()
	b, err := brief.Parse("tried.toml", text, brief.Options{})
	require.NoError(t, err)
	sheet, err := plan.Try(t.Context(), b, what)
	require.NoError(t, err)
	var drawn bytes.Buffer
	require.NoError(t, Trials(&drawn, sheet))
	return sheet, drawn.Bytes()
}

func workedText(t testing.TB) []byte {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	return text
}

// A sheet of trials is strict XML; every number is on it, every text is on the
// paper and over no other, and all of a rule's seeds can be read.
func TestTrials(t *testing.T) {
	for _, what := range []plan.Trying{{Count: 24}, {Count: 60, Piece: 2}, {Count: 1},
		{Count: 7, Warp: true}} {
		for _, text := range [][]byte{workedText(t), brief.Default()} {
			sheet, drawn := tried(t, text, what)
			require.Len(t, sheet.Cells, what.Count)
			d := xml.NewDecoder(bytes.NewReader(drawn))
			for {
				_, err := d.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				require.NoError(t, err)
			}
			var words []string
			all := boxes(t, drawn)
			for i, a := range all {
				words = append(words, a.text)
				assert.True(t, a.x0 > 0 && a.y0 > 0 && a.x1 < float64(setWidth/mm) &&
					a.y1 < float64(setHeight/mm), "off the sheet: %+v", a)
				for _, b := range all[:i] {
					assert.False(t, a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1,
						"%+v over %+v", a, b)
				}
			}
			for _, c := range sheet.Cells {
				assert.Contains(t, words, strconv.Itoa(c.Number))
				for _, seed := range c.Seeds {
					assert.Contains(t, strings.Join(words, "\n"), strconv.FormatInt(seed, 10))
				}
			}
		}
	}
}

// All kinds of rhythm are on a sheet, and the first dozen of two dozen are the
// dozen.
func TestTrialsCover(t *testing.T) {
	more, drawn := tried(t, brief.Default(), plan.Trying{Count: 24})
	for _, kind := range []string{"even", "times", "fibonacci", "graded", "random", "accents"} {
		assert.Contains(t, string(drawn), kind)
	}
	rules := map[int]string{}
	for _, c := range more.Cells {
		rules[c.Number] = c.Rhythm
	}
	fewer, _ := tried(t, brief.Default(), plan.Trying{Count: 12})
	for _, c := range fewer.Cells {
		assert.Equal(t, rules[c.Number], c.Rhythm)
	}
}

func TestTrialsGolden(t *testing.T) {
	_, drawn := tried(t, workedText(t), plan.Trying{Count: 6})
	if *update {
		require.NoError(t, os.WriteFile("testdata/trials.svg", drawn, 0o644))
	}
	want, err := os.ReadFile("testdata/trials.svg")
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, drawn),
		"trials.svg differs from its golden file; look at it and run with -update")
}

// TestTrialsNameTheirColours: every trial, however long its rule in words.
func TestTrialsNameTheirColours(t *testing.T) {
	sheet, drawn := tried(t, brief.Default(), plan.Trying{Count: 24, Piece: 1})
	lines := 0
	for _, box := range boxes(t, drawn) {
		if strings.HasPrefix(box.text, "damson") || strings.HasPrefix(box.text, "rosehip") {
			lines++
		}
	}
	assert.Equal(t, len(sheet.Cells), lines)
}
