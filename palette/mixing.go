package palette

import (
	"math"
)

// MixingSchema names the form of [Mixing] as JSON; it never changes its meaning.
const MixingSchema = "stripesong.mix/1"

// Mixing is what two colours of yarn look like woven together, by how much of
// each is on top.
type Mixing struct {
	Schema   string    `json:"schema"`
	From     Named     `json:"from"`
	To       Named     `json:"to"`
	Scatter  float64   `json:"scatter"`
	Mixtures []Mixture `json:"mixtures"`
}

// Named is a colour and what it is called; the name may be empty.
type Named struct {
	Name string `json:"name"`
	RGB  RGB    `json:"hex"`
}

// Mixture is one row of a [Mixing].
type Mixture struct {
	Share float64    `json:"share"` // of the first colour, 0..1, to four decimals
	RGB   RGB        `json:"hex"`
	Lab   [3]float64 `json:"lab"` // CIELAB, to four decimals
}

// NinthsOf are the shares 0, 1/9 to 1: what a sample of nine strands can show.
func NinthsOf() []float64 {
	shares := make([]float64, 10)
	for i := range shares {
		shares[i] = float64(i) / 9
	}
	return shares
}

// Mixings mixes two colours in some shares of the first, each 0..1.
func Mixings(from, to Named, shares []float64, b Scatter) Mixing {
	m := Mixing{Schema: MixingSchema, From: from, To: to, Scatter: decimals4(float64(b))}
	for _, share := range shares {
		light := b.Mix(Part{from.RGB.Linear(), share}, Part{to.RGB.Linear(), 1 - share})
		m.Mixtures = append(m.Mixtures, Mixture{
			Share: decimals4(share),
			RGB:   light.RGB(),
			Lab:   light.Lab().Rounded(),
		})
	}
	return m
}

// decimals4 rounds to four decimals and has no minus before nothing.
func decimals4(v float64) float64 { return math.Round(float64(v*10_000))/10_000 + 0 }
