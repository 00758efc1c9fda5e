package page_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// A session with the mouse: choosing, dividing, colouring, drawing edges and pieces about.
func TestMouse(t *testing.T) { onBoth(t, byMouse) }

func byMouse(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	t.Run("a click chooses the band, and again the stripe of the warp", func(t *testing.T) {
		band := b.where(5, 4, 5) // A 80 leaf shade, over the first stripe, which is of block A
		left := b.where(-1, 0, 5)
		at := [2]float64{left[0], band[1]}
		b.tap(at)
		assert.Equal(t, [2]int{5, 4}, b.chosen(), "the band first")
		b.tap([2]float64{at[0] + 9, at[1]})
		assert.Equal(t, [2]int{-1, 0}, b.chosen(), "again: the warp")
		b.tap(b.where(-1, 3, -1))
		assert.Equal(t, [2]int{-1, 3}, b.chosen(), "in the strip over the pieces")
		second := b.where(-1, 1, 5) // block B, where ground is seen
		b.tap([2]float64{second[0], band[1]})
		assert.Equal(t, [2]int{5, 4}, b.chosen(), "the band, whatever lies on top")
		b.tap([2]float64{second[0], band[1] + 9})
		assert.Equal(t, [2]int{-1, 1}, b.chosen(), "again: the stripe that crosses it there")
		b.tap([2]float64{300, 600})
		assert.Equal(t, [2]int{-9, -9}, b.chosen(), "nothing there")
	})
	t.Run("looking is no edit", func(t *testing.T) {
		b.choose(5, 4)
		at := b.where(5, 4, 5)
		b.drag(at, [2]float64{at[0] + 60, at[1] - 80})
		wheel := input.DispatchMouseEventParams{Type: input.DispatchMouseEventTypeMouseWheel,
			X: at[0], Y: at[1], DeltaX: 1, DeltaY: -600}
		b.call(wheel)
		assert.Greater(t, eval[float64](b, `stripesong.sight.zoom`), 1.5)
		b.drag(at, [2]float64{at[0] - 200, at[1] + 80})
		assert.Equal(t, string(brief.Default()), string(bench.Text()))
		b.click("#fit")
		assert.Equal(t, 1.0, eval[float64](b, `stripesong.sight.zoom`))
	})
	t.Run("an edge is drawn by its handle, and stops at its neighbour", func(t *testing.T) {
		b.choose(-1, 2)
		before := bench.Plan().Warp.Runs
		b.click("#edges")
		h := b.handle(0)
		b.hold(h, [2]float64{h[0] + 4, h[1]})
		assert.True(t, eval[bool](b, `document.getElementById("pointer").checkVisibility()`))
		assert.Contains(t, b.words("pointer"), "A ")
		assert.Contains(t, b.words("pointer"), " %")
		b.mouse(input.DispatchMouseEventTypeMouseReleased, h[0]+4, h[1])
		b.settle()
		moved := bench.Plan().Warp.Runs
		assert.Greater(t, moved[2].Units, before[2].Units)
		assert.Regexp(t, fmt.Sprintf(`moved by \+%d units?, in all pieces`,
			moved[2].Units-before[2].Units), b.words("said"), "all of it")
		assert.Equal(t, before[2].Units+before[3].Units, moved[2].Units+moved[3].Units)
		h = b.handle(0)
		b.drag(h, [2]float64{h[0] + 300, h[1]})
		assert.Equal(t, 1, bench.Plan().Warp.Runs[3].Units, "it stops, silently")
		assert.Empty(t, b.words("wrong"))
		undo, _ := bench.Steps()
		assert.Equal(t, 2, undo, "one drag is one step")
		b.click("#undo")
		b.click("#undo")
		assert.Equal(t, before, bench.Plan().Warp.Runs)
	})
	t.Run("Escape puts it back", func(t *testing.T) {
		text := string(bench.Text())
		b.choose(5, 2)
		b.click("#edges")
		h := b.handle(0)
		b.hold(h, [2]float64{h[0], h[1] - 30})
		assert.NotEqual(t, text, string(bench.Text()))
		b.press(kb.Escape)
		assert.Equal(t, text, string(bench.Text()))
		b.mouse(input.DispatchMouseEventTypeMouseReleased, h[0], h[1]-30)
		b.settle()
		assert.Equal(t, text, string(bench.Text()))
		undo, _ := bench.Steps()
		assert.Zero(t, undo, "nothing is left to undo")
	})
	t.Run("a drag that is given up has never been", func(t *testing.T) {
		b.choose(4, 0)
		b.click("#swap")
		b.click("#undo")
		text, _ := string(bench.Text()), ""
		b.choose(-1, 2)
		b.click("#edges")
		h := b.handle(0)
		b.hold(h, [2]float64{h[0] + 9, h[1]})
		b.press(kb.Escape)
		b.mouse(input.DispatchMouseEventTypeMouseReleased, h[0]+9, h[1])
		b.settle()
		assert.Equal(t, text, string(bench.Text()))
		undo, redo := bench.Steps()
		assert.Equal(t, [2]int{0, 1}, [2]int{undo, redo}, "what was undone can be done again")
		assert.False(t, bench.View().Warp.Kept, "it follows its rhythm")
		assert.Equal(t, "nothing has changed", b.words("said"))
		b.click("#edges")
	})
	t.Run("handles of what is narrow lie apart", func(t *testing.T) {
		b.choose(-1, 4)
		b.click("#edges")
		one, two := b.handle(0), b.handle(1)
		assert.GreaterOrEqual(t, math.Hypot(one[0]-two[0], one[1]-two[1]), 44.0)
		b.click("#edges")
	})
	t.Run("the card describes what was moved, and keeps its place", func(t *testing.T) {
		b.choose(5, 4)
		top := func(id string) float64 {
			return eval[float64](b, `(stripesong.draw(), document.getElementById(`+quote(id)+
				`).getBoundingClientRect().top)`)
		}
		before := top("edges")
		b.click("#edges")
		assert.Equal(t, before, top("edges"))
		moved := eval[string](b, `document.querySelector("#card h2").textContent`)
		b.click("#swap")
		assert.Equal(t, before, top("edges"))
		assert.Equal(t, [2]int{5, 5}, b.chosen())
		assert.Equal(t, moved, eval[string](b, `document.querySelector("#card h2").textContent`))
		assert.Contains(t, eval[string](b, `document.querySelector("#card p").textContent`), "Band 6")
		b.click("#undo")
		b.click("#edges")
	})
	t.Run("a card stays with its piece", func(t *testing.T) {
		b.choose(4, -1)
		name := bench.Plan().Pieces[4].Name
		title := func() string { return eval[string](b, `document.querySelector("#card h2").textContent`) }
		b.click("#earlier")
		assert.Contains(t, title(), name)
		for _, id := range []string{"#undo", "#redo", "#undo"} {
			b.click(id)
			assert.Contains(t, title(), name, id)
		}
	})
	t.Run("a number is taken when it is done", func(t *testing.T) {
		b.choose(-1, 1)
		text, units := string(bench.Text()), bench.Plan().Warp.Runs[1].Units
		field := func() string {
			return eval[string](b, `(c => c.value + "|" + (c.why ? c.why.textContent : ""))(document.getElementById("run-units"))`)
		}
		typed := func(keys string) {
			b.focus("#run-units")
			b.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
			b.press(keys)
		}
		typed("12")
		assert.Equal(t, text, string(bench.Text()), "while it is typed")
		typed("2.5" + kb.Enter)
		assert.Equal(t, "2.5|whole numbers only", field())
		b.press(kb.Escape)
		assert.Equal(t, fmt.Sprint(units, "|"), field(), "Escape brings the old one back")
		assert.Equal(t, [2]int{-1, 1}, b.chosen(), "and nothing else")
		typed("100000" + kb.Enter)
		assert.Contains(t, field(), "100000|", "refused, and it stays")
		assert.NotContains(t, field()+"$", "|$", "with the reason")
		assert.Equal(t, text, string(bench.Text()))
		typed(fmt.Sprint(units+3) + kb.Enter)
		assert.Equal(t, units+3, bench.Plan().Warp.Runs[1].Units)
		b.press(kb.ArrowUp)
		b.press(kb.ArrowUp)
		assert.Equal(t, units+5, bench.Plan().Warp.Runs[1].Units)
		b.click("#undo")
		assert.Equal(t, units+3, bench.Plan().Warp.Runs[1].Units, "arrows in a row are one step")
		b.click("#undo")
		assert.Equal(t, text, string(bench.Text()))
	})
	t.Run("two clicks divide, in another colour", func(t *testing.T) {
		b.tap([2]float64{300, 600})
		at := b.where(-1, 4, -1)
		b.tap(at)
		b.tap(at)
		runs := bench.Plan().Warp.Runs
		require.Len(t, runs, 10)
		assert.NotEqual(t, runs[4].Colour, runs[5].Colour, "so that it is seen")
		b.click("#undo")
	})
	t.Run("a yarn is drawn on to a stripe", func(t *testing.T) {
		at := b.where(-1, 1, -1)
		b.drag(b.yarn(6), at)
		assert.Equal(t, "sloe", bench.Plan().Warp.Runs[1].Colour)
		b.hold(b.yarn(5), at)
		b.press(kb.Escape)
		b.mouse(input.DispatchMouseEventTypeMouseReleased, at[0], at[1])
		b.settle()
		assert.Equal(t, "sloe", bench.Plan().Warp.Runs[1].Colour, "given up")
	})
	t.Run("yarn, then stripe", func(t *testing.T) {
		b.tap(b.yarn(5))
		b.tap(b.where(-1, 3, -1))
		assert.Equal(t, "leaf shade", bench.Plan().Warp.Runs[3].Colour)
		b.press(kb.Escape)
	})
	t.Run("a yarn in the hand is laid once", func(t *testing.T) {
		hand := func() int { return eval[int](b, `stripesong.state.hand`) }
		shown := func() bool { return eval[bool](b, `document.getElementById("hand").checkVisibility()`) }
		pick := func() {
			t.Helper()
			b.tap(b.yarn(4))
			assert.Equal(t, 4, hand())
			assert.True(t, shown())
		}
		assert.Equal(t, -1, hand())
		pick()
		before := bench.Plan().Warp.Runs
		band := b.where(2, 1, 2)
		b.tap(band)
		assert.Equal(t, "rosehip", bench.Plan().Pieces[2].Runs[1].Pattern, "the band of a piece")
		assert.Equal(t, before, bench.Plan().Warp.Runs, "never the warp of all of them")
		assert.Contains(t, b.words("said"), "band 2 in rosehip")
		assert.False(t, shown())
		pick()
		b.tap(b.where(-1, 5, -1))
		assert.Equal(t, "rosehip", bench.Plan().Warp.Runs[5].Colour)
		assert.Contains(t, b.words("said"), "stripe 6 in rosehip, in all pieces")
		steps := bench.View().Steps
		pick()
		b.tap(band)
		assert.Contains(t, b.words("said"), "band 2 in rosehip already, so nothing has changed")
		assert.Equal(t, steps, bench.View().Steps, "and no step is made of it")
		b.choose(-1, 0)
		pick()
		at := b.where(-1, 0, 2)
		b.mouse(input.DispatchMouseEventTypeMouseMoved, at[0], at[1])
		b.settle()
		assert.True(t, eval[bool](b, `document.getElementById("meant").checkVisibility()`))
		b.tap(at)
		assert.Equal(t, "rosehip", bench.Plan().Warp.Runs[0].Colour, "what is chosen takes it")
		pick()
		b.tap([2]float64{300, 840})
		assert.Equal(t, -1, hand(), "put down on the empty table")
		assert.Contains(t, b.words("said"), "rosehip put down")
		pick()
		for _, by := range []float64{-8, 5} { // on the name of a piece, and above it
			foot := eval[[2]float64](b,
				`(r => [r.x + 20, r.y])(document.querySelectorAll(".tag")[1].getBoundingClientRect())`)
			b.tap([2]float64{foot[0], foot[1] + by})
			assert.Equal(t, 4, hand(), "a hair beside the cloth it stays in the hand")
			assert.Contains(t, b.words("said"), "still in your hand")
		}
		b.press(kb.Escape)
		pick()
		assert.False(t, eval[bool](b, `document.getElementById("yarn-card").checkVisibility()`),
			"nothing lies where it is to be laid")
		stood := eval[[]float64](b, places)
		b.click("#hand-change")
		b.enter("#yarn-card input[placeholder]", "10 g")
		assert.True(t, eval[bool](b, `document.getElementById("warnings").checkVisibility()`))
		assert.Equal(t, stood, eval[[]float64](b, places), "no button moves for a warning")
		assert.Equal(t, -1, hand(), "another change")
		assert.True(t, eval[bool](b, `document.getElementById("yarn-card").checkVisibility()`))
		pick()
		b.click("#undo")
		assert.Equal(t, -1, hand(), "undone")
		pick()
		b.click("#hand-down")
		assert.Equal(t, -1, hand())
		assert.False(t, shown())
		b.choose(-1, 0)
		pick()
		b.focus("#stage")
		b.press(kb.Escape)
		assert.Equal(t, [3]int{-1, 0, -1}, [3]int{b.chosen()[0], b.chosen()[1], hand()})
	})
	t.Run("a piece is drawn to another place by its name", func(t *testing.T) {
		b.drag(b.tagOf(0), b.where(3, 1, 3))
		assert.Equal(t, "first light", bench.Plan().Pieces[3].Name)
		assert.Equal(t, 3, b.chosen()[0], "and stays chosen")
	})
	b.quiet("422")
}

// handle is where one of the handles is in the window.
func (b *browser) handle(i int) [2]float64 {
	b.t.Helper()
	return eval[[2]float64](b,
		fmt.Sprintf(
			`(() => { stripesong.draw(); const o = document.getElementById("canvas").getBoundingClientRect(), h = stripesong.handles()[%d]; return [o.left + h.x, o.top + h.y]; })()`, i))
}

// yarn is where a yarn of the shelf is.
func (b *browser) yarn(i int) [2]float64 {
	b.t.Helper()
	return eval[[2]float64](b,
		fmt.Sprintf(
			`(r => [r.x + 15, r.y + r.height / 2])(document.querySelectorAll(".yarn-pick")[%d].getBoundingClientRect())`, i))
}

// With fingers: moving over the chosen piece and pinching only look; a handle of 44
// pixels that was asked for moves an edge.
func TestFingers(t *testing.T) { onBoth(t, byFingers) }

func byFingers(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 390, 844)
	b.touch(true)
	bench.open(b)
	text := string(brief.Default())
	at := b.where(5, 4, 5)
	b.slide([][2]float64{at}, [][2]float64{at})
	assert.Equal(t, [2]int{5, 4}, b.chosen(), "a tap chooses")
	b.shot("phone-band")
	at = b.where(5, 4, 5)
	edge := [2]float64{at[0], at[1] - 16}
	for _, asked := range []bool{false, true} {
		if asked {
			b.click("#edges")
		}
		far := b.where(4, 1, 4)
		b.slide([][2]float64{far}, [][2]float64{{far[0], far[1] + 60}})
		b.slide([][2]float64{{far[0] - 20, far[1]}, {far[0] + 20, far[1]}},
			[][2]float64{{far[0] - 60, far[1]}, {far[0] + 60, far[1]}})
		if !asked {
			b.slide([][2]float64{edge}, [][2]float64{{edge[0], edge[1] + 50}})
		}
		assert.Equal(t, text, string(bench.Text()), "asked for: %v", asked)
		assert.Equal(t, [2]int{5, 4}, b.chosen())
		assert.Greater(t, eval[float64](b, `stripesong.sight.zoom`), 1.0, "pinching enlarges")
		b.click("#fit")
	}
	h := b.handle(0)
	before := bench.Plan().Pieces[5].Runs
	b.slide([][2]float64{{h[0] + 15, h[1] - 15}}, [][2]float64{{h[0] + 15, h[1] - 35}})
	after := bench.Plan().Pieces[5].Runs
	assert.NotEqual(t, before[4].Units, after[4].Units, "a handle is 44 pixels wide")
	assert.Equal(t, before[4].Units+before[5].Units, after[4].Units+after[5].Units)
	assert.Empty(t, b.words("wrong"))
	b.click("#undo")
	h = b.handle(0)
	b.fingers(input.DispatchTouchEventTypeTouchStart, h)
	b.fingers(input.DispatchTouchEventTypeTouchMove, [2]float64{h[0], h[1] - 30})
	b.settle()
	assert.NotEqual(t, text, string(bench.Text()))
	b.fingers(input.DispatchTouchEventTypeTouchMove, [2]float64{h[0], h[1] - 30},
		[2]float64{h[0] + 60, h[1] + 60})
	b.fingers(input.DispatchTouchEventTypeTouchStart, [2]float64{h[0], h[1] - 30},
		[2]float64{h[0] + 60, h[1] + 60})
	b.fingers(input.DispatchTouchEventTypeTouchEnd)
	b.settle()
	assert.Equal(t, text, string(bench.Text()), "a second finger gives it up")
	b.slide([][2]float64{b.yarn(0)}, [][2]float64{b.yarn(0)})
	assert.Contains(t, b.words("hand-says"), "oat in your hand")
	b.shot("phone-hand")
	at = b.where(5, 4, 5)
	foot := eval[float64](b, `(b => b.y + b.h + document.getElementById("canvas").getBoundingClientRect().top)(stripesong.boxesOf(5)[0])`)
	assert.Less(t, foot, eval[float64](b, `document.getElementById("hand").getBoundingClientRect().top`),
		"it covers no cloth")
	b.slide([][2]float64{at}, [][2]float64{at})
	assert.Equal(t, "oat", bench.Plan().Pieces[5].Runs[4].Pattern, "yarn, then band")
	assert.Equal(t, -1, eval[int](b, `stripesong.state.hand`), "laid once")
	b.click("#undo")
	b.choose(5, 4)
	tappedByName(t, b)
	assert.Equal(t, text, string(bench.Text()))
	scrolledPastButtons(t, b, bench, text)
	pinchedOnNames(t, b)
	b.quiet()
}

// tappedByName chooses pieces by their names, over which a card comes out: the tap is over,
// and presses nothing on the card.
func tappedByName(t *testing.T, b *browser) {
	t.Helper()
	for i := range 6 {
		b.press(kb.Escape)
		b.press(kb.Escape)
		tag := b.tagOf(i)
		b.slide([][2]float64{tag}, [][2]float64{tag})
		assert.Equal(t, [2]int{i, -9}, b.chosen())
		assert.True(t, eval[bool](b, `document.getElementById("tray").hidden`))
	}
	b.press(kb.Escape)
	b.choose(5, 4)
}

// scrolledPastButtons begins to scroll the card on what moves an edge.
func scrolledPastButtons(t *testing.T, b *browser, bench *work, text string) {
	t.Helper()
	if !eval[bool](b, `stripesong.state.edges`) {
		b.click("#edges")
	}
	at := eval[[2]float64](b, `(e => { e.scrollIntoView(); const r = e.getBoundingClientRect(); return [r.x + 20, r.y + r.height / 2]; })(document.getElementById("wider"))`)
	b.slide([][2]float64{at}, [][2]float64{{at[0] + 10, at[1] - 60}})
	assert.Equal(t, text, string(bench.Text()), "scrolling is no edit")
	assert.GreaterOrEqual(t, eval[float64](b, `document.getElementById("wider").offsetHeight`), 44.0)
	assert.Zero(t, eval[int](b, `document.querySelectorAll(".card input[type=range]").length`))
	b.click("#edges")
}

// pinchedOnNames pinches with one finger on the name of a piece, and on the bar.
func pinchedOnNames(t *testing.T, b *browser) {
	t.Helper()
	b.click("#fit")
	name := eval[[2]float64](b, `(r => [r.x + 10, r.y + 8])(document.querySelectorAll(".tag")[2].getBoundingClientRect())`)
	b.slide([][2]float64{name, {name[0] + 30, name[1] - 60}},
		[][2]float64{{name[0] - 30, name[1] + 20}, {name[0] + 90, name[1] - 120}})
	assert.Greater(t, eval[float64](b, `stripesong.sight.zoom`), 1.2)
	b.click("#fit")
	assert.Equal(t, "pan-x pan-y", eval[string](b, `getComputedStyle(document.documentElement).touchAction`))
}

// Keeping a piece leaves place, name, number and choice as they are.
func TestKeepingAPiece(t *testing.T) { onBoth(t, keepingAPiece) }

func keepingAPiece(t *testing.T, on target) {
	text := string(brief.Default())
	text = text[:strings.Index(text, "[[piece]]\nname    = \"windfall\"")] +
		"[vary]\ncandidates = 60\n"
	bench := on.work(t, []byte(text))
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	before := labels(bench.View())
	b.choose(3, -1)
	b.click("#keep")
	assert.Equal(t, [2]int{3, -9}, b.chosen())
	assert.Equal(t, before, labels(bench.View()))
	assert.True(t, bench.View().Pieces[3].Kept)
	for i := range 3 {
		assert.Equal(t, i == 1, bench.View().Pieces[3+i-1].Kept, "no other")
	}
	b.click("#turn")
	after := labels(bench.View())
	assert.Equal(t, before[:3], after[:3])
	assert.Equal(t, before[4:], after[4:])
	assert.False(t, eval[bool](b, `document.getElementById("order").checkVisibility()`),
		"a rule that it does not follow is not shown")
	assert.Contains(t, eval[string](b,
		`document.querySelector("#rhythm select").selectedOptions[0].text`), "kept")
	b.quiet()
}

// Only where there is another by chance is there a button for it.
func TestNoButtonForNothing(t *testing.T) { onBoth(t, noButtonForNothing) }

func noButtonForNothing(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	shown := func(id string) bool {
		return eval[bool](b, `document.getElementById(`+quote(id)+`).checkVisibility()`)
	}
	for i, p := range bench.View().Pieces {
		b.choose(i, -1)
		assert.Equal(t, p.Chance, shown("another"), p.Name)
		assert.Equal(t, !p.Kept, shown("keep"), p.Name)
		if !p.Chance {
			continue
		}
		before := labels(bench.View())[i]
		b.click("#another")
		assert.NotEqual(t, before, labels(bench.View())[i], "%s: it does something", p.Name)
	}
	b.quiet()
}

// What was refused stays, marked, with the reason, until it is mended.
func TestRefusedTextStays(t *testing.T) { onBoth(t, refusedTextStays) }

func refusedTextStays(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	b.click("#sizes")
	const width = "#settings label:nth-child(4) input"
	b.enter(width, "wide")
	mark := func() string {
		return eval[string](b,
			`(c => c.value + "|" + c.getAttribute("aria-invalid"))(document.querySelector(`+quote(width)+`))`)
	}
	assert.Equal(t, "wide|true", mark())
	assert.Contains(t, b.why(width), "wide")
	assert.Empty(t, b.words("wrong"), "said once")
	b.enter("#settings label:nth-child(5) input", "60 cm")
	assert.Equal(t, "wide|true", mark(), "whatever else is done")
	assert.Contains(t, b.why(width), "wide")
	b.enter(width, "48 cm")
	assert.Equal(t, "48 cm|null", mark())
	assert.Empty(t, b.why(width))
	assert.Contains(t, string(bench.Text()), "48 cm")
	b.enter(width, "46,5")
	assert.Empty(t, b.words("wrong"))
	assert.Contains(t, string(bench.Text()), `"46.5 cm"`, "a bare number has the page's unit")
	b.choose(0, 0)
	b.enter("#run-units", "0")
	assert.NotEmpty(t, b.why("#run-units"))
	b.choose(0, 1)
	assert.Empty(t, b.why("#run-units"), "it was of another band")
	b.choose(-1, 1)
	b.click("#split")
	assert.Contains(t, b.why(width), "the warp is written out and stays",
		"what is not followed is said where it is asked for")
	b.quiet("422")
}

// why is the reason that is read with a control whose value was not taken, where it is
// seen below the control; "" where there is none.
func (b *browser) why(selector string) string {
	b.t.Helper()
	return eval[string](b, `(c => { const e = document.getElementById(c.getAttribute("aria-describedby"));
		if (!e) return "";
		const a = c.getBoundingClientRect(), r = e.getBoundingClientRect(), over = document.elementFromPoint(r.left + 4, r.top + r.height / 2);
		return r.top >= a.bottom - 1 && r.top < a.bottom + 60 && e.contains(over) ? e.innerText : "not seen"; })(document.querySelector(`+quote(selector)+`))`)
}

// reached tells whether something is seen and nothing lies over it.
func (b *browser) reached(selector string) bool {
	b.t.Helper()
	return eval[bool](b, `(e => { const r = e.getBoundingClientRect(); return r.width > 0 && r.left >= 0 && r.top >= 0 && r.right <= innerWidth && r.bottom <= innerHeight &&
		e.contains(document.elementFromPoint(r.left + r.width / 2, r.top + r.height / 2)); })(document.querySelector(`+quote(selector)+`))`)
}

// What is wrong is said over everything, with its Close in reach; in a dialog in the dialog.
func TestMessagesAreReached(t *testing.T) { onBoth(t, messagesAreReached) }

func messagesAreReached(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	text := string(bench.Text())
	wrong := func() {
		eval[bool](b, `stripesong.send("do", { op: { do: "setting", key: "nothing", value: "1" } }).then(() => true)`)
	}
	for _, size := range append(sizes, [2]int{1280, 800}) {
		b.size(size)
		b.choose(0, -1)
		wrong()
		assert.True(t, b.reached("#wrong-close"), "%v: over a card", size)
		b.shot(fmt.Sprintf("wrong-%d", size[0]))
		b.click("#wrong-close")
		assert.Empty(t, b.words("wrong"))
		b.choose(-1, 2)
		b.click("#sizes")
		wrong()
		assert.True(t, b.reached("#wrong-close"), "%v: over the drawer", size)
		assert.True(t, eval[bool](b, `document.getElementById("wrong").getBoundingClientRect().top > 150`), "below the warp's stripes")
		b.click("#drawer-close")
		b.click("#more")
		b.click("#kinds")
		assert.True(t, b.reached("#wrong-close"), "%v: in a dialog", size)
		b.click("#wrong-close")
		b.enter("#yarn-list input", "banana")
		assert.Contains(t, b.why("#yarn-list input"), "banana")
		b.shot(fmt.Sprintf("refused-%d", size[0]))
		b.enter("#yarn-list input", bench.View().Yarns[0].Count)
		assert.Empty(t, b.why("#yarn-list input"))
		b.enter("#yarn-name", "")
		b.enter("#yarn-count", "")
		b.click("#yarn-add button")
		assert.Contains(t, b.why("#yarn-name"), "no name")
		assert.Contains(t, b.why("#yarn-count"), "no count")
		b.enter("#yarn-name", "tow")
		b.enter("#yarn-count", "thick")
		assert.Empty(t, b.why("#yarn-name"))
		b.click("#yarn-add button")
		assert.Contains(t, b.why("#yarn-count"), "thick")
		b.enter("#add-name", "oat")
		b.click("#add button")
		assert.Contains(t, b.why("#add-name"), "oat")
		b.click("#yarns-close")
		assert.Equal(t, text, string(bench.Text()))
	}
	b.quiet("422")
}

// A second window follows the first at once.
func TestTwoWindows(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, brief.Default())
	first, second := newBrowser(t, 1440, 900), newBrowser(t, 1024, 768)
	first.open(server.Address())
	second.open(server.Address())
	first.choose(-1, 0)
	first.enter("#run-units", "31")
	follows := func(b *browser) {
		assert.True(t, eval[bool](b, fmt.Sprintf(
			`new Promise(done => { const look = () => stripesong.edition === %d ? done(true) : setTimeout(look, 5); look(); })`,
			bench.Edition())))
		b.settle()
	}
	follows(second)
	assert.Equal(t, 31, eval[int](second, `stripesong.cloth().warp.runs[0][1]`))
	assert.Contains(t, second.words("said"), "another window has changed this")
	second.choose(-1, 1)
	second.enter("#run-units", "20")
	assert.Equal(t, 20, bench.Plan().Warp.Runs[1].Units, "and may go on from there")
	follows(first) // what is saved before it has followed it hears of as one change
	second.click("#save")
	assert.True(t, eval[bool](first, `new Promise(done => { const look = () =>
		stripesong.state.view.saved ? done(true) : setTimeout(look, 5); look(); })`))
	assert.Equal(t, "another window has saved this", first.words("said"))
	first.quiet()
	second.quiet()
}

// places is where the bar's controls stand, from the left.
const places = `[...document.querySelectorAll("#bar button, #bar input, #bar select")].filter(e => e.checkVisibility()).map(e => e.getBoundingClientRect().x)`
