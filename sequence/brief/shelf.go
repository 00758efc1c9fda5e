package brief

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
func lenient(r *reader, doc *document) *section {
	s := &section{r: r, node: doc.root}
	s.know("title", "units", "seed", "shelf", "set", "cloth", "structure", "loom", "warp", "weft", "piece", "vary")
	return s
}

// Stock is the yarns and colours of a shelf, or those a brief holds itself. The
// error, if any, is of type [Problems]; a text without colours is one.
func Stock(shelf Shelf) ([]Yarn, []Colour, error) {
	doc, err := read(shelf.Name, shelf.Text)
	if err != nil {
		return nil, nil, err
	}
	p := &parser{reader: &reader{}, brief: &Brief{File: shelf.Name, doc: doc}, doc: doc}
	s := lenient(p.reader, doc)
	if s.has("yarn") {
		p.yarnTables(s.sub("yarn"))
	}
	p.colours(s)
	s.close()
	if len(p.problems) > 0 {
		p.problems.sort()
		return nil, nil, p.problems
	}
	return p.brief.Yarns, p.brief.Colours, nil
}
