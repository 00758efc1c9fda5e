package main

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"stripesong/palette"
	"stripesong/svg"
)

var paletteCommand = &command{
	name:    "palette",
	operand: "ACTION [FILE]",
	words:   actionNames(),
	fewest:  1,
	most:    2,
	lacking: "say what to do: " + strings.Join(actionNames(), ", "),
	line:    "choose colours: from a photo, a shelf, between two others",
	about: `Prints [[colour]] tables to put into a brief. ACTION is one of
  from-photo  the main colours of a PNG or JPEG, the largest area first
  spread      the colours of a brief or shelf that differ most
  ramp        equal steps of lightness between two colours
  mix         what two yarns look like woven together
  list        all colours of a brief or shelf, and which are too much alike
FILE is the photo, brief or shelf. A photo shows light, not yarn: compare them.`,
	example: example{"stripesong palette ramp --from \"#efe6d2\" --to \"#24463c\"", "six steps"},
	exits:   [3]string{"the palette was printed", "", failure},
	prepare: func(f *flags) work {
		p := newPaletting(f)
		return p.run
	},
}

// action is one thing palette does and the flags that go with it.
type action struct {
	name  string
	flags []string
	work  func(*paletting, *world, string) ([]finding, error)
}

// actions are all there are.
func actions() []action {
	return []action{
		{"from-photo", []string{"colours", "seed", "shelf", "svg"}, (*paletting).fromPhoto},
		{"spread", []string{"colours", "svg"}, (*paletting).spread},
		{"ramp", []string{"colours", "from", "to", "shelf", "svg"}, (*paletting).ramp},
		{"mix", []string{"from", "to", "share", "scatter", "json", "svg"}, (*paletting).mix},
		{"list", []string{"svg"}, (*paletting).list},
	}
}

func actionNames() []string { return []string{"from-photo", "spread", "ramp", "mix", "list"} }

// finding is one colour of the answer.
type finding struct {
	name    string
	colour  palette.RGB
	yarn    string // "" where it is not known
	onHand  string // "" where it is not known
	remark  string
	missing bool // nothing on the shelf was left for it
}

// paletting is one run of palette.
type paletting struct {
	flags                               *flags
	colours, seed, from, to, shelf, svg value
	share, scatter                      value
	json                                yes
	answer                              *palette.Mixing // of mix
	title                               string
	heading                             []string // lines above the tables, as comments
	plain                               []string // lines instead of tables, for list
}

// defaultColours is how many colours are looked for unless it is said.
const defaultColours, mostPalette = 6, 60

// quoteHint is for a colour that a shell took for a comment.
const quoteHint = "a shell takes # for the beginning of a comment: write a colour in quotation " +
	"marks, as in --from \"#efe6d2\" --to \"#24463c\""

func newPaletting(f *flags) *paletting {
	p := &paletting{flags: f,
		colours: value{kind: "N", check: coloursCount}, seed: value{kind: "N", check: wholeNumber},
		from:  value{kind: "COLOUR", check: anyText, hint: quoteHint},
		to:    value{kind: "COLOUR", check: anyText, hint: quoteHint},
		shelf: value{kind: "FILE", check: anyText}, svg: value{kind: "FILE", check: anyText},
		share:   value{kind: "SHARE", check: shareText},
		scatter: value{kind: "NUMBER", check: scatterText}}
	f.group("Flags", "")
	f.add("colours", fmt.Sprintf("from-photo, spread, ramp: how many (default %d)", defaultColours),
		&p.colours)
	f.add("from", "ramp, mix: one colour, as \"#24463c\" or by name", &p.from)
	f.add("to", "ramp, mix: the other", &p.to)
	f.add("share", "mix: how much of --from (default: every ninth)", &p.share)
	f.add("scatter", "mix: how far light spreads (default: the brief's)", &p.scatter)
	f.addYes("json", "mix: print JSON and nothing else", &p.json)
	f.add("seed", "from-photo: another number may find other colours", &p.seed)
	f.add("shelf", "from-photo, ramp: the nearest yarns of this shelf", &p.shelf)
	f.add("svg", "draw swatches to this file", &p.svg)
	return p
}

// coloursCount holds a flag to a number of colours.
func coloursCount(text string) error {
	if err := wholeNumber(text); err != nil {
		return err
	}
	if n, err := strconv.Atoi(text); err != nil || n < 1 || n > mostPalette {
		return mistake{what: fmt.Sprintf("%q is not from 1 to %d", text, mostPalette)}
	}
	return nil
}

func (p *paletting) count() int {
	n, err := strconv.Atoi(p.colours.text)
	if err != nil {
		return defaultColours
	}
	return n
}

func (p *paletting) run(w *world, name string) error {
	do, err := p.action(name)
	if err != nil {
		return err
	}
	file := append(w.operands, "")[1]
	shown := w.progress()
	shown.stage("looking for colours")
	found, err := do.work(p, w, file)
	shown.stop()
	if err != nil {
		return err
	}
	if p.svg.given {
		if err := writeDrawing(p.svg.text, "--svg FILE", "palette "+do.name,
			func(to io.Writer) error {
				return svg.Swatches(to, p.title, "", swatches(found))
			}); err != nil {
			return err
		}
	}
	return p.print(w, found)
}

// action finds what is to be done and refuses flags that do not go with it.
func (p *paletting) action(name string) (action, error) {
	for _, a := range actions() {
		if a.name != name {
			continue
		}
		for _, flag := range p.flags.names() {
			if f := p.flags.all.Lookup(flag); f != nil && f.Changed &&
				!slices.Contains(a.flags, flag) {
				return a, mistake{what: fmt.Sprintf("--%s does not go with %s", flag, name),
					hint: fmt.Sprintf("its flags are --%s", strings.Join(a.flags, ", --"))}
			}
		}
		return a, nil
	}
	return action{}, mistake{what: fmt.Sprintf("palette can't %q", name),
		hint: nearestOr(name, actionNames(), "it knows "+strings.Join(actionNames(), ", "))}
}
