package main

import (
	"fmt"
	"math"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

var checkCommand = &command{
	name:    "check",
	operand: "BRIEF",
	line:    "say what to put right before winding the warp",
	about: `Makes the same plan as "stripesong plan", writes nothing, and says what
to put right before you wind: a warp longer than the board, a colour that runs
short, floats that catch, a pattern nobody can see. Ways out follow, such as other
sizes, fewer pieces or other colours; each has been planned through, and says what
it costs. --take N writes number N into BRIEF and keeps the brief as it was beside
it.`,
	example: example{"stripesong check towels.toml --take 2",
		"write the second way out into the brief"},
	exits: [3]string{"there are no warnings", "there are warnings",
		failure},
	prepare: func(f *flags) work {
		c := newChecking(f)
		return c.run
	},
}

// checking is one run of check.
type checking struct {
	overrides
	taking
	json yes
}

func newChecking(f *flags) *checking {
	c := &checking{taking: newTaking()}
	f.group("Flags", "")
	c.taking.declare(f, "write way out N into BRIEF")
	f.addYes("json", "print JSON and nothing else", &c.json)
	c.overrides.declare(f)
	return c
}

func (c *checking) run(w *world, operand string) error {
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	if c.number.given {
		return c.take(w, s)
	}
	if err := c.paired("add --take N"); err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	shown := w.progress()
	made, err := w.reckon(ctx, s, c.all(), shown)
	if err != nil {
		return c.refused(ctx, w, s, shown, err)
	}
	found := &remedy.Answer{Remedies: []remedy.Remedy{}, Unmended: []remedy.Unmended{}}
	if len(c.all()) == 0 {
		shown.stage("looking for ways out")
		found, err = s.remedies(ctx, made)
	}
	shown.stop()
	if err != nil {
		return err
	}
	return c.answer(w, s, made, found)
}

// checked is what check prints as JSON.
type checked struct {
	Schema string      `json:"schema"`
	Stamp  string      `json:"stamp"` // of the brief's text, for --listed
	Notes  []plan.Note `json:"notes"`
	Yarn   []safeYarn  `json:"yarn"`
	// how the width divides, as in the plan
	Stripes int               `json:"stripes"`
	Blocks  []plan.BlockShare `json:"blocks"`
	*remedy.Answer
}

// safeYarn is how far the shelf reaches for a colour: as in [plan.Yarn].
type safeYarn struct {
	Colour  string   `json:"colour"`
	NeededM float64  `json:"needed_m"`
	OnHandM *float64 `json:"on_hand_m"`
	SafeM   *float64 `json:"safe_m"`
	Safe    *float64 `json:"safe"`
}

func safeYarns(made *plan.Plan) []safeYarn {
	all := []safeYarn{}
	for _, y := range made.Yarn {
		all = append(all, safeYarn{y.Colour, y.NeededM(), y.OnHandM, y.SafeM, y.Safe})
	}
	return all
}

// width prints how the width divides among the blocks, and into how many stripes.
func (p *printer) width() { p.entry("width", p.Warp.Divided()) }

// safe prints by how much each colour is safe: what the shelf holds beyond what is
// needed, to hold against the spare that the brief asks for.
func (p *printer) safe() {
	t := table{}
	t.add("yarn", "needed", "on hand", "over", "")
	for _, y := range p.yarnToUse() {
		left, share := "?", ""
		if y.SafeM != nil {
			left = p.metres(*y.SafeM)
		}
		if y.Safe != nil {
			share = fmt.Sprintf("%.0f %%", math.Round(100**y.Safe)+0)
		}
		t.add("  "+screen.Visible(y.Colour), p.metres(y.NeededM()), p.onHand(y), left, share)
	}
	for _, l := range t.lines() {
		p.line(l)
	}
	p.entry("", fmt.Sprintf("over: what is not needed; the brief asks for %.3g %% to spare",
		100*p.Cloth.Spare))
}

func (c *checking) answer(w *world, s *source, made *plan.Plan, found *remedy.Answer) error {
	if !c.json {
		verdict := w.verdict(s, made)
		w.waysOut(s, made, found, "check "+shellWord(s.name))
		return verdict
	}
	if err := screen.WriteJSON(w.out,
		checked{remedy.Schema, s.stamp(), made.Notes, safeYarns(made), made.Warp.Stripes,
			made.Warp.Blocks, found}); err != nil {
		return err
	}
	if len(made.NotesOf(plan.Warning)) > 0 {
		return errNo
	}
	return nil
}

// verdict prints what check found; the answer is no where there are warnings.
func (w *world) verdict(s *source, made *plan.Plan) error {
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given, so this is about %s\n", s.name)
	}
	p := newPrinter(w, made)
	warnings, notes := p.minded(plan.Warning), p.minded(plan.Remark)
	if len(warnings) > 0 {
		p.line("put these right first:")
		p.notes(warnings)
	}
	p.notes(notes)
	p.width()
	p.safe()
	fmt.Fprintf(w.out, "%s, %s\n", noneOr(len(warnings), "warning"), noneOr(len(notes), "note"))
	if len(warnings) > 0 {
		return errNo
	}
	return nil
}

// noneOr is count, and "no" for none.
func noneOr(n int, noun string) string {
	if n == 0 {
		return "no " + noun + "s"
	}
	return measure.Count(n, noun)
}
