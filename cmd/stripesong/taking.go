package main

import (
	"fmt"
	"strconv"

	"stripesong/sequence/brief"
)

// taking is the flags of a command that numbers ways out and writes one of them.
type taking struct {
	number value // of what is taken
	listed value // the stamp of the list that the number is from
}

func newTaking() taking {
	return taking{number: value{kind: "N", check: wholeNumber},
		listed: value{kind: "STAMP", check: anyText}}
}

// declare declares them for ways out that are written into the brief.
func (t *taking) declare(f *flags, take string) {
	f.add("take", take, &t.number)
	f.add("listed", "with --take: refuse if BRIEF has changed since", &t.listed)
}

// paired refuses --listed without --take.
func (t *taking) paired(hint string) error {
	if t.listed.given && !t.number.given {
		return mistake{what: "--listed is for --take", hint: hint}
	}
	return nil
}

// may refuses where nothing can be written into the brief, or where the list is of
// another text.
func (t *taking) may(s *source, set []brief.Override, command string) error {
	if err := s.takable(set, command); err != nil {
		return err
	}
	return s.unchanged(t.listed, command)
}

// chosen is the one that is taken, counted from 0, of so many of what is listed.
func (t *taking) chosen(of int, what, hint string) (int, error) {
	n, err := strconv.Atoi(t.number.text)
	if of == 0 {
		return 0, mistake{what: fmt.Sprintf("there is no %s to take", what), hint: hint}
	}
	if err != nil || n < 1 || n > of {
		return 0, mistake{what: fmt.Sprintf("there is no %s %s: there are %d", what,
			t.number.text, of), hint: hint}
	}
	return n - 1, nil
}
