package svg

import (
	"fmt"

	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// pieceCloth is a piece of a plan and its threads.
type pieceCloth struct {
	plan  *plan.Plan
	piece *plan.Piece
	cloth *cloth
}

// enlarged is what of a piece is enlarged.
type enlarged struct {
	from, past int         // its ends, from one to before another
	first      int         // pick
	pitch      um          // from end to end
	strips     []weftStrip // from the foot up
	picks      []um        // how far above the foot each pick lies
}

func (c *enlarged) width() um { return um(c.past-c.from) * c.pitch }

func (c *enlarged) title() string {
	last := c.first + len(c.picks)
	return fmt.Sprintf("picks %d to %d of the face, ends %d to %d", c.first+1, last, c.from+1,
		c.past)
}

// laid is the strips from a place on paper up, neighbours of one kind as one.
func (c *enlarged) laid(y um) (all []laid) {
	for _, s := range c.strips {
		y -= s.h
		if n := len(all) - 1; n < 0 || all[n].weftKind != s.weftKind {
			all = append(all, laid{weftKind: s.weftKind})
		}
		last := &all[len(all)-1]
		last.top, last.h = y, last.h+s.h
		last.strips = append(last.strips, laidStrip{s, y})
	}
	return all
}

// stripAt is the strip that begins with a pick, and how far above its foot each of
// its picks lies.
func (c *pieceCloth) stripAt(pick int, pitch um, back bool) (weftStrip, []um) {
	left := 1 - c.plan.Cloth.ShrinkLength
	scale := float64(pitch) * float64(c.plan.Warp.Ends) / c.plan.Warp.FinishedWidthMM
	span := c.spanAt(pick)
	if span.run < 0 {
		h := umOf(10 / c.plan.Cloth.HemGroundPerCM * left * scale)
		return weftStrip{showKind(c.piece, back), (pick - span.from) % 2, h}, []um{h / 2}
	}
	run := c.piece.Runs[span.run]
	h := umOf(c.plan.UnitMM(c.piece) * left * scale)
	places := pickPlaces(c.plan.InOrder(run.PickOrder).UnitPicks(run.Block))
	picks := make([]um, len(places))
	for i, at := range places {
		picks[i] = umOf(at * float64(h))
	}
	return weftStrip{kindOf(run, back), -1, h}, picks
}

// pickPlaces tells how high in a unit each pick lies, 0 to 1: pattern picks in the
// middle of equal parts, ground picks where these meet, or each in an equal part
// where there are no others.
func pickPlaces(unit []weave.Woven) []float64 {
	places, patterns := make([]float64, len(unit)), patternPicks(unit)
	if patterns == 0 {
		for i := range places {
			places[i] = (float64(i) + 0.5) / float64(len(unit))
		}
		return places
	}
	before := 0
	for i, pick := range unit {
		if pick.Pattern {
			before++
			places[i] = (float64(before) - 0.5) / float64(patterns)
			continue
		}
		places[i] = float64(before) / float64(patterns)
	}
	return places
}

func (c *pieceCloth) spanAt(pick int) span {
	for _, sp := range c.cloth.spans {
		if pick < sp.from+sp.count {
			return sp
		}
	}
	return span{}
}
