package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"
)

// printMan prints the manual as a page for man(1), from the same tables as the help.
func printMan(w io.Writer) error {
	version := "stripesong"
	if info, ok := debug.ReadBuildInfo(); ok {
		version, _, _ = strings.Cut(versionLine(info), " (")
	}
	var m manual
	m.line(`.TH STRIPESONG 1 "" %q "User Commands"`, version)
	m.section("NAME")
	m.text("stripesong - plans sets of handwoven towels")
	m.section("SYNOPSIS")
	for i, c := range commands() {
		if i > 0 {
			m.line(".br")
		}
		m.text(c.usage())
	}
	m.section("DESCRIPTION")
	m.text(overview)
	m.section("COMMANDS")
	for _, c := range commands() {
		m.command(c)
	}
	m.section("EXIT STATUS")
	for code, meaning := range exitMeanings {
		m.item(fmt.Sprint(code), meaning)
	}
	_, err := io.WriteString(w, m.String())
	return err
}

// manual is the text of a page for man(1).
type manual struct{ strings.Builder }

func (m *manual) line(format string, args ...any) { fmt.Fprintf(m, format+"\n", args...) }

func (m *manual) section(name string) { m.line(".SH %s", name) }

// text is a paragraph, or several with empty lines between.
func (m *manual) text(text string) {
	for i, paragraph := range strings.Split(strings.TrimSpace(text), "\n\n") {
		if i > 0 {
			m.line(".PP")
		}
		for k, line := range strings.Split(paragraph, "\n") {
			if k > 0 && strings.HasPrefix(line, " ") {
				m.line(".br")
			}
			m.line("%s", inRoff(line))
		}
	}
}

func (m *manual) item(term, says string) {
	m.line(".TP")
	m.line(".B %s", inRoff(term))
	m.text(says)
}

func (m *manual) command(c *command) {
	f := newFlags()
	c.prepare(f)
	m.line(".SS %s", inRoff(c.name))
	m.text(c.line + ".\n\n" + c.about)
	for _, g := range f.groups {
		g.set.VisitAll(func(flag *pflag.Flag) {
			kind, usage := pflag.UnquoteUsage(flag)
			m.item(strings.TrimSpace("--"+flag.Name+" "+kind), usage)
		})
	}
	m.item(c.example.line, c.example.what)
}

// inRoff is a line that roff takes as it stands.
func inRoff(line string) string {
	line = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(strings.TrimSpace(line))
	if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
		line = `\&` + line
	}
	return line
}
