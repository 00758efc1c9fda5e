package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// ownAddress is what the file may load: itself, and what it holds.
var ownAddress = regexp.MustCompile(`^(file|blob|data):`)

// quiet checks that nothing was asked of a network and nothing complained.
func (w *window) quiet() {
	w.t.Helper()
	w.mu.Lock()
	defer w.mu.Unlock()
	assert.Empty(w.t, w.requests)
	assert.Empty(w.t, w.console)
}

// onBrief is the file opened on a brief, in a folder of its own.
func onBrief(t *testing.T, name, text string) string {
	t.Helper()
	whole, err := os.ReadFile(oneFile(t))
	require.NoError(t, err)
	whole, err = page.OnBrief(whole, name, []byte(text))
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "towels.html")
	require.NoError(t, os.WriteFile(file, whole, 0o644))
	return file
}

// answer is what the program in the page says to a request.
type answer struct {
	Said string
	View struct {
		Title, File string
		Saved       bool
	}
	Kept struct{ Where string }
	Left []struct {
		ID   int
		Says string
	}
}

func (w *window) ask(path, body string) (a answer) {
	w.t.Helper()
	how := "{}"
	if body != "" {
		how = `{method: "POST", body: ` + quote(body) + `}`
	}
	text := eval[string](w, `carry(`+quote(path)+`, `+how+`).then(r => r.text())`)
	require.NoError(w.t, json.Unmarshal([]byte(text), &a), text)
	return a
}

func quote(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic(err) // a text always can be
	}
	return string(b)
}

func TestOpensFromADiskWithoutANetwork(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	at := w.ask("view", "")
	assert.Equal(t, "Orchard kitchen towels", at.View.Title)
	assert.Equal(t, "the built-in brief", at.View.File)
	w.quiet()
	t.Logf("the first view after %.0f ms",
		eval[float64](w, `stripesong.first || performance.now()`))
}

func TestFileIsSmall(t *testing.T) {
	info, err := os.Stat(oneFile(t))
	require.NoError(t, err)
	t.Logf("%d bytes", info.Size())
	assert.LessOrEqual(t, info.Size(), int64(5_000_000))
}

// The program in the page gives the very bytes that the command writes.
func TestSameBytesAsTheCommand(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	b, err := brief.Parse("x", brief.Default(), brief.Options{})
	require.NoError(t, err)
	made, err := plan.Make(t.Context(), b)
	require.NoError(t, err)
	want, err := engine.Zip(t.Context(), made, "towels.zip")
	require.NoError(t, err)
	got := eval[string](w, `carry("file?name=towels.zip").then(r => r.arrayBuffer()).then(body => {
		let text = "";
		for (const c of new Uint8Array(body)) text += String.fromCharCode(c);
		return btoa(text);
	})`)
	body, err := base64.StdEncoding.DecodeString(got)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, body), "%d and %d bytes", len(want), len(body))
}

func TestABriefWithoutAFileBecomesTheOneThatWasSaved(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	w.ask("do", rename)
	assert.Contains(t, w.ask("save-as", `{"title":"my three towels"}`).Said, "my-three-towels.toml")
	name, _ := w.download()
	assert.Equal(t, "my-three-towels.toml", name)
	assert.Equal(t, name, w.ask("view", "").View.File)
	w.ask("do", `{"op":{"do":"setting","key":"title","value":"And on"}}`)
	assert.True(t, w.ask("save", "{}").View.Saved)
	w.quiet()
}

const rename = `{"op":{"do":"setting","key":"title","value":"Changed here"}}`

func TestWhatIsNotSavedIsKeptAndOffered(t *testing.T) {
	w := open(t, onBrief(t, "towels.toml", string(brief.Default())), 1440, 900)
	require.Equal(t, "towels.toml", w.ask("view", "").View.File)
	assert.Equal(t, "this browser", w.ask("do", rename).Kept.Where)
	require.NoError(t, chromedp.Do(w, chromedp.Reload()))
	w.settle()
	again := w.ask("view", "")
	assert.Equal(t, "Orchard kitchen towels", again.View.Title)
	require.Len(t, again.Left, 1)
	taken := w.ask("left", fmt.Sprintf(`{"left":%d,"take":true}`, again.Left[0].ID))
	assert.Equal(t, "Changed here", taken.View.Title)
	assert.Empty(t, taken.Left)
	saved := w.ask("save", "{}")
	assert.True(t, saved.View.Saved, saved.Said)
	assert.Empty(t, saved.Kept.Where)
	name, body := w.download()
	assert.Equal(t, "towels.toml", name)
	assert.Contains(t, string(body), `"Changed here"`)
	assert.Equal(t, "true", eval[string](w, `Object.values(localStorage).map(v =>
		JSON.parse(v).saved).join()`), "what is kept is no more than a copy")
	require.NoError(t, chromedp.Do(w, chromedp.Reload()))
	w.settle()
	again = w.ask("view", "")
	assert.Equal(t, "Orchard kitchen towels", again.View.Title, "that the file was written with")
	require.Len(t, again.Left, 1)
	assert.Regexp(t, `^“Changed here”, towels\.toml, saved last on `, again.Left[0].Says)
	taken = w.ask("left", `{"left":1,"take":true}`)
	assert.Equal(t, "Changed here", taken.View.Title)
	assert.True(t, taken.View.Saved)
	assert.Empty(t, taken.Left)
	w.quiet()
}

// Each file of the plan can be saved by itself, as the command writes it.
func TestOneOfItsFiles(t *testing.T) {
	w := open(t, oneFile(t), 1440, 900)
	b, err := brief.Parse("x", brief.Default(), brief.Options{})
	require.NoError(t, err)
	made, err := plan.Make(t.Context(), b)
	require.NoError(t, err)
	eval[bool](w, `(async () => {
		document.getElementById("single").click();
		while (!document.getElementById("files").open) await new Promise(r => setTimeout(r, 5));
		document.querySelector("#files-list a[download='yarn.csv']").click();
		return true;
	})()`)
	name, body := w.download()
	assert.Equal(t, "yarn.csv", name)
	var want bytes.Buffer
	require.NoError(t, folder.Yarn(&want, made))
	assert.Equal(t, want.String(), string(body))
	assert.Len(t, folder.Files(made),
		eval[int](w, `document.querySelectorAll("#files-list a").length`))
	assert.True(t, eval[bool](w, `document.getElementById("publish").hidden`), "it is the zip again")
	eval[bool](w, `(document.getElementById("packet-save").click(), true)`)
	name, _ = w.download()
	assert.Equal(t, "orchard-kitchen-towels-packet.html", name)
	w.quiet()
}

// A brief is text, whatever it holds.
func TestHostileBrief(t *testing.T) {
	text := bytes.Replace(brief.Default(), []byte(`"Orchard kitchen towels"`),
		[]byte(`"</script><img src=x onerror=document.title='hurt'><script>hurt()</script>"`), 1)
	w := open(t, onBrief(t, `"><script>hurt()</script>.toml`, string(text)), 1440, 900)
	at := w.ask("view", "")
	assert.Contains(t, at.View.Title, "<img src=x")
	assert.Zero(t, eval[int](w, `document.querySelectorAll("img[src=x]").length`))
	assert.NotEqual(t, "hurt", eval[string](w, `document.title`))
	w.quiet()
}
