package brief

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
)

// wefts reads [weft] and then every [[piece]], which changes what it likes.
func (p *parser) wefts(s *section, pieces *tomltext.Node) {
	base := Weft{Ground: -1, Hem: -1, Separator: -1, Rule: Rule{Order: "cycle"}}
	if s.node != nil {
		base = p.weftKeys(s, base)
		if base.Order != nil { // all pieces begin with it
			p.brief.Structure = p.brief.Structure.InOrder(base.Order)
			base.Order = nil
		}
		s.close()
	}
	p.brief.Weft = base
	for i := range p.brief.Set.Pieces {
		piece := Piece{Name: fmt.Sprintf("piece %d", i+1), Weft: base, Open: true}
		own := &section{r: p.reader, path: "piece"}
		if pieces != nil && i < len(pieces.Items) {
			own.node = pieces.Items[i]
			piece = p.piece(own, piece)
		}
		piece.Weft = p.settle(s, own, piece.Weft, piece.Open)
		p.brief.Pieces = append(p.brief.Pieces, piece)
	}
	p.sizes(s)
}

func (p *parser) piece(s *section, piece Piece) Piece {
	if s.node.Kind != tomltext.Table {
		s.r.report(s.node, s.node.Value.From, "piece", "should hold tables",
			"write [[piece]] above each piece's keys")
		return piece
	}
	piece.Told, piece.Open = true, s.yes("open", false)
	piece.Name = s.named("name", piece.Name,
		"give the piece a name, or leave the key out: it is then called by its number")
	if piece.Hold = s.yes("hold", false); piece.Hold && p.filed != nil {
		piece.Weft = p.unmoved(piece.Weft)
		p.brief.Unmoved = append(p.brief.Unmoved, piece.Name)
	}
	piece.Weft = p.weftKeys(s, piece.Weft)
	if piece.Hold && !s.has("runs") {
		s.wrong("hold", "holds runs, and this piece has none",
			"\"stripesong plan BRIEF --write-runs FILE --hold\" writes both")
	}
	if piece.Chosen = s.yes("chosen", false); piece.Chosen && !s.has("runs") {
		s.wrong("chosen", "says that the program chose the runs, and this piece has none",
			"leave it out; open = true leaves a piece to the program")
	}
	if piece.Open {
		p.leftOpen(s)
	}
	for _, key := range ruleKeys {
		piece.Own = piece.Own || s.has(key)
	}
	s.close()
	return piece
}

// leftOpen reports what a piece that is left to the program can't have.
func (p *parser) leftOpen(s *section) {
	for _, key := range s.node.Keys {
		if key != "open" && key != "name" && slices.Contains(s.known, key) {
			s.wrong("open", fmt.Sprintf("leaves the piece to the program, and %q does not", key),
				"leave one of the two out; beside open = true only a name may stand")
			return
		}
	}
}

// unmoved is what a held piece starts from: the colours of [weft] as the file has them,
// whatever stands in their place from outside.
func (p *parser) unmoved(base Weft) Weft {
	r := &reader{root: p.reader.root} // what is wrong there may be out of force
	s, w := &section{r: r, node: p.filed, path: "weft"}, base
	w.Ground = p.one(s, "ground", base.Ground)
	w.Hem = p.one(s, "hem", -1)
	if len(r.problems) > 0 {
		return base
	}
	return w
}

// weftKeys reads the keys [weft] and [[piece]] share. Runs of the table win
// over rules; rules of the table win over runs it would inherit.
func (p *parser) weftKeys(s *section, base Weft) Weft {
	w := base
	w.Ground = p.one(s, "ground", base.Ground)
	w.Hem = p.one(s, "hem", base.Hem)
	w.Separator = p.one(s, "separator", base.Separator)
	w.Order = p.pickOrder(s, base.Order)
	w.Rule = p.rule(s, base.Rule)
	switch {
	case s.has("runs"):
		w.Runs, w.Beside = p.runs(s, true), p.beside(s)
	case s.has("rhythm"):
		w.Runs, w.Beside = nil, nil
		s.know("runs")
	default:
		s.know("runs")
	}
	return w
}

// settle fills in what is left out, when a piece's keys are all known. What is
// missing is reported of [weft], which would give it to every piece; not what the
// piece's own table has and is reported there.
func (p *parser) settle(s, own *section, w Weft, open bool) Weft {
	if w.Ground < 0 && !own.meant("ground") {
		s.missing("ground", "name the ground weft's colour in [weft]")
	}
	w.Ground = max(w.Ground, 0)
	if w.Hem < 0 {
		w.Hem = w.Ground
	}
	if w.Separator < 0 {
		w.Separator = w.Ground
	}
	if w.Runs == nil && !(open && p.doc.Root.Table["vary"] != nil) {
		p.complete(s, own, w.Rule)
	}
	return w
}

// sizes reports a missing length where a piece needs one.
func (p *parser) sizes(*section) {
	set := p.brief.Set
	if set.Length != nil || set.Woven != nil || len(p.problems) > 0 {
		return
	}
	for _, piece := range p.brief.Pieces {
		if piece.Weft.Runs == nil {
			s := &section{r: p.reader, node: p.doc.Root.Table["set"], path: "set"}
			s.missing("length",
				fmt.Sprintf("%q has no runs that would set its length: write length, or woven in "+
					"its place", piece.Name))
			return
		}
	}
}

// Kinship is what the pieces of a proposed set have in common, as the brief's key has it.
type Kinship string

// What may be in common: a pattern colour, the kind of rhythm, the stripe widths.
const (
	OneColour      Kinship = "colour"
	OneRhythm      Kinship = "rhythm"
	OneProportions Kinship = "proportions"
	NoKinship      Kinship = "none"
)

// vary reads [vary].
func (p *parser) vary(s *section) {
	v := &Vary{Candidates: s.count("candidates", 2000, 1, MaxCandidates),
		AtLeast: s.number("at_least")}
	v.Colours = p.brief.Weft.Rule.Colours
	if s.has("colours") {
		v.Colours = p.colourList(s, "colours")
	} else {
		s.know("colours")
	}
	if len(v.Colours) == 0 && len(p.problems) == 0 {
		s.missing("colours", "name the pattern colours to choose from, here or in [weft]")
	}
	v.PerPiece = p.perPiece(s, len(v.Colours))
	v.Rhythms = p.rhythmKinds(s)
	v.OnHand = s.choice("within", "no limit", "on_hand", "no limit") == "on_hand"
	v.Kinship = Kinship(s.choice("kinship", string(OneColour),
		string(OneColour), string(OneRhythm), string(OneProportions), string(NoKinship)))
	s.close()
	p.brief.Vary = v
}

func (p *parser) perPiece(s *section, colours int) [2]int {
	otherwise := [2]int{1, max(1, min(3, colours))}
	list := s.find("per_piece", tomltext.Array)
	if list == nil {
		return otherwise
	}
	var found [2]int
	for i, n := range list.Items {
		v, err := n.WholeNumber()
		if len(list.Items) != 2 || n.Kind != tomltext.Integer || err != nil || v < 1 ||
			v > int64(colours) || int(v) < found[0] {
			break
		}
		found[i] = int(v)
	}
	if found[1] == 0 {
		s.wrong("per_piece", "should be the fewest and the most pattern colours in one piece",
			fmt.Sprintf("write two whole numbers from 1 to %d, as in [1, %d]", colours, colours))
		return otherwise
	}
	return found
}

func (p *parser) rhythmKinds(s *section) []string {
	kinds := sequence.KindNames()
	if !s.has("rhythms") {
		s.know("rhythms")
		return kinds
	}
	var found []string
	for _, n := range s.names("rhythms") {
		if s.r.full() {
			break
		}
		if !slices.Contains(kinds, n.Text) {
			s.r.report(n, n.Value.From, s.name("rhythms"),
				fmt.Sprintf("%q is none of %s", n.Text, strings.Join(kinds, ", ")),
				nearestHint(n.Text, kinds))
			continue
		}
		found = append(found, n.Text)
	}
	if len(found) == 0 && len(p.problems) == 0 {
		s.wrong("rhythms", "is empty",
			"name at least one kind of rhythm, or leave the key out for all")
	}
	return found
}
