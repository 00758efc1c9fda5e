package brief

import (
	"fmt"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// RuleKeys are the keys of a [[piece]] or [warp] table that make it follow a
// rule, and the removal of those that would stand in its way.
func (b *Brief) RuleKeys(r Rule) []Change {
	names := make([]string, len(r.Colours))
	for i, c := range r.Colours {
		names[i] = b.Colours[c].Name
	}
	first, seed := "", ""
	if !r.Blocks.Apart {
		first = tomltext.Quote(b.Structure.Blocks[r.Blocks.First].Letter)
	}
	if r.Seed != nil {
		seed = fmt.Sprint(*r.Seed)
	}
	return []Change{{"runs", ""}, {"hold", ""}, {"chosen", ""}, {"shares", ""},
		{"colours", tomltext.List(names)},
		{"rhythm", rhythmText(r.Rhythm)}, {"order", tomltext.Quote(r.Order)}, {"first", first},
		{"seed", seed}}
}

// RunText is a run as a brief has it: "A 12 spruce", or "plain 2" where it has no
// block.
func RunText(block string, units int, colour string) string {
	if block == "" {
		return fmt.Sprintf("plain %d", units)
	}
	return fmt.Sprintf("%s %d %s", block, units, colour)
}

// RunTexts are the runs of a sequence, each as a brief has it.
func (b *Brief) RunTexts(runs []Run) []string {
	texts := make([]string, len(runs))
	for i, r := range runs {
		block, colour := "", ""
		if r.Block >= 0 {
			block, colour = b.Structure.Blocks[r.Block].Letter, b.Colours[r.Colour].Name
		}
		texts[i] = RunText(block, r.Units, colour)
	}
	return texts
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
		b.WriteString(tomltext.Quote(r))
	}
	return b.String() + "]"
}
