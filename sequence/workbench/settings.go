package workbench

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// setting is a key of the brief that is typed in as it is.
type setting struct {
	key   string
	label string
	form  func(string) string
	apart string // a key that says the same in another way and gives way to this one
}

// lengths are the settings that are lengths, in the brief's unit unless they say another.
var lengths = []string{"set.width", "set.length", "set.in_reed", "set.woven", "set.hem",
	"set.hem_show", "set.fringe", "loom.waste", "loom.sample"}

// settings are in the order they are shown in.
var settings = []setting{
	{"title", "Title", tomltext.Quote, ""},
	{"units", "Lengths in", tomltext.Quote, ""},
	{"set.pieces", "Pieces", strings.TrimSpace, ""},
	{"set.width", "Finished width", tomltext.Quote, "set.in_reed"},
	{"set.length", "Finished length", tomltext.Quote, "set.woven"},
	{"set.in_reed", "Width in the reed", tomltext.Quote, "set.width"},
	{"set.woven", "Length on the loom", tomltext.Quote, "set.length"},
	{"set.hem", "Hem, each end", tomltext.Quote, ""},
	{"set.hem_show", "Plain beyond the fold", tomltext.Quote, ""},
	{"set.separator", "Picks between pieces", strings.TrimSpace, ""},
	{"set.fringe", "Fringe, each end", tomltext.Quote, ""},
	{"set.spare", "Bought beyond need", tomltext.Quote, ""},
	{"cloth.structure", "Structure", tomltext.Quote, ""},
	{"cloth.sett", "Sett", tomltext.Quote, ""},
	{"cloth.ground", "Ground picks", tomltext.Quote, ""},
	{"cloth.hem_ground", "Picks in hems", tomltext.Quote, ""},
	{"cloth.strands", "Pattern strands", strings.TrimSpace, ""},
	{"cloth.draw_in", "Draw-in", tomltext.Quote, ""},
	{"cloth.take_up", "Take-up", tomltext.Quote, ""},
	{"cloth.shrink_width", "Shrinkage, width", tomltext.Quote, ""},
	{"cloth.shrink_length", "Shrinkage, length", tomltext.Quote, ""},
	{"loom.waste", "Loom waste", tomltext.Quote, ""},
	{"loom.sample", "Sample", tomltext.Quote, ""},
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
	if d.written() > n {
		if err := d.rearrange(upTo(n)); err != nil {
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
	if err := d.leaveChosen(); err != nil {
		return "", err
	}
	what := "another set"
	if op.To > 0 {
		what = fmt.Sprintf("the set of seed %d", seed)
	}
	return what, d.set("seed", strconv.FormatInt(seed, 10))
}
