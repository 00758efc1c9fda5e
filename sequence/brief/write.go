package brief

import (
	"fmt"
	"strings"
	"unicode"
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

// Quote is a text as TOML's basic string, which knows fewer escapes than Go. What
// turns, breaks or hides text is escaped: controls, format characters apart from
// the two joiners, line and paragraph separators.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == 0x200c || r == 0x200d:
			b.WriteRune(r)
		case !unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp):
			b.WriteRune(r)
		case r > 0xffff:
			fmt.Fprintf(&b, `\U%08X`, r)
		default:
			fmt.Fprintf(&b, `\u%04X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
