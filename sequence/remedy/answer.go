package remedy

import (
	"stripesong/sequence/brief"
)

// Schema names the form of the answer.
const Schema = "stripesong.check/1"

// Answer is the ways out of everything that a plan warns of.
type Answer struct {
	Remedies []Remedy   `json:"remedies"`
	Unmended []Unmended `json:"unmended"` // trouble that none of them mends
}

// Remedy is one way out, planned through.
type Remedy struct {
	Number int `json:"number"` // from 1; what --take is given
	// the code of the trouble it ends or lessens; "" for all at once
	For     string         `json:"for"`
	About   string         `json:"about"` // the colour of yarn that is short; else ""
	What    string         `json:"what"`  // what is changed, in words
	Costs   []string       `json:"costs"` // what else becomes different, in words
	Left    int            `json:"left"`  // warnings that the plan has then
	Changes []brief.Change `json:"changes"`

	weight float64
}

// Unmended is trouble without a remedy, and what came nearest.
type Unmended struct {
	Code  string `json:"code"`
	About string `json:"about"` // the colour of yarn that is short; else ""
	// what was tried and how far it falls short; "" where nothing helps
	Nearest string `json:"nearest"`
}

// Weight is how invasive a remedy is: a judgement, by which they are put in order.
func (r Remedy) Weight() float64 { return r.weight }
