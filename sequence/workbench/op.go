package workbench

import (
	"sync"
)

// Op is one thing to do. Which fields count depends on Do; see [Operations].
type Op struct {
	Do string `json:"do"`
	// a piece from 0, [Warp], or [Weft] for what all pieces start from
	Strip  int               `json:"strip"`
	Run    int               `json:"run"`    // a run of it from 0; of two neighbours the first
	To     int               `json:"to"`     // where to, or by how much
	Colour string            `json:"colour"` // the name of one
	Key    string            `json:"key"`    // what is set
	Value  string            `json:"value"`  // as typed
	Rhythm map[string]string `json:"rhythm"` // kind, mirror, and the kind's parameters
	// keys of a table of blocks, and mirror
	Blocks map[string]string `json:"blocks"`
	Stock  string            `json:"stock"` // of a new colour, as typed; "" for unknown
	// steps of one gesture are one step to undo; "" for none
	Gesture string `json:"gesture"`
}

// Operation is one of the things that can be done.
type Operation struct {
	Name string
	Uses string // the fields of [Op] that count
	do   func(*draft, Op) (string, error)

	asks bool // for another choice, or changes no cloth: chosen pieces need not be written out
}

// operations finds an operation by its name.
var operations = sync.OnceValue(func() map[string]Operation {
	all := map[string]Operation{}
	for _, group := range [][]Operation{settingOps, colourOps, yarnOps, ruleOps, runOps, pieceOps} {
		for _, one := range group {
			all[one.Name] = one
		}
	}
	return all
})
