package contrast

import (
	"slices"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// Question is what a report is asked for.
type Question struct {
	// DistanceM decides grades and order; 0 stands for [look.DecisiveM].
	DistanceM float64
	// Sights are those that count, of which the worst decides; none stands for all.
	Sights []palette.Sight
}

// Target is the grade below which a combination falls short.
const Target = palette.Clear

// full is the question with everything filled in.
func (q Question) full() Question {
	if q.DistanceM == 0 {
		q.DistanceM = look.DecisiveM
	}
	if len(q.Sights) == 0 {
		q.Sights = palette.Sights[:]
	}
	return q
}

// usual reports whether the question is the one a plan answers for itself.
func (q Question) usual() bool {
	return q.DistanceM == look.DecisiveM && len(q.Sights) == len(palette.Sights)
}

// distances are the usual ones and the one asked for, ascending.
func (q Question) distances() []float64 {
	all := slices.Clone(look.DistancesM)
	if !slices.Contains(all, q.DistanceM) {
		all = append(all, q.DistanceM)
		slices.Sort(all)
	}
	return all
}

// verdict is what decides about two colours: the worst of the sights.
type verdict struct {
	look.Difference
	sight palette.Sight
}

func (v verdict) short() bool { return v.Grade < Target }

// decide is what the sight sees that fares worst; of equal ones the earlier.
func (r *reckoner) decide(a, b palette.Linear, widthMM float64) verdict {
	var worst verdict
	blur := r.blur(widthMM, r.q.DistanceM)
	for i, sight := range r.q.Sights {
		v := verdict{look.SeeBlurred(a, b, sight, blur), sight}
		if i == 0 || v.Worse(worst.Difference) {
			worst = v
		}
	}
	return worst
}

// view is a width in mm seen from a distance in metres.
type view struct{ widthMM, distanceM float64 }

// blur is worked out once for each view.
func (r *reckoner) blur(widthMM, distanceM float64) palette.Blur {
	v := view{widthMM, distanceM}
	b, ok := r.blurs[v]
	if !ok {
		b = palette.BlurOf(widthMM, distanceM)
		r.blurs[v] = b
	}
	return b
}
