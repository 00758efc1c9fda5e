package svg

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"testing"

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

// picture reads the PNG of one side back as colours.
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
		hexes = append(hexes,
			palette.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}.Hex())
	}
	for _, k := range paletted.Pix {
		pix = append(pix, hexes[k])
	}
	return img.Bounds().Dx(), img.Bounds().Dy(), pix
}
