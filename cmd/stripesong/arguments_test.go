package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// FuzzArguments takes any words for a command line, one to a line. Words that
// are paths are left out, or it would write all over the machine.
func FuzzArguments(f *testing.F) {
	for _, c := range commands() {
		f.Add(strings.ReplaceAll(strings.TrimPrefix(c.example.line, "stripesong "), " ", "\n"))
		f.Add(c.name + "\n--help")
		f.Add(c.name + "\n-\n--json\n--pieces=-1\n--seed\n010")
	}
	for _, words := range []string{"", "-h", "--version", "help\nhelp", "plan\n--",
		"plan\n--json\n--units\nin\n--pieces\n3",
		"plan\n--json\n--warp-rhythm\neuclid\n--of\n13\n--accents\n5", "plan\n--out\n",
		"plan\n--out=.", "new\n-", "\x1b[31m", "plan\n\u202e"} {
		f.Add(words)
	}
	f.Fuzz(func(t *testing.T, words string) {
		args := strings.Split(words, "\n")
		if len(args) > 40 || strings.ContainsAny(words, "/\\\x00") ||
			strings.Contains(words, "..") || args[0] == "page" {
			return
		}
		t.Chdir(t.TempDir())
		var out, mistakes bytes.Buffer
		code := run(args, strings.NewReader("title = \"x\"\n"), &out, &mistakes,
			func(string) string { return "" }, never)
		require.Contains(t, []int{exitGood, exitNo, exitFailed}, code)
		if code == exitFailed {
			require.Empty(t, out.String(), "a failure answers nothing")
			require.True(t, strings.HasPrefix(mistakes.String(), "stripesong: "), "%q",
				mistakes.String())
			require.Contains(t, mistakes.String(), "error: ")
			left, err := os.ReadDir(".")
			require.NoError(t, err)
			require.Empty(t, left, "and writes nothing")
		}
		for _, r := range out.String() + mistakes.String() {
			require.False(t, r < ' ' && r != '\n' && r != '\t' || r == 0x7f ||
				r >= 0x80 && r < 0xa0 || r == 0x202e, "%q", r)
		}
	})
}

// TestLeftOutValues: what a flag is given in place of a value that is left out
// can't be typed, unless it means the same typed.
func TestLeftOutValues(t *testing.T) {
	found := 0
	for _, c := range commands() {
		f := newFlags()
		c.prepare(f)
		f.all.VisitAll(func(flag *pflag.Flag) {
			switch {
			case flag.NoOptDefVal == "":
			case flag.Value.Type() == "bool":
				assert.Equal(t, "true", flag.NoOptDefVal, "%s --%s", c.name, flag.Name)
			default:
				found++
				assert.Contains(t, flag.NoOptDefVal, "\x00", "%s --%s", c.name, flag.Name)
			}
		})
	}
	assert.Positive(t, found)
}
