package sequence

import (
	"fmt"
	"math/rand/v2"
)

// OrderKinds are the ways colours can follow each other.
var OrderKinds = []string{"cycle", "graded", "hue", "shuffle", "shares"}

// Order is the rule by which colours follow each other. Colours are numbers
// from 0; what they look like is told by the two rankings.
type Order struct {
	Kind   string
	Count  int   // how many colours
	Light  []int // graded: colour numbers from the lightest to the darkest
	Hue    []int // hue: colour numbers round the colour circle
	Shares []int64
}

// Assign gives a colour to every stripe. Widths are the stripes' units, and
// what they count for in "shares". Chance is used by "shuffle" and "shares".
// With one colour every stripe takes it.
func (o Order) Assign(widths []int64, chance *rand.Rand) ([]int, error) {
	if o.Count < 1 {
		return nil, fmt.Errorf("colours is empty: give at least one")
	}
	switch o.Kind {
	case "", "cycle":
		return turns(upTo(o.Count), len(widths)), nil
	case "graded":
		return turns(o.Light, len(widths)), nil
	case "hue":
		return turns(o.Hue, len(widths)), nil
	case "shuffle":
		return shuffle(o.Count, len(widths), chance), nil
	case "shares":
		return o.byShares(widths, chance)
	}
	return nil, fmt.Errorf("order %q is none of cycle, graded, hue, shuffle, shares", o.Kind)
}

func upTo(n int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = i
	}
	return s
}

func turns(ring []int, n int) []int {
	taken := make([]int, n)
	for i := range taken {
		taken[i] = ring[i%len(ring)]
	}
	return taken
}

// shuffle deals the colours out like a pack of cards, shuffled anew each time
// it is used up, so that all come about equally often. Where a new pack would
// begin with the colour the last one ended on, that card changes places with a
// later one.
func shuffle(count, n int, chance *rand.Rand) []int {
	dealt := make([]int, 0, n+count)
	for len(dealt) < n {
		pack := chance.Perm(count)
		if len(dealt) > 0 && count > 1 && pack[0] == dealt[len(dealt)-1] {
			other := 1 + chance.IntN(count-1)
			pack[0], pack[other] = pack[other], pack[0]
		}
		dealt = append(dealt, pack...)
	}
	return dealt[:n]
}
