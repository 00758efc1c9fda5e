package workbench

import (
	"strconv"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
)

// blocks says how the blocks of a rule lie: by every stripe in turn where nothing is
// typed.
func (d *draft) blocks(op Op) (string, error) {
	_, table, err := d.ruled(op.Strip)
	if err != nil {
		return "", err
	}
	value, err := layingTable(op.Blocks)
	if err != nil {
		return "", err
	}
	said := d.called(op.Strip) + ": blocks as set"
	if value == "" {
		said = d.called(op.Strip) + ": a block to every stripe, in turn"
		inherits := op.Strip >= 0 && d.bench.brief.Weft.Rule.Blocks.Laid != nil
		if !inherits && !d.has(table+".blocks") {
			return said, nil
		}
		value = tomltext.Quote("stripes")
	}
	return said, d.set(table+".blocks", value)
}

// layingTable writes a table of blocks as TOML does, from what was typed; "" where nothing
// was. What goes with a key that was left empty is left out too.
func layingTable(typed map[string]string) (string, error) {
	var pairs []string
	start := sequence.NewLaying()
	for _, p := range start.Spec().Parameters {
		value := strings.TrimSpace(typed[p.Key])
		alone := p.Beside != "" && strings.TrimSpace(typed[p.Beside]) == ""
		if value == "" || value == p.Text(0, "") || alone {
			continue
		}
		written, err := written(p, value)
		if err != nil {
			return "", err
		}
		pairs = append(pairs, p.Key+" = "+written)
	}
	if len(pairs) == 0 {
		return "", nil
	}
	if typed["mirror"] == "true" && strings.TrimSpace(typed["letters"]) != "" {
		pairs = append(pairs, "mirror = true")
	}
	return "{ " + strings.Join(pairs, ", ") + " }", nil
}

// layingForm is how blocks lie, as its form shows it.
func layingForm(l *sequence.Laying) map[string]string {
	if l == nil {
		l = sequence.NewLaying()
	}
	form := map[string]string{"mirror": strconv.FormatBool(l.Mirror)}
	for _, p := range l.Spec().Parameters {
		form[p.Key] = p.Text(6, ", ")
	}
	return form
}
