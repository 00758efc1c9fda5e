package midway

import (
	"stripesong/sequence/calibrate"
	"stripesong/sequence/fit"
)

// Schema names the form of the answer.
const Schema = "stripesong.midway/1"

// Answer is what the rest gives. Lengths are millimetres, on the loom under tension where
// nothing else is said.
type Answer struct {
	Schema string  `json:"schema"`
	Woven  []Piece `json:"woven"` // the pieces that are woven
	Warp   Warp    `json:"warp"`
	Yarn   []Yarn  `json:"yarn"` // in the order of the plan
	// nil where the cloth is as long as its tape, or nobody measured it
	Beat   *Beat             `json:"beat"`
	Shares []calibrate.Share `json:"shares"` // that the measurements tell
	// what the warp gives, whatever the yarn; nil where it gives nothing
	Fit     *fit.Answer `json:"fit"`
	Ways    []Way       `json:"ways"`    // none where the rest gives no piece
	Nearest string      `json:"nearest"` // what comes nearest where there are none
}

// Piece is a piece of the set.
type Piece struct {
	Number     int     `json:"number"` // from 1
	Name       string  `json:"name"`
	PlannedMM  float64 `json:"planned_mm"`
	WovenMM    float64 `json:"woven_mm"` // as it was measured, or will be
	FinishedMM float64 `json:"finished_mm"`
	Measured   bool    `json:"measured"`
}

// Warp is what is left of the warp.
type Warp struct {
	LeftMM     float64 `json:"left_mm"`
	Measured   bool    `json:"measured"`    // else reckoned from what is woven
	ReckonedMM float64 `json:"reckoned_mm"` // by the plan
	WasteMM    float64 `json:"waste_mm"`    // of it that can't be woven
	// what the pieces to come take as planned, the waste included
	TakesMM float64 `json:"takes_mm"`
}

// Yarn is what is left of a colour and what the rest takes of it as planned, in metres.
type Yarn struct {
	Colour   string   `json:"colour"`
	Tex      float64  `json:"tex"`
	LeftM    *float64 `json:"left_m"`   // nil where nobody knows
	Measured bool     `json:"measured"` // else reckoned from what was on hand
	// by the plan; nil where the brief does not say what was on hand
	ReckonedM *float64 `json:"reckoned_m"`
	NeedsM    float64  `json:"needs_m"`
	Reaches   bool     `json:"reaches"`
}

// Beat is how the cloth lies against its tape.
type Beat struct {
	Longer  float64 `json:"longer"` // share of the planned length; below 0 where it is shorter
	Agrees  bool    `json:"agrees"` // no more than the ruler may be off
	Ground  string  `json:"ground"` // picks that this comes to, as a brief has them
	Hem     string  `json:"hem_ground"`
	Planned string  `json:"planned"` // those of the brief
}

// Way is one way to weave the rest, planned through.
type Way struct {
	Number int      `json:"number"` // from 1; what --take is given
	What   string   `json:"what"`
	Costs  []string `json:"costs"`
	Pieces []Piece  `json:"pieces"` // those to come

	TakesMM float64 `json:"takes_mm"` // of the warp, what can't be woven included
	OverMM  float64 `json:"over_mm"`  // of the warp
	Least   float64 `json:"least_difference"`
	Pair    []int   `json:"pair_numbers"` // the two pieces that differ least

	text []byte
}

// Text is the brief for the rest.
func (w *Way) Text() []byte { return w.text }
