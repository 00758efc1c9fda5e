package main

import "strings"

// command is one thing the program does. A new one is a file of its own and a
// line in [commands].
type command struct {
	name    string
	operand string   // what it works on, as usage shows it; "" for nothing
	fewest  int      // operands it can't do without: 0 or 1
	most    int      // operands it takes, where that is more than one
	words   []string // what the first operand may be, where it is no file
	lacking string   // said where that one is missing
	line    string   // what it does, in a line
	about   string   // and at length
	example example
	exits   [3]string // what exit codes 0, 1 and 2 mean here; "" where one does not occur

	// prepare declares the flags and returns the work, which is called once
	// they are parsed.
	prepare func(*flags) work
}

// work does what a command is for. The operand is "" where none was given.
type work func(w *world, operand string) error

type example struct{ line, what string }

// commands are all there are, in the order a weaver meets them.
func commands() []*command {
	return []*command{newCommand, planCommand, tryCommand, checkCommand, contrastCommand,
		paletteCommand, fitCommand, insteadCommand, midwayCommand, calibrateCommand, pageCommand,
		completionCommand, helpCommand}
}

func find(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return c
		}
	}
	return nil
}

func commandNames() (names []string) {
	for _, c := range commands() {
		names = append(names, c.name)
	}
	return names
}

// usage is the command as it is typed: what is in brackets may be left out.
func (c *command) usage() string {
	f := newFlags()
	c.prepare(f)
	words := []string{"stripesong", c.name}
	switch {
	case c.operand != "" && c.fewest == 0:
		words = append(words, "["+c.operand+"]")
	case c.operand != "":
		words = append(words, c.operand)
	}
	if len(f.groups) > 0 {
		words = append(words, "[flags]")
	}
	return strings.Join(words, " ")
}
