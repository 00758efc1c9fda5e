package brief

import "math/big"

// SampleReading is what was learned from a washed sample of the brief's cloth:
// crops of one photo, the width of a float, or both. Colours are named as in the
// brief; a name left out is "".
type SampleReading struct {
	// files: where the pattern weft lies on the face, and behind
	PatternArea, GroundArea string
	Wraps                   []WrapPhoto // yarns in the same photo, in the order of the text
	Pattern, Warp, Ground   string      // which colours the areas are woven of
	FloatWidth              *Reading    // of a float of the pattern weft, washed
}

// WrapPhoto is a crop that shows one yarn wrapped round a card.
type WrapPhoto struct{ Colour, File string }

// Photo is a crop that a sample names: the key it stands under, and its file.
type Photo struct{ Key, File string }

// Photos are the crops that a file of measurements names, in a fixed order.
func (m *Measured) Photos() (photos []Photo) {
	if m.Sample == nil || m.Sample.PatternArea == "" {
		return nil
	}
	photos = []Photo{
		{"sample.pattern_area", m.Sample.PatternArea},
		{"sample.ground_area", m.Sample.GroundArea},
	}
	for _, w := range m.Sample.Wraps {
		photos = append(photos, Photo{WrapKey(w.Colour), w.File})
	}
	return photos
}

// WrapKey is the key under which the crop of a colour's wraps stands.
func WrapKey(colour string) string { return "sample.wraps." + colour }

// sample reads the [sample] table; nil where nothing stands in it.
func (p *parser) sample(s *section, ruler *big.Rat) *SampleReading {
	if s.node == nil {
		return nil
	}
	r := &SampleReading{
		PatternArea: s.file("pattern_area"), GroundArea: s.file("ground_area"),
		Pattern: s.text("pattern", ""), Warp: s.text("warp", ""), Ground: s.text("ground", ""),
	}
	off := ruler
	if to := s.length(s.exactly()); to != nil {
		off = to.MM
	}
	if l := s.length("float_width"); l != nil {
		r.FloatWidth = &Reading{l.MM, off, l.Text}
		if l.MM.Cmp(off) <= 0 {
			s.wrong("float_width", "must be more than it may be off",
				`write a length such as "1.1 mm", and how exactly you read it: within = "0.1 mm"`)
		}
	}
	wraps := s.sub("wraps")
	if wraps.node != nil {
		for _, colour := range wraps.node.Keys {
			r.Wraps = append(r.Wraps, WrapPhoto{colour, wraps.file(colour)})
		}
	}
	wraps.close()
	s.together(r)
	s.close()
	if r.PatternArea == "" && r.FloatWidth == nil {
		return nil
	}
	return r
}

// together refuses crops of which one that belongs to them is missing.
func (s *section) together(r *SampleReading) {
	if !s.has("pattern_area") && !s.has("ground_area") && !s.has("wraps") {
		return
	}
	for _, key := range []string{"pattern_area", "ground_area", "wraps"} {
		if !s.has(key) {
			s.missing(key, "a photo needs pattern_area, ground_area and wraps, with the yarns "+
				"wrapped round a card beside the sample")
			return
		}
	}
	if len(r.Wraps) == 0 {
		s.wrong("wraps", "names no yarn", `write wraps = { oat = "wrap-oat.jpg" }`)
	}
}

// file reads the name of a file.
func (s *section) file(key string) string {
	name := s.text(key, "")
	if s.has(key) && name == "" {
		s.wrong(key, "names no file", `write the name of a picture beside this file: "pattern.jpg"`)
	}
	return name
}
