package svg

import (
	"bytes"
	"fmt"
	"image"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// sheetOf is a sheet of the size of a set's as rendered, four pixels to a millimetre.
func sheetOf(t testing.TB, drawing []byte) shown {
	t.Helper()
	return rendered(t, drawing, box4{0, 0, float64(setWidth / mm), float64(setHeight / mm)},
		fillPerMM)
}

const fillPerMM = 4

// isFilled: the middle of a block has a colour all over.
func isFilled(t *testing.T, s shown, r image.Rectangle, hex, what string) {
	t.Helper()
	middle := image.Pt((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2)
	if r.Dx() < 4 || r.Dy() < 4 {
		return // shares its pixels with its neighbours
	}
	got := s.mean(image.Rectangle{middle, middle.Add(image.Pt(1, 1))})
	rgb, err := palette.ParseHex(hex)
	require.NoError(t, err)
	assert.LessOrEqual(t, palette.DeltaE00(got.Lab(), rgb.Lab()), 0.5, "%s: %s for %s", what,
		got.RGB().Hex(), hex)
}

// TestSetFillsWithTheMixedColours: every block of every piece on the sheet of the set.
// Its lower right corner, which is turned over, is left out.
func TestSetFillsWithTheMixedColours(t *testing.T) {
	for _, name := range []string{"orchard-kitchen", "uneven[8/cm 8/cm]2", "in sight"} {
		p := cloths(t)[name]
		if p == nil {
			continue // not in the short run
		}
		var b bytes.Buffer
		require.NoError(t, Set(&b, p))
		s, shades := sheetOf(t, b.Bytes()), p.Shades()
		sheet := &setSheet{pen: open(&bytes.Buffer{}, setWidth, setHeight, "", ""), plan: p}
		sheet.pieces()
		for i := range p.Pieces {
			x, foot := sheet.grid.at(i)
			of := edged(&p.Pieces[i], sizesOf(p, &p.Pieces[i]).folded().on(sheet.grid.scale))
			top, w := foot-of.whole(), sheet.grid.scale.paper
			if p.Pieces[i].ShowPicks == 0 { // less the edge where hems turn
				top, foot = top+of.show, foot-of.show
			}
			px := func(v um) int { return int(v) * fillPerMM / 1000 }
			r := image.Rect(px(x), px(top), px(x+w), px(foot))
			for _, block := range blocksIn(p, i, r.Dx(), r.Dy(), false) {
				if block.at.Max.X > r.Dx()/2 && block.at.Max.Y > r.Dy()/2 {
					continue
				}
				mix := block.mix(shades, &p.Pieces[i], false)
				isFilled(t, s, block.at.Add(r.Min), mix.RGB.Hex(), fmt.Sprint(name, i, block))
			}
		}
	}
}

// TestTrialsFillWithTheMixedColours: every trial is the face of its own plan.
func TestTrialsFillWithTheMixedColours(t *testing.T) {
	for _, what := range []plan.Trying{{Count: 6}, {Count: 4, Warp: true}} {
		trials, drawn := tried(t, brief.Default(), what)
		s := sheetOf(t, drawn)
		sheet := &trialSheet{trials: trials}
		sheet.measure()
		for i := range trials.Cells {
			p := trials.Cells[i].Plan
			x := margin + um(i%trials.Columns())*sheet.cellW
			y := trialTop + um(i/trials.Columns())*sheet.cellH
			at := image.Pt(int(x)*fillPerMM/1000, int(y)*fillPerMM/1000)
			w, h := int(sheet.width)*fillPerMM/1000, int(sheet.height)*fillPerMM/1000
			for _, block := range blocksIn(p, 0, w, h, false) {
				mix := block.mix(p.Shades(), &p.Pieces[0], false)
				isFilled(t, s, block.at.Add(at), mix.RGB.Hex(), fmt.Sprint(i, block))
			}
		}
	}
}

// TestContrastFillsWithTheMixedColours: the two areas of every cell are the plan's on
// and off where the plan weaves them.
func TestContrastFillsWithTheMixedColours(t *testing.T) {
	text := workedText(t)
	r := reportOf(t, text)
	p := worked(t)
	var b bytes.Buffer
	require.NoError(t, Contrast(&b, r))
	mixes := map[[4]string]string{}
	for _, m := range p.Mixes {
		mixes[[4]string{m.Warp, m.Ground, m.Pattern, string(m.State)}] = m.RGB.Hex()
	}
	m := &mixtures{report: r}
	m.choose()
	const perMM = 4
	width := float64(max(2*mixMargin+mixNames+2*um(len(m.columns))*mixPitch+mixGap, 200*mm)) / 1000
	s := rendered(t, b.Bytes(),
		box4{0, 0, width, float64(mixTop+um(len(m.rows))*mixRow) / 1000}, perMM)
	checked := 0
	for c, column := range m.columns {
		for i, pattern := range m.rows {
			warp := r.Warp[column.warp]
			on, woven := mixes[[4]string{warp, column.ground, pattern, "on"}]
			if !woven {
				continue
			}
			off := mixes[[4]string{warp, column.ground, pattern, "off"}]
			x, y := mixMargin+mixNames+um(c)*mixPitch, mixTop+um(i)*mixRow
			block := func(dx, dy um) image.Rectangle {
				at := image.Pt(int(x+dx)*perMM/1000, int(y+dy)*perMM/1000)
				return image.Rectangle{at,
					at.Add(image.Pt(int(mixBlock)*perMM/1000, int(mixBlock)*perMM/1000))}
			}
			isFilled(t, s, block(0, 0), on, "on "+pattern)
			isFilled(t, s, block(0, mixBlock), off, "off "+pattern)
			checked++
		}
	}
	assert.Positive(t, checked)
}
