package main

import (
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
)

// choice is a flag that stands in place of a key of the brief.
type choice struct {
	flag, key   string
	kind, usage string
	form        func(string) (string, error) // the value as TOML has it
	words       []string                     // all values there are, where they are few
}

var unitsChoice = choice{"units", "units", "cm|in", "units to print lengths in", asText,
	[]string{"cm", "in"}}

var outputChoices = []choice{
	{"seed", "seed", "N", "another seed, for other random choices", asWhole, nil},
	unitsChoice,
}

var setChoices = []choice{
	{"pieces", "set.pieces", "N", "how many pieces", asWhole, nil},
	{"width", "set.width", "LENGTH", `finished width of a piece, as in "46 cm" or "18 in"`, asText, nil},
	{"length", "set.length", "LENGTH", "finished length of a piece, as in \"66 cm\"", asText, nil},
	{"structure", "cloth.structure", "NAME", either(weave.Names()), asText, weave.Names()},
	{"warp-colours", "warp.colours", "A,B", "colours of the warp, by their names in the brief",
		asTexts, nil},
	{"warp-middle", "warp.middle", "TEXT",
		"a middle for the warp, with its rhythm on both sides: \"60% A oat\", " +
			"\"60% even 5\" or none",
		asText, nil},
	{"weft-middle", "weft.middle", "TEXT",
		"the same for pieces without a middle of their own: \"60% plain\", \"30 cm B oat\"",
		asText, nil},
	{"weft-colours", "weft.colours", "A,B", "pattern colours of the weft", asTexts, nil},
	{"ground", "weft.ground", "COLOUR", "colour of the ground weft", asText, nil},
}

// parameters belong to the rhythm flag before them.
func parameters() []choice {
	var all []choice
	for _, p := range sequence.Parameters() {
		one := choice{p.Key, p.Key, "X", p.Usage, asNumber, p.Words}
		switch p.Value.(type) {
		case *int:
			one.kind, one.form = "N", asWhole
		case *string:
			one.kind, one.usage, one.form = "WORD", either(p.Words), asText
		case *[]*big.Rat:
			one.kind, one.form = "3,1,1", asNumbers
		}
		one.usage = strings.Join(p.Kinds, ", ") + ": " + one.usage
		all = append(all, one)
	}
	return all
}

// either names all words, the last with an or before it.
func either(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

const rhythmNote = `A rhythm flag replaces the whole rhythm of the warp or the weft, and any runs
there. Flags such as --terms belong to the rhythm flag before them, so that
warp and weft can each have their own.`

// overrides are the keys given by flags, in the order they were given.
type overrides struct {
	set     []brief.Override
	rhythms []*rhythm
}

// rhythm is a rhythm flag and the parameters that follow it.
type rhythm struct {
	choice
	pairs []string // as "terms = 5"
}

// declare adds the flags that change a brief without editing it.
func (o *overrides) declare(f *flags) {
	if len(f.groups) > 0 {
		f.choices(outputChoices, o.replace)
	}
	f.sharedGroup("rhythms", "Sizes, structure and colours", "")
	f.choices(setChoices, o.replace)
	f.sharedGroup("rhythms", "Rhythms", rhythmNote)
	kinds := sequence.KindNames()
	f.choices([]choice{
		{"warp-rhythm", "warp.rhythm", "KIND", either(kinds), asText, kinds},
		{"weft-rhythm", "weft.rhythm", "KIND",
			"the same for the weft of pieces without a rhythm of their own", asText, kinds},
	}, o.begin)
	for _, c := range parameters() {
		f.add(c.flag, c.usage, &parameter{o, c})
	}
	mirror := choice{"mirror", "mirror", "bool", "any: mirror it on its centre stripe", asYes, nil}
	f.add(mirror.flag, mirror.usage, &parameter{o, mirror}).NoOptDefVal = "true"
}

// choices declares flags whose values, as TOML has them, are taken.
func (f *flags) choices(all []choice, take func(c choice, toml string)) {
	for _, c := range all {
		f.add(c.flag, c.usage, &value{kind: c.kind, words: c.words, check: func(text string) error {
			toml, err := c.form(text)
			take(c, toml)
			return err
		}})
	}
}

func (o *overrides) replace(c choice, toml string) {
	o.set = append(o.set, brief.Override{Key: c.key, Value: toml, Flag: "--" + c.flag})
}

func (o *overrides) begin(c choice, kind string) {
	o.rhythms = append(o.rhythms, &rhythm{c, []string{"kind = " + kind}})
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
	pair := p.key + " = "
	if slices.ContainsFunc(r.pairs, func(s string) bool { return strings.HasPrefix(s, pair) }) {
		return mistake{what: "given twice for --" + r.flag, hint: "keep one of the two"}
	}
	toml, err := p.form(text)
	r.pairs = append(r.pairs, pair+toml)
	return err
}

// all are the overrides as package brief takes them.
func (o *overrides) all() []brief.Override {
	list := o.set
	for _, r := range o.rhythms {
		table := "{ " + strings.Join(r.pairs, ", ") + " }"
		list = append(list, brief.Override{Key: r.key, Value: table, Flag: "--" + r.flag})
	}
	return list
}
