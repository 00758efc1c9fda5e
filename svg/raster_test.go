package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

// node is an element of a drawing.
type node struct {
	Name     string
	Attr     map[string]string
	Children []*node
}

// tree reads a drawing.
func tree(t testing.TB, text []byte) *node {
	d := xml.NewDecoder(bytes.NewReader(text))
	stack := []*node{{}}
	for {
		token, err := d.Token()
		if token == nil {
			return stack[0].Children[0]
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			n := &node{Name: e.Name.Local, Attr: map[string]string{}}
			for _, a := range e.Attr {
				n.Attr[a.Name.Local] = a.Value
			}
			top := stack[len(stack)-1]
			top.Children = append(top.Children, n)
			stack = append(stack, n)
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		}
	}
}

// walk visits every element.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, c := range n.Children {
		c.walk(visit)
	}
}

// raster draws rectangles of threads at one pixel a unit. It knows paths of
// rectangles, groups with clip paths, and patterns: what cloth is drawn with.
type raster struct {
	t    testing.TB
	w, h int
	pix  []string // fill of each pixel
	ids  map[string]*node
	// tiles holds the patterns met so far, by the paint that names them.
	tiles map[string]*raster
}

func newRaster(t testing.TB, root *node, w, h int) *raster {
	r := &raster{t: t, w: w, h: h, pix: make([]string, w*h), ids: map[string]*node{}, tiles: map[string]*raster{}}
	root.walk(func(n *node) {
		if id := n.Attr["id"]; id != "" {
			r.ids[id] = n
		}
	})
	return r
}

// cells reads a path of rectangles "Mx yhWvHh-Wz".
func (r *raster) cells(d string) (rects [][4]int) {
	for _, one := range strings.Split(strings.TrimPrefix(d, "M"), "M") {
		var x, y, w, h, back int
		_, err := fmt.Sscanf(one, "%d %dh%dv%dh%dz", &x, &y, &w, &h, &back)
		require.NoError(r.t, err, one)
		require.Equal(r.t, w, -back)
		rects = append(rects, [4]int{x, y, w, h})
	}
	return rects
}

func (r *raster) ref(s string) *node {
	id, ok := strings.CutPrefix(s, "url(#")
	require.True(r.t, ok, s)
	n := r.ids[strings.TrimSuffix(id, ")")]
	require.NotNil(r.t, n, s)
	return n
}

// draw paints an element where clip allows; transforms of bands are passed
// over, since inside them everything is in threads of the whole piece.
func (r *raster) draw(n *node, clip []bool) {
	if c := n.Attr["clip-path"]; c != "" {
		clip = make([]bool, len(r.pix))
		for _, p := range r.ref(c).Children {
			r.each(p.Attr["d"], func(x, y int) { clip[y*r.w+x] = true })
		}
	}
	if n.Name == "path" {
		r.each(n.Attr["d"], func(x, y int) {
			if clip == nil || clip[y*r.w+x] {
				if fill := r.fill(n.Attr["fill"], x, y); fill != "" {
					r.pix[y*r.w+x] = fill
				}
			}
		})
	}
	for _, c := range n.Children {
		r.draw(c, clip)
	}
}

func (r *raster) each(d string, paint func(x, y int)) {
	for _, c := range r.cells(d) {
		for y := max(0, c[1]); y < min(r.h, c[1]+c[3]); y++ {
			for x := max(0, c[0]); x < min(r.w, c[0]+c[2]); x++ {
				paint(x, y)
			}
		}
	}
}

// fill is the colour a paint gives a pixel; "" where a tile is empty.
func (r *raster) fill(paint string, x, y int) string {
	if strings.HasPrefix(paint, "#") {
		return paint
	}
	t, ok := r.tiles[paint]
	if !ok {
		t = r.tile(r.ref(paint))
		r.tiles[paint] = t
	}
	return t.pix[y%t.h*t.w+x%t.w]
}

// tile draws a pattern once. Its content is clipped to its box, as SVG says.
func (r *raster) tile(pattern *node) *raster {
	number := func(name string) int {
		v, err := strconv.Atoi(pattern.Attr[name])
		require.NoError(r.t, err)
		return v
	}
	require.Zero(r.t, number("x"))
	require.Zero(r.t, number("y"))
	require.Equal(r.t, "userSpaceOnUse", pattern.Attr["patternUnits"])
	t := &raster{t: r.t, w: number("width"), h: number("height")}
	t.pix = make([]string, t.w*t.h)
	for _, path := range pattern.Children {
		t.draw(path, nil)
	}
	return t
}

// sidesOf finds the groups that hold face and back.
func sidesOf(root *node) (sides []*node) {
	root.walk(func(n *node) {
		if n.Name == "g" && n.Attr["shape-rendering"] == "crispEdges" {
			sides = append(sides, n)
		}
	})
	return sides
}

// pictures reads the PNG of one side back as colours.
func picture(t testing.TB, p *plan.Plan, i int, back bool) (w, h int, pix []string) {
	var b bytes.Buffer
	require.NoError(t, Crossings(&b, p, i, back))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	paletted, ok := img.(*image.Paletted)
	require.True(t, ok)
	var hexes []string
	for _, c := range paletted.Palette {
		r, g, b, a := c.RGBA()
		require.Equal(t, uint32(0xffff), a)
		hexes = append(hexes, palette.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}.Hex())
	}
	for _, k := range paletted.Pix {
		pix = append(pix, hexes[k])
	}
	return img.Bounds().Dx(), img.Bounds().Dy(), pix
}

// The drawing at one pixel a thread is the PNG, both sides, every structure.
func TestDrawingEqualsPicture(t *testing.T) {
	for name, p := range corners(t) {
		for i := range min(1, len(p.Pieces)) {
			var b bytes.Buffer
			require.NoError(t, Piece(&b, p, i))
			root := tree(t, b.Bytes())
			sides := sidesOf(root)
			require.Len(t, sides, 2)
			for n, back := range []bool{false, true} {
				w, h, pix := picture(t, p, i, back)
				r := newRaster(t, root, w, h)
				r.draw(sides[n], nil)
				for k := range pix {
					if pix[k] != r.pix[k] {
						assert.Failf(t, "differs", "%s piece %d back %v at %d,%d: picture %s, drawing %s", name, i, back, k%w, k/w, pix[k], r.pix[k])
						break
					}
				}
			}
		}
	}
}
