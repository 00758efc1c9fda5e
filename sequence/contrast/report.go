package contrast

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// Schema names the form of the report.
const Schema = "stripesong.contrast/1"

// Report is everything there is to say about what will show.
type Report struct {
	Schema     string          `json:"schema"`
	Title      string          `json:"title"`
	Structure  string          `json:"structure"`
	Units      string          `json:"units"`      // what reports print: "cm" or "in"
	DistanceM  float64         `json:"distance_m"` // the one that decides
	Sights     []palette.Sight `json:"sights"`     // those that count; the worst decides
	DistancesM []float64       `json:"distances_m"`
	Warp       []string        `json:"warp"`    // its colours from the left, each once
	Grounds    []string        `json:"grounds"` // ground colours in use, the most used first
	Colours    []ShelfColour   `json:"colours"` // all that could be ground or pattern
	Pieces     []Sides         `json:"pieces"`
	Set        Sides           `json:"set"`
	Mends      []Mend          `json:"mends"`      // what falls short, the worst first
	MendsLeft  int             `json:"mends_left"` // further combinations that fall short
	Short      int             `json:"short"`      // combinations of the plan that fall short
	Meeting    int             `json:"meeting"`    // of so many
	Edges      []Edge          `json:"edges"`      // of neighbouring warp stripes
	// what shows best on this warp first; the last field, see JSON
	Pairs []Pair `json:"pairs"`

	reckoner *reckoner // for what is asked for later
}

// ShelfColour is a colour and what the plan uses it for.
type ShelfColour struct {
	Name  string      `json:"name"`
	RGB   palette.RGB `json:"hex"`
	Lab   [3]float64  `json:"lab"`
	Shelf bool        `json:"shelf"` // it comes from a shelf file
	Uses  []string    `json:"uses"`  // of "warp", "ground", "pattern"
}

// Pair is a ground and a pattern colour over the whole warp; the warp colour
// over which it fares worst decides.
type Pair struct {
	Ground  string        `json:"ground"`
	Pattern string        `json:"pattern"`
	Meets   bool          `json:"meets"` // somewhere in the plan
	Warp    string        `json:"warp"`  // where it fares worst
	Grade   palette.Grade `json:"grade"`
	DeltaL  float64       `json:"delta_l"` // seen, pattern area less ground area
	Vision  palette.Sight `json:"vision"`

	decided verdict
}

// Combo is one warp, ground and pattern colour. Differences are those of the
// face where the pattern weft covers a block less where it lies behind.
type Combo struct {
	Warp    string `json:"warp"`
	Ground  string `json:"ground"`
	Pattern string `json:"pattern"`
	// in which they meet; none where they only could
	Pieces      []string      `json:"pieces"`
	NarrowestMM float64       `json:"narrowest_mm"` // the edge it was reckoned for
	On          [3]float64    `json:"on"`           // CIELAB
	Off         [3]float64    `json:"off"`
	OnRGB       palette.RGB   `json:"on_hex"`
	OffRGB      palette.RGB   `json:"off_hex"`
	DeltaL      float64       `json:"delta_l"` // close by, to normal sight
	DeltaE      float64       `json:"delta_e"`
	BackDeltaL  float64       `json:"back_delta_l"` // the same blocks seen from the back
	Grade       palette.Grade `json:"grade"`
	// of what decides; nil where nothing is left open
	Range *plan.Range `json:"range,omitempty"`
	// what decides: left at the distance asked for
	SeenL   float64       `json:"seen_l"`
	Vision  palette.Sight `json:"vision"` // to this sight
	HueOnly bool          `json:"hue_only"`
	Seen    []BySight     `json:"seen"` // by sight
}

// BySight is what one sight has left of a difference, at each of the report's
// distances.
type BySight struct {
	Vision palette.Sight   `json:"vision"`
	DeltaL []float64       `json:"delta_l"`
	DeltaE []float64       `json:"delta_e"`
	Grades []palette.Grade `json:"grades"`
}

// Edge is where two stripes of the warp lie side by side.
type Edge struct {
	Left        Stripe        `json:"left"`
	Right       Stripe        `json:"right"`
	Ground      string        `json:"ground"`
	Pattern     string        `json:"pattern"` // "" for plain ground
	Meets       bool          `json:"meets"`
	NarrowestMM float64       `json:"narrowest_mm"`
	DeltaL      float64       `json:"delta_l"` // left less right, close by
	DeltaE      float64       `json:"delta_e"`
	Grade       palette.Grade `json:"grade"`
	Range       *plan.Range   `json:"range,omitempty"` // as that of a [Combo], of edges that meet
	SeenL       float64       `json:"seen_l"`
	Vision      palette.Sight `json:"vision"`
	HueOnly     bool          `json:"hue_only"`
	Seen        []BySight     `json:"seen"`
}

// Stripe is one side of an [Edge]. State is where the pattern weft lies on the face.
type Stripe struct {
	Warp  string      `json:"warp"`
	State plan.State  `json:"state"`
	RGB   palette.RGB `json:"hex"`
}

// Sides is a piece's body, or all bodies together, from both sides.
type Sides struct {
	Name      string    `json:"name"` // "" for all together
	Face      plan.Side `json:"face"`
	Back      plan.Side `json:"back"`
	Lighter   string    `json:"lighter"` // "face", "back" or "alike"
	LighterBy float64   `json:"lighter_by"`
	Words     string    `json:"words"` // as in "back lighter, soft 5.1"; "" for alike

	More []plan.More `json:"more"` // what would set the sides further apart
}

// Mend is a combination of the plan that falls short and what would help.
type Mend struct {
	Warp    string        `json:"warp"`
	Ground  string        `json:"ground"`
	Pattern string        `json:"pattern"`
	Pieces  []string      `json:"pieces"`
	Grade   palette.Grade `json:"grade"` // now, where it is worst
	DeltaL  float64       `json:"delta_l"`
	Vision  palette.Sight `json:"vision"`
	HueOnly bool          `json:"hue_only"`
	Options []Option      `json:"options"` // none where nothing at hand would do
	// where there are none what comes nearest, and how far that is; "" where nothing does
	Nearest string `json:"nearest,omitempty"`

	Range *plan.Range `json:"range,omitempty"` // of the grade; nil where nothing is left open
}

// The things an [Option] may change.
const (
	AsPattern = "pattern"
	AsGround  = "ground"
	AsWarp    = "warp"
	Strands   = "strands"
	Beat      = "beat"
)

// Option is one change that raises a combination's grade.
type Option struct {
	Number int    `json:"number"` // from 1, over the whole report
	Change string `json:"change"` // one of the constants
	From   string `json:"from"`   // a colour, a number of strands or ground picks
	To     string `json:"to"`
	// the colour stands on a shelf, not in the brief itself
	Shelf  bool     `json:"shelf"`
	Pieces []string `json:"pieces"` // where; none for all the cloth
	// dE00 of the two colours by themselves; 0 for strands and beat
	Apart   float64        `json:"apart"`
	Grade   palette.Grade  `json:"grade"`           // promised, where it is worst
	Range   *plan.Range    `json:"range,omitempty"` // of that; nil where nothing is left open
	Reaches bool           `json:"reaches"`         // clear or better, as reckoned
	Certain bool           `json:"certain"`         // clear or better over the whole range
	DeltaL  float64        `json:"delta_l"`
	Gain    float64        `json:"gain"`    // in lightness seen
	Short   int            `json:"short"`   // combinations of the plan that would still fall short
	ShortM  float64        `json:"short_m"` // metres of the colour that the shelf would lack
	Changes []brief.Change `json:"changes"` // to the brief's text, for [brief.Edit]
}

// What is the change in words, as in `pattern "sloe" in place of "plum"`.
func (o Option) What() string {
	switch o.Change {
	case Strands:
		return fmt.Sprintf("%s strands of pattern weft instead of %s", o.To, o.From)
	case Beat:
		return fmt.Sprintf("a denser beat, ground %s instead of %s", o.To, o.From)
	}
	return fmt.Sprintf("%s %q instead of %q", o.Change, o.To, o.From)
}

// WriteJSON writes the report as indented JSON, with a newline at the end; of
// pairs, which may be hundreds of thousands, each has a line, with the
// combinations it is made of.
func (r *Report) WriteJSON(w io.Writer) error {
	short := *r
	short.Pairs = []Pair{}
	head, err := plan.JSON(&short)
	if err != nil {
		return err
	}
	b := bytes.NewBuffer(head[:bytes.LastIndexByte(head, ']')])
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	widths, pieces := r.reckoner.widths(), r.reckoner.piecesOf()
	for i, pair := range r.Pairs {
		if i > 0 {
			b.Truncate(b.Len() - 1) // the newline after the pair before
			b.WriteByte(',')
		}
		b.WriteString("\n  ")
		whole := struct {
			Pair
			Combos []Combo `json:"combinations"` // over each warp colour, from the left
		}{pair, r.combos(pair, widths, pieces)}
		if err := e.Encode(whole); err != nil {
			return err
		}
		if b.Len() > 1<<16 { // all but the newline, which may yet be taken back
			if _, err := w.Write(b.Next(b.Len() - 1)); err != nil {
				return err
			}
		}
	}
	b.WriteString(" ]\n}\n")
	_, err = b.WriteTo(w)
	return err
}

// MayFallTo is the least grade that any combination in the plan may have, as far as the
// brief leaves open how yarn lies and light spreads; of combinations without a range
// their own.
func (r *Report) MayFallTo() palette.Grade {
	worst, k := palette.Bold, r.reckoner
	for _, t := range k.state.trios {
		on, off := k.look.OnOff(t)
		width := k.state.widthMM[t]
		v := k.decide(on, off, width)
		worst = min(worst, v.Grade)
		if !k.look.Known() {
			worst = min(worst, k.look.Range(t, v.sight, width, k.q.DistanceM).Least.Grade)
		}
	}
	return worst
}

// SightsInWords are eyes, the terms in brackets: "ordinary, red-blind (protan) and
// green-blind (deutan) eyes".
func (r *Report) SightsInWords() string {
	words := make([]string, len(r.Sights))
	for i, s := range r.Sights {
		words[i] = eyesAndTerm(s)
	}
	return plan.List(words) + " eyes"
}

// eyesAndTerm is a sight in a word, with its term where it has one.
func eyesAndTerm(s palette.Sight) string {
	word := strings.TrimSuffix(s.Eyes(), " eyes")
	if s == palette.Normal {
		return word
	}
	return word + " (" + s.String() + ")"
}

// LeftOpen says in words what the brief leaves open, for which the ranges are; "" where
// it leaves nothing open.
func (r *Report) LeftOpen() string { return r.reckoner.look.Credible() }
