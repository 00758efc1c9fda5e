package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shell finds a shell to try a script in.
func shell(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("STRIPESONG_CI") != "" {
		t.Fatalf("%s is missing", name)
	}
	if err != nil {
		t.Skipf("%s is not here", name)
	}
	return path
}

// script writes the completion of a shell to a file.
func script(t *testing.T, shell string) string {
	t.Helper()
	code, text, mistakes := call("completion", shell)
	require.Equal(t, exitGood, code, mistakes)
	require.Empty(t, mistakes)
	path := filepath.Join(t.TempDir(), "_stripesong")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

func runShell(t *testing.T, name, text string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, append(args, text)...)
	cmd.Dir = t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(cmd.Dir, "two words.toml"), nil, 0o644))
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return string(out)
}

// typed are lines being typed, the last word begun, and what completes it.
var typed = []struct {
	words []string
	want  []string
}{
	{[]string{"pl"}, []string{"plan"}},
	{[]string{"plan", "--uni"}, []string{"--units"}},
	{[]string{"plan", "--units", ""}, []string{"cm", "in"}},
	{[]string{"plan", "--json", "--warp-rhythm", "e"}, []string{"even", "euclid"}},
	{[]string{"plan", "--structure", "m"}, []string{"monks-belt"}},
	{[]string{"plan", "two"}, []string{"two words.toml"}},
	{[]string{"completion", "f"}, []string{"fish"}},
	{[]string{"completion", "fish", ""}, nil},
	{[]string{"palette", ""}, []string{"from-photo", "spread", "ramp", "mix", "list"}},
	{[]string{"palette", "from"}, []string{"from-photo"}},
	{[]string{"palette", "--colours", "5", "s"}, []string{"spread"}},
	{[]string{"palette", "list", "two"}, []string{"two words.toml"}},
	{[]string{"palette", "--svg", "two"}, []string{"two words.toml"}},
	{[]string{"palette", "list", "--sv"}, []string{"--svg"}},
	{[]string{"contrast", "--sight", ""}, []string{"worst", "normal", "protan", "deutan"}},
	{[]string{"contrast", "--sight", "d"}, []string{"deutan"}},
	{[]string{"contrast", "--shelf", "two"}, []string{"two words.toml"}},
	{[]string{"contrast", "--distance", ""}, nil},
	{[]string{"plan", "--pieces", ""}, nil},
	{[]string{"plan", "--pieces", "4", "two"}, []string{"two words.toml"}},
	{[]string{"help", "che"}, []string{"check"}},
}

// lines are those of what a shell offers.
func lines(out string) (all []string) {
	for line := range strings.Lines(out) {
		if line = strings.TrimSpace(line); line != "" {
			all = append(all, line)
		}
	}
	return all
}

func TestBashCompletes(t *testing.T) {
	bash := shell(t, "bash")
	path := script(t, "bash")
	for _, c := range typed {
		words := ""
		for _, w := range c.words {
			words += " " + single(w)
		}
		assert.Equal(t, c.want, bashOffers(t, bash, path, words), "%q", c.words)
	}
}

// bashOffers is what completes the last of some words, as bash would read them.
func bashOffers(t *testing.T, bash, path, words string) []string {
	return lines(runShell(t, bash, "source "+single(path)+
		"; COMP_WORDS=(stripesong "+words+"); COMP_CWORD=$((${#COMP_WORDS[@]}-1))"+
		"; _stripesong; printf '%s\\n' \"${COMPREPLY[@]}\"", "--norc", "-c"))
}

// TestBashCompletesAfterEquals: bash takes the sign for a word of its own.
func TestBashCompletesAfterEquals(t *testing.T) {
	bash := shell(t, "bash")
	path := script(t, "bash")
	for typed, want := range map[string][]string{
		"contrast --sight =":       {"worst", "normal", "protan", "deutan"},
		"contrast --sight = p":     {"protan"},
		"contrast --shelf = two":   {"two words.toml"},
		"calibrate --write = two":  {"two words.toml"},
		"palette --colours = ''":   nil,
		"palette --svg = x.svg m":  {"mix"},
		"plan --structure = monks": {"monks-belt"},
	} {
		assert.Equal(t, want, bashOffers(t, bash, path, typed), typed)
	}
}

func TestFishCompletes(t *testing.T) {
	fish := shell(t, "fish")
	path := script(t, "fish")
	for _, c := range typed {
		line := "stripesong " + strings.Join(c.words, " ")
		out := runShell(t, fish, "source "+fishText(path)+"; complete -C "+fishText(line),
			"--no-config", "-c")
		var got []string
		for row := range strings.Lines(out) {
			word, _, _ := strings.Cut(strings.TrimSpace(row), "\t")
			got = append(got, strings.ReplaceAll(word, `\ `, " "))
		}
		assert.ElementsMatch(t, c.want, got, "%q", c.words)
	}
}

// TestZshCompletes looks at what the function hands to zsh's own completion.
func TestZshCompletes(t *testing.T) {
	zsh := shell(t, "zsh")
	path := script(t, "zsh")
	stubs := "compdef() { :; }; _arguments() { print -rl -- \"$@\"; }; _describe() { print -rl " +
		"-- \"${(@P)2}\"; }; source " + single(path) + "; "
	out := runShell(t, zsh, stubs+"words=(stripesong pl); CURRENT=2; _stripesong", "-f", "-c")
	assert.Contains(t, out, "plan:plan a set of towels\\: stripes")
	out = runShell(t, zsh, stubs+"words=(stripesong plan --uni); CURRENT=3; _stripesong",
		"-f", "-c")
	assert.Contains(t, out, "--units=[units to print lengths in]:units:(cm in)\n")
	assert.Contains(t, out, "*:file:_files\n")
	out = runShell(t, zsh, stubs+"words=(stripesong completion ''); CURRENT=3; _stripesong",
		"-f", "-c")
	assert.Equal(t, "1:what:(bash zsh fish)\n",
		out[strings.LastIndex(strings.TrimSpace(out), "\n")+1:])
	out = runShell(t, zsh, stubs+"words=(stripesong palette ''); CURRENT=3; _stripesong",
		"-f", "-c")
	assert.Contains(t, out, "1:what:(from-photo spread ramp mix list)\n*:file:_files\n")
	assert.Contains(t, out, ":colours: \n", "no file is a number")
	out = runShell(t, zsh, stubs+"words=(stripesong contrast --sight ''); CURRENT=4; _stripesong",
		"-f", "-c")
	assert.Contains(t, out, ":sight:(worst normal protan deutan)\n")
	assert.Contains(t, out, ":shelf:_files\n")
	runShell(t, zsh, path, "-f", "-n")
}

// TestCompletionKnowsEverything: every command and flag is in every script.
func TestCompletionKnowsEverything(t *testing.T) {
	for _, s := range shells {
		_, text, _ := call("completion", s.name)
		for _, c := range completions() {
			assert.Contains(t, text, c.name)
			for _, f := range c.flags {
				assert.Contains(t, text, f.name)
			}
		}
	}
	code, out, mistakes := call("completion", "bsh")
	assert.Equal(t, exitFailed, code)
	assert.Empty(t, out)
	assert.Contains(t, mistakes, "there is no completion for \"bsh\"")
	assert.Contains(t, mistakes, "did you mean \"bash\"?")
}
