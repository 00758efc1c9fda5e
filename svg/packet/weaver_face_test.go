package packet_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
	"stripesong/svg"
)

// hexes is the colour of every name, from the brief.
func hexes(p *plan.Plan) map[string]color.RGBA {
	all := map[string]color.RGBA{}
	for _, c := range p.Colours {
		all[visible(c.Name)] = rgbaOf(c.RGB.Hex())
	}
	return all
}

func rgbaOf(hex string) color.RGBA {
	var c color.RGBA
	rgb, err := palette.ParseHex(hex)
	if err == nil {
		_, err = fmt.Sscanf(rgb.Hex(), "#%02x%02x%02x", &c.R, &c.G, &c.B)
	}
	if err != nil {
		panic(err)
	}
	c.A = 255
	return c
}

// face is what was woven, thread by thread: the last pick in the first row.
func (w *weaver) face(picks []pick, colours map[string]color.RGBA) [][]color.RGBA {
	known := map[pick][]color.RGBA{}
	rows := make([][]color.RGBA, len(picks))
	for i, p := range picks {
		if known[p] == nil {
			known[p] = w.row(p, colours)
		}
		rows[len(picks)-1-i] = known[p]
	}
	return rows
}

// row is one pick of the face: weft wherever the shaft of an end is not up.
func (w *weaver) row(p pick, colours map[string]color.RGBA) []color.RGBA {
	row, up := make([]color.RGBA, len(w.warp.ends)), w.loom.sheds[p.shed]
	for x, e := range w.warp.ends {
		row[x] = colours[w.names[p.colour]]
		if up[e.shaft] {
			row[x] = colours[w.names[e.colour]]
		}
	}
	return row
}

// crossings is the picture of a piece with a pixel for every crossing.
func crossings(t testing.TB, p *plan.Plan, i int) [][]color.RGBA {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, svg.Crossings(&b, p, i, false))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	require.IsType(t, &image.Paletted{}, img)
	return pixels(img.(*image.Paletted))
}

func pixels(img *image.Paletted) [][]color.RGBA {
	var table [256]color.RGBA
	for i, c := range img.Palette {
		table[i] = color.RGBAModel.Convert(c).(color.RGBA)
	}
	rows := make([][]color.RGBA, img.Rect.Dy())
	for y := range rows {
		row := make([]color.RGBA, img.Rect.Dx())
		for x, ink := range img.Pix[y*img.Stride:][:len(row)] {
			row[x] = table[ink]
		}
		rows[y] = row
	}
	return rows
}

// sampleFace is the planned sample; there is no picture of it.
func sampleFace(p *plan.Plan) (rows [][]color.RGBA) {
	if p.Sample == nil {
		return nil
	}
	threading, warp := planWarp(p)
	colours := map[string]color.RGBA{}
	for _, c := range p.Colours {
		colours[c.Name] = rgbaOf(c.RGB.Hex())
	}
	add := func(pick weave.Woven, weft string) {
		row := make([]color.RGBA, len(threading))
		for x, over := range weave.Face(threading, pick.Shed) {
			row[x] = colours[warp[x]]
			if over {
				row[x] = colours[weft]
			}
		}
		rows = append(rows, row)
	}
	for _, pick := range p.Weave.Picks(p.Sample.HemPicks, nil)[:p.Sample.HemPicks] {
		add(pick, p.Sample.Hem)
	}
	for _, run := range p.Sample.Runs {
		for range run.Units {
			for _, pick := range p.InOrder(run.PickOrder).UnitPicks(run.Block) {
				weft := run.Ground
				if pick.Pattern {
					weft = run.Pattern
				}
				add(pick, weft)
			}
		}
	}
	slices.Reverse(rows)
	return rows
}

// planWarp is the shaft and the colour of each end of a plan.
func planWarp(p *plan.Plan) (threading []int, colours []string) {
	var strips []weave.Strip
	for _, r := range p.Warp.Runs {
		strips = append(strips, weave.Strip{Block: r.Block, Units: r.Units})
		for range r.Ends {
			colours = append(colours, r.Colour)
		}
	}
	return p.Weave.Threading(strips), colours
}

// differs tells where two faces differ, from the first pick up; "" where they don't.
func differs(got, want [][]color.RGBA) string {
	if len(got) != len(want) {
		return fmt.Sprintf("%d picks woven, %d planned", len(got), len(want))
	}
	for y := len(got) - 1; y >= 0; y-- {
		if len(got[y]) != len(want[y]) {
			return fmt.Sprintf("%d ends in the cloth, %d planned", len(got[y]), len(want[y]))
		}
		for x := range got[y] {
			if got[y][x] != want[y][x] {
				return fmt.Sprintf("pick %d, end %d is %v and should be %v", len(got)-y, x+1,
					got[y][x], want[y][x])
			}
		}
	}
	return ""
}
