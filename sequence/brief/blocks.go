package brief

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

const blocksHint = `write "stripes", { letters = "ABA", weights = [1, 2, 1] }, with ` +
	`edges = "stripes" or without, or { shares = [1, 2] }`

// blocks reads "stripes", the shares that blocks take which change with every stripe, or
// letters and weights of their own.
func (p *parser) blocks(s *section, base Blocks) Blocks {
	if !s.has("blocks") {
		s.know("blocks")
		return base
	}
	if n := s.node.Table["blocks"]; n.Kind == tomltext.String {
		if s.text("blocks", ""); n.Text != "stripes" {
			s.wrong("blocks", fmt.Sprintf("%q is not a way to lay blocks", n.Text), blocksHint)
		}
		return Blocks{}
	}
	sub := s.sub("blocks")
	if sub.node == nil {
		return Blocks{}
	}
	before := len(p.problems)
	b := Blocks{Laid: p.laying(sub)}
	b.Shares = p.blockShares(sub, b.Laid)
	if sub.has("shares") && !sub.has("letters") {
		p.withoutLetters(sub, b.Laid)
	} else {
		p.apart(sub, &b, before)
	}
	sub.close()
	return b
}

// laying reads the keys of a table of blocks, as they are written.
func (p *parser) laying(s *section) *sequence.Laying {
	l := sequence.NewLaying()
	l.Mirror = s.yes("mirror", false)
	for _, one := range l.Spec().Parameters {
		s.know(one.Key)
		if s.has(one.Key) {
			p.parameter(s, one)
		}
	}
	return l
}

// apart reads how blocks lie that do not change with the stripes.
func (p *parser) apart(s *section, b *Blocks, before int) {
	b.Apart, b.Mirror, b.OnEdges = true, b.Laid.Mirror, b.Laid.Edges == "stripes"
	b.Letters, b.Weights = p.letters(s, b.Laid.Letters), p.blockWeights(s, b.Laid.Weights)
	if b.Weights == nil {
		b.Weights = slices.Repeat([]int64{1}, len(b.Letters))
	}
	if len(p.problems) > before {
		return
	}
	if len(b.Weights) != len(b.Letters) {
		what := fmt.Sprintf("has %d numbers for %d letters", len(b.Weights), len(b.Letters))
		s.wrong("weights", what, "write one number for each letter")
		return
	}
	if b.Shares != nil {
		p.inShares(s, b)
	}
	if s.has("centre") {
		p.centred(s, b)
	}
}

// withoutLetters refuses what goes with letters alone.
func (p *parser) withoutLetters(s *section, l *sequence.Laying) {
	keys := []string{"mirror"}
	for _, one := range l.Spec().Parameters {
		if one.Beside == "letters" {
			keys = append(keys, one.Key)
		}
	}
	for _, key := range keys {
		if s.has(key) {
			s.wrong(key, "goes with letters",
				"write the blocks from left to right, as in letters = \"ABA\"")
		}
	}
}

func (p *parser) blockWeights(s *section, weights []*big.Rat) []int64 {
	if weights == nil {
		return nil
	}
	whole, err := sequence.Whole(weights)
	if err != nil {
		s.wrong("weights", err.Error(), "write small whole numbers, as in [1, 2, 1]")
	}
	return whole
}

// blockShares reads what all stripes of each block take together.
func (p *parser) blockShares(s *section, l *sequence.Laying) []int64 {
	shares, known := p.wholeShares(s, l.Shares), p.brief.Structure.Letters()
	if shares != nil && len(shares) != len(known) {
		what := fmt.Sprintf("has %d numbers for the blocks %s", len(shares),
			strings.Join(known, ", "))
		s.wrong("shares", what,
			"write one for each, as in [1, 2] for A a third and B two")
		return nil
	}
	return shares
}

// inShares scales the weights so that the letters take the shares that are asked for.
func (p *parser) inShares(s *section, b *Blocks) {
	weights, err := sequence.InShares(b.Weights, b.Letters, b.Shares, b.Mirror)
	var absent *sequence.AbsentError
	if errors.As(err, &absent) {
		letter := p.brief.Structure.Letters()[absent.Group]
		s.wrong("shares",
			fmt.Sprintf("block %s is to have a share and is not among the letters", letter),
			"write its letter too, or leave shares out")
		return
	}
	b.Weights, b.Shares = weights, nil
}

// centred puts the middle block where it is wanted.
func (p *parser) centred(s *section, b *Blocks) {
	at, err := measure.ParseShare(b.Laid.Centre)
	if err != nil {
		s.wrong("centre", err.Error(), quantityHint("centre", s.node.Table["centre"]))
		return
	}
	if b.Mirror {
		s.wrong("centre", "stands beside mirror = true, which puts the last letter in the middle",
			"keep one of the two")
		return
	}
	weights, err := sequence.Centred(b.Weights, at.Part)
	if err != nil {
		s.wrong("centre", err.Error(),
			"write where its own middle lies, from the left or the first woven, as in \"40%\"")
		return
	}
	b.Weights = weights
}

// first reads the block the first stripe has where blocks change with every
// stripe.
func (p *parser) first(s *section, otherwise int) int {
	if !s.has("first") {
		s.know("first")
		return otherwise
	}
	known := p.brief.Structure.Letters()
	return max(slices.Index(known, s.choice("first", known[otherwise], known...)), 0)
}

func (p *parser) letters(s *section, text string) []int {
	text = strings.ReplaceAll(text, " ", "")
	if text == "" {
		s.missing("letters", "write the blocks from left to right, as in letters = \"ABA\"")
	}
	known := p.brief.Structure.Letters()
	var found []int
	for _, c := range text {
		at := strings.Index(strings.Join(known, ""), string(c))
		if at < 0 {
			s.wrong("letters", fmt.Sprintf("there is no block %q", string(c)),
				"the blocks are "+strings.Join(known, ", "))
			return nil
		}
		found = append(found, at)
	}
	if len(found) > sequence.MaxStripes {
		s.wrong("letters", fmt.Sprintf("names %d blocks, more than %d", len(found),
			sequence.MaxStripes), "use fewer letters")
		return nil
	}
	return found
}
