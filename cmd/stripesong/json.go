package main

import (
	"bytes"
	"fmt"

	"stripesong/cmd/stripesong/screen"
)

// plainJSON writes what steers a terminal or hides text as JSON's own escapes,
// which mean the same to a program. JSON itself escapes only controls below
// space.
func plainJSON(text []byte, err error) ([]byte, error) {
	if err != nil || plainASCII(text) {
		return text, err
	}
	var b bytes.Buffer
	for _, r := range string(text) {
		if steersText(r) {
			fmt.Fprintf(&b, `\u%04x`, r)
			continue
		}
		b.WriteRune(r)
	}
	return b.Bytes(), nil
}

// steersText leaves alone the line ends that JSON is laid out with.
func steersText(r rune) bool { return r >= 0x7f && r <= 0xffff && (r == 0x7f || screen.Steers(r)) }

func plainASCII(text []byte) bool {
	for _, c := range text {
		if c >= 0x7f {
			return false
		}
	}
	return true
}
