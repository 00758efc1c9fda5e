package brief

import (
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence"
)

// RuleKeys are the keys of a [[piece]] or [warp] table that make it follow a
// rule, and the removal of those that would stand in its way.
func (b *Brief) RuleKeys(r Rule) []Change {
	names := make([]string, len(r.Colours))
	for i, c := range r.Colours {
		names[i] = Quote(b.Colours[c].Name)
	}
	first, seed := "", ""
	if !r.Blocks.Apart {
		first = Quote(b.Structure.Blocks[r.Blocks.First].Letter)
	}
	if r.Seed != nil {
		seed = fmt.Sprint(*r.Seed)
	}
	return []Change{{"runs", ""}, {"shares", ""}, {"colours", "[" + strings.Join(names, ", ") + "]"},
		{"rhythm", rhythmText(r.Rhythm)}, {"order", Quote(r.Order)}, {"first", first}, {"seed", seed}}
}

// rhythmText is a rhythm as an inline table.
func rhythmText(r *sequence.Rhythm) string {
	pairs := []string{"kind = " + Quote(r.Kind)}
	number := func(key string, n int) {
		if n != 0 {
			pairs = append(pairs, fmt.Sprintf("%s = %d", key, n))
		}
	}
	text := func(key, s string) {
		if s != "" {
			pairs = append(pairs, key+" = "+Quote(s))
		}
	}
	number("stripes", r.Stripes)
	if r.Weights != nil {
		weights := make([]string, len(r.Weights))
		for i, w := range r.Weights {
			weights[i] = numberText(w)
		}
		pairs = append(pairs, "weights = ["+strings.Join(weights, ", ")+"]")
	}
	number("times", r.Times)
	number("terms", r.Terms)
	number("from", r.From)
	text("direction", r.Direction)
	if r.Ratio != nil {
		pairs = append(pairs, "ratio = "+numberText(r.Ratio))
	}
	text("steps", r.Steps)
	number("narrowest", r.Narrowest)
	number("widest", r.Widest)
	number("accents", r.Accents)
	number("of", r.Of)
	if r.Mirror {
		pairs = append(pairs, "mirror = true")
	}
	if r.Seed != nil {
		pairs = append(pairs, fmt.Sprintf("seed = %d", *r.Seed))
	}
	return "{ " + strings.Join(pairs, ", ") + " }"
}

// numberText is a number in plain digits; briefs hold no finer ones.
func numberText(r *big.Rat) string {
	if r.IsInt() {
		return r.Num().String()
	}
	places, _ := r.FloatPrec()
	return r.FloatString(places)
}

// RunsText is a finished sequence as the value of a runs key.
func (b *Brief) RunsText(runs []Run) string {
	texts := make([]string, len(runs))
	for i, r := range runs {
		texts[i] = b.runText(r)
	}
	return RunList(texts)
}

// RunList is runs, each written as in a brief, as TOML's list, a line for every
// few.
func RunList(runs []string) string {
	const each = 5
	var b strings.Builder
	b.WriteString("[")
	for i, r := range runs {
		switch {
		case i > 0 && i%each == 0:
			b.WriteString(",\n        ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(Quote(r))
	}
	return b.String() + "]"
}

func (b *Brief) runText(r Run) string {
	if r.Block < 0 {
		return fmt.Sprintf("plain %d", r.Units)
	}
	return fmt.Sprintf("%s %d %s", b.Structure.Blocks[r.Block].Letter, r.Units, b.Colours[r.Colour].Name)
}

// Quote is a text as TOML's basic string, which knows fewer escapes than Go.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
