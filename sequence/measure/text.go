package measure

import (
	"math/big"

	"stripesong/sequence/exact"
)

// String gives back what was read; of a value that was reckoned, the exact
// millimetres. It is empty where nothing was read.
func (l Length) String() string { return text(l.Text, l.MM, " mm") }

// String gives back what was read; of a value that was reckoned, the exact
// number to a millimetre. It is empty where nothing was read.
func (d Density) String() string { return text(d.Text, d.PerMM, "/mm") }

// String gives back what was read; of a value that was reckoned, the exact
// per cent. It is empty where nothing was read.
func (s Share) String() string {
	if s.Text != "" || s.Part == nil {
		return s.Text
	}
	return readable(exact.Times(s.Part, big.NewRat(100, 1))) + "%"
}

// String gives back what was read; of a value that was reckoned, the exact
// millimetres or grams. It is empty where nothing was read.
func (a Amount) String() string {
	if a.Grams != nil {
		return text(a.Text, a.Grams, " g")
	}
	return text(a.Text, a.MM, " mm")
}

func text(read string, value *big.Rat, unit string) string {
	if read != "" || value == nil {
		return read
	}
	return readable(value) + unit
}
