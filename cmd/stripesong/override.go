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
	{"weft-colours", "weft.colours", "A,B", "pattern colours of the weft", asTexts, nil},
	{"ground", "weft.ground", "COLOUR", "colour of the ground weft", asText, nil},
}

// middles lay a rhythm on both sides of something else.
func middles() []choice {
	m := sequence.Middle
	return []choice{
		{"warp-" + m.Key, "warp." + m.Key, "TEXT", m.Usage, asText, nil},
		{"weft-" + m.Key, "weft." + m.Key, "TEXT",
			"the same for the weft of pieces without one of their own", asText, nil},
	}
}

// layingName is what blocks are called among the kinds that take a parameter; their letters
// are the value of the blocks flag itself.
const layingName, lettersKey = "blocks", "letters"

// byStripes is how a brief says that the block changes with every stripe.
const byStripes = `"stripes"`

// laying says how blocks lie.
func laying() []choice {
	return []choice{
		{"warp-" + layingName, "warp." + layingName, "ABA",
			"blocks apart from the stripes, from left to right; or stripes, for a block to " +
				"every stripe in turn", asText, []string{"stripes"}},
		{"weft-" + layingName, "weft." + layingName, "ABA",
			"the same for the weft, the first woven first", asText, []string{"stripes"}},
	}
}

// parameters belong to the rhythm or blocks flag before them.
func parameters() []parameter {
	var all []parameter
	for _, p := range sequence.Parameters() {
		if p.Key == lettersKey {
			continue
		}
		one := choice{p.Key, p.Key, "X", p.Usage, asNumber, p.Words}
		switch p.Value.(type) {
		case *int:
			one.kind, one.form = "N", asWhole
		case *string:
			one.kind, one.form = "WORD", asText
			if p.Words == nil {
				one.kind = "TEXT"
			}
			if p.Usage == "" {
				one.usage = either(p.Words)
			}
		case *[]*big.Rat:
			one.kind, one.form = "3,1,1", asNumbers
		}
		one.usage = strings.Join(p.Kinds, ", ") + ": " + one.usage
		all = append(all, parameter{choice: one, kinds: p.Kinds})
	}
	mirror := "any: mirror it on its centre stripe, blocks on the last letter"
	return append(all, parameter{choice: choice{"mirror", "mirror", "bool", mirror, asYes, nil},
		kinds: append(sequence.KindNames(), layingName)})
}

// either names all words, the last with an or before it.
func either(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

const rhythmNote = `A rhythm flag replaces the whole rhythm of the warp or the weft, a blocks
flag how blocks lie there, and both any runs. Flags such as --terms or
--shares belong to the rhythm or blocks flag before them, so that warp and
weft can each have their own.`

// overrides are the keys given by flags, in the order they were given.
type overrides struct {
	set    []brief.Override
	tables []*ruleTable
}

// ruleTable is a rhythm or blocks flag and the parameters that follow it.
type ruleTable struct {
	choice
	blocks bool
	pairs  []string // as "terms = 5"
}

// declare adds the flags that change a brief without editing it.
func (o *overrides) declare(f *flags) {
	if len(f.groups) > 0 {
		f.choices(outputChoices, o.replace)
	}
	f.sharedGroup("rhythms", "Sizes, structure and colours", "")
	f.choices(setChoices, o.replace)
	f.sharedGroup("rhythms", "Rhythms and blocks", rhythmNote)
	kinds := sequence.KindNames()
	f.choices([]choice{
		{"warp-rhythm", "warp.rhythm", "KIND", either(kinds), asText, kinds},
		{"weft-rhythm", "weft.rhythm", "KIND",
			"the same for the weft of pieces without a rhythm of their own", asText, kinds},
	}, o.begin)
	f.choices(laying(), o.beginBlocks)
	f.choices(middles(), o.replace)
	for _, p := range parameters() {
		p.o = o
		flag := f.add(p.flag, p.usage, &p)
		if p.choice.kind == "bool" {
			flag.NoOptDefVal = "true"
		}
	}
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
	o.tables = append(o.tables, &ruleTable{choice: c, pairs: []string{"kind = " + kind}})
}

// beginBlocks begins with the letters; the word stripes stands for none.
func (o *overrides) beginBlocks(c choice, letters string) {
	t := &ruleTable{choice: c, blocks: true}
	if letters != byStripes {
		t.pairs = []string{lettersKey + " = " + letters}
	}
	o.tables = append(o.tables, t)
}

// parameter is a flag that may come once after each rhythm or blocks flag.
type parameter struct {
	o *overrides
	choice
	kinds []string // with which it goes
}

func (p *parameter) String() string { return "" }
func (p *parameter) Type() string   { return p.kind }

func (p *parameter) Set(text string) error {
	if err := p.misplaced(); err != nil {
		return err
	}
	r := p.o.tables[len(p.o.tables)-1]
	pair := p.key + " = "
	if slices.ContainsFunc(r.pairs, func(s string) bool { return strings.HasPrefix(s, pair) }) {
		return mistake{what: "given twice for --" + r.flag, hint: "keep one of the two"}
	}
	toml, err := p.form(text)
	r.pairs = append(r.pairs, pair+toml)
	return err
}

// misplaced refuses a parameter that the flag before it does not take.
func (p *parameter) misplaced() error {
	ofBlocks := slices.Contains(p.kinds, layingName)
	onlyOfBlocks := ofBlocks && len(p.kinds) == 1
	n := len(p.o.tables)
	afterBlocks := n > 0 && p.o.tables[n-1].blocks
	switch {
	case onlyOfBlocks && !afterBlocks:
		return mistake{what: "belongs to blocks, and no blocks flag stands before it",
			hint: "put it after one, as in --warp-blocks ABA --edges stripes"}
	case n == 0:
		return mistake{what: "belongs to a rhythm, and none comes before it",
			hint: "put it after one, as in --warp-rhythm fibonacci --terms 5"}
	case afterBlocks && !ofBlocks:
		return mistake{what: "does not go with --" + p.o.tables[n-1].flag,
			hint: "put it right after its rhythm, as in --warp-rhythm fibonacci --terms 5"}
	}
	return nil
}

// all are the overrides as package brief takes them.
func (o *overrides) all() []brief.Override {
	list := o.set
	for _, t := range o.tables {
		value := "{ " + strings.Join(t.pairs, ", ") + " }"
		if t.blocks && t.pairs == nil {
			value = byStripes
		}
		list = append(list, brief.Override{Key: t.key, Value: value, Flag: "--" + t.flag})
	}
	return list
}
