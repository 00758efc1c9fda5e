package workbench

import (
	"encoding/json"

	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/weave"
)

// Tables is what the looks of a version are worked out from, with runs: each colour and
// how wide its yarn lies, and which threads the structure lays on top.
type Tables struct {
	WidthMM   float64  `json:"width_mm"` // of the finished cloth
	Ends      int      `json:"ends"`
	HemPickMM float64  `json:"hem_pick_mm"` // from pick to pick of a hem, finished
	Scatter   float64  `json:"scatter"`     // see palette.Scatter
	Hex       []string `json:"hex"`         // of every colour of the shelf
	// of every colour, as warp, ground and hem: see look.Widths
	Widths [][3]float64 `json:"widths"`

	// shafts of one unit of each block, from 1
	Threading map[string][]int `json:"threading"`
	// there is a closing end: see weave.Structure.Closed
	Closing bool   `json:"closing,omitempty"`
	Tabby   [2]int `json:"tabby"` // sheds: bit s-1 for shaft s
	// 0 for the structure's own order of picks
	Weaves []Weave `json:"weaves"`
}

// Weave is an order of picks.
type Weave struct {
	Pattern []float64 `json:"pattern"` // how wide pattern weft of every colour lies
	// of one unit of each block and of "": 2 × shed, and 1 for pattern
	Picks map[string][]int `json:"picks"`
}

// Run is one stripe or block. It is written as a list: block ("" for plain), units,
// colour (-1 for plain).
type Run struct {
	Block  string
	Units  int
	Colour int
}

// MarshalJSON writes the list: ["A", 12, 3].
func (r Run) MarshalJSON() ([]byte, error) {
	return json.Marshal([3]any{r.Block, r.Units, r.Colour})
}

// Drawn is what is drawn of the warp or a piece. Of the warp only Name and Runs count.
type Drawn struct {
	Name   string `json:"name"`
	Runs   []Run  `json:"runs"`
	Ground int    `json:"ground"`
	Hem    int    `json:"hem"`
	Weave  int    `json:"weave"` // which of [Tables.Weaves]
	// plain at each end, finished: a hem and what stays in sight beside it
	EndMM  float64 `json:"end_mm"`
	UnitMM float64 `json:"unit_mm"` // one weft unit, finished
}

func (v version) tables() Tables {
	p, b := v.plan, v.brief
	t := Tables{
		WidthMM:   p.Warp.FinishedWidthMM,
		Ends:      p.Warp.Ends,
		HemPickMM: 10 / p.Cloth.HemGroundPerCM * (1 - p.Cloth.ShrinkLength),
		Scatter:   exact.Float(b.Cloth.Scatter),
		Threading: map[string][]int{},
		Closing:   b.Structure.Closing,
		Tabby:     [2]int{int(b.Structure.Tabby[0]), int(b.Structure.Tabby[1])},
	}
	for i, c := range b.Colours {
		w := v.cloth.YarnWidths(i)
		t.Hex = append(t.Hex, c.RGB.Hex())
		t.Widths = append(t.Widths, [3]float64{w.Warp, w.Ground, w.Hem})
	}
	for _, block := range b.Structure.Blocks {
		t.Threading[block.Letter] = block.Unit
	}
	for i, s := range b.Weaves() {
		t.Weaves = append(t.Weaves, v.weave(i, s))
	}
	return t
}

func (v version) weave(number int, s *weave.Structure) Weave {
	w := Weave{Picks: map[string][]int{}}
	for i := range v.brief.Colours {
		trio := look.Trio{Warp: i, Ground: i, Pattern: i, Weave: number}
		w.Pattern = append(w.Pattern, v.cloth.Widths(trio).Pattern)
	}
	for _, letter := range append(s.Letters(), "") {
		picks := []int{}
		for _, pick := range s.UnitPicks(letter) {
			one := 2 * int(pick.Shed)
			if pick.Pattern {
				one++
			}
			picks = append(picks, one)
		}
		w.Picks[letter] = picks
	}
	return w
}

func (v version) drawnWarp() Drawn {
	d := Drawn{Name: "warp"}
	for _, r := range v.plan.Warp.Runs {
		d.Runs = append(d.Runs, Run{r.Block, r.Units, v.index(r.Colour)})
	}
	return d
}

func (v version) drawnPiece(i int) Drawn {
	p, left := v.plan.Pieces[i], 1-v.plan.Cloth.ShrinkLength
	d := Drawn{
		Name:   p.Name,
		Ground: v.brief.Pieces[i].Weft.Ground,
		Hem:    v.index(p.Hem),
		Weave:  v.brief.WeaveOf(i, v.brief.Weaves()),
		UnitMM: v.plan.UnitMM(&p) * left,
	}
	if p.EndPicks() > 0 {
		d.EndMM = (p.HemWovenMM + p.ShowWovenMM) * left
	}
	for _, r := range p.Runs {
		colour := -1
		if r.Block != "" {
			colour = v.index(r.Pattern)
		}
		d.Runs = append(d.Runs, Run{r.Block, r.Units, colour})
	}
	return d
}

func (v version) index(colour string) int {
	for i, c := range v.brief.Colours {
		if c.Name == colour {
			return i
		}
	}
	return 0
}

// Sketch is what another version looks like where it is not as the one being worked on:
// what is nil there is the same.
type Sketch struct {
	Tables *Tables  `json:"tables,omitempty"`
	Warp   *Drawn   `json:"warp,omitempty"`
	Pieces []*Drawn `json:"pieces"`

	Shows []Showing `json:"shows"` // of all pieces
}

// Showing is how plainly the pattern of a piece shows, where it shows least: "clear to
// strong at 2 m"; "" where there is none. Weak is a warning.
type Showing struct {
	Grade string `json:"grade,omitempty"`
	Weak  bool   `json:"weak,omitempty"`
}

// sketch says what of a version is not as in another.
func (v version) sketch(beside version) Sketch {
	s := Sketch{Pieces: []*Drawn{}}
	tables, warp := v.tables(), v.drawnWarp()
	if !same(tables, beside.tables()) {
		s.Tables = &tables
	}
	if !same(warp, beside.drawnWarp()) {
		s.Warp = &warp
	}
	for i := range v.plan.Pieces {
		s.Shows = append(s.Shows, v.grade(i))
		piece := v.drawnPiece(i)
		if i < len(beside.plan.Pieces) && same(piece, beside.drawnPiece(i)) {
			s.Pieces = append(s.Pieces, nil)
			continue
		}
		s.Pieces = append(s.Pieces, &piece)
	}
	return s
}

// same compares by what is sent.
func same(a, b any) bool {
	x, _ := json.Marshal(a) // of numbers and texts alone
	y, _ := json.Marshal(b)
	return string(x) == string(y)
}
