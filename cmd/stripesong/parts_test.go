package main

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/brief/tomltext"
)

func TestNumbersAreReadOneWay(t *testing.T) {
	for text, good := range map[string]bool{"0": true, "6": true, "-3": true, "120": true,
		"": false, "-": false, "010": false, "-01": false, "+5": false,
		"1_000": false, "0x10": false, "1e3": false, "1.0": false, " 6": false, "６": false,
		"NaN": false, "1234567890123456789": false} {
		assert.Equal(t, good, wholeNumber(text) == nil, "%q", text)
	}
	for text, good := range map[string]bool{"1.5": true, "3": true, "0.25": true, "-1.5": true,
		".5": false, "5.": false, "1.": false, "1e3": false,
		"NaN": false, "Inf": false, "1,5": false, "00.5": false, "1.5.2": false, "": false,
		".": false} {
		assert.Equal(t, good, plainNumber(text) == nil, "%q", text)
	}
}

func TestQuotedIsTOML(t *testing.T) {
	assert.Equal(t, `"a\"b\\c\u000a\u007f手"`, tomltext.Quote("a\"b\\c\n\x7f手"))
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
	assert.Regexp(t, `^stripesong: (drawing plan.svg)? ...\n$`, <-said,
		"however long it takes to come")
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
	for _, args := range [][]string{{"--help"}, {"plan", "--json"}, {"plan", "--help"}, {"check"},
		{"--version"}, {"new", "-"}} {
		var mistakes bytes.Buffer
		code := run(args, strings.NewReader(""), full{}, &mistakes, func(string) string {
			return ""
		}, never)
		assert.Equal(t, exitFailed, code, "%v", args)
		assert.Contains(t, mistakes.String(), "no space left", "%v", args)
	}
}

// broken can't be read from.
type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("the pipe broke") }

func TestABriefThatBreaksOffIsNotPlanned(t *testing.T) {
	var out, mistakes bytes.Buffer
	code := run([]string{"plan", "-", "--json"},
		io.MultiReader(strings.NewReader("title = \"x\"\n"), broken{}), &out, &mistakes,
		func(string) string { return "" }, never)
	assert.Equal(t, exitFailed, code)
	assert.Empty(t, out.String())
	assert.Contains(t, mistakes.String(), "the pipe broke")
}
