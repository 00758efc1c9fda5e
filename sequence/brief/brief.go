package brief

import (
	"math/big"
	"slices"

	"stripesong/palette"
	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
	"stripesong/sequence/weave"
)

// Brief is a weaver's brief, checked and complete: every default filled in,
// every name resolved. Quantities are exact.
type Brief struct {
	File      string
	Title     string
	Units     string // "cm" or "in"
	Seed      int64
	Set       Set
	Cloth     Cloth
	Loom      Loom
	Structure *weave.Structure
	Yarns     []Yarn
	Colours   []Colour // the brief's own first, then the shelf's others
	Warp      Warp
	Weft      Weft     // what every piece starts from
	Pieces    []Piece  // as many as the set has; the open ones last
	Vary      *Vary    // nil without a [vary] table
	OddUnits  []string // sizes of a piece that are not in the brief's units, as it has them
	Midway    *Midway  // nil where no part of the warp is woven
	LeftOut   []string // names of pieces a smaller set, asked for by a flag, leaves out
	Unmoved   []string // names of held pieces, where values from outside change [weft]
	Assumed   []string // keys of losses the brief leaves out, for a note

	doc *tomltext.Document // for the places of later problems
}

// Set is the [set] table. Width or InReed, Length or Woven may be nil where
// the other is given, or where runs set the size.
type Set struct {
	Pieces        int
	Width, InReed *measure.Length
	Length, Woven *measure.Length
	Hem           measure.Length
	HemShow       measure.Length // plain cloth beyond the fold that stays in sight, each end
	Separator     int
	Spare         measure.Share
	Fringe        measure.Length
}

// Cloth is the [cloth] table.
type Cloth struct {
	Sett, Ground, HemGround                          measure.Density
	DrawIn, TakeUp, ShrinkWidth, ShrinkLength, Extra measure.Share
	Strands                                          int
	Spread, Scatter                                  *big.Rat
	SpreadKnown, ScatterKnown                        bool // the brief says them
	FloatingSelvedge                                 bool
	ClosingEnd                                       bool
}

// Loom is the [loom] table. Width, Board and Reed may be nil.
type Loom struct {
	Shafts        int
	Treadles      int    // 0 for levers
	Heddles       int    // in all; 0 where the brief does not say
	HeddlesBy     []int  // by shaft, shaft 1 first; nil where the brief does not say
	Bout          int    // ends wound together before they are tied
	TieUp         string // "direct": each treadle moves one shaft; else "sheds"
	Shed          string // "rising", "sinking" or "both": what is not tied to rise is tied to sink
	Dress         string // "back to front" or "front to back"; "" where the brief does not say
	ThreadFrom    string // "left" or "right": where threading begins
	Pace          int    // picks an hour; 0 where the brief does not say
	Width, Board  *measure.Length
	Waste, Sample measure.Length
	Retie         measure.Length // lost to tying on again after the sample
	Reed          *measure.Density
}

// RetieMM is the warp lost to tying on again after the sample; none where no
// sample is woven.
func (l Loom) RetieMM() *big.Rat {
	if l.Sample.MM.Sign() == 0 {
		return new(big.Rat)
	}
	return l.Retie.MM
}

// Yarn is a [yarn.name] table.
type Yarn struct {
	Name string
	// how thick it is, in the brief's own words: "16/2 cotton", "tex 148", "6770 m/kg"
	Count    string
	Tex      *big.Rat
	PackageM *big.Rat         // metres in one package; nil where not given
	Price    *Price           // of one package; nil where not given
	Wraps    *measure.Density // nil where not given
}

// Price is a sum of money, and with how many decimals it is written.
type Price struct {
	Each   *big.Rat
	Places int
}

// Colour is a [[colour]] table.
type Colour struct {
	Name    string
	RGB     palette.RGB
	Yarn    int      // which of Brief.Yarns
	OnHandM *big.Rat // metres; nil where unknown
	OnHand  string   // as it was given: "900 m", "8 oz"; "" where unknown
	Shelf   bool     // it came from the shelf file
}

// Warp is the [warp] table: Runs, or Rule where Runs is nil.
type Warp struct {
	Rule   Rule
	Runs   []Run
	Beside []string // keys of rules that stand beside the runs
}

// Weft is the [weft] table, or a piece's own after merging. Colours are
// numbers of Brief.Colours.
type Weft struct {
	Ground, Hem, Separator int
	Order                  []weave.Pick // of picks; nil for the structure's
	Rule                   Rule
	Runs                   []Run
	Beside                 []string // keys of rules that stand beside the runs in one table
}

// ColourNamed is the number of a colour of [Brief.Colours]; -1 where none is called that.
func (b *Brief) ColourNamed(name string) int {
	return slices.IndexFunc(b.Colours, func(c Colour) bool { return c.Name == name })
}

// Weaves are the structure and, after it, the same in each other order of picks that a
// piece has, in the order of the pieces.
func (b *Brief) Weaves() []*weave.Structure {
	all := []*weave.Structure{b.Structure}
	for i := range b.Pieces {
		if b.WeaveOf(i, all) < 0 {
			all = append(all, b.Structure.InOrder(b.Pieces[i].Weft.Order))
		}
	}
	return all
}

// WeaveOf is which of [Brief.Weaves] a piece, counted from 0, is woven in; -1 where it
// is none of them.
func (b *Brief) WeaveOf(piece int, weaves []*weave.Structure) int {
	order := b.Pieces[piece].Weft.Order
	if order == nil {
		return 0
	}
	same := func(s *weave.Structure) bool { return slices.Equal(s.Order, order) }
	return slices.IndexFunc(weaves, same)
}

// Rule is the part a rhythm has in [warp], [weft] and [[piece]].
type Rule struct {
	Colours []int
	Rhythm  *sequence.Rhythm // nil where not given
	Order   string
	Shares  []int64
	Blocks  Blocks
	Middle  *Middle // nil for a rhythm from edge to edge
	Seed    *int64  // the chance of this rule alone, in place of the brief's
}

// Blocks says how blocks are laid: changing with every stripe, or apart.
type Blocks struct {
	Laid    *sequence.Laying // as the brief has it; nil where blocks just change with every stripe
	Apart   bool
	First   int   // the first stripe's block, where blocks change with every stripe
	Letters []int // block numbers
	Weights []int64
	Mirror  bool // turned on the last letter
	OnEdges bool // blocks laid apart begin and end where stripes do
	// of blocks that change with every stripe: what those of each take together; nil for as it
	// comes
	Shares []int64
}

// Piece is one piece of the set.
type Piece struct {
	Name string
	Weft Weft
	Open bool // left to the program: no [[piece]] table speaks of it, or one that says so
	Told bool // a [[piece]] table stands for it
	Hold bool // its runs stay, and are scaled to another size

	Chosen bool // its runs are written out, and the program chose them

	Own bool // its table changes rhythm, colours, order or blocks
}

// Run is one run of the warp or the weft.
type Run struct {
	Block  int // number of the block; -1 for plain
	Units  int
	Colour int // -1 for plain
}

// Vary is the [vary] table.
type Vary struct {
	Candidates int
	AtLeast    *big.Rat // mean dE00; nil where not given
	Colours    []int
	PerPiece   [2]int
	Rhythms    []string
	OnHand     bool
	Kinship    Kinship
}
