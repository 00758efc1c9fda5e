package sequence

import "math/big"

// Middle is the key beside a rhythm, of any kind, that lays it at both ends of a stretch
// of something else: see package brief, which reads it.
var Middle = Parameter{Key: "middle", Label: "Middle, if any", Start: "60% plain",
	Usage: `a middle with the rhythm on both sides: "60% plain", "40 cm B damson", ` +
		`"60% even 5" or none; a warp has no plain`}

// Laying is how blocks lie that don't simply change with every stripe, as a table "blocks"
// has it. Letters and Weights lay them apart from the stripes; Shares, with letters or
// without, are what the stripes of each block take together.
type Laying struct {
	Letters         string
	Weights, Shares []*big.Rat
	Edges, Centre   string // Centre is a share of the width
	Mirror          bool   // turned on the last letter
}

// Spec is what a brief, flags, help and page know of it; mirror is told as of a rhythm.
// What a parameter starts with is an example here.
func (l *Laying) Spec() Spec {
	return Spec{Name: "blocks", Parameters: []Parameter{
		{Key: "letters", Label: "Blocks apart", Usage: "the blocks from left to right",
			Start: "ABA", Value: &l.Letters},
		{Key: "weights", Label: "Block widths", Usage: "the widths, in proportion",
			Start: "1, 2, 1", Value: &l.Weights, Beside: "letters"},
		{Key: "edges", Label: "Block edges",
			Usage: "stripes lets blocks begin and end where stripes do, free cuts through these",
			Words: []string{"free", "stripes"}, Value: &l.Edges, Beside: "letters"},
		{Key: "shares", Label: "Block shares", Usage: "what each block takes of the whole, A first",
			Start: "1, 2", Value: &l.Shares},
		{Key: "centre", Label: "Block centre",
			Usage: "where the middle block's own middle lies, as in 40%",
			Start: "40%", Value: &l.Centre, Beside: "letters"},
	}}
}

// NewLaying is a table of blocks with the values of keys that may be left out.
func NewLaying() *Laying { return &Laying{Edges: "free"} }
