package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/plan"
)

func TestSlug(t *testing.T) {
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
		assert.Equal(t, want, slug(title), "%q", title)
	}
}

func FuzzSlug(f *testing.F) {
	for _, seed := range []string{"Orchard", "../x", "CON", strings.Repeat("手", 99), "a\u0301", "\xff"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, title string) {
		name := slug(title)
		assert.True(t, filepath.IsLocal(name) && filepath.Base(name) == name && name != ".", "%q", name)
		assert.True(t, utf8.ValidString(name) && len(name) <= longestSlug+len("-towels"))
		assert.NotRegexp(t, `^[-.]|[-.]$|[/\\:*?"<>|\x00-\x20]`, name)
		assert.Equal(t, name, slug(name), "a slug of a slug is itself")
	})
}

func TestNumbersAreReadOneWay(t *testing.T) {
	for text, good := range map[string]bool{"0": true, "6": true, "-3": true, "120": true, "": false, "-": false, "010": false, "-01": false, "+5": false,
		"1_000": false, "0x10": false, "1e3": false, "1.0": false, " 6": false, "６": false, "NaN": false, "1234567890123456789": false} {
		assert.Equal(t, good, wholeNumber(text) == nil, "%q", text)
	}
	for text, good := range map[string]bool{"1.5": true, "3": true, "0.25": true, "-1.5": true, ".5": false, "5.": false, "1.": false, "1e3": false,
		"NaN": false, "Inf": false, "1,5": false, "00.5": false, "1.5.2": false, "": false, ".": false} {
		assert.Equal(t, good, plainNumber(text) == nil, "%q", text)
	}
}

func TestQuotedIsTOML(t *testing.T) {
	assert.Equal(t, `"a\"b\\c\u000a\u007f手"`, tomltext.Quote("a\"b\\c\n\x7f手"))
}

func TestTextCellsAreNoFormulas(t *testing.T) {
	for in, want := range map[string]string{"fog": "fog", "=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@sum": "'@sum",
		"\t=1": "␉=1", "\r=1": "␍=1", "＝1": "'＝1", "a=1": "a=1", "'tis": "'tis", "": ""} {
		assert.Equal(t, want, textCell(in), "%q", in)
	}
}

// TestYarnTableReadsBack reads the table with another reader than wrote it.
func TestYarnTableReadsBack(t *testing.T) {
	held, three, price, cost := 12.5, 3, "12.50", "37.50"
	p := &plan.Plan{Colours: []plan.Colour{{Name: `no. 1, "fog"`, Hex: "#aabbcc"}},
		Yarn: []plan.Yarn{{Colour: `no. 1, "fog"`, Yarn: "=x", TotalM: 1.25, SampleM: 0.5, OnHandM: &held, Packages: &three,
			Price: &price, Cost: &cost}, {Colour: "b\nc"}}}
	var b bytes.Buffer
	require.NoError(t, writeYarn(&b, p))
	assert.Equal(t, strings.Count(b.String(), "\n"), strings.Count(b.String(), "\r\n"), "lines end as RFC 4180 has it")
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, [][]string{yarnHeader,
		{`no. 1, "fog"`, "'=x", "#aabbcc", "0", "0", "0", "0", "1.25", "0", "0.5", "1.75", "12.5", "0", "0", "3", "12.50", "37.50"},
		{"b␊c", "", "", "0", "0", "0", "0", "0", "0", "0", "0", "", "0", "0", "", "", ""}}, rows)
}

func TestTableKeepsItsColumns(t *testing.T) {
	tab := table{left: map[int]bool{2: true}}
	tab.add("yarn", "needed", "", "short")
	tab.add("  手織", "968 m", "cotton", "")
	tab.add("  "+strings.Repeat("x", 40), "5 m", "wool", "")
	assert.Equal(t, []string{
		"yarn                    needed",
		"  手織                   968 m  cotton",
		"  xxxxxxxxxxxxxxxxxxx…     5 m  wool",
	}, tab.lines())
}

func TestProgressSpeaksOnlyOfWhatTakesLong(t *testing.T) {
	assert.Equal(t, time.Second, patience)
	var quick bytes.Buffer
	p := newProgress(&quick, time.Hour)
	p.stage("working out the plan")
	p.stop()
	p.stop()
	assert.Empty(t, quick.String())

	said := make(spoken, 1)
	p = newProgress(said, time.Nanosecond)
	p.stage("drawing plan.svg")
	assert.Regexp(t, `^stripesong: (drawing plan.svg)? ...\n$`, <-said, "however long it takes to come")
	p.stop()
}

// spoken hands on what is written.
type spoken chan string

func (s spoken) Write(text []byte) (int, error) {
	s <- string(text)
	return len(text), nil
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestAnswersThatCantBeWrittenAreFailures(t *testing.T) {
	for _, args := range [][]string{{"--help"}, {"plan", "--json"}, {"plan", "--help"}, {"check"}, {"--version"}, {"new", "-"}} {
		var mistakes bytes.Buffer
		code := run(args, strings.NewReader(""), full{}, &mistakes, func(string) string { return "" }, never)
		assert.Equal(t, exitFailed, code, "%v", args)
		assert.Contains(t, mistakes.String(), "no space left", "%v", args)
	}
}

// broken can't be read from.
type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("the pipe broke") }

func TestABriefThatBreaksOffIsNotPlanned(t *testing.T) {
	var out, mistakes bytes.Buffer
	code := run([]string{"plan", "-", "--json"}, io.MultiReader(strings.NewReader("title = \"x\"\n"), broken{}), &out, &mistakes, func(string) string { return "" }, never)
	assert.Equal(t, exitFailed, code)
	assert.Empty(t, out.String())
	assert.Contains(t, mistakes.String(), "the pipe broke")
}
