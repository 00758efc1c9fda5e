package main

import (
	"fmt"
	"strings"

	"stripesong/sequence/brief"
)

// choice is a flag that stands in place of a key of the brief.
type choice struct {
	flag, key   string
	kind, usage string
	form        func(string) (string, error) // the value as TOML has it
}

var outputChoices = []choice{
	{"seed", "seed", "N", "another number, other random rhythms and orders", asWhole},
	{"units", "units", "cm|in", "what lengths are printed in", asText},
}

var setChoices = []choice{
	{"pieces", "set.pieces", "N", "how many pieces", asWhole},
	{"width", "set.width", "LENGTH", "one finished piece, as in \"46 cm\" or \"18 in\"", asText},
	{"length", "set.length", "LENGTH", "one finished piece, as in \"66 cm\"", asText},
	{"structure", "cloth.structure", "NAME", "halvdrall, summer-and-winter or monks-belt", asText},
	{"warp-colours", "warp.colours", "A,B", "colours of the warp, by their names in the brief", asTexts},
	{"weft-colours", "weft.colours", "A,B", "pattern colours of the weft", asTexts},
	{"ground", "weft.ground", "COLOUR", "colour of the ground weft", asText},
}

var rhythmFlags = []choice{
	{"warp-rhythm", "warp.rhythm", "KIND", "even, repeat, fibonacci, graded, random or euclid", nil},
	{"weft-rhythm", "weft.rhythm", "KIND", "the same for the weft of pieces without a rhythm of their own", nil},
}

// parameters belong to the rhythm flag before them.
var parameters = []choice{
	{"stripes", "stripes", "N", "even, graded, random: how many stripes", asWhole},
	{"weights", "weights", "3,1,1", "repeat: the widths of the motif", asNumbers},
	{"times", "times", "N", "repeat: how often the motif comes", asWhole},
	{"terms", "terms", "N", "fibonacci: how many terms", asWhole},
	{"from", "from", "N", "fibonacci: the first term", asWhole},
	{"direction", "direction", "WORD", "fibonacci, graded: rising, falling or out-and-back", asText},
	{"ratio", "ratio", "X", "graded: widest stripe to narrowest, as in 4", asNumber},
	{"steps", "steps", "WORD", "graded: equal or proportional", asText},
	{"narrowest", "narrowest", "N", "random: the least weight", asWhole},
	{"widest", "widest", "N", "random: the greatest weight", asWhole},
	{"accents", "accents", "N", "euclid: how many accents", asWhole},
	{"of", "of", "N", "euclid: in how many places", asWhole},
}

const rhythmNote = `A parameter belongs to the rhythm flag before it, so that warp and weft can
both have one. A rhythm takes the place of the brief's whole rhythm, and of
runs that are written out in the same table.`

// overrides are the keys given by flags, in the order they were given.
type overrides struct {
	set     []brief.Override
	rhythms []*rhythm
}

// rhythm is a rhythm flag and the parameters that follow it.
type rhythm struct {
	choice
	pairs []string // as "terms = 5"
	given map[string]bool
}

// declare adds the flags that change a brief without editing it.
func (o *overrides) declare(f *flags) {
	o.choices(f, outputChoices)
	f.group("In place of what the brief says", "")
	o.choices(f, setChoices)
	f.group("Rhythms in place of the brief's", rhythmNote)
	for _, c := range rhythmFlags {
		f.add(c.flag, c.usage, &value{kind: c.kind, check: func(kind string) error { return o.begin(c, kind) }})
	}
	for _, c := range parameters {
		f.add(c.flag, c.usage, &parameter{o, c})
	}
	f.add("mirror", "any: turn it on its centre stripe", &parameter{o, choice{flag: "mirror", key: "mirror", kind: "bool", form: asYes}}).NoOptDefVal = "true"
}

func (o *overrides) choices(f *flags, all []choice) {
	for _, c := range all {
		f.add(c.flag, c.usage, &value{kind: c.kind, check: func(text string) error {
			toml, err := c.form(text)
			o.set = append(o.set, brief.Override{Key: c.key, Value: toml, Flag: "--" + c.flag})
			return err
		}})
	}
}

func (o *overrides) begin(c choice, kind string) error {
	text, err := asText(kind)
	o.rhythms = append(o.rhythms, &rhythm{choice: c, pairs: []string{"kind = " + text}, given: map[string]bool{}})
	return err
}

// parameter is a flag that may come once after each rhythm flag.
type parameter struct {
	o *overrides
	choice
}

func (p *parameter) String() string { return "" }
func (p *parameter) Type() string   { return p.kind }

func (p *parameter) Set(text string) error {
	if len(p.o.rhythms) == 0 {
		return mistake{what: "belongs to a rhythm, and none comes before it",
			hint: "put it after one, as in --warp-rhythm fibonacci --terms 5"}
	}
	r := p.o.rhythms[len(p.o.rhythms)-1]
	if r.given[p.key] {
		return mistake{what: fmt.Sprintf("given twice for --%s", r.flag), hint: "keep one of the two"}
	}
	r.given[p.key] = true
	toml, err := p.form(text)
	r.pairs = append(r.pairs, p.key+" = "+toml)
	return err
}

// all are the overrides as package brief takes them.
func (o *overrides) all() []brief.Override {
	list := o.set
	for _, r := range o.rhythms {
		list = append(list, brief.Override{Key: r.key, Value: "{ " + strings.Join(r.pairs, ", ") + " }", Flag: "--" + r.flag})
	}
	return list
}
