package brief

import (
	_ "embed"
	"math/big"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
)

// Measured is what was really measured on a set that was woven. Readings that
// were not taken are nil.
type Measured struct {
	Width struct{ Reed, Fell, Finished *Reading }
	Long  struct{ Woven, Finished *Reading }
	Warp  struct{ Wound, Woven, Leftover *Reading }
	Weft  []WeftReading

	Sample *SampleReading

	file string
	doc  *tomltext.Document
}

// Reading is a length and how far it may be off either way, in millimetres.
type Reading struct {
	MM, OffMM *big.Rat
	Text      string
}

// WeftReading is the yarn that so many picks of one colour took.
type WeftReading struct {
	Colour         string
	Picks, Strands int
	Used           measure.Amount
	Off            measure.Amount // how far it may be off, of the same kind
}

//go:embed measured.toml
var measuredTemplate []byte

// MeasuredTemplate is the commented file to write measurements into.
func MeasuredTemplate() []byte { return append([]byte{}, measuredTemplate...) }

// MeasuredTemplateIn is [MeasuredTemplate] with its examples in "cm" or in "in".
func MeasuredTemplateIn(units string) []byte {
	if units == "in" {
		return swapped(measuredTemplate, measuredInInches)
	}
	return MeasuredTemplate()
}

// ParseMeasured reads a file of measurements. The error, if any, is of type
// [Problems].
func ParseMeasured(name string, text []byte) (*Measured, error) {
	p, err := parserOf(name, text)
	if err != nil {
		return nil, err
	}
	m := &Measured{file: name, doc: p.doc}
	p.measured(m)
	if err := p.refusal(); err != nil {
		return nil, err
	}
	return m, nil
}

func (p *parser) measured(m *Measured) {
	s := &section{r: p.reader, node: p.doc.Root}
	ruler := or(s.length("ruler"), mm(1)).MM
	scale := big.NewRat(1, 1)
	if w := quantity(s, "scale", measure.ParseWeight); w != nil {
		scale = w.Grams
	}
	p.readings(s.sub("width"), ruler,
		map[string]**Reading{"reed": &m.Width.Reed, "fell": &m.Width.Fell,
			"finished": &m.Width.Finished})
	p.readings(s.sub("length"), ruler,
		map[string]**Reading{"woven": &m.Long.Woven, "finished": &m.Long.Finished})
	p.readings(s.sub("warp"), ruler,
		map[string]**Reading{"wound": &m.Warp.Wound, "woven": &m.Warp.Woven,
			"leftover": &m.Warp.Leftover})
	if wefts := s.find("weft", tomltext.Array); wefts != nil {
		for _, n := range wefts.Items {
			m.Weft = append(m.Weft,
				p.weftReading(&section{r: p.reader, node: n, path: "weft"}, scale))
		}
	}
	m.Sample = p.sample(s.sub("sample"), ruler)
	s.close()
}

// readings fills in the lengths of one table.
func (p *parser) readings(s *section, ruler *big.Rat, into map[string]**Reading) {
	off := or(s.length(s.exactly()), measure.Length{MM: ruler}).MM
	for _, key := range []string{"reed", "fell", "wound", "woven", "leftover", "finished"} {
		to, ok := into[key]
		if !ok {
			continue
		}
		if l := s.length(key); l != nil {
			*to = &Reading{l.MM, off, l.Text}
			if l.MM.Cmp(off) <= 0 && key != "leftover" {
				s.wrong(key, "must be more than it may be off", "write a length such as \"46 cm\"")
			}
		}
	}
	s.close()
}

// exactly is the key that says how exactly a measurement was read; files of the first
// edition call it "to".
func (s *section) exactly() string {
	if s.has("to") && !s.has("within") {
		return "to"
	}
	return "within"
}

// lengthOff is how far metres of yarn may be off where the file does not say.
var lengthOff = measure.Amount{MM: big.NewRat(1000, 1)}

func (p *parser) weftReading(s *section, scale *big.Rat) WeftReading {
	w := WeftReading{Colour: s.text("colour", ""), Picks: s.count("picks", 0, 1, 10_000_000),
		Strands: s.count("strands", 1, 1, 20)}
	w.Used = or(quantity(s, "used", measure.ParseAmount), measure.Amount{MM: big.NewRat(1, 1)})
	key := s.exactly()
	to := quantity(s, key, measure.ParseAmount)
	switch {
	case to == nil && w.Used.Grams != nil:
		w.Off = measure.Amount{Grams: scale}
	case to == nil:
		w.Off = lengthOff
	case (to.Grams == nil) != (w.Used.Grams == nil):
		s.wrong(key, "is not of the kind of used", "write both as weights or both as lengths")
	default:
		w.Off = *to
	}
	for _, key := range []string{"colour", "picks", "used"} {
		if !s.has(key) {
			s.missing(key, "a [[weft]] table has colour, picks and used")
		}
	}
	s.close()
	return w
}

// Wrong is a problem with a measurement, as an error, at the place of the
// dotted key; of the weft tables it is "weft".
func (m *Measured) Wrong(key, what, hint string) error {
	if n := m.doc.Root.Find(key); n != nil {
		at := n.Value.From
		if n.Kind == tomltext.Array && len(n.Items) > 0 {
			at = n.Items[0].Key.From
		}
		return Problems{problem(n.Doc.Place(at), key, what, hint)}
	}
	return Problems{{File: m.file, Key: key, What: what, Hint: hint}}
}
