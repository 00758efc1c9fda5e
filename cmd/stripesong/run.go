package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"stripesong/sequence/measure"
)

// Exit codes.
const (
	exitGood   = 0
	exitNo     = 1 // the answer is no
	exitFailed = 2 // a mistake in the brief or on the command line, or a failure
)

// errNo is what a command returns whose answer is no; it has said why.
var errNo = errors.New("no")

// world is where a command reads and writes.
type world struct {
	in       io.Reader
	out      *bufio.Writer // to stdout, so that a failure to write is noticed
	err      io.Writer
	terminal io.Writer // stdout itself, for what it can show
	env      func(string) string
	patience time.Duration
	args     []string // of the command that runs
	operands []string // among these, what is no flag
	piped    *source  // the brief that came through a pipe, once it was read
}

// run is the whole program; it returns the exit code. After so much patience a word is
// said of what takes long.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer, env func(string) string,
	patience time.Duration) int {
	w := &world{in: stdin, out: bufio.NewWriter(stdout), err: stderr, terminal: stdout, env: env,
		patience: patience}
	err := dispatch(w, args)
	if flushed := w.out.Flush(); flushed != nil && (err == nil || errors.Is(err, errNo)) {
		err = mistake{what: fmt.Sprintf("writing the answer: %s", plainly(flushed)), cause: flushed,
			hint: "all files were written whole; only this report is lost"}
	}
	return w.conclude(err)
}

// conclude reports an error and turns it into an exit code.
func (w *world) conclude(err error) int {
	switch {
	case err == nil:
		return exitGood
	case errors.Is(err, errNo):
		return exitNo
	}
	w.report(err)
	return exitFailed
}

func dispatch(w *world, args []string) error {
	if len(args) == 0 {
		return mistake{what: "no command given",
			hint: "\"stripesong plan\" works out a set of towels; \"stripesong --help\" lists " +
				"all commands"}
	}
	switch args[0] {
	case "--help", "-h":
		return printOverview(w.out)
	case "--version":
		return printVersion(w.out)
	}
	if c := find(args[0]); c != nil {
		return c.run(w, args[1:])
	}
	return unknownCommand(args[0])
}

func unknownCommand(name string) error {
	switch {
	case strings.HasPrefix(name, "-"):
		return mistake{what: fmt.Sprintf("%q stands where a command belongs", name),
			hint: "flags follow the command, as in \"stripesong plan --json\""}
	case strings.HasSuffix(name, ".toml"):
		return mistake{what: fmt.Sprintf("%q stands where a command belongs", name),
			hint: fmt.Sprintf("for a plan of that brief: stripesong plan %s", name)}
	}
	return mistake{what: fmt.Sprintf("there is no command %q", name),
		hint: nearestOr(name, append(commandNames(), topicNames()...),
			"\"stripesong --help\" lists all commands")}
}

// run parses the arguments of c and does its work.
func (c *command) run(w *world, args []string) error {
	f := newFlags()
	work := c.prepare(f)
	operands, err := f.parse(args)
	quoted := unquoted(args)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		return c.printHelp(w.out)
	case quoted != "":
		return mistake{what: "a length or weight is not in quotes",
			hint: "put it in quotes: " + quoted}
	case err != nil:
		return c.usageMistake(err)
	case len(operands) < c.fewest:
		return c.usageMistake(mistake{what: c.lacking})
	case c.most > 1 && len(operands) > c.most:
		return c.usageMistake(
			mistake{what: fmt.Sprintf("%q is more than %s takes", operands[c.most], c.name)})
	case c.most < 2 && len(operands) > 1:
		return c.usageMistake(
			mistake{what: fmt.Sprintf("one %s is enough, but there is also %q", c.operand,
				operands[1])})
	case slices.Contains(operands, ""):
		return c.usageMistake(mistake{what: "a file's name is empty",
			hint: "name the file, or leave it out altogether"})
	}
	w.args, w.operands = args, operands
	return work(w, append(operands, "")[0])
}

// unquoted is a flag with a number and unit that stand apart, as they belong; "" where there
// is none, or where a file has the name of the unit.
func unquoted(args []string) string {
	for i, flag := range args {
		if !strings.HasPrefix(flag, "--") {
			continue
		}
		for end := min(len(args), i+6); end > i+2; end-- {
			quantity := strings.Join(args[i+1:end], " ")
			if isQuantity(quantity) && !isFile(args[i+2]) {
				return fmt.Sprintf("%s %q", flag, quantity)
			}
		}
	}
	return ""
}

func isQuantity(text string) bool {
	_, noLength := measure.ParseLength(text)
	_, noWeight := measure.ParseWeight(text)
	return noLength == nil || noWeight == nil
}

func isFile(name string) bool {
	_, err := os.Stat(name)
	return err == nil
}

// usageMistake sends the user to the usage of c where nothing better is known.
func (c *command) usageMistake(err error) error {
	var m mistake
	if !errors.As(err, &m) {
		m.what = err.Error()
	}
	if m.hint == "" {
		m.hint = fmt.Sprintf("usage: %s; \"stripesong %s --help\" says more", c.usage(), c.name)
	}
	return m
}
