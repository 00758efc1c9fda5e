package main

import (
	"strings"
	"testing"

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
		while (!document.getElementById("said").textContent &&
			document.getElementById("wrong").hidden) await new Promise(r => setTimeout(r, 5));
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
		assert.Regexp(t, `^none\.toml can't be opened: `, eval[string](w,
			`document.getElementById("wrong-what").textContent`))
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
	})
	t.Run("and so does what is no text", func(t *testing.T) {
		eval[bool](w, `(document.getElementById("wrong").hidden = true)`)
		w.drop("photo.toml", "\x00\xff")
		assert.Equal(t, "small.toml", w.ask("view", "").View.File)
	})
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

func TestLongWorkCanBeStopped(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
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
