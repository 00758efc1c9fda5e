package main

import (
	"errors"
	"fmt"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
)

// mistake is an error with a hint at what to do about it.
type mistake struct {
	what, hint string
	cause      error // where there is one
}

func (m mistake) Error() string { return m.what }
func (m mistake) Unwrap() error { return m.cause }

// mostProblems is how many problems of a brief are printed: more than a screen
// of them helps nobody.
const mostProblems = 8

// report prints an error the one way errors are printed.
func (w *world) report(err error) {
	var problems brief.Problems
	if errors.As(err, &problems) {
		w.reportProblems(problems)
		return
	}
	w.errorLine(err.Error())
	var m mistake
	if errors.As(err, &m) {
		w.hintLine(m.hint)
	}
}

func (w *world) errorLine(what string) {
	fmt.Fprintf(w.err, "stripesong: error: %s\n", screen.Short(screen.Visible(what)))
}

func (w *world) hintLine(hint string) {
	if hint != "" {
		fmt.Fprintf(w.err, "stripesong: hint: %s\n", screen.Short(screen.Visible(hint)))
	}
}

func (w *world) reportProblems(all brief.Problems) {
	for i, p := range all {
		if i == mostProblems {
			w.errorLine(fmt.Sprintf("and %d more", len(all)-i))
			return
		}
		w.reportProblem(p)
	}
}

// reportProblem prints where a problem stands, the line with a caret under the
// place, and the hint.
func (w *world) reportProblem(p brief.Problem) {
	w.errorLine(p.Error())
	if p.Line > 0 {
		text, under := screen.Caret(p.LineText, p.Col, 72)
		fmt.Fprintf(w.err, "    %s\n    %s\n", text, under)
	}
	w.hintLine(p.Hint)
}

// nearestOr suggests the known name nearest to a misspelt one, or says
// otherwise.
func nearestOr(name string, known []string, otherwise string) string {
	if near := brief.Nearest(name, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return otherwise
}

// nearestFlag is the flag a misspelt one stands for: the nearest, or the only
// one that begins so.
func nearestFlag(name string, known []string) string {
	if near := brief.Nearest(name, known); near != "" {
		return near
	}
	found := ""
	for _, k := range known {
		if len(name) > 1 && strings.HasPrefix(k, name) {
			if found != "" {
				return ""
			}
			found = k
		}
	}
	return found
}
