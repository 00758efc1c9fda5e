package svg

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// One weft unit over one unit of A and one of B, pattern A first, by hand
// from the sheds of halvdräll (P pattern, g ground, | warp).
func TestCrossingsOfOneUnit(t *testing.T) {
	p := sample{title: "t", units: "cm", structure: "halvdrall", colours: shelf[:3], sett: 8,
		warp:  warpOf("A", 1, "chalk", "B", 1, "chalk"),
		names: []string{"one"}, runs: [][]plan.WeftRun{weftOf("A", 1, "buoy")},
		ground: []string{"slate"}}.make(t)
	w, h, pix := picture(t, p, 0, false)
	require.Equal(t, []int{8, 4}, []int{w, h})
	mark := map[string]string{"#f1ede2": "|", "#c2492f": "P", "#4a5560": "g"}
	var rows []string
	for y := h - 1; y >= 0; y-- {
		row := ""
		for x := range w {
			row += mark[pix[y*w+x]]
		}
		rows = append(rows, row)
	}
	assert.Equal(t, []string{"PP|P||P|", "g|g|g|g|", "PP|P||P|", "|g|g|g|g"}, rows)
}

// Both sides crossing by crossing, straight from threading and sheds.
func TestCrossingsIsTheThreadOnTop(t *testing.T) {
	for name, p := range corners(t) {
		piece := &p.Pieces[0]
		var warp, body []weave.Strip
		var endColours, pattern, ground []string
		for _, run := range p.Warp.Runs {
			warp = append(warp, weave.Strip{Block: run.Block, Units: run.Units})
			endColours = append(endColours, repeatOf(hexOf(p, run.Colour), run.Ends)...)
		}
		hem := repeatOf(hexOf(p, piece.Hem), piece.EndPicks())
		pattern, ground = append(pattern, hem...), append(ground, hem...)
		for _, run := range piece.Runs {
			body = append(body, weave.Strip{Block: run.Block, Units: run.Units})
			n := run.PatternPicks + run.GroundPicks
			pattern = append(pattern, repeatOf(hexOf(p, run.Pattern), n)...)
			ground = append(ground, repeatOf(hexOf(p, run.Ground), n)...)
		}
		pattern, ground = append(pattern, hem...), append(ground, hem...)
		shafts, picks := p.Weave.Threading(warp),
			p.InOrder(piece.PickOrder).Picks(piece.EndPicks(), body)

		w, h, face := picture(t, p, 0, false)
		_, _, back := picture(t, p, 0, true)
		require.Equal(t, []int{p.Warp.Ends, piece.Picks}, []int{w, h}, name)
		for k, pick := range picks {
			weft := ground[k]
			if pick.Pattern {
				weft = pattern[k]
			}
			for e, shaft := range shafts {
				over, under := endColours[e], weft
				if pick.Shed.Covers(shaft) {
					over, under = under, over
				}
				y := h - 1 - k
				if face[y*w+e] != over || back[y*w+w-1-e] != under {
					require.Failf(t, "wrong thread", "%s pick %d end %d", name, k, e)
				}
			}
		}
	}
}

// TestCrossingsOfAMirroredWarp: with a closing end every line of both sides reads alike
// from left and right, as the stripes of the warp do.
func TestCrossingsOfAMirroredWarp(t *testing.T) {
	text := strings.Replace(string(brief.Default()), "# closing_end", "closing_end", 1)
	p := planFrom(t, text)
	for _, back := range []bool{false, true} {
		w, h, pix := picture(t, p, 1, back)
		require.Equal(t, []int{541, p.Pieces[1].Picks}, []int{w, h})
		for y := range h {
			line := pix[y*w : (y+1)*w]
			behind := slices.Clone(line)
			slices.Reverse(behind)
			require.Equal(t, behind, line)
		}
	}
}

func hexOf(p *plan.Plan, name string) string {
	for _, c := range p.Colours {
		if c.Name == name {
			return c.RGB.Hex()
		}
	}
	return ""
}

func repeatOf(s string, n int) (all []string) {
	for range n {
		all = append(all, s)
	}
	return all
}

// Lines of every length and order come back as they went in.
func TestCompressComesBack(t *testing.T) {
	seed := uint32(7)
	random := func(n int) int { seed = seed*1664525 + 1013904223; return int(seed>>16) % n }
	for range 200 {
		c := &cloth{ends: make([]warpEnd, 1+random(700)), unit: random(9),
			inks: make([]palette.RGB, 1+random(256))}
		rows := make([][]byte, 1+random(6))
		for i := range rows {
			rows[i] = make([]byte, len(c.ends))
			for x := range rows[i] {
				rows[i][x] = byte(random(min(len(c.inks), 1+random(4)*80)))
			}
		}
		order := make([]int, 1+random(400))
		for i := range order {
			order[i] = random(len(rows))
			if i > 8 && random(3) > 0 {
				order[i] = order[i-1-random(8)]
			}
		}
		img, err := png.Decode(
			bytes.NewReader(bitmap{width: len(c.ends), inks: c.inks, rows: rows, order: order,
				period: c.unit}.png()))
		require.NoError(t, err)
		for y, row := range order {
			require.Equal(t, rows[row], img.(*image.Paletted).Pix[y*len(c.ends):(y+1)*len(c.ends)])
		}
	}
}

// The picture is written no slower than the standard encoder alone takes for
// the same pixels, and comes out no larger than at its fastest.
func TestCrossingsSize(t *testing.T) {
	p := worked(t)
	var ours bytes.Buffer
	require.NoError(t, Crossings(&ours, p, 0, false))
	img, err := png.Decode(bytes.NewReader(ours.Bytes()))
	require.NoError(t, err)
	var bare bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&bare, img))
	assert.Less(t, ours.Len(), bare.Len())
}

func BenchmarkCrossings(b *testing.B) {
	p := worked(b)
	for b.Loop() {
		if err := Crossings(io.Discard, p, 0, false); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBareEncoder(b *testing.B) {
	var buffer bytes.Buffer
	if err := Crossings(&buffer, worked(b), 0, false); err != nil {
		b.Fatal(err)
	}
	img, err := png.Decode(&buffer)
	if err != nil {
		b.Fatal(err)
	}
	encoder := &png.Encoder{CompressionLevel: png.BestSpeed}
	for b.Loop() {
		if err := encoder.Encode(io.Discard, img); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSet(b *testing.B) {
	p := worked(b)
	for b.Loop() {
		if err := Set(io.Discard, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPiece(b *testing.B) {
	p := worked(b)
	for b.Loop() {
		if err := Piece(io.Discard, p, 0); err != nil {
			b.Fatal(err)
		}
	}
}
