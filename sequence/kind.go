package sequence

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// Kinds make a rhythm of each kind there is, with the values of keys that may be
// left out. It is the one table of rhythms: all that reads, writes, draws, tells
// or lists them ranges over it.
var Kinds = []func() Kind{
	func() Kind { return new(Even) },
	func() Kind { return &Repeat{Times: 1} },
	func() Kind { return &Fibonacci{From: 1, Direction: rising} },
	func() Kind { return &Graded{Steps: equal, Direction: rising} },
	func() Kind { return new(Random) },
	func() Kind { return new(Euclid) },
}

// Kind is a rule for the widths of stripes: [Even], [Repeat], [Fibonacci],
// [Graded], [Random] or [Euclid], each with the numbers and words it takes.
type Kind interface {
	// Spec is what others have to know of the kind.
	Spec() Spec
	// Weights are the proportions of the stripes; narrowest first where they
	// have a direction. Each value is within the bounds of Spec by itself.
	Weights(chance *rand.Rand) ([]int64, error)
	// draw draws numbers a weaver would choose, for at most so many stripes.
	draw(most int, chance *rand.Rand)
}

// Spec is what a brief, flags, help and page know of a kind.
type Spec struct {
	Name       string      `json:"kind"`
	Words      string      `json:"-"` // what it is, the keys in braces standing for values
	Parameters []Parameter `json:"parameters"`
	Chance     bool        `json:"-"` // chance has a part in it: it may have a seed
	Direction  string      `json:"-"` // of a rhythm that has one
}

// Keys are the keys of a rhythm of this kind, besides kind and mirror.
func (s Spec) Keys() []string {
	var keys []string
	for _, p := range s.Parameters {
		keys = append(keys, p.Key)
	}
	if s.Chance {
		keys = append(keys, "seed")
	}
	return keys
}

// Parameter is one value of a rhythm, and all that is known of it.
type Parameter struct {
	Key   string   `json:"key"`     // in a brief, and the flag
	Label string   `json:"label"`   // on the page
	Usage string   `json:"-"`       // in the help
	Start string   `json:"start"`   // what the page starts with
	Words []string `json:"options"` // of a word: all there are
	Most  int      `json:"most"`    // of a whole number, the least being 1
	Value any      `json:"-"`       // where it is: *int, *string, **big.Rat or *[]*big.Rat
	// names of the kinds that take it, from [Parameters]; "blocks" for [Laying]
	Kinds  []string `json:"-"`
	Beside string   `json:"beside,omitempty"` // a key without which it says nothing
}

// Text is the value as a word or in plain digits with at most so many decimals,
// those of a list with a text between them; "" where there is no value.
func (p Parameter) Text(places int, between string) string {
	switch at := p.Value.(type) {
	case *string:
		return *at
	case **big.Rat:
		return Decimal(*at, places)
	case *[]*big.Rat:
		words := make([]string, len(*at))
		for i, r := range *at {
			words[i] = Decimal(r, places)
		}
		return strings.Join(words, between)
	case *int:
		if *at != 0 {
			return strconv.Itoa(*at)
		}
	}
	return ""
}

// Decimal is a number in plain digits with at most so many decimals; "" for nil.
func Decimal(r *big.Rat, places int) string {
	if r == nil {
		return ""
	}
	return strings.TrimRight(strings.TrimRight(r.FloatString(places), "0"), ".")
}

func (p Parameter) check() error {
	switch at := p.Value.(type) {
	case *int:
		return between(p.Key, *at, 1, p.Most)
	case *string:
		if p.Words != nil && !slices.Contains(p.Words, *at) {
			return fmt.Errorf("%s %q is none of %s", p.Key, *at, strings.Join(p.Words, ", "))
		}
	}
	return nil
}

// NewKind makes a rhythm of the kind of that name; nil where there is none.
func NewKind(name string) Kind {
	for _, kind := range Kinds {
		if made := kind(); made.Spec().Name == name {
			return made
		}
	}
	return nil
}

// Specs are the specs of all kinds, in the order of [Kinds].
func Specs() []Spec {
	all := make([]Spec, len(Kinds))
	for i, kind := range Kinds {
		all[i] = kind().Spec()
	}
	return all
}

// KindNames are the names of all kinds.
func KindNames() []string {
	var names []string
	for _, spec := range Specs() {
		names = append(names, spec.Name)
	}
	return names
}

// Parameters are those of all kinds and of [Laying], each key once.
func Parameters() []Parameter {
	var all []Parameter
	for _, spec := range append(Specs(), new(Laying).Spec()) {
		for _, p := range spec.Parameters {
			i := slices.IndexFunc(all, func(known Parameter) bool { return known.Key == p.Key })
			if i < 0 {
				i, all = len(all), append(all, p)
			}
			all[i].Kinds = append(all[i].Kinds, spec.Name)
		}
	}
	return all
}
