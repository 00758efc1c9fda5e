package brief

import (
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

// Middle is a stretch between two ends that follow the rhythm, the second as a mirror
// image of the first: how much of the whole it takes, and what it is.
type Middle struct {
	Share  *big.Rat        // of the units, 0 to 1; nil where Length is given
	Length *measure.Length // finished
	Even   int             // so many even stripes, in the rule's colours and blocks in turn; else
	Run    Run             // one run, without its units; plain is ground picks alone
}

const middleHint = `write how much and what: "60% plain", "40 cm A oat", "1/2 in B plum" ` +
	`or "50% even 5"; "none" for no middle`

// middle reads a middle, "none" where a table is to have none though [weft] has one. A
// problem's place is the whole text.
func (p *parser) middle(s *section, base *Middle, weft bool) *Middle {
	if !s.has("middle") {
		s.know("middle")
		return base
	}
	n := s.find("middle", tomltext.String)
	if n == nil || strings.TrimSpace(n.Text) == "none" {
		return nil
	}
	m, what := splitMiddle(n.Text)
	if what == "" {
		s.wrong("middle", fmt.Sprintf("%q is not how much and what", n.Text), middleHint)
		return nil
	}
	p.middleWhat(s, n, m, what, weft)
	if m.Share != nil && m.Share.Cmp(big.NewRat(1, 1)) >= 0 || m.none() {
		s.wrong("middle", "must be more than nothing, and less than all", middleHint)
		return nil
	}
	return m
}

// splitMiddle is how much a middle takes and the words that say what it is; these are ""
// where the text does not begin with a share or a length.
func splitMiddle(text string) (m *Middle, what string) {
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		m, what = &Middle{}, text
		for _, w := range words[:n] {
			_, what, _ = strings.Cut(what, w)
		}
		size := strings.Join(words[:n], " ")
		if share, err := measure.ParseShare(size); err == nil {
			m.Share = share.Part
			return m, strings.TrimSpace(what)
		}
		if length, err := measure.ParseLength(size); err == nil {
			m.Length = &length
			return m, strings.TrimSpace(what)
		}
	}
	return &Middle{}, ""
}

// MiddleWith is the text of a middle with another colour in place of one, and whether it
// has that one.
func MiddleWith(text, old, name string) (string, bool) {
	_, what := splitMiddle(text)
	block, colour, _ := strings.Cut(what, " ")
	if what == "" || block == "even" || strings.TrimSpace(colour) != old {
		return text, false
	}
	size := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), what))
	return size + " " + block + " " + name, true
}

// MiddleInBlocks is the text of a middle with another block's letter in place of each.
func MiddleInBlocks(text string, letter func(string) string) string {
	_, what := splitMiddle(text)
	block, colour, found := strings.Cut(what, " ")
	if !found || block == "even" {
		return text
	}
	size := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), what))
	return size + " " + letter(block) + " " + colour
}

func (m *Middle) none() bool {
	return m.Share != nil && m.Share.Sign() <= 0 || m.Length != nil && m.Length.MM.Sign() <= 0
}

// middleWhat reads what a middle is: "plain", "even 5", or a block and a colour.
func (p *parser) middleWhat(s *section, n *tomltext.Node, m *Middle, what string, weft bool) {
	words := strings.Fields(what)
	switch {
	case words[0] == "even":
		count, err := 0, error(nil)
		if len(words) == 2 {
			count, err = strconv.Atoi(words[1])
		}
		if err != nil || count < 1 || count > sequence.MaxStripes {
			s.wrong("middle", fmt.Sprintf("%q does not say how many even stripes", n.Text),
				`write it as in "60% even 5"`)
		}
		m.Even = count
	case words[0] == "plain" && weft && len(words) == 1:
		m.Run = Run{Block: -1, Colour: -1}
	case words[0] == "plain" && !weft:
		s.wrong("middle", "a warp has no plain stretch",
			`name a block and a colour, as in "60% A oat"`)
	case len(words) == 1:
		s.wrong("middle", fmt.Sprintf("%q has no colour", n.Text), middleHint)
	default:
		known := p.brief.Structure.Letters()
		if m.Run.Block = slices.Index(known, words[0]); m.Run.Block < 0 {
			m.Run.Block = 0
			s.wrong("middle", fmt.Sprintf("there is no block %q", words[0]),
				"the blocks are "+strings.Join(known, ", "))
		}
		_, colour, _ := strings.Cut(what, words[0])
		m.Run.Colour = p.colourAt(s, n, "middle", n.Value.From, strings.TrimSpace(colour))
	}
}

// MiddleText is a middle as a brief has it; "none" for nil.
func (b *Brief) MiddleText(m *Middle) string {
	if m == nil {
		return "none"
	}
	return m.sizeText() + " " + b.MiddleWhat(m)
}

func (m *Middle) sizeText() string {
	if m.Length != nil {
		return m.Length.String()
	}
	percent := new(big.Rat).Mul(m.Share, big.NewRat(100, 1))
	return sequence.Decimal(percent, 20) + "%"
}

// MiddleWhat is what a middle is, as a brief has it: "plain", "even 5", "A oat".
func (b *Brief) MiddleWhat(m *Middle) string {
	switch {
	case m.Even > 0:
		return fmt.Sprintf("even %d", m.Even)
	case m.Run.Block < 0:
		return "plain"
	}
	return b.Structure.Blocks[m.Run.Block].Letter + " " + b.Colours[m.Run.Colour].Name
}
