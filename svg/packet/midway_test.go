package packet_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/svg/packet"
)

// written is the packet of a brief.
func written(t *testing.T, text []byte) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, packet.Write(&b, planned(t, text)))
	return b.String()
}

// section is a part of a page, by its id; "" where there is none.
func section(page, id string) string {
	from := strings.Index(page, `<section id="`+id+`"`)
	if from < 0 {
		return ""
	}
	return page[from : from+strings.Index(page[from:], "</section>")]
}

// TestOnTheLoom: the packet for the rest says that the warp is on the loom and begins with
// weaving; nothing is wound, threaded, sleyed or sampled again, and the sheets of the
// pieces to come are those of the whole set, treadles and all.
func TestOnTheLoom(t *testing.T) {
	text := brief.Default()
	b, err := brief.Parse("b", text, brief.Options{})
	require.NoError(t, err)
	p := planned(t, text)
	changes := append(plan.RunsOf(b, p),
		brief.Change{Key: "midway.woven", Value: `["82 cm", "83.5 cm"]`},
		brief.Text("midway.warp", "5 m"))
	rest, err := brief.Edit("b", text, changes)
	require.NoError(t, err)
	whole, page := written(t, text), written(t, rest)
	weaving := section(page, "weaving")
	for _, says := range []string{"<h2>1 Weaving</h2>", "The warp is on the loom",
		"2 of 6 pieces are woven.", "<b>5.00 m</b> of the warp are left",
		"83.5 cm", "Go on with piece 3, windfall.", "follow piece 2", "part 3"} {
		assert.Contains(t, weaving, says)
	}
	assert.NotContains(t, weaving, "Sample first")
	for _, gone := range []string{`id="winding"`, `id="sample"`, `href="#winding"`, `id="piece-1"`,
		`id="piece-2"`, "<h3>Threading", "<h3>Sleying", "<h3>Heddles", "<h3>Beam", "board holds",
		"guide string"} {
		assert.True(t, strings.Contains(whole, gone), gone)
		assert.False(t, strings.Contains(page, gone), gone)
	}
	first := strings.Index(page, "<section")
	assert.Equal(t, first, strings.Index(page, `<section id="weaving"`), "it begins with weaving")
	for _, id := range []string{"piece-3", "piece-4", "piece-5", "piece-6"} {
		assert.Equal(t, steps(whole, id), steps(page, id))
		assert.NotEmpty(t, steps(page, id))
	}
	assert.Contains(t, section(page, "piece-4"), "Piece 4 of 6: orchard wall")
	assert.Equal(t, tieUp(whole), tieUp(page), "treadles keep their numbers")
	assert.NotEmpty(t, tieUp(page))
	for _, heading := range []string{"<h2>2 Yarn for the rest</h2>", "<h2>3 Sheds</h2>",
		"<h2>4 Off the loom</h2>", "<h2>5 Measure and write down</h2>"} {
		assert.True(t, strings.Contains(page, heading), heading)
	}
	assert.False(t, strings.Contains(page, "part 6"))
	assert.Contains(t, section(page, "finishing"), "first light",
		"what is woven is cut off and washed too")
	assert.Contains(t, section(page, "finishing"), "83.5 cm")
	assert.NotContains(t, section(page, "measuring"), "[warp]")
}

var tags = regexp.MustCompile(`(?s)<tbody>.*?</tbody>`)

// steps is the list of a piece's sheet.
func steps(page, id string) string {
	return strings.Join(tags.FindAllString(section(page, id), -1), "")
}

// tieUp is what the page says of treadles.
func tieUp(page string) string {
	loom := section(page, "loom")
	if i := strings.Index(loom, "<h3>Tie-up</h3>"); i >= 0 {
		return loom[i : i+strings.Index(loom[i:], "<h3>The draft")]
	}
	return ""
}

// TestOnTheLoomShort: where the warp does not reach the page says so where she begins.
func TestOnTheLoomShort(t *testing.T) {
	text := brief.Default()
	b, err := brief.Parse("b", text, brief.Options{})
	require.NoError(t, err)
	p := planned(t, text)
	rest, err := brief.Edit("b", text,
		append(plan.RunsOf(b, p), brief.Change{Key: "midway.woven", Value: `[]`},
			brief.Text("midway.warp", "3 m")))
	require.NoError(t, err)
	page := written(t, rest)
	assert.Contains(t, section(page, "weaving"), "The warp does not reach")
	assert.NotContains(t, section(page, "weaving"), "What is woven, as it was measured")
	assert.Contains(t, section(page, "weaving"), "Go on with piece 1, first light.")
}
