package svg

import (
	"math"

	"stripesong/sequence/plan"
)

// The size of a picture.
const (
	fewestLines = 1200       // a piece is at least so long
	finestEnd   = 2.5        // pixels from end to end, so that single threads still show
	usualPixels = 4_000_000  // unless this many would not do for that
	mostPixels  = 16_000_000 // and never more, though a piece were a million threads
)

// pixels is the size of a picture: in the proportions of the finished piece to
// half a pixel, and wherever it can be with a whole number of lines to a weft
// unit, so that all units of a run come out alike.
type pixels struct {
	width, height int
	unit          int // lines to a weft unit; 0 where one line holds more than a unit
	show          int // lines of plain that stays in sight at each end, where unit is not 0
}

func pixelsOf(p *plan.Plan, piece *plan.Piece) pixels {
	units := 0
	for _, run := range piece.Runs {
		units += run.Units
	}
	showMM := float64(piece.ShowWovenMM * (1 - p.Cloth.ShrinkLength))
	bodyMM := piece.FinishedMM - float64(2*showMM)
	across := p.Warp.FinishedWidthMM / bodyMM
	size := func(unit int) pixels {
		body, show := units*unit, 0
		if piece.ShowPicks > 0 {
			show = max(1, int(float64(float64(body)*showMM)/bodyMM+0.5))
		}
		return pixels{acrossOf(body, across), body + 2*show, unit, show}
	}
	least := (fewestLines + units - 1) / units
	fine := int(math.Ceil(finestEnd * float64(p.Warp.Ends) / across / float64(units)))
	unit := max(least, min(fine, fewestLines))
	for unit > least && size(unit).area() > usualPixels {
		unit--
	}
	for unit > 1 && size(unit).area() > mostPixels {
		unit--
	}
	if size(unit).area() <= mostPixels {
		return size(unit)
	}
	across = p.Warp.FinishedWidthMM / piece.FinishedMM
	height := int(math.Sqrt(mostPixels / across))
	return pixels{acrossOf(height, across), height, 0, 0}
}

func acrossOf(height int, across float64) int {
	return max(1, int(float64(float64(height)*across)+0.5))
}

func (p pixels) area() int { return p.width * p.height }
