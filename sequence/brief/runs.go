package brief

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// runs reads a finished sequence; nil where there is none. Only a weft has
// plain runs.
func (p *parser) runs(s *section, weft bool) []Run {
	if !s.has("runs") {
		s.know("runs")
		return nil
	}
	nodes := s.names("runs")
	if len(nodes) == 0 {
		s.wrong("runs", "is empty", "write at least one run, as in [\"A 12 spruce\"]")
	}
	var found []Run
	units := 0
	for _, n := range nodes {
		r := p.run(s, n, weft)
		units += r.Units
		found = append(found, r)
	}
	if len(nodes) > MaxRuns {
		s.wrong("runs", fmt.Sprintf("are %d runs, more than %d", len(nodes), MaxRuns),
			"join neighbours that are alike, or leave some out")
	}
	if units > MaxUnits {
		s.wrong("runs", fmt.Sprintf("together they come to %d units, more than %d", units,
			MaxUnits), "make one narrower, or leave some out")
	}
	return found
}

const runHint = "a run is BLOCK UNITS COLOUR, as in \"A 12 spruce\""

// run reads BLOCK UNITS COLOUR or, in a weft, plain UNITS. A problem's place
// is the word that is wrong.
func (p *parser) run(s *section, n *tomltext.Node, weft bool) Run {
	words := strings.Fields(n.Text)
	if len(words) < 2 {
		s.r.report(n, n.Value.From, s.name("runs"), fmt.Sprintf("%q is not a whole run", n.Text),
			runHint)
		return Run{}
	}
	r := Run{Block: p.runBlock(s, n, words[0], weft), Colour: -1}
	if len(words) == 2 && r.Block >= 0 && strings.Trim(words[1], "0123456789") == words[1] {
		s.r.report(n, n.Value.From, s.name("runs"),
			fmt.Sprintf("%q has no number of units", n.Text), runHint)
		return Run{}
	}
	if r.Block != noBlock {
		r.Units = p.runUnits(s, n, words[1])
	}
	colour := strings.TrimSpace(afterWords(n.Text))
	switch {
	case r.Block == -1 && colour != "":
		s.r.report(n, wordAt(n, colour), s.name("runs"),
			fmt.Sprintf("a plain run has no pattern colour, and here is %q", colour),
			"write \"plain 2\": it is woven in the ground's colour")
	case r.Block == -1:
	case r.Block == noBlock:
	case colour == "":
		s.r.report(n, n.Value.From, s.name("runs"), fmt.Sprintf("%q has no colour", n.Text),
			runHint)
	default:
		r.Colour = p.colourAt(s, n, "runs", wordAt(n, colour), colour)
	}
	return r
}

// afterWords is what follows the first two words.
func afterWords(text string) string {
	for range 2 {
		text = strings.TrimLeft(text, " \t")
		if i := strings.IndexAny(text, " \t"); i >= 0 {
			text = text[i:]
		} else {
			return ""
		}
	}
	return text
}

// wordAt is the byte at which a part of a text stands in the file.
func wordAt(n *tomltext.Node, part string) int {
	return n.Value.From + max(strings.LastIndex(n.Raw(), part), 0)
}

// noBlock stands for a block that was reported as wrong.
const noBlock = -2

func (p *parser) runBlock(s *section, n *tomltext.Node, word string, weft bool) int {
	known := p.brief.Structure.Letters()
	for i, letter := range known {
		if word == letter {
			return i
		}
	}
	if weft && word == "plain" {
		return -1
	}
	hint := "the blocks are " + strings.Join(known, ", ")
	switch {
	case weft && strings.HasPrefix(strings.ToLower(word), "pl"):
		hint = "did you mean \"plain\"?"
	case strings.TrimLeft(word[1:], "0123456789") == "" && len(word) > 1:
		hint = fmt.Sprintf("write a blank between: \"%s %s ...\"", word[:1], word[1:])
	case weft:
		hint += "; \"plain\" stands for ground picks alone"
	}
	s.r.report(n, n.Value.From, s.name("runs"), fmt.Sprintf("there is no block %q", word), hint)
	return noBlock
}

func (p *parser) runUnits(s *section, n *tomltext.Node, word string) int {
	units, err := strconv.Atoi(word)
	if err != nil || units < 1 || units > MaxUnits || word[0] == '+' || (word[0] == '0') {
		s.r.report(n, wordAt(n, word), s.name("runs"),
			fmt.Sprintf("%q is not a number of units", word),
			fmt.Sprintf("write a whole number from 1 to %d", MaxUnits))
		return 0
	}
	return units
}
