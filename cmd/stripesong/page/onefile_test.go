package page_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	ofBrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
)

// oneFile is the page as one file, opened from a disk.
type oneFile struct{ file string }

func (oneFile) name() string { return "one file" }

// inPage is a brief at work in a window of it.
type inPage struct {
	t      testing.TB
	file   string // that opens on the brief
	begun  []byte
	held   []byte // what was saved last
	before string // the places of the browser that were in use before, as a list
	window *browser
}

func (o oneFile) work(t testing.TB, text []byte) *work {
	t.Helper()
	whole, err := page.OnBrief(must(os.ReadFile(o.file)), "towels.toml", text)
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "towels.html")
	require.NoError(t, os.WriteFile(name, whole, 0o644))
	return &work{&inPage{t: t, file: name, begun: text, held: text}}
}

// keptPlaces lists where the browser holds what is not saved.
const keptPlaces = `Object.keys(localStorage).filter(k => k.startsWith("stripesong unsaved "))`

func (p *inPage) open(b *browser) {
	p.t.Helper()
	p.window = b
	b.catchDownloads()
	b.open("file://" + p.file)
	p.before = eval[string](b, `JSON.stringify(`+keptPlaces+`)`)
}

// text is what the browser keeps while it is not saved.
func (p *inPage) text() []byte {
	p.t.Helper()
	if p.window == nil {
		return p.begun
	}
	kept := eval[string](p.window, `(k => k ? JSON.parse(localStorage[k]).text : "")(`+
		keptPlaces+`.find(k => !`+p.before+`.includes(k)))`)
	if kept == "" {
		return p.held
	}
	return []byte(kept)
}

func (p *inPage) saved() []byte {
	p.t.Helper()
	_, p.held = p.window.download()
	return p.held
}

func (p *inPage) ask(path string) []byte {
	p.t.Helper()
	return []byte(eval[string](p.window, `carry(`+quote(path)+`).then(r => r.text())`))
}

func (p *inPage) leave(b *browser, texts ...string) {
	p.t.Helper()
	empty := filepath.Join(filepath.Dir(p.file), "empty.html")
	require.NoError(p.t, os.WriteFile(empty, []byte("<!doctype html><title>-</title>"), 0o644))
	b.do(chromedp.Navigate("file://" + empty))
	for i, text := range texts {
		eval[bool](b, fmt.Sprintf(`(localStorage["stripesong unsaved %d"] = JSON.stringify(
			{ name: "towels.toml", text: %s, base: %s, when: "3 May 2026" }), true)`, i+1,
			quote(text), quote(string(p.begun))))
	}
}

func (p *inPage) left() int {
	p.t.Helper()
	return eval[int](p.window, keptPlaces+`.filter(k => `+p.before+`.includes(k)).length`)
}

// onFile opens a file by a handle, as a browser that writes files gives one; it is made of
// JavaScript, since no dialog opens in a test.
func (o oneFile) onFile(t testing.TB, b *browser, text []byte) file {
	t.Helper()
	w := o.work(t, brief.Default())
	w.open(b)
	f := inBrowser{b}
	f.write(string(text))
	eval[bool](b, `(window.showOpenFilePicker = async () => [{
		getFile: async () => {
			if (disk.text === null) throw new DOMException("gone", "NotFoundError");
			return new File([disk.text], "my towels.toml");
		},
		createWritable: async () => {
			let text = "";
			return { write: async t => { text += t; }, close: async () => { disk.text = text; } };
		},
	}], true)`)
	b.click("#open-brief")
	eval[bool](b, `new Promise(done => { const look = () =>
		stripesong.state.view.file === "my towels.toml" ? done(true) : setTimeout(look, 5); look(); })`)
	b.click("#sizes")
	return f
}

// inBrowser is what stands for a file in it.
type inBrowser struct{ *browser }

func (f inBrowser) read() string { return eval[string](f.browser, `disk.text`) }
func (f inBrowser) write(text string) {
	eval[bool](f.browser, `(window.disk = { text: `+quote(text)+` }, true)`)
}
func (f inBrowser) remove()      { eval[bool](f.browser, `(disk.text = null, true)`) }
func (f inBrowser) exists() bool { return eval[bool](f.browser, `disk.text !== null`) }

// catchDownloads has what the page gives as downloads put into a folder.
func (b *browser) catchDownloads() {
	b.t.Helper()
	if b.downloads != "" {
		return
	}
	b.downloads, b.given, b.done = b.t.TempDir(), map[string]string{}, make(chan string, 20)
	_, err := chromedp.Call(b, ofBrowser.SetDownloadBehavior, ofBrowser.SetDownloadBehaviorParams{
		Behavior: "allow", DownloadPath: b.downloads, EventsEnabled: new(true),
		BrowserContextID: chromedp.FromContext(b).BrowserContextID})
	require.NoError(b.t, err)
}

// download is a file that the page gave, when it is complete.
func (b *browser) download() (name string, body []byte) {
	b.t.Helper()
	name = <-b.done
	return name, must(os.ReadFile(filepath.Join(b.downloads, name)))
}
