package folder

import (
	"bytes"
	"encoding/csv"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

func TestName(t *testing.T) {
	for title, want := range map[string]string{
		"Orchard kitchen towels": "orchard-kitchen-towels",
		"Weaver's  day -- no. 2": "weavers-day-no-2",
		"../../etc/passwd":       "etc-passwd",
		`C:\towels`:              "c-towels",
		"":                       "towels",
		" . ":                    "towels",
		"-rf":                    "rf",
		"NUL":                    "nul-towels",
		"com1":                   "com1-towels",
		"Com²":                   "com-towels",
		"console":                "console",
		"Übertuch e\u0301te":     "übertuch-e\u0301te",
		"\u0301x":                "x",
		"手織り":                    "手織り",
		"a\x00b\x1b[0m\u202ec":   "a-b-0m-c",
		"\xff":                   "towels",
	} {
		assert.Equal(t, want, Name(title), "%q", title)
	}
}

func FuzzName(f *testing.F) {
	for _, seed := range []string{"Orchard", "../x", "CON", strings.Repeat("手", 99), "a\u0301",
		"\xff"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, title string) {
		name := Name(title)
		assert.True(t, filepath.IsLocal(name) && filepath.Base(name) == name && name != ".",
			"%q", name)
		assert.True(t, utf8.ValidString(name) && len(name) <= longestName+len("-towels"))
		assert.NotRegexp(t, `^[-.]|[-.]$|[/\\:*?"<>|\x00-\x20]`, name)
		assert.Equal(t, name, Name(name), "a name made of a name is itself")
	})
}

func TestTextCellsAreNoFormulas(t *testing.T) {
	for in, want := range map[string]string{"fog": "fog", "=1+1": "'=1+1", "+1": "'+1", "-1": "'-1",
		"@sum": "'@sum",
		"\t=1": "␉=1", "\r=1": "␍=1", "＝1": "'＝1", "a=1": "a=1", "'tis": "'tis", "": ""} {
		assert.Equal(t, want, textCell(in), "%q", in)
	}
}

// TestYarnTableReadsBack reads the table with another reader than wrote it.
func TestYarnTableReadsBack(t *testing.T) {
	held, three, price, cost := 12.5, 3, "12.50", "37.50"
	p := &plan.Plan{Colours: []plan.Colour{
		{Name: `no. 1, "fog"`, RGB: palette.RGB{R: 0xaa, G: 0xbb, B: 0xcc}}},
		Yarn: []plan.Yarn{{Colour: `no. 1, "fog"`, Yarn: "=x", TotalM: 1.25, SampleM: 0.5,
			OnHandM: &held, Packages: &three,
			Price: &price, Cost: &cost}, {Colour: "b\nc"}}}
	var b bytes.Buffer
	require.NoError(t, Yarn(&b, p))
	assert.Equal(t, strings.Count(b.String(), "\n"), strings.Count(b.String(), "\r\n"),
		"lines end as RFC 4180 has it")
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, [][]string{YarnHeader,
		{`no. 1, "fog"`, "'=x", "#aabbcc", "0", "0", "0", "0", "1.25", "0", "0.5", "1.75", "12.5",
			"0", "0", "3", "12.50", "37.50"},
		{"b␊c", "", "", "0", "0", "0", "0", "0", "0", "0", "0", "", "0", "0", "", "", ""}}, rows)
}

// TestCellsAfterBlanks: a spreadsheet that trims must not find a formula.
func TestCellsAfterBlanks(t *testing.T) {
	for _, s := range []string{"=1+1", " =1+1", "\u00a0=1+1", " \u2003+x"} {
		assert.Equal(t, "'"+s, textCell(s))
	}
	assert.Equal(t, " oat", textCell(" oat"))
}
