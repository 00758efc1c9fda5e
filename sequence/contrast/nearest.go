package contrast

import (
	"fmt"
	"math"

	"stripesong/sequence/look"
)

// nearest is the swap of the brief's own colours that lifts a combination most, where none
// lifts it enough or without harm to another, and what it comes to; "" where none lifts it.
func (r *reckoner) nearest(t look.Trio, pieces []int) string {
	now, _ := r.state.in(t, pieces)
	var best *guess
	for _, role := range r.roles() {
		for _, s := range r.swaps(role, t, pieces, false) {
			g := r.guess(s, t, pieces)
			if g.MicroL() > now.MicroL() && (best == nil || g.closer(*best)) {
				best = &g
			}
		}
	}
	if best == nil {
		return ""
	}
	what := Option{Change: best.role, From: r.name(best.from), To: r.name(best.to)}.What()
	still := "still "
	if best.Grade >= Target {
		still = ""
	}
	words := fmt.Sprintf("%s, %s%s %.1f", what, still, best.Grade, math.Abs(best.DeltaL))
	if best.short > r.state.short() || still == "" {
		words += fmt.Sprintf(", but then %s too little, now %d", shows(best.short), r.state.short())
	}
	return words
}

// shows is a number of combinations with its verb.
func shows(n int) string {
	if n == 1 {
		return "1 combination shows"
	}
	return fmt.Sprintf("%d combinations show", n)
}

// closer tells whether a guess leaves fewer combinations short than another, or as many
// and lifts its own more.
func (g guess) closer(other guess) bool {
	if g.short != other.short {
		return g.short < other.short
	}
	return g.MicroL() > other.MicroL()
}
