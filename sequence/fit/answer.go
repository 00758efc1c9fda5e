package fit

import (
	"stripesong/sequence/exact"
)

// Schema names the form of the answer.
const Schema = "stripesong.fit/1"

// Answer is what a warp gives. Lengths are millimetres.
type Answer struct {
	Schema          string  `json:"schema"`
	WarpMM          float64 `json:"warp_mm"`           // what there is, wound
	Pieces          int     `json:"pieces"`            // how many fit, or as many as were asked for
	PieceWovenMM    float64 `json:"piece_woven_mm"`    // each, on the loom, both hems included
	PieceFinishedMM float64 `json:"piece_finished_mm"` // each, washed and hemmed
	WoundMM         float64 `json:"wound_mm"`          // what they take of the warp
	LeftMM          float64 `json:"left_mm"`           // what is left of it, wound
	// pieces of the size asked for that the warp holds
	Fits   int  `json:"fits"`
	Capped bool `json:"capped"` // more than [Most] would fit
	// pieces of the brief whose runs give them another length
	OwnLengths      int     `json:"own_lengths"`
	AskedWovenMM    float64 `json:"asked_woven_mm"` // the size the brief asks for
	AskedFinishedMM float64 `json:"asked_finished_mm"`
	// most whole weft units in each body, all of the warp used
	Units        int     `json:"units"`
	UnitsWovenMM float64 `json:"units_woven_mm"` // and how long each then is, with its hems
	// what the rest gives; null where it is too short
	Short    *Short `json:"short_piece"`
	Own      *Own   `json:"own"` // null where no piece has a size of its own
	TradeOff []Row  `json:"trade_off"`
}

// Own is what became of the pieces whose runs give them a size of their own.
type Own struct {
	Pieces  int     `json:"pieces"`   // those that fit, in weaving order
	Written int     `json:"written"`  // those that the brief has
	WovenMM float64 `json:"woven_mm"` // of those that fit, together
	LeftMM  float64 `json:"left_mm"`  // wound, left after them
	NextMM  float64 `json:"next_mm"`  // woven length of the first that does not fit; 0 where all do
}

// Short is a piece shorter than asked for.
type Short struct {
	WovenMM    float64 `json:"woven_mm"`
	FinishedMM float64 `json:"finished_mm"`
}

// Row is one way to share the warp: so many pieces, each as long as can be.
type Row struct {
	Pieces     int     `json:"pieces"`
	WovenMM    float64 `json:"woven_mm"`
	FinishedMM float64 `json:"finished_mm"`
	Units      int     `json:"units"`    // whole weft units in each body
	OfAsked    float64 `json:"of_asked"` // finished length, 1 being what the brief asks for
	// wound, left over at the size asked for; 0 where that does not fit
	LeftMM float64 `json:"left_mm"`
}

// around is how many rows stand on each side of the answer.
const around = 3

// tradeOff lists the ways around what fits and what was asked for.
func (w *warp) tradeOff(fits, asked int) []Row {
	rows := []Row{}
	lo, hi := max(fits, 1), max(fits, 1)
	if asked > 0 {
		lo, hi = min(lo, asked), max(hi, asked)
	}
	for n := max(lo-around, 1); n <= min(hi+around, Most); n++ {
		each := w.longestEach(n)
		if exact.Minus(each, w.ends).Sign() <= 0 {
			break
		}
		row := Row{Pieces: n, WovenMM: exact.Rounded(each),
			FinishedMM: exact.Rounded(w.finished(each)),
			OfAsked:    exact.Rounded(exact.Over(w.finished(each), w.finished(w.asked)))}
		row.Units, _ = w.units(each)
		if n <= fits {
			row.LeftMM = exact.Rounded(atLeast0(exact.Minus(w.wound, w.takesOwn(0, n))))
			row.OfAsked = max(row.OfAsked, 1)
		}
		rows = append(rows, row)
	}
	return rows
}
