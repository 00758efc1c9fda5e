package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"html"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

// neededPlaces is where a plan tells what is needed of "oat": for each place its row.
type neededPlaces map[string]string

// placesOf plans a brief and looks in all of these places.
func placesOf(t *testing.T, text string) (places neededPlaces, warning string) {
	t.Helper()
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("b.toml", []byte(text), 0o644))
	code, out, errs := call("plan", "b.toml", "--out", "o")
	require.Equal(t, exitGood, code, errs)
	find := func(in, pattern string) string {
		t.Helper()
		found := regexp.MustCompile(pattern).FindString(in)
		require.NotEmpty(t, found, pattern)
		return found
	}
	packet := find(string(read(t, "o/packet.html")),
		`(?s)<caption>Yarn by colour and use.*?</table>`)
	sheet := string(read(t, "o/plan.svg"))
	bench, err := workbench.Open(context.Background(), "b.toml", []byte(text), brief.Options{})
	require.NoError(t, err)
	return neededPlaces{
		"summary": find(out, `(?m)^yarn .*$`) + "\n" + find(out, `(?m)^  oat  .*$`),
		"packet": html.UnescapeString(find(packet, `(?s)<thead>.*?</thead>`) +
			find(packet, `(?m)^.*>oat<.*$`)),
		"sheet":    html.UnescapeString(find(sheet, `(?s)Yarn in all.*?Warp`)),
		"yarn.csv": find(string(read(t, "o/yarn.csv")), `(?m)^oat,.*$`),
		"page":     bench.View().Colours[0].Needs,
	}, find(out, `(?s)warning "oat" as.*?\[yarn-short\]`)
}

// What a warning says is needed is what stands in every table, and where there is a
// sample its part is told.
func TestTablesAndWarningsNeedTheSame(t *testing.T) {
	short := strings.Replace(string(brief.Default()), `on_hand = "5200 m"`, `on_hand = "900 m"`, 1)
	inches := strings.Replace(short, `units = "cm"`, `units = "in"`, 1)
	without := regexp.MustCompile(`(?m)^(sample|retie) .*\n`).ReplaceAllString(short, "")
	for _, one := range []struct{ what, text, units, needed, sample string }{
		{"metres", short, "cm", "4019 m", "43 m"},
		{"yards", inches, "in", "4395 yd", "47 yd"},
		{"no sample", without, "cm", "3835 m", ""},
	} {
		t.Run(one.what, func(t *testing.T) {
			places, warning := placesOf(t, one.text)
			assert.Contains(t, warning, ": "+one.needed+" needed, ")
			for where, row := range places {
				if where != "yarn.csv" {
					assert.Contains(t, row, one.needed, where)
				}
			}
			cells := readCells(t, places["yarn.csv"])
			sum := cells[4] + cells[5] + cells[6] + cells[9]
			assert.Equal(t, one.needed, inCells(sum, one.units), "what the row adds up to")
			assert.Equal(t, one.needed, inCells(cells[10], one.units))
			if one.sample == "" {
				for where, row := range places {
					assert.NotContains(t, strings.ToLower(row), "sample", where)
				}
				return
			}
			assert.Equal(t, one.sample, inCells(cells[9], one.units))
			assert.Regexp(t, `incl\. sample.*\n.* `+one.needed+` .* `+one.sample+` `,
				places["summary"])
			assert.Regexp(t, `>Sample<.*>`+one.sample+`</td><td class="n"><b>`+one.needed+`<`,
				strings.ReplaceAll(places["packet"], "\n", " "))
			assert.Regexp(t, `\d (m|yd) of this is the sample's weft<`, places["sheet"])
			assert.Equal(t, "needs "+one.needed+" (sample "+one.sample+")", places["page"])
		})
	}
}

// inCells is a figure of yarn.csv, in metres or yards, as tables have it.
func inCells(n float64, units string) string {
	unit := map[string]string{"cm": "m", "in": "yd"}[units]
	return fmt.Sprintf("%.0f %s", n, unit)
}

// readCells are the numbers of a row of yarn.csv, 0 where there is none.
func readCells(t *testing.T, row string) (all []float64) {
	t.Helper()
	cells, err := csv.NewReader(strings.NewReader(row)).Read()
	require.NoError(t, err)
	for _, c := range cells {
		n, _ := strconv.ParseFloat(c, 64)
		all = append(all, n)
	}
	return all
}
