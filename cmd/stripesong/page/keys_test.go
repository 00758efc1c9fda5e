package page_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

func (b *browser) focus(selector string) {
	b.t.Helper()
	eval[bool](b, `(document.querySelector(`+quote(selector)+
		`).focus({ focusVisible: true }), true)`)
}

// stops presses Tab until it has come round, and gives where it stopped; unseen are the
// places where that can't be seen.
func (b *browser) stops() (all, unseen []string) {
	b.t.Helper()
	eval[bool](b, `(document.body.tabIndex = -1, document.body.focus(), // where Tab starts from
		document.body.removeAttribute("tabindex"), window.getSelection().removeAllRanges(),
		document.querySelectorAll("[data-stop]").forEach(e => { delete e.dataset.stop; }), true)`)
	const here = `(e => { const s = getComputedStyle(e); return [e.id || e.className || e.tagName, e === document.body ? "body" : s.outlineStyle === "none" ? "unseen" : "seen"]; })(document.activeElement)`
	seen := map[string]bool{}
	for range 90 {
		b.do(chromedp.KeyEvent(kb.Tab))
		at := eval[[2]string](b, here)
		mark := eval[string](b,
			`(window.n = (window.n || 0) + 1, document.activeElement.dataset.stop = String(document.activeElement.dataset.stop || window.n))`)
		if at[1] == "body" || seen[mark] {
			break
		}
		seen[mark] = true
		all = append(all, at[0])
		if at[1] == "unseen" {
			unseen = append(unseen, at[0])
		}
	}
	return all, unseen
}

// Everything is reached in at most thirty stops of the Tab key, and it is seen where one
// is.
func TestThirtyStops(t *testing.T) { onBoth(t, thirtyStops) }

func thirtyStops(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	for _, title := range []string{"one", "another"} {
		eval[bool](b, `(stripesong.send("do", { op: { do: "setting", key: "title", value: "`+title+
			`" } }), true)`)
	}
	b.click("#undo") // so that all steps can be taken
	for name, strip := range map[string][2]int{"at rest": {-9, 0}, "a stripe": {-1, 2},
		"the warp": {-1, -1}, "a piece": {2, -1}, "a band": {5, 1}} {
		eval[bool](b, `(stripesong.choose(null), true)`)
		if strip[0] != -9 {
			b.choose(strip[0], strip[1])
		}
		all, unseen := b.stops()
		t.Logf("%s: %d stops: %v", name, len(all), all)
		assert.LessOrEqual(t, len(all), 30, name)
		assert.Empty(t, unseen, name)
		assert.Contains(t, all, "stage")
		assert.Empty(t, eval[[]string](b,
			`[...document.querySelectorAll("button, input, select, summary, [role=slider]")].filter(e => e.checkVisibility() && !e.disabled && e.tabIndex === 0 && !e.dataset.stop).map(e => e.outerHTML.slice(0, 100))`), "%s: not reached", name)
		assert.Empty(t, eval[[]string](b,
			`[...document.querySelectorAll("button, input, select, summary, [role=slider]")].filter(e => e.checkVisibility() && !(e.labels && e.labels.length && [...e.labels].some(l => l.textContent.trim())) && !e.getAttribute("aria-label") && !e.textContent.trim()).map(e => e.outerHTML.slice(0, 100))`), "%s: without a name", name)
	}
	menuByKeys(b)
	b.quiet()
}

// menuByKeys: the menu stands at its button, arrows go round in it and nowhere else, and
// Escape leads back.
func menuByKeys(b *browser) {
	b.t.Helper()
	for _, size := range sizes {
		b.size(size)
		b.focus("#more")
		b.press(kb.Enter)
		at := func() string { return eval[string](b, `document.activeElement.id`) }
		assert.Equal(b.t, "save-as", at())
		b.press(kb.ArrowUp)
		assert.Equal(b.t, "keys", at())
		b.press(kb.ArrowDown)
		b.press(kb.ArrowDown)
		assert.Equal(b.t, "packet", at())
		b.press(kb.End)
		assert.Equal(b.t, "keys", at())
		b.press(kb.Home)
		assert.Equal(b.t, "save-as", at())
		assert.True(b.t, eval[bool](b, `(() => {
			const [more, menu] = ["more", "menu"].map(id => document.getElementById(id).getBoundingClientRect());
			return menu.top >= more.bottom && menu.top < more.bottom + 10 && menu.left <= more.right &&
				menu.right >= more.left && menu.left >= 0 && menu.right <= innerWidth && menu.bottom <= innerHeight; })()`),
			"%v", size)
		b.press(kb.Escape)
		assert.Equal(b.t, "more", at())
	}
}

// A session by keys alone.
func TestKeys(t *testing.T) { onBoth(t, byKeys) }

func byKeys(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	said := func() string {
		return eval[string](b,
			`(e => e ? e.textContent : "")(document.getElementById(document.getElementById("stage").getAttribute("aria-activedescendant")))`)
	}
	shift := func(key string) {
		b.do(chromedp.KeyEvent(key, chromedp.KeyModifiers(chromedp.ModifierShift)))
		b.settle()
	}
	b.focus("#stage")
	b.press(kb.ArrowRight)
	assert.Equal(t, "the warp", said())
	b.press(kb.Enter)
	assert.Equal(t, "A 29 oat", said())
	b.press(kb.ArrowRight)
	assert.Equal(t, "B 18 barley", said())
	before := bench.Plan().Warp.Runs
	shift(kb.ArrowRight)
	assert.Equal(t, before[1].Units+1, bench.Plan().Warp.Runs[1].Units, "an edge by a unit")
	b.press(kb.PageDown)
	assert.Equal(t, before[1].Units-4, bench.Plan().Warp.Runs[1].Units, "by five")
	undo, _ := bench.Steps()
	assert.Equal(t, 1, undo, "presses in a row are one step")
	third := bench.Plan().Warp.Runs[2]
	b.press("s")
	assert.Equal(t, third, bench.Plan().Warp.Runs[1], "neighbours change places")
	assert.Equal(t, 2, b.chosen()[1], "and it stays the chosen one")
	assert.Contains(t, b.words("said"), "change places", "said aloud")
	b.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.settle()
	assert.Equal(t, before, bench.Plan().Warp.Runs)
	b.press("d")
	assert.Len(t, bench.Plan().Warp.Runs, len(before)+1, "divided")
	b.press(kb.Delete)
	assert.Len(t, bench.Plan().Warp.Runs, len(before), "taken out")
	b.press("e")
	assert.True(t, eval[bool](b, `document.getElementById("wider").checkVisibility()`),
		"the edge has buttons")
	b.focus("#wider")
	units := bench.Plan().Warp.Runs[2].Units
	b.press(kb.ArrowRight)
	assert.Equal(t, units+1, bench.Plan().Warp.Runs[2].Units)
	b.focus("#stage")
	b.press(kb.Escape)
	b.press(kb.ArrowDown)
	assert.Contains(t, said(), "first light")
	b.focus("#piece-name")
	b.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.press("dusk" + kb.Enter)
	assert.Equal(t, "dusk", bench.Plan().Pieces[0].Name, "a name")
	b.focus("#rhythm select")
	b.press(kb.Home)
	assert.Equal(t, "even", bench.View().Pieces[0].Rhythm["kind"], "a list")
	b.focus("#rhythm input[type=number]")
	b.press(kb.ArrowUp)
	assert.Equal(t, "8", bench.View().Pieces[0].Rhythm["stripes"], "a chip with a number")
	b.focus("#rhythm input[type=checkbox]")
	b.press(" ")
	assert.Equal(t, "true", bench.View().Pieces[0].Rhythm["mirror"], "a tick")
	b.focus(".checks input")
	b.press(kb.ArrowRight)
	b.press(" ")
	assert.Contains(t, bench.View().Pieces[0].Colours, 1, "one colour of many")
	b.focus(".yarn-pick")
	b.press(kb.ArrowDown)
	b.press(kb.Enter)
	assert.Equal(t, 1, eval[int](b, `stripesong.state.hand`), "a yarn is in the hand")
	b.focus("#stage")
	chosen := b.chosen()
	b.press(kb.Escape)
	assert.Equal(t, -1, eval[int](b, `stripesong.state.hand`), "the first that Escape does")
	assert.Equal(t, chosen, b.chosen())
	b.focus("#from")
	b.press(kb.End)
	assert.Equal(t, 10.0, eval[float64](b, `stripesong.state.metres`))
	b.press("f")
	assert.True(t, eval[bool](b, `stripesong.state.back`))
	b.focus("#save")
	b.press(kb.Enter)
	saved := string(bench.saved())
	assert.Equal(t, string(bench.Text()), saved)
	b.quiet()
}

// Presses that are quicker than the answers all mean the run that was chosen.
func TestQuickPresses(t *testing.T) { onBoth(t, quickPresses) }

func quickPresses(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	before := bench.Plan().Warp.Runs
	last := len(before) - 1
	b.choose(-1, last-1)
	eval[bool](b, `([1, 2, 3].forEach(() => document.getElementById("swap").click()), true)`)
	b.settle()
	assert.Equal(t, last, b.chosen()[1], "it went with the stripe")
	b.choose(-1, 0)
	eval[bool](b,
		`(document.getElementById("swap").click(), stripesong.choose({ strip: 1, run: 0, via: 1 }), true)`)
	b.settle()
	assert.Equal(t, before[1], bench.Plan().Warp.Runs[0])
	assert.Equal(t, [2]int{1, 0}, b.chosen(), "another piece was chosen meanwhile")
	eval[bool](b,
		`([1, 2, 3, 4].forEach(() => { document.getElementById("stage").dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp", shiftKey: true, bubbles: true })); }), true)`)
	b.settle()
	b.quiet()
}

// violations runs the accessibility engine over what shows.
func (b *browser) violations() []string {
	b.t.Helper()
	return eval[[]string](b,
		`axe.run(document, { resultTypes: ["violations"] }).then(r => r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")))`)
}

// axe is the engine's script, from where STRIPESONG_AXE says.
func axe(t *testing.T) string {
	path := os.Getenv("STRIPESONG_AXE")
	if path == "" {
		if os.Getenv("STRIPESONG_CI") == "1" {
			t.Fatal("STRIPESONG_AXE does not name the accessibility engine")
		}
		t.Skip("STRIPESONG_AXE does not name the accessibility engine")
	}
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// The accessibility engine finds nothing in any state.
func TestAccessible(t *testing.T) { onBoth(t, accessible) }

func accessible(t *testing.T, on target) {
	engine := axe(t)
	bench, b := on.work(t, brief.Default()), newBrowser(t, 1440, 900)
	bench.open(b)
	b.do(chromedp.Evaluate[chromedp.Void](engine + "\n;0"))
	all := append(slices.Clone(sizes), [2]int{640, 480}) // the last is 1280 x 960 at 200 %
	if on != (machine{}) {
		all = sizes[2:] // it is the same page but for one button
	}
	for _, size := range all {
		b.size(size)
		for _, dark := range []bool{false, true} {
			eval[bool](b,
				fmt.Sprintf(`(stripesong.state.dark = %v, stripesong.choose(null), true)`, dark))
			check := func(what string) {
				b.t.Helper()
				assert.Empty(t, b.violations(), "%v, dark %v: %s", size, dark, what)
				assert.False(t, eval[bool](b, `document.documentElement.scrollWidth > innerWidth`),
					"%v wider than the window", size)
			}
			check("at rest")
			b.choose(-1, 1)
			b.click("#edges")
			check("a stripe")
			b.choose(2, -1)
			check("a piece")
			b.choose(-2, -1)
			check("all pieces")
			b.tap(b.yarn(0))
			check("a yarn")
			b.press(kb.Escape)
			b.click("#others")
			check("others")
			b.click("#tray-row .group button:last-child")
			check("beside")
			b.click("#beside-part")
			b.click("#tray-close")
			b.click("#sizes")
			b.enter("#settings label:nth-child(4) input", "wide")
			check("the drawer, and a refusal")
			b.enter("#settings label:nth-child(4) input", "46 cm")
			b.click("#drawer-close")
			b.click("#more")
			check("the menu")
			b.click("#packet")
			eval[bool](b, `new Promise(done => { const look = () =>
				document.getElementById("packet-frame").dataset.edition ? done(true) : setTimeout(look, 5); look(); })`)
			check("the packet")
			b.click("#viewer-close")
			b.click("#more")
			b.click("#kinds")
			check("kinds of yarn")
			b.click("#yarns-close")
			eval[bool](b, `(document.getElementById("help").showModal(), true)`)
			check("keys")
			b.click("#help-close")
		}
	}
	b.quiet("422", "postMessage") // of the engine, between a file and its frame
}

// Names that would be markup are shown as text.
func TestHostileNames(t *testing.T) { onBoth(t, hostileNames) }

func hostileNames(t *testing.T, on target) {
	const name = `<img src=x onerror="stripesong.errors.push('ran')">&amp;<script>stripesong.errors.push("ran")</script>`
	text := strings.NewReplacer(`"Orchard kitchen towels"`, brieflyQuoted(name), `"oat"`,
		brieflyQuoted(name), `"first light"`, brieflyQuoted(name)).Replace(string(brief.Default()))
	bench := on.work(t, []byte(text))
	b := newBrowser(t, 1024, 768)
	bench.open(b)
	b.choose(0, -1)
	assert.Equal(t, name, bench.Plan().Pieces[0].Name)
	assert.Equal(t, name, eval[string](b, `document.getElementById("title").textContent`))
	assert.Equal(t, name, eval[string](b, `document.querySelector(".yarn .who").textContent`))
	assert.Contains(t, eval[string](b, `document.querySelector(".tag").textContent`), name)
	b.click("#like")
	b.choose(-1, 0)
	b.click("#steps")
	assert.Zero(t, eval[int](b,
		`document.querySelectorAll("body img:not(#sheet), body > * script").length`))
	b.quiet()
}

func brieflyQuoted(s string) string { return `"` + strings.ReplaceAll(s, `"`, `\"`) + `"` }
