package page_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// randomly uses a control of the page that takes the work further, by number.
const randomly = `(seed => {
	let s = seed; const next = n => { s = (s * 1103515245 + 12345) % 2147483648; return Math.floor(s / 65536) % n; };
	const S = stripesong, view = S.state.view, strip = next(view.pieces.length + 1) - 1, runs = strip < 0 ? view.warp.runs : view.pieces[strip].runs;
	if (next(3) === 0) S.choose({ strip, run: next(2) ? next(runs.length) : null, via: Math.max(0, strip) });
	const never = new Set(["save", "save-as", "publish", "keys", "wrong-close", "open", "open-all", "another-set", "like", "unlike", "others", "steps", "more", "set-like", "set-unlike", "print"]);
	const all = [...document.querySelectorAll("#card button, #card input, #card select, #undo, #redo, #settings input, #yarn-card input, #over")].filter(e => !e.disabled && e.checkVisibility() && !never.has(e.id));
	if (!all.length) return S.choose({ strip, run: 0, via: 0 });
	const e = all[next(all.length)], fire = (...kinds) => kinds.forEach(k => e.dispatchEvent(new Event(k, { bubbles: true })));
	if ((e.id === "copy" && view.pieces.length > 7) || (e.id === "drop" && view.pieces.length < 4)) return;
	if (next(5) === 0) document.getElementById("stage").dispatchEvent(new KeyboardEvent("keydown", { key: ["ArrowUp", "ArrowRight", "ArrowDown", "ArrowLeft", "PageUp", "PageDown", "s", "d"][next(8)], shiftKey: next(2) === 0, bubbles: true }));
	else if (e.tagName === "BUTTON" || e.type === "checkbox") e.click();
	else if (e.tagName === "SELECT") { e.selectedIndex = next(e.options.length); fire("input", "change"); }
	else if (e.type === "color") { e.focus(); e.value = "#" + (next(4096) + 4096).toString(16).slice(-3).replace(/./g, c => c + c); fire("input", "input", "change"); e.blur(); }
	else if (e.type === "number" || e.type === "range") { e.focus(); e.value = String(1 + next(20)); fire("input", "change"); e.blur(); }
	else if (next(3) === 0) { e.focus(); e.value = ["48 cm", "9/cm", "300 g", "name " + next(50), "7"][next(5)]; fire("input", "change"); e.blur(); }
})`

// Random uses of the page's controls in a row, fifty, a hundred where all checks are run
// or, with STRIPESONG_LONG=1, a thousand, leave the page, the list of steps and the
// program agreed.
func TestManyUses(t *testing.T) { onBoth(t, manyUses) }

func manyUses(t *testing.T, on target) {
	uses := 50
	switch {
	case on == (machine{}) && os.Getenv("STRIPESONG_LONG") == "1":
		uses = 1000
	case allChecks():
		uses = 100
	}
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1280, 900)
	bench.open(b)
	b.click("#sizes")
	for done := 0; done < uses; done += 50 {
		eval[bool](b, `(async () => { for (let i = 0; i < 50; i++) { (`+randomly+`)(`+
			string(must(json.Marshal(done*50+17)))+
			` + i * 7919); if (i % 5 === 0) while (!stripesong.settled) await new Promise(r => setTimeout(r, 3)); } return true; })()`)
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
	assert.Greater(t, bench.Edition(), uses/4, "enough of them did something")
	b.quiet("422")
}

// A whole session as a weaver would run it, with the program itself.
func TestSession(t *testing.T) {
	t.Parallel()
	findBrowser(t)
	stripesong, dir := program(t), t.TempDir()
	file := filepath.Join(dir, "towels.toml")
	require.NoError(t, os.WriteFile(file, brief.Default(), 0o644))
	page := start(t, stripesong, dir, "towels.toml")
	b := newBrowser(t, 1440, 900)
	b.open(page.address)
	texts := func() string {
		return eval[string](b,
			`JSON.stringify([stripesong.state.view.warp.runs, stripesong.state.view.pieces.map(p => p.runs)])`)
	}
	said := func() string { return b.words("said") }

	for i, hex := range []string{"#f4efe4", "#d9b36c", "#3b2a4f"} {
		b.tap(b.yarn(i))
		b.click("#hand-change")
		b.enter("#yarn-card input[type=color]", hex)
		b.press(kb.Escape)
	}
	for _, piece := range []int{2, 0} {
		b.choose(piece, -1)
		b.click("#keep")
	}
	b.click("#sizes")
	b.click("#open-all")
	before := texts()
	b.click("#another-set")
	assert.NotEqual(t, before, texts(), "another set is another")
	assert.Equal(t, 3, eval[int](b, `stripesong.state.view.pieces.filter(p => p.kept).length`),
		"two kept here and one in the brief")
	b.click("#drawer-close")
	b.choose(1, 0)
	units := eval[int](b, `stripesong.state.view.pieces[1].runs[0][1]`)
	b.click("#edges")
	h := b.handle(0)
	b.drag(h, [2]float64{h[0], h[1] - 12})
	assert.Greater(t, eval[int](b, `stripesong.state.view.pieces[1].runs[0][1]`), units,
		"an edge dragged up")
	b.click("#undo")
	assert.Equal(t, units, eval[int](b, `stripesong.state.view.pieces[1].runs[0][1]`),
		"one drag is one step")
	b.choose(-1, 1)
	b.click("#edges")
	h = b.handle(0)
	b.drag(h, [2]float64{h[0] + 30, h[1]})
	b.enter("#from", "40")
	after := texts()
	b.do(chromedp.Reload())
	b.settle()
	assert.Equal(t, after, texts(), "a reload loses nothing")
	assert.Equal(t, "40", eval[string](b, `document.getElementById("from").value`))
	b.click("#save")
	assert.Contains(t, said(), "saved in towels.toml")
	b.click("#more")
	b.click("#publish")
	assert.Contains(t, said(), "orchard-kitchen-towels")

	saved, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(saved), "# instead of width: the width in the reed", "comments stay")
	planned, err := runIn(dir, stripesong, "plan", "towels.toml", "--json")
	require.NoError(t, err)
	shown, err := os.ReadFile(filepath.Join(dir, "orchard-kitchen-towels", "plan.json"))
	require.NoError(t, err)
	assert.Equal(t, string(shown), planned, "the page and the command line plan the same")

	require.NoError(t, os.WriteFile(file, append(saved, "# by another hand\n"...), 0o644))
	b.click("#sizes")
	b.enter("#settings input", "Evening towels")
	b.click("#save")
	assert.True(t, eval[bool](b, `document.getElementById("changed").open`),
		"a warning: the file changed meanwhile")
	b.click("#changed-copy")
	copied, err := os.ReadFile(filepath.Join(dir, "evening-towels.toml"))
	require.NoError(t, err)
	assert.Contains(t, string(copied), "Evening towels")
	kept, _ := os.ReadFile(file)
	assert.Equal(t, string(saved)+"# by another hand\n", string(kept),
		"and the file is as the other hand left it")
	b.quiet("409")

	assert.Contains(t, page.interrupt(t), "towels-unsaved.toml")
	unsaved, err := os.ReadFile(filepath.Join(dir, "towels-unsaved.toml"))
	require.NoError(t, err)
	first, rest, _ := strings.Cut(string(unsaved), "\n")
	assert.Contains(t, first, `unsaved work on the file "towels.toml"`)
	assert.Equal(t, string(copied), rest, "what was not saved is kept")

	again := start(t, stripesong, dir, "evening-towels.toml")
	b.open(again.address)
	assert.Equal(t, after, texts(), "opened again it is the same")
	assert.NotEqual(t, page.address, again.address)
	assert.Empty(t, again.interrupt(t))
}
