package brief

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

// warp reads [warp].
func (p *parser) warp(s *section) {
	w := &p.brief.Warp
	if s.node == nil {
		s.missing("colours", "add a [warp] table with colours and a rhythm, or with runs")
		return
	}
	w.Rule = p.rule(s, Rule{Order: "cycle"})
	w.Runs = p.runs(s, false)
	if s.has("runs") {
		w.Beside = p.beside(s)
	} else {
		p.complete(s, s, w.Rule)
	}
	s.close()
}

// complete reports a rule that lacks what it can't do without, and that neither its
// section nor the one of its own is meant to have.
func (p *parser) complete(s, own *section, rule Rule) {
	if rule.Rhythm == nil && !s.has("rhythm") && !own.meant("rhythm") && !own.meant("runs") {
		s.missing("rhythm",
			"write a rhythm such as { kind = \"even\", stripes = 5 }, or the finished runs")
	}
	if len(rule.Colours) == 0 && !s.has("colours") && !own.meant("colours") && !own.meant("runs") {
		s.missing("colours", "name the colours to take, as in colours = [\"spruce\", \"fog\"]")
	}
}

var ruleKeys = []string{"colours", "rhythm", "order", "shares", "blocks",
	sequence.Middle.Key, "first", "seed"}

// beside lists the rules that stand beside runs, which win.
func (p *parser) beside(s *section) []string {
	var found []string
	for _, key := range ruleKeys {
		if s.has(key) {
			found = append(found, s.name(key))
		}
	}
	return found
}

// rule reads the keys a rule may have; what is left out is taken from base.
func (p *parser) rule(s *section, base Rule) Rule {
	r := base
	s.know(ruleKeys...)
	if s.has("colours") {
		r.Colours = p.colourList(s, "colours")
	}
	if s.has("rhythm") {
		r.Rhythm = p.rhythm(s.sub("rhythm"))
	}
	r.Order = s.choice("order", base.Order, sequence.OrderKinds...)
	if s.has("shares") {
		r.Shares = p.shares(s)
	}
	r.Blocks = p.blocks(s, base.Blocks)
	r.Middle = p.middle(s, base.Middle, s.path != "warp")
	r.Blocks.First = p.first(s, r.Blocks.First)
	r.Seed = cmp.Or(s.ownSeed(), r.Seed)
	if n := len(r.Colours); r.Order == "shares" && len(r.Shares) != n {
		s.wrong("shares", fmt.Sprintf(
			"order \"shares\" needs one share for each of %d colours, not %d", n, len(r.Shares)),
			"write as many numbers as there are colours, as in shares = [3, 2, 1]")
	}
	return r
}

func (p *parser) shares(s *section) []int64 { return p.wholeShares(s, s.numbers("shares")) }

func (p *parser) wholeShares(s *section, weights []*big.Rat) []int64 {
	if len(weights) == 0 {
		return nil
	}
	whole, err := sequence.Whole(weights)
	tooLarge := func(w int64) bool { return w > sequence.MaxWeight }
	if i := slices.IndexFunc(whole, tooLarge); i >= 0 {
		err = fmt.Errorf("%d is too large", whole[i])
	}
	if err != nil {
		s.wrong("shares", err.Error(), "write small whole numbers, as in [3, 2, 1]")
	}
	return whole
}

func (p *parser) colourList(s *section, key string) []int {
	nodes := s.names(key)
	if s.has(key) && len(nodes) == 0 && len(p.problems) == 0 {
		s.wrong(key, "is empty", "name at least one colour")
	}
	var found []int
	for _, n := range nodes {
		found = append(found, p.colourAt(s, n, key, n.Value.From, strings.TrimSpace(n.Text)))
	}
	return found
}

// colourAt is the number of a colour, reporting a name that is not known.
func (p *parser) colourAt(s *section, n *tomltext.Node, key string, at int, name string) int {
	c := p.brief.ColourNamed(name)
	if c < 0 && !s.r.full() {
		s.r.report(n, at, s.name(key), fmt.Sprintf("there is no colour %q", name),
			p.colourHint(key, name))
	}
	return max(c, 0)
}

// colourHint is what to write in place of a name that no colour has.
func (p *parser) colourHint(key, name string) string {
	if _, err := measure.ParseLength(name); err == nil && key == "hem" {
		return "hem is the hem's colour here; its length stands under [set]"
	}
	return nearestHint(name, p.colourNames())
}

// one reads one colour's name; it is otherwise where the key is left out.
func (p *parser) one(s *section, key string, otherwise int) int {
	n := s.find(key, tomltext.String)
	if n == nil {
		return otherwise
	}
	return p.colourAt(s, n, key, n.Value.From, strings.TrimSpace(n.Text))
}
