package page_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// built is the whole program, built when the first test asks for it.
var built struct {
	sync.Once
	dir string
	err error
}

// program is where the whole program is.
func program(t *testing.T) string {
	t.Helper()
	path := func() string { return filepath.Join(built.dir, "stripesong") }
	built.Do(func() {
		if built.dir, built.err = os.MkdirTemp("", "stripesong-test-*"); built.err != nil {
			return
		}
		out, err := exec.Command("go", "build", "-o", path(), "stripesong/cmd/stripesong").CombinedOutput()
		built.err = err
		if err != nil {
			built.err = fmt.Errorf("%w: %s", err, out)
		}
	})
	require.NoError(t, built.err)
	return path()
}

// running is "stripesong page" in a folder.
type running struct {
	*exec.Cmd
	address string
	said    *bufio.Scanner
}

func start(t *testing.T, program, dir string, args ...string) *running {
	t.Helper()
	r := &running{Cmd: exec.Command(program, append([]string{"page"}, args...)...)}
	r.Dir = dir
	out, err := r.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, r.Start())
	t.Cleanup(func() { r.Process.Kill() })
	r.said = bufio.NewScanner(out)
	for r.said.Scan() {
		if line := strings.TrimSpace(r.said.Text()); strings.HasPrefix(line, "http://127.0.0.1:") {
			r.address = line
		}
		if strings.HasSuffix(r.said.Text(), "Ctrl-C ends it") {
			break
		}
	}
	require.NotEmpty(t, r.address, "it printed no address")
	return r
}

// interrupt is Ctrl-C; it gives what the program said after it.
func (r *running) interrupt(t *testing.T) string {
	t.Helper()
	require.NoError(t, r.Process.Signal(os.Interrupt))
	var said []string
	for r.said.Scan() {
		said = append(said, r.said.Text())
	}
	require.NoError(t, r.Wait(), "Ctrl-C is how it ends, and all is well")
	return strings.Join(said, "\n")
}

// drag draws the mouse from the middle of something by so many pixels.
func (b *browser) drag(selector string, x, y float64) {
	b.t.Helper()
	at := eval[[]float64](b, `(() => { const r = document.querySelector(`+quote(selector)+`).getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`)
	b.do(chromedp.DragAndDropXY(at[0], at[1], at[0]+x, at[1]+y, 8))
	b.settle()
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
		return eval[string](b, `JSON.stringify([view.warp.runs, view.pieces.map(p => p.runs)])`)
	}

	for i, hex := range []string{"#f4efe4", "#d9b36c", "#3b2a4f"} {
		b.enter("#colours li:nth-child("+string(rune('1'+i))+") input[type=color]", hex)
	}
	b.enter("#strip", "2")
	b.click("#keep")
	b.enter("#strip", "0")
	b.click("#keep")
	b.click("#open-all")
	before := texts()
	b.click("#another-set")
	assert.NotEqual(t, before, texts(), "another set is another")
	assert.Equal(t, 3, eval[int](b, `view.pieces.filter(p => p.kept).length`), "two kept here and one in the brief")
	b.enter("#strip", "1")
	units := eval[int](b, `view.pieces[1].runs[0].units`)
	b.drag("#pieces .edges .edge", 0, -12)
	assert.Greater(t, eval[int](b, `view.pieces[1].runs[0].units`), units, "an edge dragged up")
	b.click("#undo")
	assert.Equal(t, units, eval[int](b, `view.pieces[1].runs[0].units`), "one drag is one step")
	b.drag("#warp-edges .edge:nth-child(2)", 30, 0)
	b.enter("#from", "5")
	after := texts()
	b.do(chromedp.Reload())
	b.settle()
	assert.Equal(t, after, texts(), "a reload loses nothing")
	assert.Equal(t, "5", eval[string](b, `document.getElementById("from").value`))
	b.click("#save")
	assert.Contains(t, eval[string](b, `document.getElementById("said").textContent`), "saved in towels.toml")
	b.click("#publish")
	assert.Contains(t, eval[string](b, `document.getElementById("said").textContent`), "orchard-kitchen-towels")

	saved, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(saved), "# in place of width: the width in the reed", "comments stay")
	planned, err := runIn(dir, stripesong, "plan", "towels.toml", "--json")
	require.NoError(t, err)
	shown, err := os.ReadFile(filepath.Join(dir, "orchard-kitchen-towels", "plan.json"))
	require.NoError(t, err)
	assert.Equal(t, string(shown), planned, "the page and the command line plan the same")

	require.NoError(t, os.WriteFile(file, append(saved, "# by another hand\n"...), 0o644))
	b.enter("#settings input", "Evening towels")
	b.click("#save")
	assert.True(t, eval[bool](b, `document.getElementById("changed").open`), "a warning: the file changed meanwhile")
	b.click("#changed-copy")
	copied, err := os.ReadFile(filepath.Join(dir, "evening-towels.toml"))
	require.NoError(t, err)
	assert.Contains(t, string(copied), "Evening towels")
	kept, _ := os.ReadFile(file)
	assert.Equal(t, string(saved)+"# by another hand\n", string(kept), "and the file is as the other hand left it")
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

func runIn(dir, name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Dir = dir
	out, err := c.Output()
	return string(out), err
}

func TestPortTaken(t *testing.T) {
	t.Parallel()
	stripesong, dir := program(t), t.TempDir()
	first := start(t, stripesong, dir)
	port := strings.Split(strings.Split(first.address, "/")[2], ":")[1]
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	c := exec.CommandContext(ctx, stripesong, "page", "--port", port)
	out, err := c.CombinedOutput()
	require.Error(t, err)
	assert.Equal(t, 2, c.ProcessState.ExitCode())
	assert.Contains(t, string(out), "can't answer at port "+port)
	assert.Contains(t, string(out), "hint: leave --port out")
	assert.Empty(t, first.interrupt(t))
}
