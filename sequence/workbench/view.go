package workbench

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// View is all that a page shows of a bench, worked out but for the colours of cloth,
// which follow from Tables and runs. Colours are numbers of Colours.
type View struct {
	Edition  int       `json:"edition"`
	File     string    `json:"file"`
	Saved    bool      `json:"saved"`
	Undo     string    `json:"undo"` // what would be undone; "" for nothing
	Redo     string    `json:"redo"`
	Steps    [2]int    `json:"steps"` // that can be undone, redone
	Settings []Setting `json:"settings"`
	Colours  []Stock   `json:"colours"`
	Yarns    []Yarn    `json:"yarns"`
	Seed     int64     `json:"seed"`
	Vary     bool      `json:"vary"` // the program chooses pieces left open
	Chance   bool      `json:"chance"`
	Weft     Strip     `json:"weft"` // what every piece starts from
	// where the piece is that the latest step was about; below 0 for none
	At   int      `json:"at"`
	Pins []Pinned `json:"pins"`

	Title  string  `json:"title"`
	Sides  string  `json:"sides"` // which side of all pieces together is the lighter, if any is
	Tables Tables  `json:"tables"`
	Warp   Strip   `json:"warp"`
	Pieces []Strip `json:"pieces"`
	Facts  []Fact  `json:"facts"`
	Notes  []Note  `json:"notes"`
}

// Lists are what can be chosen from, whatever the brief.
type Lists struct {
	Kinds []sequence.Spec `json:"kinds"`
	// the keys of a table of blocks, and the one of a middle
	Blocks  []sequence.Parameter `json:"blocks"`
	Middle  sequence.Parameter   `json:"middle"`
	Orders  []string             `json:"orders"`
	SinglyM float64              `json:"singly_m"` // from nearer, threads are seen singly
}

// AllLists are the lists of this program.
func AllLists() Lists {
	return Lists{sequence.Specs(), new(sequence.Laying).Spec().Parameters, sequence.Middle,
		sequence.OrderKinds, look.SinglyM}
}

// Setting is a key of the brief as it is written; Value "" where it is left out.
type Setting struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Value   string   `json:"value"`
	Options []string `json:"options"`
	Unit    string   `json:"unit,omitempty"` // of a length: "cm" or "in"
	But     string   `json:"but,omitempty"`  // why it is not followed
}

// Strip is the warp or a piece. What is 0, false or empty is left out.
type Strip struct {
	Drawn
	Showing
	Kept   bool `json:"kept,omitempty"`   // written out as runs
	Held   bool `json:"held,omitempty"`   // and these are held
	Open   bool `json:"open,omitempty"`   // left to the program
	Chosen bool `json:"chosen,omitempty"` // the program chose it
	// its rule draws by chance: there is another
	Chance    bool              `json:"chance,omitempty"`
	Words     string            `json:"words"` // in a line
	Rhythm    map[string]string `json:"rhythm,omitempty"`
	Order     string            `json:"order,omitempty"`
	First     string            `json:"first,omitempty"`
	Middle    string            `json:"middle,omitempty"`
	Blocks    map[string]string `json:"blocks,omitempty"`  // how they lie, as typed
	Colours   []int             `json:"colours,omitempty"` // of its rule
	Separator int               `json:"separator"`
	Size      string            `json:"size"`
	// which side is; "" where they pass for the same
	Lighter string `json:"lighter,omitempty"`
	// how well its pattern shows, and what would show its sides more
	Shows []string `json:"shows,omitempty"`
}

// Fact is one figure with its name.
type Fact struct {
	What string `json:"what"`
	Says string `json:"says"`
}

// Note is something the weaver should know.
type Note struct {
	Warning bool   `json:"warning"`
	Code    string `json:"code"`
	Text    string `json:"text"`
}

// View works out all there is to show.
func (b *Bench) View() View {
	p := b.plan
	v := View{
		Edition:  b.edition,
		File:     b.name,
		Saved:    b.Saved(),
		Settings: b.settings(),
		Colours:  b.colours(),
		Yarns:    b.yarns(),
		Seed:     b.brief.Seed,
		Vary:     b.brief.Vary != nil,
		Chance:   b.chance(),
		Weft:     b.weftStrip(),
		At:       b.at,
		Pins:     b.pinned(),
		Title:    p.Title,
		Sides:    b.together(),
		Tables:   b.tables(),
		Warp:     b.warpStrip(),
		Facts:    b.facts(),
		Notes:    []Note{},
	}
	v.Undo, v.Redo = b.history.next()
	v.Steps[0], v.Steps[1] = b.Steps()
	for i := range p.Pieces {
		v.Pieces = append(v.Pieces, b.strip(i))
	}
	for _, n := range p.Notes {
		said := n.Message
		if n.Code == "runs-win" {
			said = b.notAsked()
		}
		v.Notes = append(v.Notes, Note{n.Level == plan.Warning, n.Code, said})
	}
	return v
}

// notAsked says of which strips the rules beside written runs are not asked.
func (v version) notAsked() string {
	var said []string
	add := func(name, runs string) {
		said = append(said, fmt.Sprintf("%s: its %ss are written out; its rhythm and colours are "+
			"not asked", name, runs))
	}
	if v.brief.Warp.Runs != nil && len(v.brief.Warp.Beside) > 0 {
		add("warp", noun(Warp))
	}
	for i, p := range v.brief.Pieces {
		if v.plan.Pieces[i].Origin == "runs" && len(p.Weft.Beside) > 0 {
			add(v.plan.Label(i), noun(i))
		}
	}
	return strings.Join(said, "; ")
}

func (b *Bench) settings() []Setting {
	var all []Setting
	for _, s := range settings {
		one := Setting{Key: s.key, Label: s.label, Value: b.written(s.key)}
		if slices.Contains(lengths, s.key) {
			one.Unit = b.brief.Units
		}
		if slices.Contains(widths, s.key) && one.Value != "" && b.brief.Warp.Runs != nil {
			one.But = "not followed: " + b.staysWide()
		}
		switch s.key {
		case "units":
			one.Options = []string{"cm", "in"}
			one.Value = b.brief.Units
		case "cloth.structure":
			one.Options = weave.Names()
			one.Value = cmp.Or(one.Value, weave.Names()[0])
			if b.doc.Root.Find("structure") != nil {
				continue
			}
		case "set.pieces":
			one.Value = strconv.Itoa(len(b.brief.Pieces))
		}
		all = append(all, one)
	}
	return all
}

// chance tells whether another seed could change anything.
func (b *Bench) chance() bool {
	if b.brief.Vary != nil && b.choosable() || hangs(b.brief.Warp.Runs, b.brief.Warp.Rule) {
		return true
	}
	for _, p := range b.brief.Pieces {
		if hangs(p.Weft.Runs, p.Weft.Rule) {
			return true
		}
	}
	return false
}

// hangs tells whether runs follow from the brief's seed.
func hangs(runs []brief.Run, r brief.Rule) bool {
	if runs != nil || r.Seed != nil || r.Rhythm == nil {
		return false
	}
	return r.Order == "shuffle" || r.Order == "shares" ||
		r.Rhythm.Spec().Chance && r.Rhythm.Seed == nil
}

func (v version) facts() []Fact {
	p, units := v.plan, v.plan.Units
	length := func(mm float64) string { return measure.FormatLength(mm, units) }
	all := []Fact{
		v.warpFact(),
		{"Ends", fmt.Sprintf("%d in %d units", p.Warp.Ends, p.Warp.Units)},
		{"Width in the reed", length(p.Warp.ReedWidthMM)},
		{"Width finished", length(p.Warp.FinishedWidthMM)},
		{v.wovenWord(), length(p.Warp.WovenMM)},
	}
	if p.Warp.ClosingEnds > 0 {
		all[1].Says += " and one that closes"
	}
	if p.Warp.FloatingSelvedgeEnds > 0 {
		all[1].Says += fmt.Sprintf(" and %d floating selvedges", p.Warp.FloatingSelvedgeEnds)
	}
	if p.Set.Hours > 0 {
		all = append(all, Fact{"Weaving", "about " + measure.FormatTime(p.Set.Hours)})
	}
	if p.Cost != nil {
		all = append(all, Fact{"Cost of yarn to buy", p.Cost.Buy})
	}
	if len(p.Set.Pairs) > 0 {
		worst := p.Set.Pairs[0]
		for _, pair := range p.Set.Pairs {
			if pair.Difference < worst.Difference {
				worst = pair
			}
		}
		all = append(all, Fact{"Most alike",
			fmt.Sprintf("%s and %s differ by %.1f", p.Label(worst.NumberA-1),
				p.Label(worst.NumberB-1), worst.Difference)})
	}
	return all
}

// warpFact is the length of the warp, or what the rest takes of one that is on the loom.
func (v version) warpFact() Fact {
	p, units := v.plan, v.plan.Units
	takes := measure.FormatWarp(p.Warp.WoundMM, units)
	if p.Midway == nil {
		return Fact{"Warp wound", takes}
	}
	return Fact{"Warp for the rest",
		fmt.Sprintf("%s of %s left", takes, measure.FormatLength(p.Midway.WarpMM, units))}
}

// wovenWord is what the woven length is of.
func (v version) wovenWord() string {
	if v.plan.Midway == nil {
		return "Woven, all pieces"
	}
	return "Yet to be woven"
}
