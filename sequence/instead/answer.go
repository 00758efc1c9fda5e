package instead

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// Schema names the form of the answer.
const Schema = "stripesong.instead/1"

// Answer is a plan with one yarn and with another.
type Answer struct {
	Schema  string         `json:"schema"`
	Yarn    string         `json:"yarn"`
	Rows    []Row          `json:"rows"`
	Changes []brief.Change `json:"changes"`
	Before  *plan.Plan     `json:"-"`
	After   *plan.Plan     `json:"-"`
}

// Row is one thing in words, with the one yarn and with the other.
type Row struct {
	What   string `json:"what"`
	Before string `json:"before"`
	After  string `json:"after"`
}

// side is a brief and its plan.
type side struct {
	*brief.Brief
	plan *plan.Plan
}

// rows sets both plans side by side.
func (a *Answer) rows(before, after *brief.Brief, yarn int) {
	was, is := side{before, a.Before}, side{after, a.After}
	add := func(what string, of func(side) string) {
		a.Rows = append(a.Rows, Row{what, of(was), of(is)})
	}
	add(a.Yarn, func(s side) string {
		return fmt.Sprintf("%s, %.0f tex", s.Yarns[yarn].Count, texOf(s, yarn))
	})
	add("sett", func(s side) string { return s.Cloth.Sett.String() })
	add("ground picks", func(s side) string { return s.Cloth.Ground.String() })
	add("ground picks in hems", func(s side) string { return s.Cloth.HemGround.String() })
	add("ends", func(s side) string { return fmt.Sprint(s.plan.Warp.Ends) })
	add("finished width", func(s side) string {
		return measure.FormatLength(s.plan.Warp.FinishedWidthMM, s.Units)
	})
	add("finished length", lengths)
	add("picks in a piece", picksOf)
	add("warp length", func(s side) string {
		return measure.FormatWarp(s.plan.Warp.WoundMM, s.Units)
	})
	add("cloth", func(s side) string { return measure.FormatCloth(s.plan.GramsPerM2, s.Units) })
	add("weft fills", func(s side) string {
		return fmt.Sprintf("%.0f %% of its room", 100*s.plan.Cloth.Beat)
	})
	add("faintest pattern", faintest)
	for _, y := range a.After.Yarn {
		add(fmt.Sprintf("%q needed", y.Colour), func(s side) string { return needed(s, y.Colour) })
	}
	add("all yarn", func(s side) string {
		var grams float64
		for _, y := range s.plan.Yarn {
			grams += y.NeededG()
		}
		return measure.FormatWeight(grams, s.Units)
	})
	if was.plan.Cost != nil || is.plan.Cost != nil {
		add("cost of what is to buy", func(s side) string {
			if s.plan.Cost == nil {
				return "?"
			}
			return s.plan.Cost.Buy
		})
	}
	add("warnings", func(s side) string { return warnings(s.plan) })
}

func texOf(s side, yarn int) float64 { v, _ := s.Yarns[yarn].Tex.Float64(); return v }

// lengths are those of the pieces, each once.
func lengths(s side) string {
	return each(s, func(p plan.Piece) string { return measure.FormatLength(p.FinishedMM, s.Units) })
}

func picksOf(s side) string {
	return each(s, func(p plan.Piece) string { return fmt.Sprint(p.Picks) })
}

// each is what is said of the pieces, what is the same once; of many the first few.
func each(s side, say func(plan.Piece) string) string {
	var all []string
	for _, p := range s.plan.Pieces {
		if said := say(p); !slices.Contains(all, said) {
			all = append(all, said)
		}
	}
	const few = 3
	if len(all) > few {
		all = append(all[:few], "...")
	}
	return strings.Join(all, ", ")
}

func faintest(s side) string {
	var all []plan.Contrast
	for _, piece := range s.plan.Pieces {
		all = append(all, piece.Contrast...)
	}
	if at := plan.Faintest(all, look.DecisiveM); at != nil {
		return fmt.Sprintf("%s %.1f", at.Words(), at.DeltaL)
	}
	return "none"
}

func needed(s side, colour string) string {
	for _, y := range s.plan.Yarn {
		if y.Colour == colour {
			metres := measure.FormatYarn(y.NeededM(), s.Units)
			return metres + " " + measure.FormatWeight(y.NeededG(), s.Units)
		}
	}
	return "none"
}

// warnings are the codes of what would spoil the cloth.
func warnings(p *plan.Plan) string {
	var codes []string
	for _, n := range p.NotesOf(plan.Warning) {
		if !slices.Contains(codes, n.Code) {
			codes = append(codes, n.Code)
		}
	}
	if len(codes) == 0 {
		return "none"
	}
	return strings.Join(codes, ", ")
}
