package workbench

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

var ruleOps = []Operation{
	{"in", "strip, colour", (*draft).colourIn, false},
	{"out", "strip, colour", (*draft).colourOut, false},
	{"part", "strip, key (ground, hem or separator), colour", (*draft).part, false},
	{"rhythm", "strip, rhythm", (*draft).rhythm, false},
	{"order", "strip, value", (*draft).order, false},
	{"first", "strip, value", (*draft).first, false},
	{"blocks", "strip, blocks (empty for one to every stripe)", (*draft).blocks, false},
	{"middle", "strip, value (as a brief has it; \"\" for none)", (*draft).middle, false},
	{"another", "strip, to (a seed; 0 for the next)", (*draft).another, false},
}

// free refuses where a strip goes by no rule of its own: written out as runs,
// which win over rules, or chosen by the program.
func (d *draft) free(strip int) error {
	b := d.bench.brief
	if strip >= 0 && strip < len(b.Pieces) &&
		(b.Pieces[strip].Chosen || b.Vary != nil && b.Pieces[strip].Open) {
		return refuse("give it a rhythm first, or change one of its blocks",
			"%s is chosen by the program", d.called(strip))
	}
	if d.kept(strip) {
		return refuse("let it follow its rhythm first, or change one of its stripes",
			"%s is kept as it is",
			d.called(strip))
	}
	return nil
}

// kept tells whether a strip's runs are written out.
func (d *draft) kept(strip int) bool {
	b := d.bench.brief
	switch {
	case strip == Warp:
		return b.Warp.Runs != nil
	case strip == Weft:
		return b.Weft.Runs != nil
	case strip >= 0 && strip < len(b.Pieces):
		return b.Pieces[strip].Weft.Runs != nil
	}
	return false
}

func (d *draft) colourIn(op Op) (string, error) {
	return fmt.Sprintf("%s: %s taken in", d.called(op.Strip), op.Colour), d.recolour(op, true)
}

func (d *draft) colourOut(op Op) (string, error) {
	return fmt.Sprintf("%s: %s taken out", d.called(op.Strip), op.Colour), d.recolour(op, false)
}

// recolour takes a colour into a rule's colours or out of them.
func (d *draft) recolour(op Op, in bool) error {
	at, err := d.colour(op.Colour)
	if err != nil {
		return err
	}
	if err := d.free(op.Strip); err != nil {
		return err
	}
	rule, err := d.rule(op.Strip)
	if err != nil {
		return err
	}
	colours, shares := slices.Clone(rule.Colours), slices.Clone(rule.Shares)
	place := slices.Index(colours, at)
	switch {
	case in && place >= 0, !in && place < 0:
		return nil
	case in:
		colours, shares = append(colours, at), append(shares, 1)
	case len(colours) == 1:
		return refuse("take another in first", "%s is the only colour of %s", op.Colour,
			d.called(op.Strip))
	default:
		colours = slices.Delete(colours, place, place+1)
		if place < len(shares) {
			shares = slices.Delete(shares, place, place+1)
		}
	}
	return d.writeColours(op.Strip, rule, colours, shares)
}

func (d *draft) writeColours(strip int, rule brief.Rule, colours []int, shares []int64) error {
	table, err := d.table(strip)
	if err != nil {
		return err
	}
	names := make([]string, len(colours))
	for i, c := range colours {
		names[i] = d.bench.brief.Colours[c].Name
	}
	if rule.Order == "shares" {
		if err := d.set(table+".shares", numbers(shares)); err != nil {
			return err
		}
	}
	return d.set(table+".colours", tomltext.List(names))
}

func numbers(all []int64) string { return strings.ReplaceAll(fmt.Sprint(all), " ", ", ") }

// part sets the colour of the ground, the hems or the separators.
func (d *draft) part(op Op) (string, error) {
	if !slices.Contains([]string{"ground", "hem", "separator"}, op.Key) || op.Strip == Warp {
		return "", refuse("", "there is no %q here", op.Key)
	}
	if _, err := d.colour(op.Colour); err != nil {
		return "", err
	}
	table, err := d.table(op.Strip)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: %s in %s", d.called(op.Strip), op.Key, op.Colour),
		d.setText(table+"."+op.Key, op.Colour)
}

// rhythm gives a strip a rhythm, in place of runs that are written out.
func (d *draft) rhythm(op Op) (string, error) {
	value, err := rhythmTable(op.Rhythm)
	if err != nil {
		return "", err
	}
	table, err := d.table(op.Strip)
	if err != nil {
		return "", err
	}
	if d.has(table + ".runs") {
		if err := d.unhold(table); err != nil {
			return "", err
		}
		if err := d.set(table+".runs", ""); err != nil {
			return "", err
		}
	}
	if err := d.colours(op.Strip, table); err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: rhythm %s", d.called(op.Strip), op.Rhythm["kind"]),
		d.set(table+".rhythm", value)
}

// colours names the colours of a strip that has none to follow a rule with:
// those of its runs.
func (d *draft) colours(strip int, table string) error {
	rule, err := d.rule(strip)
	if err != nil || len(rule.Colours) > 0 || strip == Weft {
		return err
	}
	all, err := d.runs(strip)
	if err != nil {
		return err
	}
	var names []string
	for _, r := range all {
		if r.block != "" && !slices.Contains(names, r.colour) {
			names = append(names, r.colour)
		}
	}
	return d.set(table+".colours", tomltext.List(names))
}

// ruled is the rule of a strip that follows it, and its table.
func (d *draft) ruled(strip int) (rule brief.Rule, table string, err error) {
	if err := d.free(strip); err != nil {
		return rule, "", err
	}
	if rule, err = d.rule(strip); err == nil {
		table, err = d.table(strip)
	}
	return rule, table, err
}

// order says in which order a rule takes its colours.
func (d *draft) order(op Op) (string, error) {
	rule, table, err := d.ruled(op.Strip)
	if err != nil {
		return "", err
	}
	if op.Value == "shares" && len(rule.Shares) != len(rule.Colours) {
		even := make([]int64, len(rule.Colours))
		for i := range even {
			even[i] = int64(len(even) - i)
		}
		if err := d.set(table+".shares", numbers(even)); err != nil {
			return "", err
		}
	}
	return fmt.Sprintf("%s: colours by %s", d.called(op.Strip), op.Value),
		d.setText(table+".order", op.Value)
}

// first says which block a rule begins with.
func (d *draft) first(op Op) (string, error) {
	_, table, err := d.ruled(op.Strip)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s: from block %s", d.called(op.Strip), op.Value),
		d.setText(table+".first", op.Value)
}

// middle gives a rule a middle, or takes it away: in a piece by saying that it has none,
// since [weft] may have one.
func (d *draft) middle(op Op) (string, error) {
	_, table, err := d.ruled(op.Strip)
	if err != nil {
		return "", err
	}
	value := strings.TrimSpace(op.Value)
	if value == "" && d.bench.brief.Weft.Rule.Middle != nil && op.Strip >= 0 {
		value = "none"
	}
	said := fmt.Sprintf("%s: middle %s", d.called(op.Strip), cmp.Or(value, "none"))
	if value == "" {
		return said, d.set(table+".middle", "")
	}
	return said, d.setText(table+".middle", value)
}

// another gives a rule the next seed of its own.
func (d *draft) another(op Op) (string, error) {
	rule, table, err := d.ruled(op.Strip)
	if err != nil {
		return "", err
	}
	seed := int64(op.To)
	switch {
	case seed > 0:
	case rule.Seed != nil:
		seed = *rule.Seed + 1
	default:
		seed = d.bench.brief.Seed + 1
	}
	return fmt.Sprintf("%s: another by chance", d.called(op.Strip)),
		d.set(table+".seed", strconv.FormatInt(seed, 10))
}
