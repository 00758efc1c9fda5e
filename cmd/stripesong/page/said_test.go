package page_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// oneSided is two pieces whose backs are much lighter, in a brief with a darker colour
// that is not used.
func oneSided() []byte {
	text := string(primaries("halvdrall", "6/cm", 2))
	for _, change := range [][2]string{
		{`"A 12 green", "B 12 green"`, `"A 20 chalk", "B 4 chalk"`},
		{`"red"`, `"ink"`}, {`#ff0000`, "#42506f"}, {`"green"`, `"chalk"`}, {`#00ff00`, "#f4f1e8"},
		{`"blue"`, `"chalk"`}, {"name = \"chalk\"\nhex = \"#0000ff\"", "name = \"night\"\nhex = \"#08080c\""},
		{"pieces = 1", "pieces = 2"}, {`["A 24 red", "plain 24", "B 24 red"]`, `["A 20 ink", "B 4 ink"]`},
	} {
		text = strings.ReplaceAll(text, change[0], change[1])
	}
	return []byte(text + "[[piece]]\nname = \"two\"\nruns = [\"A 18 ink\", \"B 6 ink\"]\n")
}

// TestPageSaysWhichSideIsLighter: of the whole set over the pieces, in the words of the
// summary, and of each under it, with its grade; and how to get more of it.
func TestPageSaysWhichSideIsLighter(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, oneSided())
	b := newBrowser(t, 1280, 800)
	b.open(server.Address())
	b.shot("sides")
	said := func(selector string) string {
		return eval[string](b, `document.querySelector(`+quote(selector)+`).innerText`)
	}
	t.Run("the whole set", func(t *testing.T) {
		assert.Equal(t, "all together back lighter, soft to clear 5.9", said("#together"))
		assert.True(t, eval[bool](b, `$("together").getBoundingClientRect().bottom <= $("set").getBoundingClientRect().top`), "over the pieces")
	})
	t.Run("each piece", func(t *testing.T) {
		assert.Equal(t, "clear to strong at 2 m\nback lighter, soft to clear 6.7", said(".piece:nth-child(1) .says"))
		assert.True(t, eval[bool](b, `[...document.querySelectorAll(".piece .says")].every(e => e.scrollHeight <= e.clientHeight)`), "all of it is seen")
	})
	t.Run("how to get more of it", func(t *testing.T) {
		eval[bool](b, `(choose(0), true)`)
		more := bench.Plan().Pieces[0].MoreSides
		require.NotEmpty(t, more)
		assert.Contains(t, said("#strip-shows"), "it would be more "+more[0].Words())
	})
	t.Run("nothing where sides pass for the same", func(t *testing.T) {
		server, bench, _ := serve(t, brief.Default())
		require.Nil(t, bench.Plan().Set.Lighter)
		b.open(server.Address())
		assert.False(t, eval[bool](b, `$("together").checkVisibility()`))
		assert.Equal(t, "clear to strong at 2 m", said(".piece:nth-child(1) .says"))
	})
	b.quiet()
}

// TestFromTheHand: from so near it is said that threads are seen singly, no picture of
// what they blend to is made, and the threads are a press away.
func TestFromTheHand(t *testing.T) {
	t.Parallel()
	server, _, _ := serve(t, brief.Default())
	b := newBrowser(t, 1280, 800)
	b.open(server.Address())
	shades := func() []int { // all that are in a picture
		return eval[[]int](b, `(() => { const shown = document.querySelector(".piece canvas"), canvas = document.createElement("canvas");
			canvas.width = shown.width; canvas.height = shown.height;
			const pen = canvas.getContext("2d", { willReadFrequently: true });
			pen.drawImage(shown, 0, 0);
			return [...new Set(new Uint32Array(pen.getImageData(0, 0, canvas.width, canvas.height).data.buffer))].sort((a, b) => a - b); })()`)
	}
	b.enter("#from", "2")
	assert.False(t, eval[bool](b, `$("singly").checkVisibility()`))
	table := shades()
	b.enter("#from", "0.4")
	assert.Contains(t, eval[string](b, `$("singly").innerText`), "From the hand the threads are seen singly")
	hand := shades()
	assert.Zero(t, eval[int](b, `performance.getEntriesByType("resource").filter(e => e.name.includes("seen?m=0.4")).length`))
	b.click("#singly-show")
	assert.True(t, eval[bool](b, `(async () => { while (!lensShown || lensDrawing) await new Promise(r => setTimeout(r, 5)); return $("lens").checkVisibility(); })()`))
	b.enter("#from", "")
	assert.False(t, eval[bool](b, `$("singly").checkVisibility()`))
	assert.Equal(t, shades(), hand, "in the mixed colours, nothing blurred")
	assert.Greater(t, len(table), 2*len(hand), "as it is from farther off")
	b.quiet()
}

// TestFillsAreTheMixedColours: every block of every piece on the page is filled with
// the plan's mixed colour, on both sides, hems too.
func TestFillsAreTheMixedColours(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, brief.Default())
	b := newBrowser(t, 1280, 800)
	b.open(server.Address())
	b.enter("#zoom", "3")
	p := bench.Plan()
	for _, back := range []bool{false, true} {
		b.enter("#sides", map[bool]string{false: "face", true: "back"}[back])
		for i := range p.Pieces {
			var places [][3]any
			eachFill(p, i, back, func(x, y float64, hex string) { places = append(places, [3]any{x, y, hex}) })
			assert.Empty(t, eval[[]string](b, `(() => {
				const shown = document.querySelectorAll(".piece canvas")[`+string(must(json.Marshal(i)))+`], canvas = document.createElement("canvas");
				canvas.width = shown.width; canvas.height = shown.height;
				const pen = canvas.getContext("2d", { willReadFrequently: true });
				pen.drawImage(shown, 0, 0);
				return `+string(must(json.Marshal(places)))+`.map(([x, y, hex]) => {
					const [r, g, b] = pen.getImageData(Math.floor(x * canvas.width), Math.floor(y * canvas.height), 1, 1).data;
					const got = "#" + (2 ** 24 + r * 65536 + g * 256 + b).toString(16).slice(1);
					return got === hex ? "" : x + " " + y + ": " + got + ", not " + hex;
				}).filter(Boolean); })()`), "%s, back %v", p.Pieces[i].Name, back)
		}
	}
	b.quiet()
}

// eachFill calls with the middle of each block of a piece, as parts of its picture, and
// the plan's colour there.
func eachFill(p *plan.Plan, i int, back bool, fill func(x, y float64, hex string)) {
	piece, shades := &p.Pieces[i], p.Shades()
	end := piece.HemWovenMM + piece.ShowWovenMM
	whole := piece.BodyWovenMM + 2*end
	left := 0
	for _, warp := range p.Warp.Runs {
		x := (float64(left) + float64(warp.Ends)/2) / float64(p.Warp.Ends)
		if back {
			x = 1 - x
		}
		left += warp.Ends
		fill(x, 1-end/2/whole, shades.Hem(warp.Colour, piece.Hem).RGB.Hex())
		at := end
		for _, weft := range piece.Runs {
			high := float64(weft.Units) * p.UnitMM(piece)
			fill(x, 1-(at+high/2)/whole, shades.Body(warp, weft, back).RGB.Hex())
			at += high
		}
		fill(x, end/2/whole, shades.Hem(warp.Colour, piece.Hem).RGB.Hex())
	}
}
