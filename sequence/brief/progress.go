package brief

import (
	_ "embed"
	"fmt"
	"math/big"
	"slices"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

// Progress is where a weaver is on the loom, as she measured it. What she did not measure
// is nil.
type Progress struct {
	Woven   int       // pieces, from the first on
	Lengths []Reading // of these as measured, or of the last of them; under tension
	// how far the last piece runs past the end of its tape; below 0 where it ends before
	Beyond  *Reading
	Left    *Reading       // of the warp, from the fell on
	ToKnots bool           // as far as the knots at the back, not to its end
	Thrums  *Reading       // what of that can't be woven
	Wound   *Reading       // the whole warp
	Tied    *Reading       // of it, in front
	Yarns   []YarnLeft     // that were weighed
	Scale   measure.Weight // how far a weight may be off

	file string
	doc  *tomltext.Document
}

// YarnLeft is what is left of one colour, net; of one that is gone, nothing.
type YarnLeft struct {
	Colour string
	Left   measure.Amount
	Had    *measure.Amount // before the first piece; nil where not measured
	Gone   bool
	Key    string // where in the file it stands
}

//go:embed progress.toml
var progressTemplate []byte

// ProgressTemplate is the commented file to write progress into, with examples in the
// units of a brief.
func ProgressTemplate(units string) []byte {
	if units == "in" {
		return swapped(progressTemplate, progressInInches)
	}
	return slices.Clone(progressTemplate)
}

// ParseProgress reads a file of progress. The error, if any, is of type [Problems].
func ParseProgress(name string, text []byte) (*Progress, error) {
	p, err := parserOf(name, text)
	if err != nil {
		return nil, err
	}
	made := &Progress{file: name, doc: p.doc}
	p.progress(made)
	if err := p.refusal(); err != nil {
		return nil, err
	}
	return made, nil
}

func (p *parser) progress(made *Progress) {
	s := &section{r: p.reader, node: p.doc.Root}
	off := or(s.length("ruler"), mm(5)).MM
	gram, _ := measure.ParseWeight("1 g")
	made.Scale = or(quantity(s, "scale", measure.ParseWeight), gram)
	made.Woven = s.count("woven", 0, 0, MaxPieces)
	if !s.has("woven") {
		s.missing("woven", "write how many pieces are woven, as in woven = 3")
	}
	p.wovenLengths(s, made, off)
	made.Beyond = s.beyond(off)
	p.warpLeft(s.sub("warp"), made, off)
	p.yarnsLeft(s, made)
	s.close()
}

// wovenLengths reads the lengths of pieces, and puts relaxed ones under tension again.
func (p *parser) wovenLengths(s *section, made *Progress, off *big.Rat) {
	how := s.choice("measured", "under tension", "under tension", "relaxed")
	left := big.NewRat(1, 1)
	if share := quantity(s, "relaxes", measure.ParseShare); share != nil {
		if share.Part.Cmp(big.NewRat(1, 4)) > 0 {
			s.wrong("relaxes",
				fmt.Sprintf("%s is more than cloth loses when the tension is let off", share),
				"3% is usual (common practice)")
			return
		}
		left = new(big.Rat).Sub(left, share.Part)
	}
	relaxed := how == "relaxed"
	if relaxed && !s.has("relaxes") {
		s.wrong("measured", "relaxed lengths alone don't say how long the cloth is under tension",
			`measure one piece both ways and write relaxes = "3%", or what it is; or measure with the tension on`)
	}
	for _, l := range s.lengths("lengths") {
		r := Reading{MM: l.MM, OffMM: off, Text: l.Text}
		if relaxed {
			r.MM, r.OffMM = new(big.Rat).Quo(l.MM, left), new(big.Rat).Quo(off, left)
		}
		made.Lengths = append(made.Lengths, r)
	}
	if n := len(made.Lengths); n > made.Woven && s.has("woven") {
		s.wrong("lengths", fmt.Sprintf("has more lengths (%d) than pieces are woven (%d)", n,
			made.Woven), "write one for each woven piece")
	}
}

// beyond reads how far the last piece runs past its tape; nil where nothing says so.
func (s *section) beyond(off *big.Rat) *Reading {
	longer, shorter := s.length("longer"), s.length("shorter")
	switch {
	case s.has("longer") && s.has("shorter"):
		s.wrong("shorter", "stands beside longer, and cloth can't be both", "keep one of the two")
	case longer != nil:
		return &Reading{longer.MM, off, longer.Text}
	case shorter != nil:
		return &Reading{new(big.Rat).Neg(shorter.MM), off, shorter.Text}
	}
	return nil
}

func (p *parser) warpLeft(s *section, made *Progress, off *big.Rat) {
	read := func(key string) *Reading {
		l := s.length(key)
		if l == nil {
			return nil
		}
		return &Reading{l.MM, off, l.Text}
	}
	left, knots := read("left"), read("to_knots")
	if left != nil && knots != nil {
		s.wrong("to_knots", "stands beside left, and they say the same thing in two ways",
			"keep one of the two")
	}
	if made.Left = left; left == nil {
		made.Left, made.ToKnots = knots, knots != nil
	}
	made.Thrums, made.Wound, made.Tied = read("thrums"), read("wound"), read("tied")
	s.close()
}

func (p *parser) yarnsLeft(s *section, made *Progress) {
	for i, n := range s.names("gone") {
		made.Yarns = append(made.Yarns,
			YarnLeft{Colour: n.Text, Gone: true, Key: fmt.Sprintf("gone[%d]", i)})
	}
	list := s.find("yarn", tomltext.Array)
	if list == nil {
		return
	}
	for i, n := range list.Items {
		if n.Kind != tomltext.Table {
			s.r.report(n, n.Value.From, "yarn", "should hold tables",
				"write [[yarn]] above each colour's keys")
			continue
		}
		y := p.yarnLeft(&section{r: p.reader, node: n, path: "yarn"})
		y.Key = fmt.Sprintf("yarn[%d].colour", i)
		made.Yarns = append(made.Yarns, y)
	}
	seen := map[string]bool{}
	for _, y := range made.Yarns {
		if seen[y.Colour] && y.Colour != "" {
			p.add(made.problem(y.Key, fmt.Sprintf("%q is there twice", y.Colour),
				"keep one of the two"))
		}
		seen[y.Colour] = true
	}
}

func (p *parser) yarnLeft(s *section) YarnLeft {
	y := YarnLeft{Colour: s.text("colour", "")}
	left := quantity(s, "left", measure.ParseAmount)
	cone := quantity(s, "cone", measure.ParseWeight)
	y.Had = quantity(s, "had", measure.ParseAmount)
	for _, key := range []string{"colour", "left"} {
		if !s.has(key) {
			s.missing(key, "a [[yarn]] table has colour and left")
		}
	}
	y.Left = or(left, measure.Amount{MM: new(big.Rat)})
	switch {
	case cone == nil:
	case y.Left.Grams == nil:
		s.wrong("cone", "is taken off a weight, and left is a length",
			"leave cone out, or weigh what is left")
	case y.Left.Grams.Cmp(cone.Grams) < 0:
		s.wrong("left", fmt.Sprintf("%s is less than the empty cone, %s", y.Left.Text, cone.Text),
			"left is what the scale shows with the cone on it")
	default:
		y.Left.Grams = new(big.Rat).Sub(y.Left.Grams, cone.Grams)
	}
	s.close()
	return y
}

func (made *Progress) problem(key, what, hint string) Problem {
	if n := made.doc.Root.Find(key); n != nil {
		return problem(n.Doc.Place(n.Value.From), key, what, hint)
	}
	return Problem{File: made.file, Key: key, What: what, Hint: hint}
}

// Wrong is a problem with what was measured, as an error, at the place of a dotted key.
func (made *Progress) Wrong(key, what, hint string) error {
	return Problems{made.problem(key, what, hint)}
}

// Measurements begins a file of measurements from what was measured on the way, with
// nothing in it yet.
func (made *Progress) Measurements() *Measured {
	return &Measured{file: made.file, doc: made.doc}
}
