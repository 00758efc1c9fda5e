package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

var completionCommand = &command{
	name:    "completion",
	operand: "SHELL",
	words:   []string{"bash", "zsh", "fish"},
	fewest:  1,
	lacking: "name the shell: bash, zsh or fish",
	line:    "print a script with which a shell completes commands and flags",
	about: `Prints a script with which bash, zsh or fish completes commands and
flags and, where there are only a few, their values. For zsh, save it as _stripesong
in a folder of $fpath; for fish, as ~/.config/fish/completions/stripesong.fish.`,
	example: example{"stripesong completion bash",
		"in ~/.bashrc: source <(stripesong completion bash)"},
	exits: [3]string{"the script was printed", "", "there is no script for that shell"},
}

// The table of commands holds completion, which reads the table: the knot is
// tied here.
func init() { completionCommand.prepare = func(*flags) work { return writeCompletion } }

// shells are those with a script.
var shells = []struct {
	name  string
	write func(io.Writer, []completed)
}{{"bash", bashScript}, {"zsh", zshScript}, {"fish", fishScript}}

func writeCompletion(w *world, shell string) error {
	var names []string
	for _, s := range shells {
		if s.name == shell {
			s.write(w.out, completions())
			return nil
		}
		names = append(names, s.name)
	}
	return mistake{what: fmt.Sprintf("there is no completion for %q", shell),
		hint: nearestOr(shell, names, "there is one for bash, zsh and fish")}
}

// completed is one command as completion sees it.
type completed struct {
	name, line string
	words      []string // what its first operand may be; none where that is a file
	files      bool     // what follows, if anything does, is a file
	flags      []completedFlag
}

type completedFlag struct {
	name, usage, kind string
	values            []string // all there are; nil where it may be anything
	file              bool     // the value is a file or a folder
	bare              bool     // it takes no value
}

// completions are all commands, in the order of the table.
func completions() []completed {
	var all []completed
	for _, c := range commands() {
		one := completed{name: c.name, line: c.line, words: c.words}
		one.files = c.operand != "" && c != completionCommand
		f := newFlags()
		c.prepare(f)
		f.all.VisitAll(func(flag *pflag.Flag) { one.flags = append(one.flags, completedOf(flag)) })
		one.flags = append(one.flags,
			completedFlag{name: "help", usage: "all about " + c.name, bare: true})
		all = append(all, one)
	}
	return all
}

func completedOf(flag *pflag.Flag) completedFlag {
	one := completedFlag{name: flag.Name, usage: flag.Usage, kind: flag.Value.Type(),
		bare: flag.NoOptDefVal != ""}
	one.file = one.kind == "FILE" || one.kind == "DIR"
	switch v := flag.Value.(type) {
	case *value:
		one.values = v.words
	case *parameter:
		one.values = v.words
	}
	return one
}

// long is the flags as they are typed.
func (c completed) long() string {
	var all []string
	for _, f := range c.flags {
		all = append(all, "--"+f.name)
	}
	return strings.Join(all, " ")
}
