package svg

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

var update = flag.Bool("update", false, "write the golden drawings anew")

// drawings draws the set and the first pieces of every corner of the job.
func drawings(t testing.TB) map[string][]byte {
	all := map[string][]byte{}
	for name, p := range corners(t) {
		var b bytes.Buffer
		require.NoError(t, Set(&b, p), name)
		all[name] = b.Bytes()
		for i := range min(6, len(p.Pieces)) {
			var b bytes.Buffer
			require.NoError(t, Piece(&b, p, i), name)
			all[fmt.Sprintf("%s piece %d", name, i+1)] = b.Bytes()
		}
	}
	return all
}

// Every drawing is XML that a strict reader takes: well formed, no attribute
// twice, every id once, every reference answered.
func TestStrictXML(t *testing.T) {
	for name, text := range drawings(t) {
		ids, refs := map[string]bool{}, []string(nil)
		d := xml.NewDecoder(bytes.NewReader(text))
		d.Strict = true
		for token, err := d.Token(); token != nil; token, err = d.Token() {
			require.NoError(t, err, name)
			element, ok := token.(xml.StartElement)
			if !ok {
				continue
			}
			seen := map[xml.Name]bool{}
			for _, a := range element.Attr {
				require.False(t, seen[a.Name], "%s: %s twice in <%s>", name, a.Name.Local,
					element.Name.Local)
				seen[a.Name] = true
				if a.Name.Local == "id" {
					require.False(t, ids[a.Value], "%s: id %s twice", name, a.Value)
					ids[a.Value] = true
				}
				refs = append(refs, references.FindAllString(a.Value, -1)...)
			}
		}
		for _, ref := range refs {
			assert.True(t, ids[strings.Trim(ref, "url(#)")], "%s: %s is nowhere", name, ref)
		}
	}
}

var references = regexp.MustCompile(`url\(#[^)]*\)|^#n[0-9]+`)

// attribute says what may stand in an attribute at all: whatever a name holds,
// nothing of it gets out of a text body.
var attribute = map[string]*regexp.Regexp{
	"fill":         regexp.MustCompile(`^(none|#[0-9a-f]{6}|url\(#n\d+\))$`),
	"stroke":       regexp.MustCompile(`^#[0-9a-f]{6}$`),
	"stroke-width": number, "font-size": number, "x": number, "y": number,
	"width":   regexp.MustCompile(`^\d+(\.\d{1,3})?(mm)?$`),
	"height":  regexp.MustCompile(`^\d+(\.\d{1,3})?(mm)?$`),
	"viewBox": regexp.MustCompile(`^0 0 \d+ \d+$`), "role": regexp.MustCompile(`^img$`),
	"font-family": regexp.MustCompile(`^sans-serif$`),
	"id":          regexp.MustCompile(`^n\d+$`), "href": regexp.MustCompile(`^#n\d+$`),
	"clip-path": regexp.MustCompile(`^url\(#n\d+\)$`),
	"d":         regexp.MustCompile(`^(?:[MHLVahqvz ]|-?(?:0|[1-9]\d*)(?:\.\d{0,2}[1-9])?)+$`),
	"transform": regexp.MustCompile(
		`^(?:(?:translate|scale|rotate)\((?:-?(?:0|[1-9]\d*)(?:\.\d{0,5}[1-9])?[ )]?)+ ?)+$`),
	"font-weight":     regexp.MustCompile(`^bold$`),
	"text-anchor":     regexp.MustCompile(`^(middle|end)$`),
	"shape-rendering": regexp.MustCompile(`^crispEdges$`),
	"xmlns":           regexp.MustCompile(`^http://www.w3.org/2000/svg$`),
	"xlink":           regexp.MustCompile(`^http://www.w3.org/1999/xlink$`),
}

var number = regexp.MustCompile(`^(0|[1-9]\d*)(\.\d{0,2}[1-9])?$`)

var elements = map[string]bool{"svg": true, "title": true, "desc": true, "g": true, "path": true,
	"text": true, "use": true,
	"defs": true, "clipPath": true}

func TestNothingOfTheUsersInAttributes(t *testing.T) {
	for name, text := range drawings(t) {
		tree(t, text).walk(func(n *node) {
			require.True(t, elements[n.Name], "%s: <%s>", name, n.Name)
			for key, value := range n.Attr {
				require.NotNil(t, attribute[key], "%s: %s=%q", name, key, value)
				require.Regexp(t, attribute[key], value, "%s: %s", name, key)
			}
		})
		assert.NotContains(t, string(text), "-0\"")
		assert.NotContains(t, string(text), "NaN")
	}
}

// The names a weaver gave can be read on the sheet.
func TestNamesAreThere(t *testing.T) {
	p := hostile(t)
	var b bytes.Buffer
	require.NoError(t, Set(&b, p))
	for _, want := range []string{"&lt;script&gt;", "שלום עולם טוב", "bell␇ and tab␉",
		"--&gt;&lt;g&gt;", "família é", "1 url(#n1)"} {
		assert.Contains(t, b.String(), want)
	}
	root := tree(t, b.Bytes())
	assert.Equal(t, "title", root.Children[0].Name)
	assert.Equal(t, "desc", root.Children[1].Name)
}

// TestWeightOfTheCloth: the sheet of the set tells it, in the units of the plan.
func TestWeightOfTheCloth(t *testing.T) {
	p := twelve(t)
	for units, told := range map[string]string{"cm": "333 g/m²", "in": "9.8 oz/yd²"} {
		p.Units, p.GramsPerM2 = units, 332.957 // an ounce to the square yard is 33.906 g/m²
		assert.Contains(t, facts(p), ", "+told+", warp ")
	}
	p.GramsPerM2 = 0 // not reckoned
	assert.NotContains(t, facts(p), "yd²")
}

// A towel of 440 ends and 1000 picks is under 60 KiB, a set of six under 150. Sheets
// of sixty stripes, or of small pieces drawn to the thread, may be larger.
func TestSizes(t *testing.T) {
	const kib = 1024
	for name, text := range drawings(t) {
		limit := 150 * kib
		if strings.Contains(name, "piece") {
			limit = 60 * kib
		}
		if strings.HasPrefix(name, "sixty piece") {
			limit = 80 * kib
		}
		if strings.HasPrefix(name, "coasters piece") {
			limit = 110 * kib
		}
		assert.Less(t, len(text), limit, name)
	}
	p := sixty(t)
	assert.Len(t, p.Pieces, 6)
	assert.Len(t, p.Warp.Runs, 60)
}

// The sheet of the set fits the printable part of A4 (ISO 216, from memory) and of Letter
// (8 1/2 by 11 in), less a border of 5 mm that few printers reach (common practice, no source).
func TestPaper(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Set(&b, worked(t)))
	assert.Contains(t, b.String(), `width="267mm" height="200mm" viewBox="0 0 267 200"`)
	const a4Width, a4Height, letterWidth, letterHeight, border = 297, 210, 279.4, 215.9, 5
	assert.LessOrEqual(t, 267.0, min(a4Width, letterWidth)-2*border)
	assert.LessOrEqual(t, 200.0, min(a4Height, letterHeight)-2*border)
}

// frames finds the outlines of the sides: the paths stroked and not filled
// that are one rectangle 0.1 mm thick.
func frames(t testing.TB, text []byte) (found [][4]float64) {
	tree(t, text).walk(func(n *node) {
		if n.Attr["fill"] != "none" || n.Attr["stroke-width"] != "0.1" ||
			strings.Contains(n.Attr["d"], "L") {
			return
		}
		var x, y, w, h, back float64
		_, err := fmt.Sscanf(n.Attr["d"], "M%f %fh%fv%fh%fz", &x, &y, &w, &h, &back)
		require.NoError(t, err)
		found = append(found, [4]float64{x, y, w, h})
	})
	return found
}

// The sheet of a piece is at one true scale: width and length on paper stand to
// each other as in the plan.
func TestTrueScale(t *testing.T) {
	for name, p := range corners(t) {
		var b bytes.Buffer
		require.NoError(t, Piece(&b, p, 0))
		sides := frames(t, b.Bytes())
		require.Len(t, sides, 2, name)
		whole := p.Pieces[0].WovenMM * (1 - p.Cloth.ShrinkLength) / p.Warp.FinishedWidthMM
		assert.InDelta(t, whole*sides[0][2], sides[0][3], 0.01, name)
	}
}

// box is where a text stands.
type box struct {
	x0, y0, x1, y1 float64
	text           string
}

var place = regexp.MustCompile(`^translate\((\S+) (\S+)\)( rotate\(-90\))?$`)

// boxes reckons where every text stands.
func boxes(t testing.TB, text []byte) (found []box) {
	d := xml.NewDecoder(bytes.NewReader(text))
	for token, _ := d.Token(); token != nil; token, _ = d.Token() {
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "text" {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		inner, err := d.Token()
		require.NoError(t, err)
		body := string(inner.(xml.CharData))
		m := place.FindStringSubmatch(attr["transform"])
		require.NotNil(t, m, attr["transform"])
		read := func(s string) float64 {
			v, err := strconv.ParseFloat(s, 64)
			require.NoError(t, err)
			return v
		}
		x, y, size := read(m[1]), read(m[2]), read(attr["font-size"])
		w := size * float64(milliEms(body, attr["font-weight"] == "bold")) / 1000
		shift := map[string]float64{"": 0, "middle": w / 2, "end": w}[attr["text-anchor"]]
		if m[3] != "" {
			found = append(found, box{x - size*0.74, y + shift - w, x + size*0.02, y + shift, body})
			continue
		}
		found = append(found, box{x - shift, y - size*0.74, x - shift + w, y + size*0.02, body})
	}
	return found
}

// No text runs off the sheet, over another or over the cloth.
func TestNothingOverlaps(t *testing.T) {
	all := drawings(t)
	for _, n := range counts {
		var b bytes.Buffer
		require.NoError(t, Set(&b, many(t, n)))
		all[fmt.Sprintf("many %d", n)] = b.Bytes()
	}
	for name, text := range all {
		root := tree(t, text)
		size := strings.Fields(root.Attr["viewBox"])
		w, _ := strconv.ParseFloat(size[2], 64)
		h, _ := strconv.ParseFloat(size[3], 64)
		all, sides := boxes(t, text), frames(t, text)
		for _, piece := range onSheet(t, text) {
			sides = append(sides, piece.box)
		}
		require.Greater(t, len(all), 20, name)
		require.NotEmpty(t, sides)
		for i, a := range all {
			assert.True(t, a.x0 > 0 && a.y0 > 0 && a.x1 < w && a.y1 < h, "%s: off the sheet: %+v",
				name, a)
			for _, b := range all[:i] {
				assert.False(t, a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1,
					"%s: %+v over %+v", name, a, b)
			}
			for _, f := range sides {
				assert.False(t, a.x0 < f[0]+f[2] && f[0] < a.x1 && a.y0 < f[1]+f[3] && f[1] < a.y1,
					"%s: %+v over cloth %v", name, a, f)
			}
		}
	}
}

func TestGolden(t *testing.T) {
	p := worked(t)
	files := map[string]func(*bytes.Buffer) error{
		"worked-set.svg":     func(b *bytes.Buffer) error { return Set(b, p) },
		"worked-piece-1.svg": func(b *bytes.Buffer) error { return Piece(b, p, 0) },
		"worked-face-1.png":  func(b *bytes.Buffer) error { return Picture(b, p, 0, false) },
		"worked-back-1.png":  func(b *bytes.Buffer) error { return Picture(b, p, 0, true) },
		"worked-face-threads-1.png": func(b *bytes.Buffer) error {
			return Crossings(b, p, 0, false)
		},
		"worked-back-threads-1.png": func(b *bytes.Buffer) error {
			return Crossings(b, p, 0, true)
		},
	}
	for name, draw := range files {
		var b bytes.Buffer
		require.NoError(t, draw(&b))
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, b.Bytes()),
			"%s differs from its golden file; look at it and run with -update", name)
	}
}

// What a drawing cannot be made of is an error, not a wrong drawing.
func TestRefusals(t *testing.T) {
	for what, spoil := range map[string]func(*plan.Plan){
		"no colour":        func(p *plan.Plan) { p.Warp.Runs[0].Colour = "nowhere" },
		"ends":             func(p *plan.Plan) { p.Warp.Runs[0].Ends++ },
		"no structure":     func(p *plan.Plan) { p.Weave = nil },
		"picks":            func(p *plan.Plan) { p.Pieces[0].Picks++ },
		"no piece":         func(p *plan.Plan) { p.Pieces = nil },
		"has no colour \"": func(p *plan.Plan) { p.Pieces[0].Runs[0].Pattern = "ghost" },
	} {
		p := oneColour(t)
		p.Colours = append([]plan.Colour(nil), p.Colours...)
		spoil(p)
		assert.ErrorContains(t, Picture(&bytes.Buffer{}, p, 0, false),
			strings.TrimSuffix(what, " \""), what)
		assert.ErrorContains(t, Crossings(&bytes.Buffer{}, p, 0, false),
			strings.TrimSuffix(what, " \""), what)
		assert.Error(t, Piece(&bytes.Buffer{}, p, 0), what)
	}
	p := oneColour(t)
	p.Mixes = nil
	assert.ErrorContains(t, Set(&bytes.Buffer{}, p), "mixes no colour")
	assert.ErrorContains(t, Picture(&bytes.Buffer{}, p, 0, false), "mixes no colour")
	assert.Error(t, Picture(&bytes.Buffer{}, p, -1, false))
	assert.Error(t, Crossings(&bytes.Buffer{}, p, -1, false))
	assert.Error(t, Piece(&bytes.Buffer{}, p, 2))
}

// TestGradesAreWhole: the widest range of grades has room in its column.
func TestGradesAreWhole(t *testing.T) {
	for i, least := range palette.Grades {
		for _, most := range palette.Grades[i+1:] {
			words := fmt.Sprintf("%v to %v", least, most)
			assert.Equal(t, words, largeSmall.fit(words, contrastGrade))
		}
	}
	assert.LessOrEqual(t, contrastNames+2*contrastGrade, sideColumn)
}
