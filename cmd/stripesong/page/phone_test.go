package page_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// onPhone is a page under fingers.
func onPhone(t *testing.T, on target) (*work, *browser) { return underFingers(t, on, 390, 844) }

func underFingers(t *testing.T, on target, wide, high int) (*work, *browser) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, wide, high)
	b.touch(true)
	bench.open(b)
	return bench, b
}

// touchOn taps the middle of what a selector finds.
func (b *browser) touchOn(selector string) {
	b.t.Helper()
	at := eval[[2]float64](b, `(e => { e.scrollIntoView({ block: "nearest", inline: "nearest" });
		const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })(document.querySelector(`+quote(selector)+`))`)
	b.slide([][2]float64{at}, [][2]float64{at})
}

// tagOf is where the name of a piece is.
func (b *browser) tagOf(piece int) [2]float64 {
	b.t.Helper()
	return eval[[2]float64](b, fmt.Sprintf(
		`(r => [r.x + 20, r.y + 8])(document.querySelectorAll(".tag")[%d].getBoundingClientRect())`, piece))
}

// boxOf is where a piece lies on the canvas, and how tall that is.
func (b *browser) boxOf(piece int) (box struct{ X, Y, W, H, Room float64 }) {
	b.t.Helper()
	return eval[struct{ X, Y, W, H, Room float64 }](b, fmt.Sprintf(`(stripesong.draw(), { ...stripesong.boxesOf(%d)[0], room: document.getElementById("canvas").clientHeight })`, piece))
}

// A card on a phone leaves the pieces as large as they are, and the one that it is of in
// sight; where all are asked for, all are seen.
func TestPhonePiecesKeepTheirSize(t *testing.T) { onBoth(t, phonePiecesKeepTheirSize) }

func phonePiecesKeepTheirSize(t *testing.T, on target) {
	_, b := onPhone(t, on)
	for _, piece := range []int{5, 0, 4} {
		rest := b.boxOf(piece)
		tag := b.tagOf(piece)
		b.slide([][2]float64{tag}, [][2]float64{tag})
		require.Equal(t, [2]int{piece, -9}, b.chosen())
		now := b.boxOf(piece)
		assert.InDelta(t, rest.W, now.W, 8, "as large as at rest")
		assert.GreaterOrEqual(t, now.Y, 0.0)
		assert.LessOrEqual(t, now.Y+now.H, now.Room, "and wholly in sight")
		b.touchOn("#card .close")
	}
	b.choose(4, -1)
	b.touchOn("#fit")
	for piece := range 6 {
		now := b.boxOf(piece)
		assert.True(t, now.Y >= 0 && now.Y+now.H <= now.Room, "piece %d is seen", piece)
	}
	b.touchOn("#card .close")
	b.quiet()
}

// With a finger an offer is looked at by a tap and taken by the next, or by the button that
// comes with it; nothing is looked at before it is touched, and no line is cut to a column.
func TestPhoneTray(t *testing.T) { onBoth(t, phoneTray) }

func phoneTray(t *testing.T, on target) {
	bench, b := onPhone(t, on)
	text := string(bench.Text())
	looking := func() bool { return eval[bool](b, `!!stripesong.state.preview`) }
	taken := func() bool { return string(bench.Text()) != text }
	b.choose(1, -1)
	b.touchOn("#like")
	require.NotEmpty(t, b.items())
	assert.False(t, looking(), "nothing was touched")
	b.shot("phone-tray")
	b.touchOn("#tray-row li:nth-child(2) .take")
	assert.True(t, looking())
	assert.False(t, taken())
	assert.Contains(t, b.words("tray-said"), "looked at, not taken: ")
	assert.Greater(t, eval[float64](b, `document.getElementById("tray-said").offsetWidth`), 300.0)
	seen := b.boxOf(1)
	assert.True(t, seen.Y >= 0 && seen.Y+seen.H <= seen.Room, "the piece is seen")
	at := b.where(1, 1, 1)
	b.slide([][2]float64{at}, [][2]float64{at})
	assert.False(t, looking(), "a tap on the cloth ends looking")
	assert.False(t, eval[bool](b, `document.getElementById("tray-take").checkVisibility()`))
	b.touchOn("#tray-row li:nth-child(2) .take")
	b.touchOn("#tray-take")
	assert.True(t, taken())
	assert.False(t, looking())
	assert.Contains(t, b.words("tray-said"), "taken: ")
	b.touchOn("#undo")
	assert.False(t, taken())
	b.touchOn("#tray-row li:nth-child(1) .take")
	b.touchOn("#tray-row li:nth-child(2) .take")
	assert.True(t, looking(), "another is looked at")
	grade := eval[string](b, `stripesong.state.preview.shows[1].grade`)
	assert.NotEmpty(t, grade)
	tag := eval[string](b, `document.querySelectorAll(".tag")[1].innerText`)
	assert.Contains(t, tag, "2 ladder")
	assert.Contains(t, tag, strings.Split(grade, " at ")[0], "and how plainly it shows")
	b.touchOn("#tray-row li:nth-child(1) .group button:last-child")
	assert.False(t, looking(), "beside the work as it is")
	assert.Contains(t, b.words("beside-what"), "left: yours, as it is now")
	b.touchOn("#tray-row li:nth-child(2) .take")
	assert.True(t, looking())
	assert.False(t, eval[bool](b, `!!stripesong.state.beside`), "one thing is looked at")
	assert.False(t, taken())
	b.touchOn("#tray-row li:nth-child(2) .take")
	assert.True(t, taken(), "the same again takes it")
	b.touchOn("#tray-row li:nth-child(1) .take")
	b.touchOn("#save")
	assert.False(t, looking(), "what is saved is what is seen")
	b.touchOn("#tray-close")
	b.quiet()
}

// Nothing moves under a finger: neither the shelf for a warning, nor the cloth for a yarn
// in the hand, nor what a stripe was tapped over; offers are seen, not hidden by the drawer.
func TestPhoneStands(t *testing.T) { onBoth(t, phoneStands) }

func phoneStands(t *testing.T, on target) {
	bench, b := onPhone(t, on)
	shelf := func() float64 {
		return eval[float64](b, `document.getElementById("shelf").getBoundingClientRect().top`)
	}
	at, cloth := shelf(), b.boxOf(4)
	b.touchOn(".yarn:nth-child(2) .yarn-pick")
	assert.Equal(t, cloth.Y, b.boxOf(4).Y, "the cloth stands while a yarn is taken")
	band := b.where(4, 1, 4)
	b.slide([][2]float64{band}, [][2]float64{band})
	require.Equal(t, "barley", bench.Plan().Pieces[4].Runs[1].Pattern)
	for _, stock := range []string{"450 m", "20 m"} { // less than the spare; short
		b.touchOn(".yarn:nth-child(2) .yarn-pick")
		b.touchOn("#hand-change")
		b.enter("#yarn-card input[placeholder]", stock)
		b.touchOn("#yarn-card .close")
		assert.InDelta(t, at, shelf(), 1, stock)
	}
	assert.Contains(t, b.words("colours"), "short")
	b.choose(5, -1)
	seen := b.boxOf(5)
	require.Less(t, b.boxOf(1).Y, 0.0, "moved up for the card")
	strip := b.where(-1, 3, -1)
	b.slide([][2]float64{strip}, [][2]float64{strip})
	assert.Equal(t, [2]int{-1, 3}, b.chosen())
	assert.Equal(t, seen.Y, b.boxOf(5).Y, "a tap on the strip leaves the cloth where it is")
	b.touchOn("#card .close")
	b.touchOn("#sizes")
	b.touchOn("#set-unlike")
	require.NotEmpty(t, b.items())
	assert.False(t, eval[bool](b, `document.getElementById("drawer").checkVisibility()`))
	b.touchOn("#sizes")
	assert.False(t, eval[bool](b, `document.getElementById("tray").checkVisibility()`))
	b.touchOn("#drawer-close")
	b.quiet()
}

// What an edge says beside the finger is within the window.
func TestPhoneEdgeWords(t *testing.T) { onBoth(t, phoneEdgeWords) }

func phoneEdgeWords(t *testing.T, on target) {
	_, b := onPhone(t, on)
	b.choose(5, 4)
	b.touchOn("#edges")
	for i := range 2 {
		h := b.handle(i)
		b.fingers(input.DispatchTouchEventTypeTouchStart, h)
		b.fingers(input.DispatchTouchEventTypeTouchMove, [2]float64{h[0] + 40, h[1] - 30})
		b.settle()
		require.True(t, eval[bool](b, `document.getElementById("pointer").checkVisibility()`))
		assert.True(t, eval[bool](b, `(r => r.x >= 0 && r.right <= innerWidth)(document.getElementById("pointer").getBoundingClientRect())`))
		b.fingers(input.DispatchTouchEventTypeTouchEnd)
		b.settle()
	}
	b.quiet()
}

// What a finger is to hit is 44 pixels high, in any state: the size that the guidelines for
// content on the web name for targets (WCAG 2.2, 2.5.5). What hangs together with its label
// is as large as the label.
func TestFingersHaveRoom(t *testing.T) { onBoth(t, fingersHaveRoom) }

func fingersHaveRoom(t *testing.T, on target) {
	for _, size := range [][2]int{{390, 844}, {768, 1024}} {
		_, b := underFingers(t, on, size[0], size[1])
		haveRoom(t, b)
	}
}

func haveRoom(t *testing.T, b *browser) {
	t.Helper()
	check := func(state string) {
		t.Helper()
		assert.Empty(t, eval[[]string](b, `[...document.querySelectorAll("button, select, input, a[href]")]
			.filter(e => e.checkVisibility() && !e.closest(".skip"))
			.map(e => [e, (e.type !== "color" && e.closest("label") || e).getBoundingClientRect()])
			.filter(([e, r]) => r.height < 43.5 || r.width < 43.5)
			.map(([e, r]) => (e.id || e.className || e.textContent) + " " + r.width + " x " + r.height)`),
			state)
	}
	check("at rest")
	b.touchOn("#sizes")
	assert.True(t, eval[bool](b, `(r => r.y >= 0 && r.bottom <= innerHeight && r.right <= innerWidth)(document.getElementById("drawer-close").getBoundingClientRect())`),
		"what puts the drawer away is in sight")
	check("the drawer")
	b.touchOn("#drawer-close")
	b.touchOn("#more")
	check("the menu")
	b.touchOn("#kinds")
	check("yarns")
	b.touchOn("#yarns-close")
	b.choose(1, 1)
	b.touchOn("#edges")
	check("a band and its edges")
	b.touchOn("#whole")
	check("a piece")
	b.touchOn("#like")
	check("others")
	b.touchOn("#tray-close")
	b.touchOn(".yarn-pick")
	check("a yarn in the hand")
	b.touchOn("#hand-change")
	check("a yarn's card")
	b.quiet()
}
