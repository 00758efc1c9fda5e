package workbench

import (
	"fmt"
	"strconv"
	"strings"
)

// setting is a key of the brief that is typed in as it is.
type setting struct {
	key   string
	label string
	form  func(string) string
	apart string // a key that says the same in another way and gives way to this one
}

// settings are in the order they are shown in.
var settings = []setting{
	{"title", "Title", quote, ""},
	{"units", "Lengths in", quote, ""},
	{"set.pieces", "Pieces", strings.TrimSpace, ""},
	{"set.width", "Finished width", quote, "set.in_reed"},
	{"set.length", "Finished length", quote, "set.woven"},
	{"set.in_reed", "Width in the reed", quote, "set.width"},
	{"set.woven", "Length on the loom", quote, "set.length"},
	{"set.hem", "Hem, each end", quote, ""},
	{"set.separator", "Picks between pieces", strings.TrimSpace, ""},
	{"set.fringe", "Fringe, each end", quote, ""},
	{"set.spare", "Bought beyond need", quote, ""},
	{"cloth.structure", "Structure", quote, ""},
	{"cloth.sett", "Sett", quote, ""},
	{"cloth.ground", "Ground picks", quote, ""},
	{"cloth.hem_ground", "Picks in hems", quote, ""},
	{"cloth.strands", "Pattern strands", strings.TrimSpace, ""},
	{"cloth.draw_in", "Draw-in", quote, ""},
	{"cloth.take_up", "Take-up", quote, ""},
	{"cloth.shrink_width", "Shrinkage, width", quote, ""},
	{"cloth.shrink_length", "Shrinkage, length", quote, ""},
	{"loom.waste", "Loom waste", quote, ""},
	{"loom.sample", "Sample", quote, ""},
}

var settingOps = []Operation{
	{"setting", "key, value", (*draft).setting, false},
	{"seed", "to (0 for the next)", (*draft).seed, true},
}

func (d *draft) setting(op Op) (string, error) {
	for _, s := range settings {
		if s.key == op.Key {
			return fmt.Sprintf("%s: %s", strings.ToLower(s.label), op.Value), d.settle(s, op.Value)
		}
	}
	return "", refuse("", "there is no setting %q", op.Key)
}

func (d *draft) settle(s setting, value string) error {
	if s.key == "set.pieces" {
		return d.number(value)
	}
	value = strings.TrimSpace(value)
	if value == "" {
		return d.set(s.key, "")
	}
	if s.apart != "" && d.has(s.apart) {
		if err := d.set(s.apart, ""); err != nil {
			return err
		}
	}
	return d.set(s.key, s.form(value))
}

// number sets how many pieces there are; the last ones go where it gets less.
func (d *draft) number(value string) error {
	n, err := strconv.Atoi(strings.TrimSpace(value))
	if err != nil || n < 1 {
		return refuse("write a whole number", "%q is not a number of pieces", value)
	}
	l, err := layOut(d.text)
	if err != nil {
		return err
	}
	all, err := l.blocks()
	if err != nil {
		return err
	}
	if len(all) > n {
		if d.text, err = l.rearranged(upTo(n)); err != nil {
			return err
		}
	}
	return d.set("set.pieces", strconv.Itoa(n))
}

// upTo is 0, 1, ... n-1.
func upTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

func (d *draft) seed(op Op) (string, error) {
	seed := int64(op.To)
	if seed <= 0 {
		seed = d.bench.brief.Seed + 1
	}
	return fmt.Sprintf("another set: seed %d", seed), d.set("seed", strconv.FormatInt(seed, 10))
}
