package loomwork

import (
	"math"

	"stripesong/sequence/plan"
)

// Tape is the length of one piece with its marks, to be laid along the cloth
// on the loom.
type Tape struct {
	WovenMM float64
	Marks   []Mark  // from the first pick up; the last is at WovenMM
	Bands   []Band  // what is woven between marks, without gaps
	Strips  []Strip // the tape cut to lengths that fit a page
}

// Mark is a place where something changes.
type Mark struct {
	MM   float64
	What What
	Step int // the step that begins here, as in [StepsOf]; -1 for none
}

// What is the reason for a mark.
type What string

// The marks there are.
const (
	First  What = "first pick"
	Change What = "change" // of block or colour
	Edge   What = "hem"    // plain of the hem's yarn ends or begins
	Fold   What = "fold"   // between what is turned under and what stays in sight
	Middle What = "middle"
	Last   What = "last pick"
)

// Band is a stretch of one step.
type Band struct {
	From, To float64
	Step     int
}

// Strip is a stretch of the tape that is printed in one.
type Strip struct {
	Number   int // from 1
	From, To float64
}

// Strips of a page end on a figure of the rule beside them.
const (
	stripCM   = 200   // 20 cm
	stripInch = 203.2 // 8 in
)

// TapeOf is the tape of piece i.
func TapeOf(p *plan.Plan, i int) Tape {
	piece := p.Pieces[i]
	t := Tape{WovenMM: piece.WovenMM}
	steps := StepsOf(p, i)
	from := 0.0
	for n, step := range steps {
		if step.Kind == Separator {
			break
		}
		if step.Kind == Fringe {
			continue
		}
		t.Marks = append(t.Marks, Mark{from, reason(steps, n), n})
		t.Bands = append(t.Bands, Band{from, step.Woven, n})
		from = step.Woven
	}
	t.Marks = insertMiddle(t.Marks, piece.WovenMM/2)
	t.Marks = append(t.Marks, Mark{piece.WovenMM, Last, -1})
	t.Strips = strips(piece.WovenMM, p.Units)
	return t
}

func reason(steps []Step, n int) What {
	if n == 0 || steps[n-1].Kind == Fringe {
		return First
	}
	below, above := steps[n-1].Kind, steps[n].Kind
	switch {
	case below == Hem && above == Show, below == Show && above == Hem:
		return Fold
	case below != Body || above != Body:
		return Edge
	}
	return Change
}

func insertMiddle(marks []Mark, mm float64) []Mark {
	at := len(marks)
	for i, m := range marks {
		if m.MM > mm {
			at = i
			break
		}
	}
	out := append([]Mark{}, marks[:at]...)
	out = append(out, Mark{mm, Middle, -1})
	return append(out, marks[at:]...)
}

func strips(length float64, units string) (all []Strip) {
	each := float64(stripCM)
	if units == "in" {
		each = stripInch
	}
	n := max(int(math.Ceil((length-0.05)/each)), 1)
	for i := range n {
		all = append(all, Strip{i + 1, float64(each * float64(i)),
			math.Min(float64(each*float64(i+1)), length)})
	}
	return all
}
