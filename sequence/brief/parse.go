package brief

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/weave"
)

// Options are what a brief is read with besides its own text.
type Options struct {
	// Shelf reads the file a brief names as its shelf, which stands beside the
	// brief. Without it a brief that names one is refused.
	Shelf func(name string) ([]byte, error)
	// More are shelves besides, whose yarns and colours come last. They may be
	// briefs: all but [yarn.*] and [[colour]] is passed over.
	More []Shelf
	// Set are values that stand in place of the brief's, in this order.
	Set []Override
}

// Shelf is a text with [yarn.*] and [[colour]] tables.
type Shelf struct {
	Name string // what messages call it
	Text []byte
}

// Override is one value given from outside the brief, by a flag.
type Override struct {
	Key   string // dotted, as in "set.pieces" or "warp.rhythm"
	Value string // as TOML would have it: 6, "46 cm", { kind = "even", stripes = 5 }
	Flag  string // what to call it in a message
}

// Parse reads a brief. Name is what messages call it. The error, if any, is of
// type [Problems].
func Parse(name string, text []byte, options Options) (*Brief, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	filed := asFiled(doc.Root.Table["weft"], options.Set)
	if err := override(doc, options.Set); err != nil {
		return nil, err
	}
	p := &parser{
		reader: &reader{root: doc.Root},
		brief:  &Brief{File: name, doc: doc},
		doc:    doc,
		filed:  filed,
	}
	p.shelf(options.Shelf)
	p.more(options.More)
	p.top()
	if err := p.refusal(); err != nil {
		return nil, err
	}
	return p.brief, nil
}

// parser fills in a Brief table by table.
type parser struct {
	*reader
	brief   *Brief
	doc     *tomltext.Document
	yarnAt  map[string]int // where in brief.Yarns a name is
	shelves []*section     // the tables of the shelf file and of further ones
	filed   *tomltext.Node // [weft] as the file has it, where values from outside change it
}

// parserOf is ready to read one of the small files that stand beside a brief.
func parserOf(name string, text []byte) (*parser, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	return &parser{reader: &reader{root: doc.Root}, doc: doc}, nil
}

// refusal is what is wrong with what was read, of type [Problems], or nil.
func (p *parser) refusal() error {
	if len(p.problems) == 0 {
		return nil
	}
	p.problems.sort()
	return p.problems
}

func (p *parser) top() {
	b, s := p.brief, p.root()
	b.Title = cmp.Or(s.called("title", ""), "untitled")
	b.Units = s.choice("units", "cm", "cm", "in")
	b.Seed = s.seed("seed", 1)
	p.structure(s)
	p.cloth(s.sub("cloth"))
	p.loom(s.sub("loom"))
	midway := s.sub("midway")
	p.midway(midway)
	p.yarns(s)
	p.colours(s)
	if b.Structure == nil || len(b.Colours) == 0 {
		s.know("set", "warp", "weft", "piece", "vary")
		s.close()
		return // the rest would only repeat what these are about
	}
	p.warp(s.sub("warp"))
	pieces := s.find("piece", tomltext.Array)
	p.set(s.sub("set"), pieces)
	p.wefts(s.sub("weft"), pieces)
	p.settled(midway)
	if s.has("vary") {
		p.vary(s.sub("vary"))
	}
	s.know("vary")
	s.close()
}

func (p *parser) root() *section {
	s := &section{r: p.reader, node: p.doc.Root}
	s.know("shelf")
	return s
}

func (s *section) know(keys ...string) { s.known = append(s.known, keys...) }

// plainName is a structure's name as people also write it, the way it is
// listed: small letters, no dots over them, hyphens for blanks.
func plainName(name string) string {
	return strings.NewReplacer("ä", "a", "å", "a", "ö", "o", "'", "", "’", "", "_", "-", " ", "-").
		Replace(strings.ToLower(strings.TrimSpace(name)))
}

// set reads [set], whose number of pieces is that of the [[piece]] tables
// where it is left out.
func (p *parser) set(s *section, pieces *tomltext.Node) {
	written := 0
	if pieces != nil {
		written = len(pieces.Items)
	}
	set := &p.brief.Set
	set.Pieces = s.count("pieces", max(written, 1), 1, MaxPieces)
	if n := s.find("pieces", tomltext.Integer); n != nil && n.Doc.Loose && written > set.Pieces {
		p.leaveOut(pieces, set.Pieces) // a smaller set on request
		written = set.Pieces
	}
	if written > set.Pieces {
		s.r.report(pieces, pieces.Items[set.Pieces].Key.From, "piece",
			fmt.Sprintf("there are %d [[piece]] tables for a set of %d", written, set.Pieces),
			"raise pieces in [set], or take a table away")
	}
	set.Width, set.InReed = p.oneOf(s, "width", "in_reed", p.brief.Warp.Runs == nil)
	set.Length, set.Woven = p.oneOf(s, "length", "woven", false)
	p.oddUnits(s)
	set.Hem = or(s.length("hem"), mm(0))
	set.HemShow = or(s.length("hem_show"), mm(0))
	set.Separator = s.count("separator", 2, 0, 1000)
	set.Spare = or(quantity(s, "spare", measure.ParseShare), share(10))
	set.Fringe = or(s.length("fringe"), mm(0))
	s.close()
}

// oddUnits finds the sizes of a piece that are in centimetres in a brief of inches, or
// the other way round, where the file itself says both.
func (p *parser) oddUnits(s *section) {
	units := p.doc.Root.Table["units"]
	if units == nil || units.Doc.Loose || s.node == nil {
		return
	}
	for _, key := range []string{"width", "in_reed", "length", "woven"} {
		n := s.node.Table[key]
		if n == nil || n.Doc.Loose {
			continue
		}
		if l, err := measure.ParseLength(n.Text); err == nil && l.Units() != p.brief.Units {
			p.brief.OddUnits = append(p.brief.OddUnits, fmt.Sprintf("%s = %q", key, l))
		}
	}
}

// leaveOut drops the piece tables beyond the first n and remembers their names.
func (p *parser) leaveOut(pieces *tomltext.Node, n int) {
	for i, table := range pieces.Items[n:] {
		s := &section{r: p.reader, node: table, path: "piece"}
		name := s.called("name", "")
		p.brief.LeftOut = append(p.brief.LeftOut, cmp.Or(name, fmt.Sprintf("piece %d", n+i+1)))
	}
	pieces.Items = pieces.Items[:n]
}

// oneOf reads two keys of which at most one may be given.
func (p *parser) oneOf(s *section, a, b string, needed bool) (first, second *measure.Length) {
	first, second = s.length(a), s.length(b)
	if s.has(a) && s.has(b) {
		s.wrong(b, fmt.Sprintf("stands beside %s, and they say the same thing in two ways", a),
			"keep one of the two")
	}
	if needed && !s.has(a) && !s.has(b) {
		s.missing(a, fmt.Sprintf("write %s, or %s in its place", a, b))
	}
	if first != nil && first.MM.Sign() == 0 {
		s.wrong(a, "must be more than nothing", "write a length such as \"46 cm\"")
	}
	if second != nil && second.MM.Sign() == 0 {
		s.wrong(b, "must be more than nothing", "write a length such as \"46 cm\"")
	}
	return first, second
}

// missing reports a key that must be there, at its table or at the file's end;
// not one that is there but misspelt, which is reported as that.
func (s *section) missing(key, hint string) {
	switch {
	case s.node == nil && misspelt(s.r.root, s.path, tables), s.node != nil &&
		misspelt(s.node, key, s.known):
	case s.node == nil:
		s.r.add(Problem{File: s.r.root.Doc.Name, Key: s.name(key), What: "is missing", Hint: hint})
	default:
		s.r.report(s.node, s.node.Key.From, s.name(key), "is missing", hint)
	}
}

// misspelt tells whether a table has a key that is near one and not known.
func misspelt(n *tomltext.Node, key string, all []string) bool {
	for _, k := range n.Keys {
		if k != key && Nearest(k, []string{key}) != "" && !slices.Contains(all, k) {
			return true
		}
	}
	return false
}

// tables are the keys of a brief that hold tables.
var tables = []string{"set", "cloth", "loom", "structure", "yarn", "colour", "warp", "weft",
	"piece", "vary", "midway"}

func mm(n int64) measure.Length { l, _ := measure.ParseLength(fmt.Sprintf("%d mm", n)); return l }

func share(percent int) measure.Share {
	s, _ := measure.ParseShare(fmt.Sprintf("%d%%", percent))
	return s
}

func (p *parser) cloth(s *section) {
	c := &p.brief.Cloth
	s.know("structure")
	c.Sett = p.density(s, "sett", nil)
	c.Ground = p.density(s, "ground", nil)
	c.HemGround = p.density(s, "hem_ground", &c.Ground)
	c.DrawIn = p.loss(s, "draw_in", 5)
	c.TakeUp = p.loss(s, "take_up", 8)
	c.ShrinkWidth = p.loss(s, "shrink_width", 10)
	c.ShrinkLength = p.loss(s, "shrink_length", 10)
	c.Extra = p.loss(s, "weft_extra", 10)
	c.Strands = s.count("strands", 1, 1, 20)
	c.Spread, c.SpreadKnown = s.bounded("spread", spreads)
	c.Scatter, c.ScatterKnown = s.bounded("scatter", scatters)
	c.FloatingSelvedge = s.yes("floating_selvedge", true)
	p.closingEnd(s)
	s.close()
}

// closingEnd reads closing_end, with which the structure is threaded closed.
func (p *parser) closingEnd(s *section) {
	b := p.brief
	b.Cloth.ClosingEnd = s.yes("closing_end", false)
	if !b.Cloth.ClosingEnd || b.Structure == nil {
		return
	}
	closed, ok := b.Structure.Closed()
	if !ok {
		s.wrong("closing_end",
			fmt.Sprintf("%s can't have one: it is for blocks that tie their floats down, and "+
				"whose units without their first end read alike from both sides",
				weave.Spelt(b.Structure.Name)),
			"leave the key out")
		return
	}
	b.Structure = closed
}

// MostScatter is the greatest scatter that is worked with.
const MostScatter = 0.5

// ScatterOf is the scatter that a brief gives, or the usual one where it gives
// none, as for a shelf.
func ScatterOf(name string, text []byte, with Options) *big.Rat {
	if b, err := Parse(name, text, with); err == nil {
		return b.Cloth.Scatter
	}
	return scatters.usual
}

// bounds of a plain number: the least, the most, what is taken where it is left
// out, and what to say of it.
type bounds struct {
	least, most, usual *big.Rat
	says               string
}

var (
	spreads = bounds{big.NewRat(1, 2), big.NewRat(5, 1), big.NewRat(3, 2),
		"yarn lies about 1.5 times as wide in washed cloth as it is round"}
	scatters = bounds{new(big.Rat), new(big.Rat).SetFloat64(MostScatter), big.NewRat(1, 50),
		"0 is for yarn that lets no light through; 0.02 is usual"}
)

// bounded reads a plain number and whether the brief has it.
func (s *section) bounded(key string, b bounds) (n *big.Rat, known bool) {
	n = s.number(key)
	if n == nil {
		return b.usual, false
	}
	if n.Cmp(b.least) < 0 || n.Cmp(b.most) > 0 {
		s.wrong(key, "must be from "+decimal(b.least)+" to "+decimal(b.most), b.says)
	}
	return n, true
}

// decimal is a short fraction as people write it.
func decimal(r *big.Rat) string {
	f := exact.Float(r)
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// density reads ends or picks; without a fallback it must be given.
func (p *parser) density(s *section, key string, otherwise *measure.Density) measure.Density {
	d := s.threads(key)
	switch {
	case d == nil && otherwise != nil:
		return *otherwise
	case d == nil && !s.has(key):
		s.missing(key, "write it as in \""+key+" = \\\"8/cm\\\"\"")
	}
	return or(d, measure.Density{PerMM: big.NewRat(1, 1)})
}

// loss reads a share below all of it; one left out is assumed, as is usual for towels of
// cotton or linen (common practice, no source), and noted.
func (p *parser) loss(s *section, key string, percent int) measure.Share {
	v := quantity(s, key, measure.ParseShare)
	if v == nil {
		if !s.has(key) {
			p.brief.Assumed = append(p.brief.Assumed, fmt.Sprintf("%s %d%%", key, percent))
		}
		return share(percent)
	}
	if v.Part.Cmp(big.NewRat(9, 10)) > 0 {
		s.wrong(key, fmt.Sprintf("%s is more than can be lost", v),
			"write a percentage from 0% to 90%")
	}
	return *v
}

func (p *parser) loom(s *section) {
	l := &p.brief.Loom
	l.Shafts = s.count("shafts", 4, 1, 64)
	l.Treadles = s.count("treadles", 6, 0, 128)
	p.heddles(s, l)
	l.Bout = s.count("bout", 80, 1, 1000) // 80: common practice, no source
	l.Shed = s.choice("shed", "rising", "rising", "sinking", "both")
	l.TieUp = s.choice("tie_up", "sheds", "sheds", DirectTieUp)
	p.direct(s, l)
	if s.has("dress") {
		l.Dress = s.choice("dress", "", "back to front", "front to back")
	} else {
		s.know("dress")
	}
	l.ThreadFrom = s.choice("thread_from", "left", "left", "right")
	l.Pace = s.count("pace", 0, 1, maxPace)
	l.Width, l.Board = s.length("width"), s.length("board")
	l.Waste = or(s.length("waste"), mm(750))
	l.Sample = or(s.length("sample"), mm(0))
	l.Retie = or(s.length("retie"), mm(0))
	l.Reed = s.threads("reed")
	s.close()
}

// DirectTieUp is the tie-up in which each treadle moves one shaft, and those of a shed are
// pressed together.
const DirectTieUp = "direct"

// direct refuses a tie-up of one shaft to each treadle where a loom has none to press, or
// where a treadle must move every shaft.
func (p *parser) direct(s *section, l *Loom) {
	switch {
	case l.TieUp != DirectTieUp:
	case l.Treadles == 0:
		s.wrong("tie_up", "with treadles = 0 there are none to tie up",
			"leave tie_up out: on a table loom every shaft has its own lever")
	case l.Shed == "both":
		s.wrong("tie_up", `with shed = "both" every treadle moves all shafts, so that no two can be `+
			"pressed together", `write tie_up = "sheds", or leave it out`)
	}
}

// maxPace is the most picks an hour that are reckoned with.
const maxPace = 100_000

// maxHeddles is the most heddles a loom may hold, or a shaft.
const maxHeddles = 100_000

// heddles reads their number in all, or a list of them by shaft.
func (p *parser) heddles(s *section, l *Loom) {
	list := (*tomltext.Node)(nil)
	if s.node != nil {
		list = s.node.Table["heddles"]
	}
	if list == nil || list.Kind != tomltext.Array {
		l.Heddles = s.count("heddles", 0, 0, maxHeddles)
		return
	}
	s.find("heddles", tomltext.Array)
	if len(list.Items) != l.Shafts {
		s.wrong("heddles", fmt.Sprintf("has %d numbers for %d shafts", len(list.Items), l.Shafts),
			"write one number for each shaft, shaft 1 first, or how many there are in all")
		return
	}
	for _, n := range list.Items {
		v, err := n.WholeNumber()
		if n.Kind != tomltext.Integer || err != nil || v < 0 || v > maxHeddles {
			s.r.report(n, n.Value.From, s.name("heddles"), "should hold whole numbers of heddles",
				"write a list such as [120, 160, 120, 160]")
			return
		}
		l.HeddlesBy = append(l.HeddlesBy, int(v))
		l.Heddles += int(v)
	}
}

// structure finds the built-in structure [cloth] names or reads [structure].
func (p *parser) structure(s *section) {
	cloth := &section{r: p.reader, node: p.doc.Root.Table["cloth"], path: "cloth"}
	if cloth.node != nil && cloth.node.Kind != tomltext.Table {
		cloth.node = nil
	}
	if s.has("structure") {
		p.ownStructure(s.sub("structure"), cloth)
		return
	}
	s.know("structure")
	name := cloth.text("structure", "halvdrall")
	found, ok := weave.Lookup(plainName(name))
	if !ok {
		cloth.wrong("structure", fmt.Sprintf("there is no structure %q", name),
			nearestHint(name, weave.Names()))
		return
	}
	p.brief.Structure = found
}
