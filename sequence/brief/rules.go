package brief

import (
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence"
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
		p.complete(s, w.Rule)
	}
	s.close()
}

// complete reports a rule that lacks what it can't do without.
func (p *parser) complete(s *section, rule Rule) {
	if rule.Rhythm == nil && !s.has("rhythm") {
		s.missing("rhythm", "write a rhythm such as { kind = \"even\", stripes = 5 }, or the finished runs")
	}
	if len(rule.Colours) == 0 && !s.has("colours") {
		s.missing("colours", "name the colours to take, as in colours = [\"spruce\", \"fog\"]")
	}
}

var ruleKeys = []string{"colours", "rhythm", "order", "shares", "blocks", "first", "seed"}

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
	if s.has("colours") {
		r.Colours = p.colourList(s, "colours")
	} else {
		s.know("colours")
	}
	if s.has("rhythm") {
		r.Rhythm = p.rhythm(s.sub("rhythm"))
	} else {
		s.know("rhythm")
	}
	r.Order = s.choice("order", base.Order, sequence.OrderKinds...)
	if s.has("shares") {
		r.Shares = p.shares(s)
	} else {
		s.know("shares")
	}
	r.Blocks = p.blocks(s, base.Blocks)
	r.Blocks.First = p.first(s, r.Blocks.First)
	if s.has("seed") {
		seed := s.seed("seed", 0)
		r.Seed = &seed
	} else {
		s.know("seed")
	}
	if r.Order == "shares" && len(r.Shares) != len(r.Colours) {
		s.wrong("shares", fmt.Sprintf("order \"shares\" needs one share for each of %d colours, not %d", len(r.Colours), len(r.Shares)),
			"write as many numbers as there are colours, as in shares = [3, 2, 1]")
	}
	return r
}

func (p *parser) shares(s *section) []int64 {
	weights := s.numbers("shares")
	if len(weights) == 0 {
		return nil
	}
	whole, err := sequence.Whole(weights)
	for i := range whole {
		if err == nil && whole[i] > sequence.MaxWeight {
			err = fmt.Errorf("%d is too large", whole[i])
		}
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
		found = append(found, p.colourAt(s, n, key, n.value.from, strings.TrimSpace(n.text)))
	}
	return found
}

// colourAt is the number of a colour, reporting a name that is not known.
func (p *parser) colourAt(s *section, n *node, key string, at int, name string) int {
	c := p.colourNamed(name)
	if c < 0 {
		s.r.report(n, at, s.name(key), fmt.Sprintf("there is no colour %q", name), nearestHint(name, p.colourNames()))
		return 0
	}
	return c
}

// colour reads one colour's name; otherwise where the key is left out.
func (p *parser) one(s *section, key string, otherwise int) int {
	n := s.find(key, stringKind)
	if n == nil {
		return otherwise
	}
	return p.colourAt(s, n, key, n.value.from, strings.TrimSpace(n.text))
}

// kindKeys are the keys each kind of rhythm has besides kind and mirror.
var kindKeys = map[string][]string{
	"even": {"stripes"}, "repeat": {"weights", "times"}, "fibonacci": {"terms", "from", "direction"},
	"graded": {"stripes", "ratio", "steps", "direction"}, "random": {"stripes", "narrowest", "widest", "seed"},
	"euclid": {"accents", "of"},
}

// neededKeys are those of them that can't be left out.
var neededKeys = map[string][]string{
	"even": {"stripes"}, "repeat": {"weights"}, "fibonacci": {"terms"}, "graded": {"stripes", "ratio"},
	"random": {"stripes", "narrowest", "widest"}, "euclid": {"accents", "of"},
}

// rhythm reads a rhythm table and tries the rule once.
func (p *parser) rhythm(s *section) *sequence.Rhythm {
	if s.node == nil {
		return nil
	}
	before := len(p.problems)
	if !s.has("kind") {
		s.missing("kind", "kinds are: "+strings.Join(sequence.Kinds, ", "))
		s.know("kind", "mirror")
		for _, kind := range sequence.Kinds {
			s.know(kindKeys[kind]...)
		}
		s.close() // a misspelt kind is not missing, but no such key
		return nil
	}
	r := &sequence.Rhythm{Kind: s.choice("kind", "", sequence.Kinds...), Mirror: s.yes("mirror", false)}
	if len(p.problems) > before {
		return nil
	}
	s.know(kindKeys[r.Kind]...)
	p.parameters(s, r)
	p.foreign(s, r.Kind)
	for _, key := range neededKeys[r.Kind] {
		if !s.has(key) && len(p.problems) == before {
			s.missing(key, fmt.Sprintf("a rhythm of kind %q has the keys %s", r.Kind, strings.Join(kindKeys[r.Kind], ", ")))
		}
	}
	if len(p.problems) > before {
		return nil
	}
	if _, _, err := r.Base(sequence.Chance(0, 0)); err != nil {
		s.r.report(s.node, s.blamed(err.Error()), s.path, err.Error(), fmt.Sprintf("change the keys of this %q rhythm", r.Kind))
		return nil
	}
	return r
}

// blamed is the place of the key whose name a message begins with, or of the
// whole table.
func (s *section) blamed(what string) int {
	first, _, _ := strings.Cut(what, " ")
	if n := s.node.table[first]; n != nil {
		return n.value.from
	}
	return s.node.value.from
}

func (p *parser) parameters(s *section, r *sequence.Rhythm) {
	has := func(key string) bool { return s.has(key) && known(key, kindKeys[r.Kind]) }
	number := func(key string, to *int, low, high int) {
		if has(key) {
			*to = s.count(key, 0, low, high)
		}
	}
	number("stripes", &r.Stripes, 1, sequence.MaxStripes)
	number("times", &r.Times, 1, sequence.MaxStripes)
	number("terms", &r.Terms, 1, sequence.MaxTerms)
	number("from", &r.From, 1, sequence.MaxWeight)
	number("narrowest", &r.Narrowest, 1, sequence.MaxWeight)
	number("widest", &r.Widest, 1, sequence.MaxWeight)
	number("accents", &r.Accents, 1, sequence.MaxStripes)
	number("of", &r.Of, 1, sequence.MaxStripes)
	if has("seed") {
		seed := s.seed("seed", 0)
		r.Seed = &seed
	}
	if has("weights") {
		r.Weights = s.numbers("weights")
	}
	if has("direction") {
		r.Direction = s.choice("direction", "rising", "rising", "falling", "out-and-back")
	}
	if has("steps") {
		r.Steps = s.choice("steps", "equal", "equal", "proportional")
	}
	if has("ratio") {
		r.Ratio = p.ratio(s)
	}
}

// ratio reads a number, or a text such as "5:1".
func (p *parser) ratio(s *section) *big.Rat {
	n := s.node.table["ratio"]
	if n.kind != stringKind {
		return s.number("ratio")
	}
	s.find("ratio", stringKind)
	wide, narrow, found := strings.Cut(n.text, ":")
	if !found {
		narrow = "1"
	}
	a, okA := exactNumber(&node{kind: floatKind, text: strings.TrimSpace(wide)})
	b, okB := exactNumber(&node{kind: floatKind, text: strings.TrimSpace(narrow)})
	if !okA || !okB || a.Sign() <= 0 || b.Sign() <= 0 {
		s.wrong("ratio", fmt.Sprintf("%q is not a ratio", n.text), "write the widest to the narrowest, as in 5 or \"5:1\"")
		return nil
	}
	return a.Quo(a, b)
}

// foreign reports keys of another kind of rhythm.
func (p *parser) foreign(s *section, kind string) {
	for _, key := range s.node.keys {
		if known(key, s.known) {
			continue
		}
		n := s.node.table[key]
		what, hint := "there is no such key", unknownHint(key, s.known)
		for _, k := range sequence.Kinds {
			if known(key, kindKeys[k]) {
				what = fmt.Sprintf("does not go with a rhythm of kind %q", kind)
				hint = "its keys are: " + strings.Join(append([]string{"mirror"}, kindKeys[kind]...), ", ")
			}
		}
		s.r.report(n, n.key.from, s.name(key), what, hint)
	}
}
