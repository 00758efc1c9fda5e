package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shown is one command of the README and what it prints there; a last line of
// three dots stands for the rest.
type shown struct{ command, output string }

// TestReadme runs every command the README shows, in order, from a folder that
// holds the examples, and holds what it prints against what the README says.
// With -update the README is brought up to date.
func TestReadme(t *testing.T) {
	readme, err := filepath.Abs("../../README.md")
	require.NoError(t, err)
	examples, err := filepath.Abs(examplesFolder)
	require.NoError(t, err)
	text := string(read(t, readme))
	t.Chdir(t.TempDir())
	require.NoError(t, os.Symlink(examples, "examples"))
	blocks := regexp.MustCompile("(?ms)^```console\n(.*?)^```$").FindAllStringSubmatch(text, -1)
	require.Greater(t, len(blocks), 5)
	for _, block := range blocks {
		renewed := ""
		for _, s := range split(block[1]) {
			renewed += "$ " + s.command + "\n" + s.check(t)
		}
		text = strings.Replace(text, block[1], renewed, 1)
	}
	if *update {
		require.NoError(t, os.WriteFile(readme, []byte(text), 0o644))
	}
}

// split takes a block apart at its commands.
func split(block string) (all []shown) {
	for _, part := range strings.Split("\n"+strings.TrimPrefix(block, "\n"), "\n$ ")[1:] {
		command, output, _ := strings.Cut(part, "\n")
		if output != "" && !strings.HasSuffix(output, "\n") {
			output += "\n"
		}
		all = append(all, shown{command, output})
	}
	return all
}

// elsewhere are commands of other programs, which are not run here.
var elsewhere = map[string]bool{
	"go test ./...": true, "cd stripesong": true, "go install ./cmd/stripesong": true,
}

// check runs a command and gives what the README should show.
func (s shown) check(t *testing.T) string {
	t.Helper()
	if elsewhere[s.command] {
		return s.output
	}
	line := strings.TrimPrefix(strings.TrimPrefix(s.command, "go run ./cmd/"), "stripesong ")
	require.NotEqual(t, s.command, line, "not a command of ours")
	var out, aside bytes.Buffer // aside: progress, where a machine is slow
	code := run(words(line), strings.NewReader(""), &out, &aside, func(string) string {
		return ""
	}, never)
	require.NotEqual(t, exitFailed, code, "%s: %s", s.command, aside.String())
	got := out.String()
	if head, elided := strings.CutSuffix(s.output, "...\n"); elided {
		kept := strings.SplitAfter(got, "\n")
		got = strings.Join(kept[:min(len(kept), strings.Count(head, "\n"))], "") + "...\n"
	}
	if !*update {
		assert.Equal(t, s.output, got, s.command)
	}
	return got
}

// words splits a command line at blanks, keeping what is quoted together.
func words(line string) (all []string) {
	for _, m := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(line, -1) {
		all = append(all, m[1]+m[2])
	}
	return all
}
