package page_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// items are what the tray shows, by their words.
func (b *browser) items() []string {
	b.t.Helper()
	return eval[[]string](b,
		`[...document.querySelectorAll("#tray-row .take")].map(e => e.innerText.trim())`)
}

// Others are shown as a row of small sets, in the cloth when pointed at, taken with a
// click, pinned to keep and held against each other.
func TestTryingOthers(t *testing.T) { onBoth(t, tryingOthers) }

func tryingOthers(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	text := string(bench.Text())
	b.choose(1, -1)
	for _, id := range []string{"like", "unlike"} {
		b.click("#" + id)
		assert.Len(t, b.items(), 6, id)
	}
	t.Run("what she says of them is a chip that can be changed", func(t *testing.T) {
		b.enter("#say-bands", "7")
		b.enter("#say-kind", "graded")
		require.NotEmpty(t, b.items())
		for i := range b.items() {
			assert.Equal(t, 7, eval[int](b,
				fmt.Sprintf(
					`document.querySelectorAll("#tray-row li")[%d].item.cloth.pieces[1].runs.length`, i)))
		}
		b.enter("#say-bands", "")
		b.enter("#say-kind", "")
		assert.Len(t, b.items(), 6)
	})
	b.shot("others")
	before := labels(bench.View())
	eval[bool](b, `(document.querySelectorAll("#tray-row .take")[1].focus(), true)`)
	b.settle()
	shown := eval[string](b, `JSON.stringify(stripesong.cloth().pieces[1].runs)`)
	assert.NotEqual(t, shown,
		eval[string](b, `JSON.stringify(stripesong.state.view.pieces[1].runs)`), "it is looked at")
	assert.Equal(t, text, string(bench.Text()), "and nothing is taken yet")
	eval[bool](b, `(document.activeElement.blur(), true)`)
	b.settle()
	assert.Equal(t, before, labels(bench.View()))

	t.Run("pinned, and held beside", func(t *testing.T) {
		b.click("#tray-row li:nth-child(3) .group button:first-child")
		assert.Len(t, bench.View().Pins, 1)
		assert.Len(t, b.items(), 7)
		b.click("#tray-row li:nth-child(1) .group button:last-child")
		assert.True(t, eval[bool](b, `document.getElementById("divider").checkVisibility()`))
		b.shot("beside")
		at := eval[[2]float64](b,
			`(r => [r.x + r.width / 2, r.y + 300])(document.getElementById("divider").getBoundingClientRect())`)
		b.drag(at, [2]float64{at[0] - 300, at[1]})
		assert.InDelta(t, 0.26, eval[float64](b, `stripesong.state.divider`), 0.02)
		b.focus("#divider")
		b.press(kb.ArrowRight)
		assert.InDelta(t, 0.28, eval[float64](b, `stripesong.state.divider`), 0.02)
		b.click("#tray-row li:nth-child(2) .group button:last-child")
		assert.Contains(t, b.words("beside-what"), "left: ")
		assert.True(t, eval[bool](b, `!!stripesong.state.against`),
			"two of them against each other")
		assert.NotRegexp(t, `: ?[;.]`, b.words("beside-what"), "both sides have names")
		chosen := b.chosen()
		b.tap(b.where(4, 1, 4))
		assert.Equal(t, chosen, b.chosen(), "only looked at")
		assert.Contains(t, b.words("said"), "only looked at")
		b.tap(b.yarn(1))
		assert.Equal(t, -1, eval[int](b, `stripesong.state.hand`))
		b.click("#beside-part")
		assert.False(t, eval[bool](b, `document.getElementById("divider").checkVisibility()`))
	})
	t.Run("taken with a click", func(t *testing.T) {
		b.click("#tray-row li:nth-child(1) .group button:last-child")
		b.click("#tray-row li:nth-child(2) .take")
		assert.Equal(t, shown, string(bench.View().Pieces[1].Runs))
		after := labels(bench.View())
		assert.Equal(t, append(before[:1:1], before[2:]...), append(after[:1:1], after[2:]...),
			"and nothing else")
		undo, _ := bench.Steps()
		assert.Equal(t, 1, undo)
		assert.False(t, eval[bool](b, `document.getElementById("divider").checkVisibility()`),
			"nothing is held beside it any more")
	})
	t.Run("what was pinned is gone back to", func(t *testing.T) {
		b.click("#more")
		b.click("#pins")
		require.Len(t, b.items(), 1)
		b.click("#tray-row .take")
		assert.NotEqual(t, shown, string(bench.View().Pieces[1].Runs))
		b.click("#tray-row .group button:first-child")
		assert.Empty(t, bench.View().Pins)
	})
	t.Run("every step so far", func(t *testing.T) {
		b.choose(0, -1)
		b.click("#mirror")
		b.click("#steps")
		items := b.items()
		require.Len(t, items, 4)
		assert.Contains(t, items[0], "now")
		b.shot("steps")
		b.click("#tray-row li:nth-child(4) .take")
		assert.Equal(t, text, string(bench.Text()))
		assert.Contains(t, b.items()[0], "undone")
		b.click("#tray-row li:nth-child(1) .take")
		assert.NotEqual(t, text, string(bench.Text()))
		b.click("#undo")
		require.Len(t, b.items(), 4)
		assert.Contains(t, b.items()[0], "undone", "the list goes with undo")
		assert.Contains(t, b.items()[1], "now")
		b.click("#redo")
		assert.Contains(t, b.items()[0], "now", "and with redo")
		b.click("#tray-row li:nth-child(4) .group button:last-child")
		assert.Equal(t, "left: yours, as it is now; right: as it was opened. Only to look at.",
			b.words("beside-what"))
		b.click("#undo")
		assert.False(t, eval[bool](b, `document.getElementById("divider").checkVisibility()`))
		b.click("#redo")
	})
	b.quiet()
}

// Whole sets, and the warp; for eyes that can't see it too.
func TestOtherSets(t *testing.T) { onBoth(t, otherSets) }

func otherSets(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	b.click("#others")
	require.Len(t, b.items(), 6)
	kept := labels(bench.View())[5]
	t.Run("only the colours that she ticks", func(t *testing.T) {
		const patterns = `[...document.querySelectorAll("#tray-row li")].map(li => [...new Set(li.item.cloth.pieces.slice(0, 5).flatMap(p => p.runs.map(r => r[2])))].filter(c => c >= 0).sort().join())`
		b.click("#say-set label:nth-child(4) input") // damson
		b.click("#say-set label:nth-child(5) input") // rosehip
		got := eval[[]string](b, patterns)
		require.NotEmpty(t, got)
		for _, one := range got {
			assert.Contains(t, []string{"3,4", "3", "4"}, one)
		}
		b.shot("only")
		b.click("#say-set label:nth-child(4) input")
		b.click("#say-set label:nth-child(5) input")
		assert.Len(t, b.items(), 6)
	})
	b.click("#tray-row .take")
	assert.Equal(t, kept, labels(bench.View())[5], "the kept one")
	assert.True(t, bench.View().Pieces[0].Chosen)
	b.choose(-1, -1)
	b.click("#unlike")
	require.NotEmpty(t, b.items())
	warp := bench.Plan().Warp.Runs
	b.click("#tray-row .take")
	assert.NotEqual(t, warp, bench.Plan().Warp.Runs)
	b.click("#tray-close")
	assert.False(t, eval[bool](b, `document.getElementById("tray").checkVisibility()`))
	b.quiet()
}

// What is short has its ways out where it is said, each shown before it is taken.
func TestWaysOutInPlace(t *testing.T) { onBoth(t, waysOutInPlace) }

func waysOutInPlace(t *testing.T, on target) {
	text := strings.Replace(string(brief.Default()), `hex     = "#dfc48a"`,
		`hex     = "#dfc48a"`, 1)
	text = strings.Replace(text, `on_hand = "2000 m"`, `on_hand = "1300 m"`, 1)
	require.NotEqual(t, string(brief.Default()), text)
	bench := on.work(t, []byte(text))
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	require.Equal(t, "short", bench.View().Colours[1].State)
	assert.Contains(t, eval[string](b, `document.querySelectorAll(".ways")[1].textContent`),
		"short")
	b.click(".yarn:nth-child(2) .ways")
	items := b.items()
	require.NotEmpty(t, items)
	b.shot("ways")
	before := string(bench.Text())
	b.click("#tray-row .take")
	assert.NotEqual(t, before, string(bench.Text()))
	assert.NotEqual(t, "short", bench.View().Colours[1].State)
	assert.Equal(t, items[0][:10], bench.View().Undo[:10], "as it was offered")
	b.quiet()
}

// A photo comes down to a few colours; those that are ticked are put on the shelf.
func TestAPhoto(t *testing.T) { onBoth(t, aPhoto) }

func aPhoto(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	eval[bool](b, `(async () => {
		const c = document.createElement("canvas"), pen = c.getContext("2d");
		c.width = c.height = 60;
		["#204080", "#e0b040", "#903020"].forEach((hex, i) => { pen.fillStyle = hex; pen.fillRect(0, 20 * i, 60, 20); });
		const blob = await new Promise(done => c.toBlob(done)), data = new DataTransfer();
		data.items.add(new File([blob], "field.png", { type: "image/png" }));
		dispatchEvent(Object.assign(new Event("drop", { cancelable: true }), { dataTransfer: data }));
		while (!document.getElementById("photo").open) await new Promise(r => setTimeout(r, 5));
		return true; })()`)
	b.shot("photo")
	hexes := eval[[]string](b,
		`[...document.querySelectorAll("#photo-list label")].map(e => e.innerText.trim().slice(0, 7))`)
	assert.ElementsMatch(t, []string{"#204080", "#e0b040", "#903020"}, hexes)
	assert.Contains(t, eval[string](b, `document.getElementById("photo-list").innerText`),
		"nearest on the shelf")
	b.click("#photo-take")
	assert.Contains(t, b.words("photo-wrong"), "None is ticked")
	b.click("#photo-list li:nth-child(1) input[type=checkbox]")
	b.click("#photo-list li:nth-child(2) input[type=checkbox]")
	b.enter("#photo-list li:nth-child(2) > input", "oat")
	b.click("#photo-take")
	assert.Contains(t, eval[string](b, `document.querySelector("#photo-list .why").innerText`),
		"“oat” already")
	b.shot("photo-wrong")
	assert.Len(t, bench.View().Colours, 7, "all of them or none")
	b.click("#photo-list li:nth-child(2) input[type=checkbox]")
	b.click("#photo-take")
	b.settle()
	colours := bench.View().Colours
	require.Len(t, colours, 8)
	assert.Contains(t, hexes[0], colours[7].Hex)
	b.quiet()
}

// A new kind of yarn and a new colour, with count, package and price.
func TestNewYarn(t *testing.T) { onBoth(t, newYarn) }

func newYarn(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	b.click("#more")
	b.click("#kinds")
	b.enter("#yarn-name", "tow")
	b.enter("#yarn-count", "8/1 linen")
	b.click("#yarn-add button")
	b.enter("#yarn-list li:last-child label:nth-child(2) input", "250 g")
	b.enter("#yarn-list li:last-child label:nth-child(3) input", "12.50")
	b.enter("#add-stock", "900 m")
	b.enter("#add-name", "moss")
	b.enter("#add-hex", "#556b2f")
	b.enter("#add-yarn", "tow")
	b.click("#add button")
	b.shot("yarns")
	b.click("#yarns-close")
	yarns, colours := bench.View().Yarns, bench.View().Colours
	assert.Equal(t, []string{"tow", "8/1 linen", "250 g", "12.50"},
		[]string{yarns[len(yarns)-1].Name, yarns[len(yarns)-1].Count, yarns[len(yarns)-1].Package,
			yarns[len(yarns)-1].Price})
	assert.Equal(t, "moss tow", colours[7].Name+" "+colours[7].Yarn)
	assert.Contains(t, string(bench.Text()), `"900 m"`)
	b.quiet()
}

// A brief for the rest of a warp is worked on like any other: what is woven stays.
func TestABriefForTheRest(t *testing.T) { onBoth(t, aBriefForTheRest) }

func aBriefForTheRest(t *testing.T, on target) {
	examples, err := filepath.Abs("../../../examples/orchard-kitchen")
	require.NoError(t, err)
	dir := t.TempDir()
	_, err = runIn(dir, program(t), "midway", filepath.Join(examples, "brief.toml"),
		filepath.Join(examples, "progress.toml"), "--take", "1", "--out", "rest.toml")
	require.NoError(t, err)
	bench := on.work(t, must(os.ReadFile(filepath.Join(dir, "rest.toml"))))
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	before := bench.Plan()
	require.Equal(t, 3, before.Midway.Woven)
	b.choose(4, 0)
	b.enter("#run-units", "9")
	now := bench.Plan()
	assert.Equal(t, 9, now.Pieces[4].Runs[0].Units)
	for i := range 3 {
		assert.Equal(t, before.Pieces[i].Runs, now.Pieces[i].Runs, "it is woven")
	}
	b.choose(0, 0)
	b.enter("#run-units", "9")
	assert.Contains(t, b.why("#run-units"), "woven")
	assert.Equal(t, now.Pieces, bench.Plan().Pieces)
	b.enter("#run-units", fmt.Sprint(before.Pieces[0].Runs[0].Units))
	b.shot("rest")
	b.click("#more")
	eval[bool](b, `(async () => {
		document.getElementById("packet").click();
		while (!document.getElementById("packet-frame").dataset.edition)
			await new Promise(r => setTimeout(r, 5));
		return true; })()`)
	packet := eval[string](b,
		`document.getElementById("packet-frame").contentDocument.body.innerText`)
	assert.Contains(t, packet, "3 of 6")
	assert.NotContains(t, packet, "Winding")
	b.quiet("422")
}

// media shows the page as it is printed, or not.
func (b *browser) media(kind string) {
	b.t.Helper()
	call(b.t, b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: kind})
}

// What the program makes of the plan is kept apart from the page.
func TestProductsAreKeptApart(t *testing.T) {
	t.Parallel()
	server, _, _ := serve(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	got := eval[map[string]string](b, `(async () => {
		const of = async id => { const r = await fetch(document.getElementById(id).href); return [r.status, r.headers.get("Content-Type"), r.headers.get("Content-Disposition"), r.headers.get("Content-Security-Policy").slice(0, 40), (await r.text()).slice(0, 2)].join("|"); };
		return { packet: await (async id => { const r = await fetch("file?name=packet.html"); return [r.status, r.headers.get("Content-Type"), r.headers.get("Content-Disposition"), r.headers.get("Content-Security-Policy").slice(0, 40), (await r.text()).slice(0, 2)].join("|"); })(), save: await of("packet-save"), zip: await of("zip") }; })()`)
	assert.Equal(t, map[string]string{
		"packet": "200|text/html; charset=utf-8||sandbox allow-scripts allow-modals; defa|<!",
		"save": "200|text/html; charset=utf-8|attachment|sandbox allow-scripts " +
			"allow-modals; defa|<!",
		"zip": "200|application/zip|attachment|sandbox allow-scripts allow-modals; defa|PK",
	}, got)
	b.quiet()
}

// The packet is seen and printed in the page, as it looks by itself, and its ticks are kept.
func TestThePacketInThePage(t *testing.T) { onBoth(t, thePacketInThePage) }

func thePacketInThePage(t *testing.T, on target) {
	bench, b := on.work(t, brief.Default()), newBrowser(t, 1440, 900)
	bench.open(b)
	see := func() {
		b.click("#more")
		eval[bool](b, `(async () => {
			delete document.getElementById("packet-frame").dataset.edition;
			document.getElementById("packet").click();
			while (!document.getElementById("packet-frame").dataset.edition)
				await new Promise(r => setTimeout(r, 5));
			return true; })()`)
	}
	see()
	b.shot("packet")
	const inside = `document.getElementById("packet-frame").contentDocument`
	assert.Contains(t, eval[string](b, inside+`.body.innerText`), "Orchard kitchen towels")
	assert.Equal(t, "none", eval[string](b,
		`getComputedStyle(`+inside+`.querySelector("nav ul")).listStyleType`), "it has its style")
	assert.Equal(t, "68px", eval[string](b,
		`getComputedStyle(`+inside+
			`.querySelector("tr[data-style]")).height.replace(/[.].*/, "px")`),
		"18 mm, to pin yarn on")
	assert.Zero(t, eval[int](b, inside+`.querySelectorAll("script, style").length`))
	assert.Greater(t, eval[float64](b, `(() => { const d = `+inside+`;
		d.querySelector("a[href='#winding']").click(); return d.defaultView.scrollY; })()`), 500.0)
	eval[bool](b, `(() => { const d = `+inside+`, [tick] = d.querySelectorAll("[data-keep] [type=checkbox]"),
		[text] = d.querySelectorAll("[data-keep] [type=text]");
		tick.click(); text.value = "lot 7"; text.dispatchEvent(new Event("change")); return true; })()`)
	kept := func() string {
		return eval[string](b, `(() => { const d = `+inside+`, [tick] = d.querySelectorAll("[data-keep] [type=checkbox]"),
			[text] = d.querySelectorAll("[data-keep] [type=text]"); return tick.checked + " " + text.value; })()`)
	}
	b.click("#viewer-close")
	see()
	assert.Equal(t, "true lot 7", kept())
	eval[bool](b, `(`+inside+`.querySelector("[data-keep] input").focus(), true)`)
	b.press(kb.Escape)
	assert.False(t, eval[bool](b, `document.getElementById("viewer").open`),
		"Escape in the packet puts it away")
	see()
	eval[bool](b, `(window.confirm = () => true, `+inside+`.getElementById("clear").click(), true)`)
	assert.Equal(t, "false ", kept())
	b.do(chromedp.Reload())
	b.settle()
	see()
	assert.Equal(t, "false ", kept())
	eval[bool](b, `(`+inside+`.querySelector("[data-keep] [type=checkbox]").click(), true)`)
	b.do(chromedp.Reload())
	b.settle()
	see()
	assert.Equal(t, "true ", kept(), "through a reload")
	b.click("#viewer-close")
	eval[bool](b, `stripesong.send("do", { op: { do: "setting", key: "title",
		value: "Another set" } }).then(a => a.ok)`)
	see()
	assert.Equal(t, "false ", kept(), "another set has ticks of its own")
	b.click("#viewer-close")
	b.click("#undo")
	b.settle()
	see()
	assert.Equal(t, "true ", kept())
	assert.Equal(t, "printed", eval[string](b, `(() => { let said = "";
		document.getElementById("packet-frame").contentWindow.print = () => { said = "printed"; };
		document.getElementById("packet-print").click(); return said; })()`))
	b.quiet()
}

// The sheet of the set is at hand; printing prints it.
func TestTakingItAlong(t *testing.T) { onBoth(t, takingItAlong) }

func takingItAlong(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	b.click("#more")
	b.shot("menu")
	b.click("#keys") // the menu goes
	b.press(kb.Escape)
	eval[bool](b,
		`new Promise(done => { const look = () => document.getElementById("sheet") && document.getElementById("sheet").naturalWidth > 0 ? done(true) : setTimeout(look, 5); look(); })`)
	b.media("print")
	assert.Equal(t, "IMG",
		eval[string](b,
			`[...document.body.children].filter(e => e.checkVisibility()).map(e => e.tagName).join()`), "the sheet alone is printed")
	b.shot("printed")
	b.choose(-1, 0)
	b.media("")
	b.enter("#run-units", "31")
	eval[bool](b,
		fmt.Sprintf(
			`new Promise(done => { const s = document.getElementById("sheet"), look = () => s.dataset.edition === "%d" && s.complete && s.naturalWidth > 0 ? done(true) : setTimeout(look, 5); look(); })`, bench.Edition()))
	b.quiet()
}

// Saving says what it changed in the file.
func TestSavingSaysWhatChanged(t *testing.T) { onBoth(t, savingSaysWhatChanged) }

func savingSaysWhatChanged(t *testing.T, on target) {
	b := newBrowser(t, 1440, 900)
	file := on.onFile(t, b, brief.Default())
	b.enter("#settings input", "Evening towels")
	b.click("#save")
	assert.Contains(t, b.words("said"), "saved in my towels.toml")
	assert.Equal(t, "2 lines of it changed", b.words("wrote-what"))
	b.click("#wrote-what")
	assert.Contains(t, b.words("wrote-lines"), `new: title = "Evening towels"`)
	assert.Contains(t, file.read(), "Evening towels")
	b.quiet()
}

// A brief that came from no file is given a name when it is saved.
func TestSavingWithoutAFile(t *testing.T) {
	t.Parallel()
	storage := &shelf{saved: brief.Default(), noFile: true}
	server, _ := serveAt(t, brief.Default(), storage)
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	b.choose(-1, 0)
	b.enter("#run-units", "31")
	b.click("#save")
	assert.True(t, eval[bool](b, `document.getElementById("naming").open`), "it asks")
	assert.Equal(t, "Save as a file", b.words("naming-title"))
	b.enter("#naming-name", "My first")
	b.click("#naming-form button.main")
	assert.Contains(t, b.words("said"), "a copy is saved as ")
	assert.Contains(t, b.words("file"), "saved")
	b.quiet()
}
