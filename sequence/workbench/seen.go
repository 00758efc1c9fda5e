package workbench

import (
	"slices"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// Eyes are the ways to look at cloth. Grey shows how light each colour is and
// nothing else.
var Eyes = []string{"normal", "grey", "protan", "deutan"}

const grey = 1

// Through is a colour as eyes see it, by their number in [Eyes].
func Through(eyes int, c palette.Linear) palette.Linear {
	switch eyes {
	case grey:
		y := c.XYZ()[1]
		return palette.Linear{y, y, y}
	case 2:
		return palette.Protan.See(c)
	case 3:
		return palette.Deutan.See(c)
	}
	return c
}

// allEyes is a colour as each of [Eyes] sees it, for a screen.
func allEyes(c palette.Linear) []string {
	all := make([]string, len(Eyes))
	for i := range Eyes {
		all[i] = Through(i, c).RGB().Hex()
	}
	return all
}

// Picture is one side of a piece as it looks from a distance: rows from the
// top, the last pick first, four bytes a point: red, green, blue and full
// opacity.
type Picture struct {
	Across, Down int
	RGBA         []byte
}

// MostAcross is the widest picture that is made.
const MostAcross = 512

// Cloths are the sides asked for (true for the back) of every piece as eyes see
// them, piece by piece, hems included, for [Seen]. With aside they are of the
// version put beside; none where there is none.
func (b *Bench) Cloths(aside bool, sides []bool, eyes int) []palette.Panes {
	v := b.version
	if aside {
		if b.aside == nil {
			return nil
		}
		v = *b.aside
	}
	var all []palette.Panes
	for i := range v.plan.Pieces {
		for _, back := range sides {
			all = append(all, v.panes(i, back, eyes))
		}
	}
	return all
}

// Seen is a cloth from a distance in metres, so many points across (8 to
// [MostAcross]). It may be called by several goroutines at a time.
func Seen(cloth palette.Panes, distanceM float64, across int) Picture {
	across = max(8, min(across, MostAcross))
	down := max(8, min(4*MostAcross, int(float64(float64(across)*sum(cloth.HeightsMM)/sum(cloth.WidthsMM))+0.5)))
	return Picture{across, down, cloth.Screen(distanceM, across, down)}
}

func sum(all []float64) float64 {
	total := 0.0
	for _, v := range all {
		total += v
	}
	return total
}

// panes is one side of a piece, the last row woven first.
func (v version) panes(piece int, back bool, eyes int) palette.Panes {
	var p palette.Panes
	for _, r := range v.plan.Warp.Runs {
		p.WidthsMM = append(p.WidthsMM, float64(r.Ends)*v.plan.Warp.FinishedWidthMM/float64(v.plan.Warp.Ends))
	}
	rows := v.rows(piece)
	for i := len(rows) - 1; i >= 0; i-- {
		line := make([]palette.XYZ, len(v.plan.Warp.Runs))
		for j, r := range v.plan.Warp.Runs {
			at := j
			if back {
				at = len(line) - 1 - j
			}
			line[at] = Through(eyes, v.shows(rows[i], r.Block, r.Colour, back)).XYZ()
		}
		p.HeightsMM = append(p.HeightsMM, rows[i].heightMM)
		p.Colours = append(p.Colours, line)
	}
	if back {
		slices.Reverse(p.WidthsMM)
	}
	return p
}

// row is one hem, with what stays in sight beside it, or run of a piece, finished.
type row struct {
	block, pattern, ground string
	hem                    bool
	order                  string // of picks
	weave                  int    // which of the brief's
	heightMM               float64
}

// rows are a piece's hem, runs and hem, first woven first.
func (v version) rows(piece int) []row {
	p, left := v.plan.Pieces[piece], 1-v.plan.Cloth.ShrinkLength
	weave := v.brief.WeaveOf(piece, v.brief.Weaves())
	var all []row
	end := row{ground: p.Hem, hem: true, heightMM: float64(p.HemWovenMM+p.ShowWovenMM) * left}
	if p.EndPicks() > 0 {
		all = append(all, end)
	}
	for _, r := range p.Runs {
		all = append(all, row{
			block:    r.Block,
			pattern:  r.Pattern,
			ground:   r.Ground,
			order:    p.PickOrder,
			weave:    weave,
			heightMM: float64(r.Units) * v.plan.UnitMM(&p) * left,
		})
	}
	if p.EndPicks() > 0 {
		all = append(all, end)
	}
	return all
}

// shows is the mixture of a row over a warp run on one side.
func (v version) shows(r row, block, warp string, back bool) palette.Linear {
	t := look.Trio{Warp: v.index(warp), Ground: v.index(r.ground), Pattern: look.Plain, Weave: r.weave}
	switch {
	case r.hem:
		t.Pattern = look.Hem
	case r.block != "":
		t.Pattern = v.index(r.pattern)
	}
	return v.cloth.Shade(t, look.Phi(v.plan.In(r.order), r.block, block, back)).Light
}

// index is the number of a colour of the brief.
func (v version) index(colour string) int { return max(v.brief.ColourNamed(colour), 0) }
