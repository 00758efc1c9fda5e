package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// value is a flag's value, given at most once and kept as it was written.
type value struct {
	kind  string // what help calls it
	check func(string) error
	words []string // all there are, where they are few
	text  string
	given bool
	hint  string // where the value is left out
}

func (v *value) String() string { return v.text }
func (v *value) Type() string   { return v.kind }

func (v *value) Set(text string) error {
	if v.given {
		return mistake{what: fmt.Sprintf("given twice: %q and %q", v.text, text),
			hint: "keep one of the two"}
	}
	if err := v.check(text); err != nil {
		return err
	}
	v.text, v.given = text, true
	return nil
}

// yes is a flag that is there or not.
type yes bool

func (y *yes) String() string { return fmt.Sprint(bool(*y)) }
func (y *yes) Type() string   { return "bool" } // which help leaves out

func (y *yes) Set(text string) error {
	switch text {
	case "true", "false":
		*y = text == "true"
		return nil
	}
	return mistake{what: fmt.Sprintf("%q is not true or false", text),
		hint: "it needs no value at all"}
}

// addYes declares a flag that is there or not.
func (f *flags) addYes(name, usage string, y *yes) {
	f.add(name, usage, y).NoOptDefVal = "true"
}

// anyText refuses what no text may be.
func anyText(text string) error {
	switch {
	case text == "":
		return mistake{what: "needs a value that is not empty"}
	case !utf8.ValidString(text):
		return mistake{what: fmt.Sprintf("%q is not UTF-8 text", text)}
	case strings.ContainsRune(text, 0):
		return mistake{what: fmt.Sprintf("%q holds a zero byte", text)}
	}
	return nil
}

// unitsValue is the value of a flag that takes cm or in.
func unitsValue() value {
	words := []string{"cm", "in"}
	return value{kind: "cm|in", words: words, check: func(text string) error {
		if !slices.Contains(words, text) {
			return mistake{what: fmt.Sprintf("%q is neither cm nor in", text),
				hint: "write --units cm or --units in"}
		}
		return nil
	}}
}

// wholeNumber takes decimal digits, perhaps after a minus, and nothing that
// another reader might understand otherwise: no 010, 0x10, 1e3 or +5.
func wholeNumber(text string) error {
	digits := strings.TrimPrefix(text, "-")
	if digits == "" || strings.Trim(digits, "0123456789") != "" {
		return mistake{what: fmt.Sprintf("%q is not a whole number", text),
			hint: "write it in plain digits, as in 6"}
	}
	return leadingZero(text, digits)
}

// plainNumber is a wholeNumber with decimals allowed.
func plainNumber(text string) error {
	whole, decimals, point := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	if whole == "" || point && decimals == "" || strings.Trim(whole+decimals, "0123456789") != "" {
		return mistake{what: fmt.Sprintf("%q is not a number", text),
			hint: "write it in plain digits, as in 3 or 1.5"}
	}
	return leadingZero(text, whole)
}

func leadingZero(text, digits string) error {
	if len(digits) > 18 {
		return mistake{what: fmt.Sprintf("%q is too large a number", text)}
	}
	if len(digits) > 1 && digits[0] == '0' {
		return mistake{what: fmt.Sprintf("%q begins with a zero, which some read as octal", text),
			hint: fmt.Sprintf("write %s", strings.TrimLeft(digits[:len(digits)-1], "0")+
				digits[len(digits)-1:])}
	}
	return nil
}
