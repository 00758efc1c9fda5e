package weave

// Structure is a weave as data: nothing about it is written as code.
//
// Shafts and ends count from 1; a [Shed] holds the shafts that the WEFT
// covers (passes over, on the face). On a rising-shed loom those stay down.
type Structure struct {
	Name   string  `json:"name"`
	Shafts int     `json:"shafts"`
	Blocks []Block `json:"blocks"` // in letter order: A, B, ...
	Tabby  [2]Shed `json:"tabby"`  // a, b
	Order  []Pick  `json:"order"`  // the picks of one weft unit, first woven first

	Closing bool `json:"closing,omitempty"` // a warp has a closing end; see [Structure.Closed]
}

// Block is one block of a structure.
type Block struct {
	Letter string `json:"letter"` // "A", "B", ...
	Unit   []int  `json:"unit"`   // the shaft of each end of one threading unit, left to right
	// the pattern sheds that cover this block, taken in turn (one or more)
	Sheds []Shed `json:"sheds"`
}

// Shed is the set of shafts the weft covers: bit s-1 for shaft s.
// In JSON it is the list of the shafts.
type Shed uint32

// Pick is one place in the pick order. Ground picks name tabby a or b;
// pattern picks take the sheds of the block that is woven, by their number.
type Pick struct {
	Pattern bool `json:"pattern"`
	// for ground: 0 = tabby a, 1 = tabby b; for pattern: which of Block.Sheds
	Index int `json:"index"`
}
