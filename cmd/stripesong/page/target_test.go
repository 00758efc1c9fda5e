package page_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/workbench"
)

// What a weaver does on the page is tried with the program on this machine behind it and,
// where STRIPESONG_ONE_FILE names the page as one file, with the program in the page. What
// stands on one side alone:
//
//   - the door, the guard, the size of what is sent and two windows of one program (the
//     one file has no server, and each of its windows a program of its own);
//   - what lies beside the brief, a program that has ended or was started anew (a browser
//     writes one file only, and the program ends with its page);
//   - work that the storage of a test holds up (busy_test.go), and the session that ends on
//     the command line;
//   - downloads, the policy and what is kept in the browser: onefile_test.go.

// target is where the program behind a page runs.
type target interface {
	// name says it in a word or two.
	name() string
	// work begins on a brief.
	work(t testing.TB, text []byte) *work
	// onFile begins on a file that others can change too, with the drawer of sizes open.
	onFile(t testing.TB, b *browser, text []byte) file
}

// behind is what a test sees of the work other than by the page.
type behind interface {
	open(b *browser)        // shows its page in a window, from the beginning
	text() []byte           // of the brief as it is now
	saved() []byte          // what was saved last
	ask(path string) []byte // what the program answers
	// leave has an earlier page have left them, before it is opened in the window.
	leave(b *browser, texts ...string)
	left() int // how many of them there still are
}

// file is the brief's file.
type file interface {
	read() string
	write(text string)
	remove()
	exists() bool
}

// onBoth runs a test with the program on this machine and in the page.
func onBoth(t *testing.T, test func(*testing.T, target)) {
	t.Parallel()
	for _, at := range targets() {
		t.Run(at.name(), func(t *testing.T) {
			t.Parallel()
			test(t, at)
		})
	}
}

func targets() []target {
	all := []target{machine{}}
	if name := os.Getenv("STRIPESONG_ONE_FILE"); name != "" && !testing.Short() {
		all = append(all, oneFile{name})
	}
	return all
}

// work is a brief at work.
type work struct{ behind }

// told is what the page is told of it.
type told struct {
	Edition int
	Undo    string
	Steps   [2]int
	Colours []struct{ Name, Hex, State, Yarn string }
	Yarns   []workbench.Yarn
	Pins    []struct{ ID int }
	Warp    strip
	Pieces  []strip
}

type strip struct {
	Name                       string
	Runs                       json.RawMessage
	Kept, Open, Chosen, Chance bool
	Rhythm, Blocks             map[string]string
	First, Middle              string
	Colours                    []int
}

// Text is the brief as it is now.
func (w *work) Text() []byte { return w.text() }

// Steps is how many can be undone, and done again.
func (w *work) Steps() (undo, redo int) {
	at := w.View().Steps
	return at[0], at[1]
}

// Edition counts the changes.
func (w *work) Edition() int { return w.View().Edition }

// runs is how many it has.
func (s strip) runs() int {
	var all []json.RawMessage
	_ = json.Unmarshal(s.Runs, &all) // the program writes a list
	return len(all)
}

// View is what the page is told.
func (w *work) View() (v told) {
	_ = json.Unmarshal(w.rawView(), &v) // as far as it is known here
	return v
}

func (w *work) rawView() json.RawMessage {
	var answer struct{ View json.RawMessage }
	if err := json.Unmarshal(w.ask("view"), &answer); err != nil {
		panic(err) // the program writes JSON
	}
	return answer.View
}

// Plan is made of the text alone, by the command's own packages.
func (w *work) Plan() *plan.Plan {
	read, err := brief.Parse("towels.toml", w.text(), brief.Options{})
	if err == nil {
		var made *plan.Plan
		if made, err = plan.Make(context.Background(), read); err == nil {
			return made
		}
	}
	panic(err) // what the page goes on from is a brief
}

// machine has the program run on this machine.
type machine struct{}

func (machine) name() string { return "the program" }

// served is a brief at work in the process of the test.
type served struct {
	t       testing.TB
	address string
	bench   *workbench.Bench
	storage *shelf
}

func (machine) work(t testing.TB, text []byte) *work {
	t.Helper()
	storage := &shelf{saved: text}
	server, bench := serveAt(t, text, storage)
	return &work{&served{t, server.Address(), bench, storage}}
}

func (s *served) open(b *browser) { b.open(s.address) }
func (s *served) text() []byte    { return s.bench.Text() }
func (s *served) saved() []byte   { return s.storage.saved }
func (s *served) left() int       { return len(s.storage.left) }

func (s *served) ask(path string) []byte {
	_, text := get(s.t, s.address+path, nil)
	return []byte(text)
}

func (s *served) leave(_ *browser, texts ...string) {
	for i, text := range texts {
		s.storage.left = append(s.storage.left, engine.Left{ID: i + 1, Text: []byte(text),
			Says: "left unsaved on 3 May 2026 at 14:05, kept in towels-unsaved.toml"})
	}
}

func (machine) onFile(t testing.TB, b *browser, text []byte) file {
	t.Helper()
	dir := t.TempDir()
	f := onDisk{t, filepath.Join(dir, "my towels.toml")}
	f.write(string(text))
	r := start(t, program(t), dir, "my towels.toml")
	b.open(r.address)
	b.click("#sizes")
	return f
}

// onDisk is a file of this machine.
type onDisk struct {
	t    testing.TB
	name string
}

func (f onDisk) read() string { return string(must(os.ReadFile(f.name))) }

func (f onDisk) write(text string) {
	require.NoError(f.t, os.WriteFile(f.name, []byte(text), 0o644))
}

func (f onDisk) remove() { require.NoError(f.t, os.Rename(f.name, f.name+".old")) }

func (f onDisk) exists() bool {
	_, err := os.Stat(f.name)
	return err == nil
}

// labels are the runs of each piece.
func labels(v told) (all []string) {
	for _, p := range v.Pieces {
		all = append(all, string(p.Runs))
	}
	return all
}

// agree checks that page and program show one thing, and that it is what the text alone
// gives.
func agree(t *testing.T, b *browser, w *work) {
	t.Helper()
	at := w.View()
	assert.JSONEq(t, string(w.rawView()),
		eval[string](b, `JSON.stringify(stripesong.state.view)`))
	assert.JSONEq(t, string(at.Warp.Runs),
		eval[string](b, `JSON.stringify(stripesong.cloth().warp.runs)`),
		"nothing is in the hand any more")
	assert.Equal(t, string(must(plan.JSON(w.Plan()))), string(w.ask("file?name=plan.json")))
	assert.Equal(t, at.Steps[0] == 0, eval[bool](b, `document.getElementById("undo").disabled`))
	assert.Equal(t, at.Steps[1] == 0, eval[bool](b, `document.getElementById("redo").disabled`))
	assert.Equal(t, len(at.Pieces), eval[int](b, `document.querySelectorAll(".tag").length`))
}

// titled is the built-in brief under another title.
func titled(title string) string {
	return strings.Replace(string(brief.Default()), "Orchard kitchen towels", title, 1)
}
