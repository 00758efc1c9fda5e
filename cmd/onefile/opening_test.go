package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// small is a brief with another title than the built-in one.
var small = strings.Replace(string(brief.Default()), "Orchard kitchen towels", "Two small ones", 1)

// drop lets a file fall on the page and waits until the page has taken it, or said why
// not.
func (w *window) drop(name, text string) {
	w.t.Helper()
	eval[bool](w, `(async () => {
		document.getElementById("said").textContent = "";
		document.getElementById("wrong").hidden = true;
		const on = new DataTransfer();
		on.items.add(new File([`+quote(text)+`], `+quote(name)+`));
		const e = new DragEvent("drop", { dataTransfer: on, bubbles: true, cancelable: true });
		document.getElementById("stage").dispatchEvent(e);
		const said = () => document.getElementById("said").textContent.replace(/^opening .*/, "");
		while (!said() && document.getElementById("wrong").hidden) await new Promise(r => setTimeout(r, 5));
		return true;
	})()`)
}

func TestBriefIsDroppedOnThePage(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	t.Run("it is opened", func(t *testing.T) {
		w.drop("small.toml", small)
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
		assert.Equal(t, "Two small ones", eval[string](w,
			`document.getElementById("title").textContent`))
		assert.True(t, eval[bool](w, `stripesong.cloth() === stripesong.state.view`),
			"its cloth is drawn, not that of the brief before it")
		assert.False(t, eval[bool](w, `document.getElementById("photo").open`), "it is no photo")
	})
	t.Run("one that is none leaves it open", func(t *testing.T) {
		w.drop("none.toml", "titel = 3\n")
		assert.Regexp(t, `^none\.toml can't be opened:\n`, eval[string](w,
			`document.getElementById("wrong-what").textContent`))
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
	})
	t.Run("and so does what is no text", func(t *testing.T) {
		eval[bool](w, `(document.getElementById("wrong").hidden = true)`)
		w.drop("photo.toml", "\x00\xff")
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
	})
	t.Run("all that is wrong is told, with its lines", func(t *testing.T) {
		wrong := strings.Replace(small, `width     = "46 cm"`, `width = "46"`, 1)
		w.drop("wrong.toml", strings.Replace(wrong, `length    = "66 cm"`, `length = "66"`, 1))
		assert.Regexp(t, `(?s)^wrong\.toml can't be opened:\nline \d+: set\.width: .*\nline \d+: `+
			`set\.length: `, eval[string](w, `document.getElementById("wrong-what").textContent`))
	})
	t.Run("and one that takes long can be stopped", func(t *testing.T) {
		eval[bool](w, `(window.stopping =
			(async () => { const busy = document.getElementById("busy");
				while (busy.hidden) await new Promise(r => setTimeout(r, 5));
				const what = document.getElementById("busy-what").textContent;
				document.getElementById("busy-stop").click();
				return what; })(), true)`)
		w.drop("long.toml", small+"\n[vary]\ncandidates = 100000\n")
		assert.Equal(t, "choosing pieces from 100000 candidates", eval[string](w, `stopping`))
		assert.Equal(t, "long.toml was not opened: stopped", eval[string](w,
			`document.getElementById("wrong-what").textContent`))
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
	})
	w.quiet()
}

// What is not saved is offered at the next start, whatever brief it is of, and by no other
// page while its own is open.
func TestWhatIsNotSavedOfAnotherBrief(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	w.drop("small.toml", small)
	w.ask("do", rename)
	second := w.second(oneFile(t))
	assert.Empty(t, second.ask("view", "").Left, "a page that is open has its own")
	require.NoError(t, chromedp.Do(w, chromedp.Reload()))
	w.settle()
	at := w.ask("view", "")
	assert.Equal(t, "the built-in brief", at.View.File)
	require.Len(t, at.Left, 1)
	assert.Regexp(t, `^“Changed here”, small\.toml, left unsaved on `, at.Left[0].Says)
	at = w.ask("left", `{"left":1,"take":true}`)
	assert.Equal(t, "small.toml", at.View.File)
	assert.Equal(t, "Changed here", at.View.Title)
	assert.False(t, at.View.Saved)
	assert.Equal(t, "Two small ones", w.ask("undo", "{}").View.Title, "as it was opened")
	w.quiet()
}

// A browser that can write files has handles of them; this one is made of JavaScript, as
// no dialog opens in a test. It stands for a file that another program may change.
func TestSavedIntoTheFileThatWasOpened(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	eval[bool](w, `(() => { window.disk = { text: `+quote(small)+`, writes: 0 };
		window.showOpenFilePicker = async () => [{
			getFile: async () => new File([disk.text], "towels.toml"),
			createWritable: async () => {
				let text = "";
				return { write: async t => { text += t; },
					close: async () => { disk.text = text; disk.writes++; } };
			},
		}];
		return true; })()`)
	eval[bool](w, `(async () => {
		document.getElementById("open-brief").click();
		while (document.getElementById("title").textContent !== "Two small ones")
			await new Promise(r => setTimeout(r, 5));
		return true;
	})()`)
	t.Run("as it is here", func(t *testing.T) {
		w.ask("do", rename)
		assert.Equal(t, "saved in towels.toml", w.ask("save", "{}").Said)
		assert.Contains(t, eval[string](w, `disk.text`), `"Changed here"`)
	})
	t.Run("not over what another program wrote", func(t *testing.T) {
		w.ask("do", `{"op":{"do":"setting","key":"title","value":"And on"}}`)
		eval[string](w, `disk.text += "# by hand\n"`)
		assert.Equal(t, "the file has changed since it was read", w.ask("save", "{}").Said)
		require.Equal(t, 1, eval[int](w, `disk.writes`))
		assert.True(t, w.ask("save", `{"over":true}`).View.Saved, "unless she agrees")
	})
	w.quiet()
}

// A hundred pieces take long to draw, however quick the machine is beside the stop.
func TestLongWorkCanBeStopped(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	many := regexp.MustCompile(`(?m)^pieces( *)= 6`).ReplaceAllString(string(brief.Default()),
		"pieces$1= 100")
	require.NotEqual(t, string(brief.Default()), many)
	w.drop("many.toml", many)
	require.Equal(t, 100, eval[int](w, `stripesong.state.view.pieces.length`))
	said := eval[string](w, `(async () => {
		const drawing = carry("file?name=towels.zip");
		let busy = null;
		while (!busy) busy = (await (await carry("status")).json()).busy;
		const stop = { method: "POST", body: JSON.stringify({ job: busy.job }) };
		await carry("stop", stop);
		return (await drawing).text();
	})()`)
	assert.Contains(t, said, "stopped, and nothing was changed")
}
