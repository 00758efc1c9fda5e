package brief

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
)

// rhythm reads a rhythm table and tries the rule once.
func (p *parser) rhythm(s *section) *sequence.Rhythm {
	if s.node == nil {
		return nil
	}
	before, names := len(p.problems), sequence.KindNames()
	if !s.has("kind") {
		s.missing("kind", "kinds are: "+strings.Join(names, ", "))
		s.know("kind", "mirror")
		s.know(kindKeys()...)
		s.close() // a misspelt kind is not missing, but no such key
		return nil
	}
	kind := sequence.NewKind(s.choice("kind", "", names...))
	r := &sequence.Rhythm{Kind: kind, Mirror: s.yes("mirror", false)}
	// A problem is not kept twice, nor beyond the most that are reported.
	wrong := func() bool { return len(p.problems) > before || len(p.problems) >= maxProblems }
	if kind == nil || wrong() {
		return nil
	}
	p.parameters(s, r)
	if wrong() {
		return nil
	}
	if _, _, err := r.Base(sequence.Chance(0, 0)); err != nil {
		s.r.report(s.node, s.blamed(err.Error()), s.path, err.Error(),
			fmt.Sprintf("change the keys of this %q rhythm", kind.Spec().Name))
		return nil
	}
	return r
}

// kindKeys are the keys of all kinds of rhythm.
func kindKeys() []string {
	var keys []string
	for _, spec := range sequence.Specs() {
		keys = append(keys, spec.Keys()...)
	}
	return keys
}

// blamed is the place of the key whose name a message begins with, or of the
// whole table.
func (s *section) blamed(what string) int {
	first, _, _ := strings.Cut(what, " ")
	if n := s.node.Table[first]; n != nil {
		return n.Value.From
	}
	return s.node.Value.From
}

// parameters reads what the kind of a rhythm takes, and reports what it does not
// take or lacks.
func (p *parser) parameters(s *section, r *sequence.Rhythm) {
	before, spec, others := len(p.problems), r.Spec(), kindKeys()
	keys := strings.Join(spec.Keys(), ", ")
	s.know(spec.Keys()...)
	for _, one := range spec.Parameters {
		if s.has(one.Key) {
			p.parameter(s, one)
		}
	}
	if spec.Chance {
		r.Seed = s.ownSeed()
	}
	for _, key := range s.node.Keys {
		n, what, hint := s.node.Table[key], "there is no such key", unknownHint(key, s.known)
		if slices.Contains(others, key) {
			what = fmt.Sprintf("does not go with a rhythm of kind %q", spec.Name)
			hint = "its keys are: mirror, " + keys
		}
		if !slices.Contains(s.known, key) {
			s.r.report(n, n.Key.From, s.name(key), what, hint)
		}
	}
	for _, one := range spec.Parameters {
		if !s.has(one.Key) && one.Text(1, "") == "" && len(p.problems) == before {
			s.missing(one.Key, fmt.Sprintf("a rhythm of kind %q has the keys %s", spec.Name, keys))
		}
	}
}

func (p *parser) parameter(s *section, one sequence.Parameter) {
	switch at := one.Value.(type) {
	case *int:
		*at = s.count(one.Key, *at, 1, one.Most)
	case *string:
		if one.Words == nil {
			*at = s.text(one.Key, *at)
			return
		}
		*at = s.choice(one.Key, *at, one.Words...)
	case *[]*big.Rat:
		*at = s.numbers(one.Key)
	case **big.Rat:
		*at = p.ratio(s, one.Key)
	}
}

// ratio reads a number, or a text such as "5:1".
func (p *parser) ratio(s *section, key string) *big.Rat {
	n := s.node.Table[key]
	if n.Kind != tomltext.String {
		return s.number(key)
	}
	s.find(key, tomltext.String)
	wide, narrow, found := strings.Cut(n.Text, ":")
	if !found {
		narrow = "1"
	}
	a, okA := exactNumber(&tomltext.Node{Kind: tomltext.Float, Text: strings.TrimSpace(wide)})
	b, okB := exactNumber(&tomltext.Node{Kind: tomltext.Float, Text: strings.TrimSpace(narrow)})
	if !okA || !okB || a.Sign() <= 0 || b.Sign() <= 0 {
		s.wrong(key, fmt.Sprintf("%q is not a ratio", n.Text),
			"write the widest to the narrowest, as in 5 or \"5:1\"")
		return nil
	}
	return a.Quo(a, b)
}

// rhythmText is a rhythm as an inline table, its keys in the order of all kinds'.
func rhythmText(r *sequence.Rhythm) string {
	spec := r.Spec()
	pairs := []string{"kind = " + tomltext.Quote(spec.Name)}
	for _, of := range sequence.Parameters() {
		if i := slices.Index(spec.Keys(), of.Key); i >= 0 {
			pairs = append(pairs, of.Key+" = "+valueText(spec.Parameters[i]))
		}
	}
	if r.Mirror {
		pairs = append(pairs, "mirror = true")
	}
	if r.Seed != nil {
		pairs = append(pairs, fmt.Sprintf("seed = %d", *r.Seed))
	}
	return "{ " + strings.Join(pairs, ", ") + " }"
}

// valueText is the value of a parameter; briefs hold no number finer than its
// decimals.
func valueText(p sequence.Parameter) string {
	text := p.Text(20, ", ")
	switch p.Value.(type) {
	case *string:
		return tomltext.Quote(text)
	case *[]*big.Rat:
		return "[" + text + "]"
	}
	return text
}
