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
		assert.Contains(t, help, "\nExample: stripesong "+c.name)
		assert.Regexp(t, `\nExit codes: 0 .*; 2 `, strings.ReplaceAll(help, "\n            ", " "))
		fitsScreen(t, help)
	}
	_, overview, _ := call("--help")
	fitsScreen(t, overview)
}

// fitsScreen: 80 columns, 24 rows, and the prompt below.
func fitsScreen(t *testing.T, help string) {
	t.Helper()
	assert.LessOrEqual(t, strings.Count(help, "\n"), 23, help)
	for line := range strings.Lines(help) {
		assert.LessOrEqual(t, screen.Width(strings.TrimRight(line, "\n")), 80, line)
	}
}

// TestTopicsAreToldAndReferredTo: what commands share stands in a topic, where every
// flag that is not in the command's own help is found.
func TestTopicsAreToldAndReferredTo(t *testing.T) {
	for _, c := range commands() {
		f := newFlags()
		c.prepare(f)
		_, help, _ := call("help", c.name)
		shared := ""
		for _, name := range f.topics() {
			_, text, _ := call("help", name)
			shared += text
			assert.Contains(t, help, `"stripesong help `+name+`"`)
		}
		f.all.VisitAll(func(flag *pflag.Flag) {
			told := strings.Contains(help, "--"+flag.Name) ||
				strings.Contains(shared, "--"+flag.Name+" ")
			assert.True(t, told, "%s --%s", c.name, flag.Name)
		})
	}
	for _, name := range topicNames() {
		code, text, mistakes := call("help", name)
		assert.Equal(t, exitGood, code, name)
		assert.Empty(t, mistakes)
		for line := range strings.Lines(text) {
			assert.LessOrEqual(t, screen.Width(strings.TrimRight(line, "\n")), 80, line)
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

// TestExamplesAreRight parses the flags of the example of every help.
func TestExamplesAreRight(t *testing.T) {
	var all []example
	for _, t := range topics {
		if t.declare != nil {
			all = append(all, t.example)
		}
	}
	for _, c := range commands() {
		all = append(all, c.example)
	}
	for _, e := range all {
		words := shellWords(e.line)
		require.Greater(t, len(words), 1)
		c := find(words[1])
		require.NotNil(t, c, e.line)
		f := newFlags()
		c.prepare(f)
		_, err := f.parse(words[2:])
		assert.NoError(t, err, e.line)
	}
}

func TestHelpAndPackageCommentAgree(t *testing.T) {
	text, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	doc := strings.ReplaceAll(string(text), "\n//\t", "\n")
	for _, c := range commands() {
		assert.Contains(t, doc, "\n"+c.usage()+"\n    "+c.line+"\n")
	}
	for code, meaning := range exitMeanings {
		assert.Contains(t, doc, string(rune('0'+code))+"  "+meaning+"\n")
	}
}

func TestFlagsAreExplained(t *testing.T) {
	for _, c := range commands() {
		f := newFlags()
		c.prepare(f)
		f.all.VisitAll(func(flag *pflag.Flag) {
			assert.NotEmpty(t, flag.Usage, "%s --%s", c.name, flag.Name)
		})
	}
}

func TestVersionLine(t *testing.T) {
	info := &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "v1.2.3"},
		Settings: []debug.BuildSetting{
			{Key: "GOOS", Value: "linux"}, {Key: "GOARCH", Value: "arm64"},
			{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}}}
	assert.Equal(t, "stripesong v1.2.3 0123456789ab with changes (go1.26, linux/arm64)",
		versionLine(info))
	assert.Equal(t, "stripesong (devel) (go1.26, /)",
		versionLine(&debug.BuildInfo{GoVersion: "go1.26"}))
}
