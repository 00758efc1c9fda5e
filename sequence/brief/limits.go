package brief

import (
	"bytes"
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

// Limits on what a brief may ask for, so that work is bounded before it is
// begun and no number leaves what can be printed exactly. Each is far beyond
// what is woven; a brief past one is refused with what to change.
const (
	MaxBytes        = 1 << 20 // of a brief or a shelf file
	MaxKeys         = 10_000  // keys and headings in it
	MaxName         = 1_000   // characters of a title or a name
	MaxPieces       = 200
	MaxUnits        = 10_000 // threading or weft units in one warp or piece
	MaxRuns         = 2_000  // runs written in one warp or piece
	MaxColours      = 500    // on the shelf
	MaxUsed         = 256    // colours that one plan uses
	MaxEnds         = 40_000
	MaxPicks        = 100_000     // of one piece, hems included
	MaxCrossings    = 100_000_000 // ends times picks of one piece: pixels of its picture
	MaxCombinations = 10_000      // warp colours times pattern colours, summed over the pieces
	MaxCompared     = 40_000_000  // different weft stripes, squared, times those of the warp
	MaxCandidates   = 100_000
)

var (
	mostMM     = big.NewRat(10_000_000, 1) // 10 km, for anything on the loom
	mostYarnM  = big.NewRat(10_000_000, 1) // 10 000 km in a package or on hand
	leastPerMM = big.NewRat(1, 100)        // 1/10cm
	mostPerMM  = big.NewRat(100, 1)        // 1000/cm
)

// checkSize refuses a text that is too long to be a brief or holds too many keys.
func checkSize(name string, text []byte) error {
	if len(text) > MaxBytes {
		what := fmt.Sprintf("the file is larger than %d MB, more than a brief may have",
			MaxBytes>>20)
		return Problems{{File: name, What: what,
			Hint: "a brief is a few pages of text: is this the right file?"}}
	}
	keys := bytes.Count(text, []byte("=")) + bytes.Count(text, []byte("\n["))
	if keys > MaxKeys || bytes.Count(text, []byte(".")) > 10*MaxKeys {
		return Problems{{File: name,
			What: fmt.Sprintf("the file has more than the %d keys and headings a brief may have",
				MaxKeys),
			Hint: "a brief is a few pages of text: is this the right file?"}}
	}
	return nil
}

// called reads a title or a name of no more characters than can be shown.
func (s *section) called(key, otherwise string) string {
	text := strings.TrimSpace(s.text(key, otherwise))
	if what := tooLong(text); what != "" {
		s.wrong(key, what, "write a shorter one")
	}
	return text
}

// named is [section.called] for a name that may not be empty.
func (s *section) named(key, otherwise, hint string) string {
	text := s.called(key, otherwise)
	if text == "" && s.has(key) && s.node.Table[key].Kind == tomltext.String {
		s.wrong(key, "is empty", hint)
	}
	return text
}

// tooLong says by how much a name is longer than can be shown; "" where it is not.
func tooLong(text string) string {
	if n := utf8.RuneCountInString(text); n > MaxName {
		return fmt.Sprintf("has %d characters, more than the %d a name may have", n, MaxName)
	}
	return ""
}

// length reads a length of no more than is worked on.
func (s *section) length(key string) *measure.Length {
	l := quantity(s, key, measure.ParseLength)
	if l != nil && l.MM.Cmp(mostMM) > 0 {
		s.wrong(key, fmt.Sprintf("%s is more than the 10 km that are worked on", l),
			"is the unit mistaken?")
		return nil
	}
	return l
}

// threads reads a density within what is worked on.
func (s *section) threads(key string) *measure.Density {
	d := quantity(s, key, measure.ParseDensity)
	if d != nil && (d.PerMM.Cmp(leastPerMM) < 0 || d.PerMM.Cmp(mostPerMM) > 0) {
		s.wrong(key, fmt.Sprintf("%s is not between 1/10cm and 1000/cm", d),
			"is the unit mistaken?")
		return nil
	}
	return d
}
