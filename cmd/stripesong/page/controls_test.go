package page_test

import (
	"cmp"
	"context"
	"encoding/json"
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
	"stripesong/sequence/plan"
	"stripesong/sequence/workbench"
)

func (b *browser) press(keys string) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(keys))
	b.settle()
}

func (b *browser) focus(selector string) {
	b.t.Helper()
	eval[bool](b, `(document.querySelector(`+quote(selector)+`).focus({ focusVisible: true }), true)`)
}

// reachable lists what the Tab key should come to: every control that shows
// and can be used, of a group of radio buttons or edges one.
const reachable = `(() => {
	const seen = new Set(), all = [];
	for (const e of document.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']")) {
		if (e.disabled || e.tabIndex < 0 || !e.checkVisibility()) continue;
		if (e.type === "radio") { if (seen.has(e.name)) continue; seen.add(e.name); }
		all.push(e);
	}
	window.toReach = new Set(all);
	document.addEventListener("focusin", event => {
		const e = event.target, s = getComputedStyle(e);
		for (const want of toReach) if (want === e || want.type === "radio" && e.type === "radio" && want.name === e.name) toReach.delete(want);
		if (e.matches(":focus-visible") && s.outlineStyle === "none") (window.unseen = window.unseen || []).push(e.outerHTML.slice(0, 80));
	});
	document.activeElement.blur();
	return all.length;
})()`

func TestEveryControlByTab(t *testing.T) {
	t.Parallel()
	server, _, _ := serve(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	eval[bool](b, `(choose(2), magnify(true), document.querySelectorAll("details").forEach(d => { d.open = true; }), true)`)
	b.settle()
	n := eval[int](b, reachable)
	assert.Greater(t, n, 80)
	for range n + 60 {
		b.do(chromedp.KeyEvent(kb.Tab))
	}
	assert.Empty(t, eval[[]string](b, `[...toReach].map(e => e.outerHTML.slice(0, 100))`), "not reached")
	assert.Empty(t, eval[[]string](b, `window.unseen || []`), "focus can't be seen")
	assert.Empty(t, eval[[]string](b, `[...document.querySelectorAll("button, input, select, summary, [role=slider], canvas")].filter(e => e.checkVisibility() && !(e.labels && e.labels.length && [...e.labels].some(l => l.textContent.trim())) && !e.getAttribute("aria-label") && !e.textContent.trim()).map(e => e.outerHTML.slice(0, 100))`), "without a name")
	b.quiet()
}

// Every kind of control does its work by keys alone.
func TestWorkByKeysAlone(t *testing.T) {
	t.Parallel()
	server, bench, desk := serve(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	text := func() string { return string(bench.Text()) }
	edge := func(run int) int { return bench.Plan().Warp.Runs[run].Units }

	was := edge(0)
	b.focus("#warp-edges .edge")
	b.press(kb.ArrowRight)
	assert.Equal(t, was+1, edge(0), "an arrow moves an edge by a unit")
	b.press(kb.PageDown)
	assert.Equal(t, was-4, edge(0))
	b.press(kb.ArrowDown)
	was = edge(1)
	b.press(kb.ArrowLeft)
	assert.Equal(t, was-1, edge(1), "the next edge")
	first, second := bench.Plan().Warp.Runs[1], bench.Plan().Warp.Runs[2]
	b.press("s")
	assert.Equal(t, second, bench.Plan().Warp.Runs[1], "neighbours change places")
	assert.Equal(t, first, bench.Plan().Warp.Runs[2])
	assert.Contains(t, eval[string](b, `document.getElementById("said").textContent`), "change places", "said aloud")
	b.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.settle()
	assert.Equal(t, first, bench.Plan().Warp.Runs[1])

	b.focus("#loose")
	b.press(kb.Enter)
	assert.False(t, bench.View().Warp.Kept, "a button")
	b.focus("#rhythm select")
	b.press(kb.Home)
	b.press(kb.Tab)
	assert.Contains(t, text(), `kind = "even"`, "a list")
	b.focus("#rhythm input[type=number]")
	b.press(kb.ArrowUp)
	assert.Len(t, bench.Plan().Warp.Runs, 2*8-1, "a number")
	b.focus("#rhythm input[type=checkbox]")
	b.press(" ")
	assert.Len(t, bench.Plan().Warp.Runs, 8, "a tick")
	b.focus("#strip")
	b.press(kb.ArrowDown + kb.ArrowDown)
	b.press(kb.Tab)
	assert.Equal(t, 0, eval[int](b, `look.strip`))
	b.focus("#piece-name")
	b.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.press("dusk" + kb.Enter)
	assert.Equal(t, "dusk", bench.Plan().Pieces[0].Name, "a name")
	b.focus("#runs input:checked")
	b.press(kb.ArrowDown)
	assert.Equal(t, 1, eval[int](b, `look.run`), "of many one")
	b.focus("#pieces .edges .edge[tabindex='0']")
	units := bench.Plan().Pieces[0].Runs[1].Units
	b.press(kb.ArrowUp)
	assert.Equal(t, units+1, bench.Plan().Pieces[0].Runs[1].Units, "an edge between blocks")
	b.press("f")
	assert.Equal(t, "back", eval[string](b, `look.sides`))
	b.focus("#save")
	b.press(kb.Enter)
	assert.Equal(t, text(), string(desk.saved))
	b.focus("#keys")
	b.press(kb.Enter)
	b.press(kb.Escape)
	assert.False(t, eval[bool](b, `document.getElementById("help").open`))
	b.quiet()
}

// Presses that are quicker than the answers all mean the run that was chosen, and
// leave one chosen that is there.
func TestQuickPresses(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	before := bench.Plan().Warp.Runs
	last := len(before) - 1
	eval[bool](b, `(look.run = view.warp.runs.length - 2, showRuns(), [1, 2, 3].forEach(() => $("swap").click()), true)`)
	b.settle()
	assert.Equal(t, before[last], bench.Plan().Warp.Runs[last-1], "three times is once")
	assert.Equal(t, last, eval[int](b, `look.run`), "it went with the stripe")
	eval[bool](b, `(look.run = 0, showRuns(), $("swap").click(), choose(1), true)`)
	b.settle()
	assert.Equal(t, before[1], bench.Plan().Warp.Runs[0])
	assert.Equal(t, 0, eval[int](b, `look.run`), "another piece was chosen meanwhile")
	b.quiet()
}

// violations runs the accessibility engine over what shows.
func (b *browser) violations(engine string) []string {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](engine + "\n;0"))
	return eval[[]string](b, `axe.run(document, { resultTypes: ["violations"] }).then(r => r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")))`)
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

func TestAccessible(t *testing.T) {
	t.Parallel()
	engine := axe(t)
	b := newBrowser(t, 1440, 900)
	for _, size := range [][2]int{{1440, 900}, {820, 1180}, {640, 480}} { // the last is 1280 x 960 at 200 %
		server, _, _ := serve(t, brief.Default())
		b.size(size)
		b.open(server.Address())
		assert.Empty(t, b.violations(engine), "%v as it opens", size)
		eval[bool](b, `(choose(1), magnify(true), document.querySelectorAll("details").forEach(d => { d.open = true; }), true)`)
		b.click("#put")
		b.enter("#settings input", "")
		b.enter("#sizes label:nth-child(4) input", "46")
		assert.True(t, eval[bool](b, `!document.getElementById("wrong").hidden`), "a refusal shows")
		assert.Empty(t, b.violations(engine), "%v with everything open", size)
		eval[bool](b, `(document.getElementById("help").showModal(), true)`)
		assert.Empty(t, b.violations(engine), "%v with a dialog", size)
		assert.False(t, eval[bool](b, `document.documentElement.scrollWidth > innerWidth`), "%v wider than the window", size)
		b.shot(fmt.Sprintf("dialog-%d", size[0]))
		b.quiet("422")
	}
}

// Names that would be markup are shown as text.
func TestHostileNames(t *testing.T) {
	t.Parallel()
	const name = `<img src=x onerror="stripesong.errors.push('ran')">&amp;<script>stripesong.errors.push("ran")</script>`
	text := strings.NewReplacer(`"Orchard kitchen towels"`, brieflyQuoted(name), `"oat"`, brieflyQuoted(name), `"first light"`, brieflyQuoted(name)).Replace(string(brief.Default()))
	server, bench, _ := serve(t, []byte(text))
	b := newBrowser(t, 1024, 768)
	b.open(server.Address())
	eval[bool](b, `(choose(0), magnify(true), true)`)
	b.settle()
	assert.Equal(t, name, bench.Plan().Pieces[0].Name)
	assert.Equal(t, name, eval[string](b, `document.getElementById("title").textContent`))
	assert.Equal(t, name, eval[string](b, `document.querySelector(".colour .who").textContent`))
	assert.Contains(t, eval[string](b, `document.querySelector(".piece .pick").textContent`), name)
	assert.Zero(t, eval[int](b, `document.querySelectorAll("body img, body script").length`))
	b.quiet()
}

func brieflyQuoted(s string) string { return `"` + strings.ReplaceAll(s, `"`, `\"`) + `"` }

// randomly uses a control of the page that takes the work further, by number.
const randomly = `(seed => {
	let s = seed; const next = n => { s = (s * 1103515245 + 12345) % 2147483648; return Math.floor(s / 65536) % n; };
	if (next(4) === 0) choose(next(view.pieces.length + 2) - 2);
	const never = new Set(["save", "save-as", "publish", "keys", "wrong-close", "open", "open-all", "over", "magnify"]);
	const all = [...document.querySelectorAll("button, select, input, .edge")].filter(e => !e.disabled && e.checkVisibility() && !never.has(e.id) && !e.closest("dialog, #add, #magnifier") && !["eyes", "from", "zoom", "laid", "sides"].includes(e.id));
	const e = all[next(all.length)], fire = (...kinds) => kinds.forEach(k => e.dispatchEvent(new Event(k, { bubbles: true })));
	if ((e.id === "copy" && view.pieces.length > 7) || (e.id === "drop" && view.pieces.length < 4)) return;
	if (e.className.includes("edge")) { e.focus(); e.dispatchEvent(new KeyboardEvent("keydown", { key: ["ArrowUp", "ArrowRight", "ArrowDown", "ArrowLeft", "PageUp", "PageDown", "s"][next(7)], bubbles: true })); }
	else if (e.tagName === "BUTTON" || e.type === "checkbox" || e.type === "radio") e.click();
	else if (e.tagName === "SELECT") { if (e.closest("#settings")) return; e.selectedIndex = next(e.options.length); fire("input", "change"); }
	else if (e.type === "color") { e.focus(); e.value = "#" + (next(4096) + 4096).toString(16).slice(-3).replace(/./g, c => c + c); fire("input", "input", "change"); e.blur(); }
	else if (e.type === "number") { e.focus(); e.value = String(1 + next(20)); fire("input", "change"); e.blur(); }
	else if (next(3) === 0) { e.focus(); e.value = ["48 cm", "9/cm", "300 g", "name " + next(50), "7"][next(5)]; fire("input", "change"); e.blur(); }
})`

// Random uses of the page's controls in a row, a hundred or, with
// STRIPESONG_LONG=1, a thousand, leave the page, the list of steps and the program
// agreed.
func TestManyUses(t *testing.T) {
	t.Parallel()
	uses := 100
	if os.Getenv("STRIPESONG_LONG") == "1" {
		uses = 1000
	}
	server, bench, _ := serve(t, brief.Default())
	b := newBrowser(t, 1280, 900)
	b.open(server.Address())
	for done := 0; done < uses; done += 50 {
		eval[bool](b, `(async () => { for (let i = 0; i < 50; i++) { (`+randomly+`)(`+string(must(json.Marshal(done*50+17)))+` + i * 7919); if (i % 5 === 0) while (!stripesong.settled) await new Promise(r => setTimeout(r, 3)); } return true; })()`)
		b.settle()
		if done%200 == 0 || done+50 >= uses {
			agree(t, b, bench)
		}
		if t.Failed() {
			return
		}
	}
	undo, _ := bench.Steps()
	t.Logf("%d steps can be undone", undo)
	assert.Greater(t, bench.Edition(), uses/3, "enough of them did something")
	b.quiet("422")
}

// agree checks that page and bench show one thing, and that it is what the
// text alone gives.
func agree(t *testing.T, b *browser, bench *workbench.Bench) {
	t.Helper()
	shown := eval[json.RawMessage](b, `JSON.parse(JSON.stringify(view))`)
	assert.JSONEq(t, string(must(json.Marshal(bench.View()))), string(shown))
	read, err := brief.Parse("towels.toml", bench.Text(), brief.Options{})
	require.NoError(t, err)
	made, err := plan.Make(context.Background(), read)
	require.NoError(t, err)
	assert.Equal(t, string(must(plan.JSON(made))), string(must(plan.JSON(bench.Plan()))))
	undo, redo := bench.Steps()
	assert.Equal(t, undo == 0, eval[bool](b, `document.getElementById("undo").disabled`))
	assert.Equal(t, redo == 0, eval[bool](b, `document.getElementById("redo").disabled`))
	assert.Equal(t, len(made.Pieces), eval[int](b, `document.querySelectorAll("#pieces .piece").length`))
}

func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}

// BenchmarkChange is from a change to its picture, for six towels, face and back,
// in their own colours and from across the table. It tells the median and the 95th
// percentile of many.
func BenchmarkChange(b *testing.B) {
	for _, from := range []string{"", "2"} {
		b.Run("from "+cmp.Or(from, "the cloth")+" m", func(b *testing.B) { benchmarkChange(b, from) })
	}
}

func benchmarkChange(b *testing.B, from string) {
	server, _, _ := serve(b, brief.Default())
	page := newBrowser(b, 1440, 900)
	page.open(server.Address())
	eval[bool](page, `(async () => { look.sides = "both"; await lookAgain(); return true; })()`)
	var times []float64
	for b.Loop() {
		times = append(times, eval[[]float64](page, `(async () => {
			look.from = `+quote(from)+`; await lookAgain();
			const times = [], hex = document.querySelector(".colour input[type=color]");
			for (let i = 0; i < 30; i++) {
				const from = performance.now();
				hex.value = "#ffe" + (256 + i * 3).toString(16).slice(-3);
				hex.dispatchEvent(new Event("input", { bubbles: true })); hex.dispatchEvent(new Event("change", { bubbles: true }));
				while (!stripesong.settled) await new Promise(r => setTimeout(r, 1));
				await new Promise(requestAnimationFrame);
				times.push(performance.now() - from);
			}
			return times; })()`)...)
	}
	slices.Sort(times)
	b.ReportMetric(times[len(times)/2], "median-ms")
	b.ReportMetric(times[len(times)*95/100], "p95-ms")
	page.quiet()
}
