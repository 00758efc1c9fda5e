package brief

import (
	"math/big"

	"stripesong/sequence/brief/tomltext"
)

// more reads further shelves.
func (p *parser) more(shelves []Shelf) {
	for _, shelf := range shelves {
		doc, err := read(shelf.Name, shelf.Text)
		if err != nil {
			p.problems = append(p.problems, err.(Problems)...)
			continue
		}
		p.shelves = append(p.shelves, lenient(p.reader, doc))
	}
}

// lenient reads only the yarns and colours of a text; what else a brief may
// hold is passed over.
func lenient(r *reader, doc *tomltext.Document) *section {
	s := &section{r: r, node: doc.Root}
	s.know("title", "units", "seed", "shelf", "set", "cloth", "structure", "loom", "warp", "weft",
		"piece", "vary", "midway")
	return s
}

// Stock is the yarns and colours of a shelf, or those a brief holds itself. A
// colour may be of a yarn that is only named; what is on hand of it is then not
// known. The error, if any, is of type [Problems]; a text without colours is one.
func Stock(shelf Shelf) ([]Yarn, []Colour, error) {
	doc, err := read(shelf.Name, shelf.Text)
	if err != nil {
		return nil, nil, err
	}
	p := &parser{reader: &reader{root: doc.Root}, brief: &Brief{File: shelf.Name, doc: doc},
		doc: doc}
	s := lenient(p.reader, doc)
	if s.has("yarn") {
		p.yarnTables(s.sub("yarn"))
	}
	described := len(p.brief.Yarns)
	p.undescribed(s)
	p.colours(s)
	s.close()
	for i := range p.brief.Colours {
		if c := &p.brief.Colours[i]; c.Yarn >= described {
			c.OnHandM, c.OnHand = nil, "" // a weight says nothing of a yarn's length by itself
		}
	}
	if err := p.refusal(); err != nil {
		return nil, nil, err
	}
	return p.brief.Yarns, p.brief.Colours, nil
}

// undescribed adds the yarns that colours name and no table describes.
func (p *parser) undescribed(s *section) {
	if s.node.Table["colour"] == nil {
		return
	}
	for _, n := range s.node.Table["colour"].Items {
		name := n.Table["yarn"]
		if name != nil && name.Kind == tomltext.String && name.Text != "" {
			p.addYarn(Yarn{Name: name.Text, Tex: big.NewRat(100, 1)})
		}
	}
}
