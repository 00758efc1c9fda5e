package main

import (
	"bytes"
	"os"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/screen"
)

// call runs the program in this process.
func call(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, strings.NewReader(""), &out, &err, func(string) string { return "" }, never)
	return code, out.String(), err.String()
}

func TestEveryCommandExplainsItself(t *testing.T) {
	require.NotEmpty(t, commands())
	for _, c := range commands() {
		code, help, mistakes := call(c.name, "--help")
		assert.Equal(t, exitGood, code, c.name)
		assert.Empty(t, mistakes)
		assert.Contains(t, help, "Usage: "+c.usage()+"\n")
		assert.Contains(t, help, "\nExamples:\n  stripesong "+c.name)
		assert.Contains(t, help, "\nExit codes:\n  0  ")
		assert.Contains(t, help, "\n  2  ")
		for line := range strings.Lines(help) {
			if !strings.HasPrefix(line, "  stripesong ") { // a command line may be long
				assert.LessOrEqual(t, screen.Width(strings.TrimRight(line, "\n")), 85, line)
			}
		}
	}
}

// shellWords splits a line as a shell would, as far as quotes go.
func shellWords(line string) (words []string) {
	for i, part := range strings.Split(strings.ReplaceAll(line, "'", "\""), "\"") {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// TestExamplesAreRight parses the flags of every example of every help.
func TestExamplesAreRight(t *testing.T) {
	for _, c := range commands() {
		for _, e := range c.examples {
			words := shellWords(e.line)
			require.Greater(t, len(words), 1)
			require.Equal(t, []string{"stripesong", c.name}, words[:2], e.line)
			f := newFlags()
			c.prepare(f)
			_, err := f.parse(words[2:])
			assert.NoError(t, err, e.line)
		}
	}
}

func TestHelpAndPackageCommentAgree(t *testing.T) {
	text, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	doc := strings.ReplaceAll(string(text), "\n//\t", "\n")
	for _, c := range commands() {
		found := false
		for line := range strings.Lines(doc) {
			found = found || strings.HasPrefix(line, c.usage()+" ") && strings.HasSuffix(line, " "+c.line+"\n")
		}
		assert.True(t, found, "doc.go lacks %q with %q", c.usage(), c.line)
	}
	for code, meaning := range exitMeanings {
		assert.Contains(t, doc, string(rune('0'+code))+"  "+meaning+"\n")
	}
}

func TestFlagsAreExplained(t *testing.T) {
	for _, c := range commands() {
		f := newFlags()
		c.prepare(f)
		f.all.VisitAll(func(flag *pflag.Flag) { assert.NotEmpty(t, flag.Usage, "%s --%s", c.name, flag.Name) })
	}
}

func TestVersionLine(t *testing.T) {
	info := &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "v1.2.3"}, Settings: []debug.BuildSetting{
		{Key: "GOOS", Value: "linux"}, {Key: "GOARCH", Value: "arm64"},
		{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}}}
	assert.Equal(t, "stripesong v1.2.3 0123456789ab with changes (go1.26, linux/arm64)", versionLine(info))
	assert.Equal(t, "stripesong (devel) (go1.26, /)", versionLine(&debug.BuildInfo{GoVersion: "go1.26"}))
}
