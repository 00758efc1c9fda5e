package calibrate

import (
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
)

// Schema names the form of the answer.
const Schema = "stripesong.calibrate/1"

// Answer is what the measurements tell, in the order of the brief.
type Answer struct {
	Schema string  `json:"schema"`
	Shares []Share `json:"shares"`
	Sample *Sample `json:"sample"` // nil without a [sample] table

	Changed []Piece `json:"changed_pieces"`   // woven otherwise once the shares are written
	Held    []Piece `json:"held_pieces"`      // written out with them, so as to stay
	Before  string  `json:"before,omitempty"` // the file that keeps the brief as it was
}

// Piece is a piece of the brief: its number, from 1, and its name for reading.
type Piece struct {
	Number int    `json:"number"`
	Name   string `json:"name"`
}

// Share is one share of the [cloth] table, 0..1, rounded to four decimals.
type Share struct {
	Key      string  `json:"key"` // dotted, of the brief
	Measured float64 `json:"measured"`
	Least    float64 `json:"least"` // what it is if every length is off in the worst way
	Most     float64 `json:"most"`
	Assumed  float64 `json:"assumed"` // what the brief says
	Agrees   bool    `json:"agrees"`  // the assumed share lies within the bounds
	From     string  `json:"from"`    // the measurements, in words

	exact span
}

// Changes puts what could be told into a brief. A share is written as exactly as its
// bounds are worth: to a tenth of a per cent, or a hundredth where they lie
// within a tenth.
func (a *Answer) Changes() (changes []brief.Change) {
	for _, s := range a.Shares {
		changes = append(changes, brief.Change{Key: s.Key, Value: tomltext.Quote(s.Text())})
	}
	return append(changes, a.Sample.changes()...)
}

// Text is the share as a brief has it, such as "5.2%".
func (s Share) Text() string {
	decimals := 1
	if exact.Minus(s.exact.high, s.exact.low).Cmp(big.NewRat(1, 1000)) <= 0 {
		decimals = 2
	}
	return percent(s.exact.best, decimals)
}

func percent(r *big.Rat, decimals int) string {
	return exact.Times(r, exact.Whole(100)).FloatString(decimals) + "%"
}
