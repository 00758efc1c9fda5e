package workbench

import (
	"cmp"
	"fmt"
	"strconv"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// View is all that a page shows of a bench, worked out: it has nothing left to
// decide. Colours are numbers of Colours and, in each [Shown], of its Inks.
type View struct {
	Edition  int             `json:"edition"`
	File     string          `json:"file"`
	Saved    bool            `json:"saved"`
	Undo     string          `json:"undo"` // what would be undone; "" for nothing
	Redo     string          `json:"redo"`
	Steps    [2]int          `json:"steps"` // that can be undone, redone
	Settings []Setting       `json:"settings"`
	Colours  []Stock         `json:"colours"`
	Yarns    []string        `json:"yarns"`
	Kinds    []sequence.Spec `json:"kinds"`
	Orders   []string        `json:"orders"`
	Blocks   []string        `json:"blocks"`
	Seed     int64           `json:"seed"`
	Vary     bool            `json:"vary"` // the program chooses pieces left open
	Chance   bool            `json:"chance"`
	Weft     Strip           `json:"weft"` // what every piece starts from
	Shown
	Aside *Shown `json:"aside"` // the version put beside

	SinglyM float64 `json:"singly_m"` // from nearer, threads are seen singly

	At int `json:"at"` // where the piece is that it was about; below 0 for none
}

// Shown is the pictures and figures of one version.
type Shown struct {
	Title   string     `json:"title"`
	Sides   string     `json:"sides"` // which side of all pieces together is the lighter, if any is
	Inks    [][]string `json:"inks"`  // of every colour, as each of [Eyes] sees it
	Warp    Strip      `json:"warp"`
	Pieces  []Strip    `json:"pieces"`
	Mixes   []Mix      `json:"mixes"`
	Facts   []Fact     `json:"facts"`
	Notes   []Note     `json:"notes"`
	WidthMM float64    `json:"width_mm"` // finished
}

// Setting is a key of the brief as it is written; Value "" where it is left out.
type Setting struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Value   string   `json:"value"`
	Options []string `json:"options"`
}

// Strip is the warp or a piece.
type Strip struct {
	Name      string            `json:"name"`
	Runs      []Run             `json:"runs"`
	Kept      bool              `json:"kept"`   // written out as runs
	Held      bool              `json:"held"`   // and these are held
	Open      bool              `json:"open"`   // left open: where the program chooses, it chose it
	Chosen    bool              `json:"chosen"` // written out as the program chose it
	Origin    string            `json:"origin"`
	Words     string            `json:"words"` // in a line
	Rhythm    map[string]string `json:"rhythm"`
	Order     string            `json:"order"`
	First     string            `json:"first"`
	Middle    string            `json:"middle"`  // "" for none
	Colours   []int             `json:"colours"` // of its rule
	Used      []int             `json:"used"`    // in its runs
	Ground    int               `json:"ground"`
	Hem       int               `json:"hem"`
	Separator int               `json:"separator"`
	HemMM     float64           `json:"hem_mm"`  // one hem, finished
	ShowMM    float64           `json:"show_mm"` // plain beside it that stays in sight, part of the length
	LengthMM  float64           `json:"length_mm"`
	Weave     int               `json:"weave"` // which order of picks, as in [Mix]
	Size      string            `json:"size"`
	Grade     string            `json:"grade"`   // how its faintest pattern shows
	Lighter   string            `json:"lighter"` // which side is; "" where they pass for the same
	Shows     []string          `json:"shows"`   // how well its pattern shows, and what would show its sides more
	Weak      bool              `json:"weak"`    // some of it is soft or less
}

// Run is one stripe or block, finished.
type Run struct {
	Block  string  `json:"block"` // "" for plain
	Units  int     `json:"units"`
	Colour int     `json:"colour"` // -1 for plain
	MM     float64 `json:"mm"`
	Label  string  `json:"label"`
}

// Mix is what shows on both sides where three colours meet while a block is woven,
// over the warp of a block, as each of [Eyes] sees it.
type Mix struct {
	Warp    int      `json:"warp"`
	Ground  int      `json:"ground"`
	Pattern int      `json:"pattern"` // -1 for plain
	Hem     bool     `json:"hem"`     // as close as hems
	Weave   int      `json:"weave"`   // which order of picks, 0 for the structure's own
	Woven   string   `json:"woven"`   // the block; "" for plain
	Block   string   `json:"block"`   // of the warp; "" for plain, where it does not count
	Face    []string `json:"face"`
	Back    []string `json:"back"`
}

// Fact is one figure with its name.
type Fact struct {
	What string `json:"what"`
	Says string `json:"says"`
}

// Note is something the weaver should know.
type Note struct {
	Warning bool   `json:"warning"`
	Text    string `json:"text"`
}

// View works out all there is to show.
func (b *Bench) View() View {
	undo, redo := b.history.next()
	v := View{Edition: b.edition, File: b.name, Saved: b.Saved(), Undo: undo, Redo: redo, Settings: b.settings(), Colours: b.colours(),
		Kinds: sequence.Specs(), Orders: sequence.OrderKinds, Blocks: b.brief.Structure.Letters(), Seed: b.brief.Seed, Vary: b.brief.Vary != nil, Chance: b.chance()}
	v.Steps[0], v.Steps[1] = b.Steps()
	for _, y := range b.brief.Yarns {
		v.Yarns = append(v.Yarns, y.Name)
	}
	v.Shown, v.Weft = b.version.show(), b.version.weftStrip()
	v.At, v.SinglyM = b.at, look.SinglyM
	if b.aside != nil {
		beside := b.aside.show()
		v.Aside = &beside
	}
	return v
}

func (b *Bench) settings() []Setting {
	var all []Setting
	for _, s := range settings {
		one := Setting{Key: s.key, Label: s.label, Value: b.written(s.key)}
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
	return r.Order == "shuffle" || r.Order == "shares" || r.Rhythm.Spec().Chance && r.Rhythm.Seed == nil
}

// show works out the cloth of a version.
func (v version) show() Shown {
	c := Shown{Title: v.plan.Title, Sides: v.plan.AllTogether(), WidthMM: v.plan.Warp.FinishedWidthMM, Warp: v.warpStrip(), Facts: v.facts()}
	for i := range v.plan.Pieces {
		c.Pieces = append(c.Pieces, v.strip(i))
	}
	c.Mixes = v.mixes()
	for _, colour := range v.brief.Colours {
		c.Inks = append(c.Inks, allEyes(colour.RGB.Linear()))
	}
	for _, n := range v.plan.Notes {
		c.Notes = append(c.Notes, Note{n.Level == plan.Warning, n.Message})
	}
	return c
}

// mixes are all patches that occur, each once.
func (v version) mixes() []Mix {
	type key struct {
		warp, ground, pattern, weave int
		hem                          bool
		woven, block                 string
	}
	seen := map[key]bool{}
	var all []Mix
	for i := range v.plan.Pieces {
		for _, r := range v.rows(i) {
			for _, w := range v.plan.Warp.Runs {
				m := Mix{Warp: v.index(w.Colour), Ground: v.index(r.ground), Pattern: -1, Hem: r.hem, Weave: r.weave}
				if r.block != "" {
					m.Pattern, m.Woven, m.Block = v.index(r.pattern), r.block, w.Block
				}
				k := key{m.Warp, m.Ground, m.Pattern, m.Weave, m.Hem, m.Woven, m.Block}
				if seen[k] {
					continue
				}
				seen[k] = true
				m.Face = allEyes(v.shows(r, w.Block, w.Colour, false))
				m.Back = allEyes(v.shows(r, w.Block, w.Colour, true))
				all = append(all, m)
			}
		}
	}
	return all
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
		all = append(all, Fact{"Most alike", fmt.Sprintf("%s and %s: %.1f apart", p.Label(worst.NumberA-1), p.Label(worst.NumberB-1), worst.Difference)})
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
	return Fact{"Warp for the rest", fmt.Sprintf("%s of %s left", takes, measure.FormatLength(p.Midway.WarpMM, units))}
}

// wovenWord is what the woven length is of.
func (v version) wovenWord() string {
	if v.plan.Midway == nil {
		return "Woven, all pieces"
	}
	return "Yet to be woven"
}
