package remedy

import (
	"fmt"

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
	About   string         `json:"about"`             // the colour of yarn that is short; else ""
	Lessens bool           `json:"lessens,omitempty"` // it does not end that trouble
	Also    []Mended       `json:"also,omitempty"`    // further trouble that it ends or lessens
	What    string         `json:"what"`              // what is changed, in words
	Costs   []string       `json:"costs"`             // what else becomes different, in words
	Left    int            `json:"left"`              // warnings that the plan has then
	Changes []brief.Change `json:"changes"`

	weight float64
	ends   map[trouble]bool // of all there is
}

// Mended is trouble that a remedy ends or lessens.
type Mended struct {
	Code  string `json:"code"`
	About string `json:"about"` // as in [Remedy]
}

// Mends are all that a remedy was found for; none for all at once.
func (r Remedy) Mends() []Mended {
	if r.For == "" {
		return nil
	}
	return append([]Mended{{r.For, r.About}}, r.Also...)
}

// Unmended is trouble without a remedy, and what came nearest.
type Unmended struct {
	Code  string `json:"code"`
	About string `json:"about"` // the colour of yarn that is short; else ""
	// what was tried and how far it falls short; "" where nothing comes nearer
	Nearest string `json:"nearest"`
}

// Told is a sentence: no way out of a trouble was found, and what comes closest. Both are
// words and may be "", where all trouble is meant and where nothing comes closer. Whatever
// offers ways out says it in these words.
func Told(trouble, nearest string) string {
	words := "no way out was found"
	if trouble != "" {
		words += " for " + trouble
	}
	if nearest != "" {
		words += "; the closest: " + nearest
	}
	return words
}

// Told is the function [Told] of this trouble.
func (u Unmended) Told() string {
	about := u.Code
	if u.About != "" {
		about += fmt.Sprintf(" of %q", u.About)
	}
	return Told(about, u.Nearest)
}

// Weight is how much a remedy changes, a judgement, by which they are put in order; it has
// no unit.
func (r Remedy) Weight() float64 { return r.weight }
