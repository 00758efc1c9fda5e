package look

import (
	"math"

	"stripesong/palette"
)

// DistancesM are the distances contrast is graded at, in metres: in the hand, across the
// table, across the room.
var DistancesM = []float64{0.4, 2, 5}

// SinglyM is the distance from which the threads of a towel are seen singly and not
// as the colour they mix to (a judgement: an end of 1 mm is 7 minutes of arc there,
// and the eye tells 1 to 2 apart).
const SinglyM = 0.5

// DecisiveM is the one of [DistancesM] that decides warnings, in metres.
const DecisiveM = 2.0

// Difference is what one sight has left of a difference at a distance.
type Difference struct {
	DeltaL float64 // of the first less the second, in L*
	DeltaE float64 // CIEDE2000
	Grade  palette.Grade
}

// See is what a sight sees of two colours that lie beside each other in stripes of a width
// in mm, from a distance in metres. The sight is applied first, then the distance.
func See(a, b palette.Linear, sight palette.Sight, widthMM, distanceM float64) Difference {
	return SeeBlurred(a, b, sight, palette.BlurOf(widthMM, distanceM))
}

// SeeBlurred is [See] with the width and distance worked out before.
func SeeBlurred(a, b palette.Linear, sight palette.Sight, blur palette.Blur) Difference {
	x, y := blur.Stripes(sight.See(a).XYZ(), sight.See(b).XYZ())
	return Apart(x.Lab(), y.Lab())
}

// Apart is the difference of two colours as they are, from no distance, to normal eyes.
func Apart(a, b palette.Lab) Difference {
	s := Difference{DeltaL: a.L - b.L, DeltaE: palette.DeltaE00(a, b)}
	s.Grade = palette.GradeOf(s.DeltaL, s.DeltaE)
	return s
}

// Worst is the sight that sees least of the difference of two colours, in stripes of a width
// in mm from a distance in metres, and what it sees of it; of equal ones the earlier.
func Worst(a, b palette.Linear, widthMM, distanceM float64) (palette.Sight, Difference) {
	worst, seen := palette.Normal, See(a, b, palette.Normal, widthMM, distanceM)
	for _, sight := range palette.Sights[1:] {
		if s := See(a, b, sight, widthMM, distanceM); s.Worse(seen) {
			worst, seen = sight, s
		}
	}
	return worst, seen
}

// Worse compares by grade, then by the difference in lightness in millionths.
func (s Difference) Worse(than Difference) bool {
	if s.Grade != than.Grade {
		return s.Grade < than.Grade
	}
	return s.MicroL() < than.MicroL()
}

// MicroL is the difference in lightness without its sign, in whole millionths.
func (s Difference) MicroL() int64 { return int64(math.Round(math.Abs(s.DeltaL) * 1e6)) }

// HueOnly reports whether the two differ in hue rather than in light and dark.
func (s Difference) HueOnly() bool { return palette.HueOnly(s.DeltaL, s.DeltaE) }
