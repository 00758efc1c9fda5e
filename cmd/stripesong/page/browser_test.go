package page_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	ofBrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// browser is a page in headless Chromium, and what it did that it should not.
type browser struct {
	context.Context
	t  testing.TB
	mu sync.Mutex
	// requests beyond 127.0.0.1, and errors and warnings on the console
	elsewhere, console []string
	// what it gives as downloads, once these are caught: their folder, their names by the
	// number that the browser gives them, and those that are complete
	downloads string
	given     map[string]string
	done      chan string
}

// findBrowser is the browser to test with. Where none is installed the test is
// skipped, except with STRIPESONG_CI=1, where that is a failure.
func findBrowser(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	if os.Getenv("STRIPESONG_CI") == "1" {
		t.Fatal("no Chromium is installed")
	}
	t.Skip("no Chromium is installed: the page was not tried in a browser")
	return ""
}

// patience is how long anything is waited for: no verdict hangs on how fast a
// machine is, only a test that would never end does end.
const patience = 30 * time.Minute

// theBrowser is started when the first test asks for it, and shared by all.
var theBrowser struct {
	sync.Once
	context.Context
	stop func()
	err  error
}

func startBrowser(path string) {
	options := append([]chromedp.ExecAllocatorOption{chromedp.ExecPath(path)}, flags...)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, end := chromedp.NewContext(allocator)
	theBrowser.Context, theBrowser.stop = ctx, func() { end(); stop() }
	theBrowser.err = chromedp.Do(ctx)
}

func TestMain(m *testing.M) {
	debug.SetGCPercent(400) // as the program does
	code := m.Run()
	if theBrowser.stop != nil {
		theBrowser.stop()
	}
	if built.dir != "" {
		os.RemoveAll(built.dir)
	}
	os.Exit(code)
}

// windows are those that a test is done with: to start one takes longer than most tests.
var windows struct {
	sync.Mutex
	idle []*window
}

// window is a window of the browser, which shares no cookies with any other, and who
// hears what happens in it.
type window struct {
	context.Context
	stop  func()
	heard atomic.Pointer[browser]
}

// newBrowser opens a window of a size, as good as new: nothing is left in it of what it
// was used for before.
func newBrowser(t testing.TB, width, height int) *browser {
	t.Helper()
	path := findBrowser(t)
	theBrowser.Do(func() { startBrowser(path) })
	require.NoError(t, theBrowser.err)
	w := takeWindow(t)
	b := &browser{t: t}
	ctx, stop := context.WithTimeout(w.Context, patience)
	b.Context = ctx
	w.heard.Store(b)
	t.Cleanup(func() {
		w.heard.Store(nil)
		w.leave(b)
		stop()
	})
	b.do(chromedp.EmulateViewport(int64(width), int64(height)))
	return b
}

// takeWindow is one that is idle, or else a new one.
func takeWindow(t testing.TB) *window {
	t.Helper()
	windows.Lock()
	defer windows.Unlock()
	if last := len(windows.idle) - 1; last >= 0 {
		w := windows.idle[last]
		windows.idle = windows.idle[:last]
		return w
	}
	w := &window{}
	w.Context, w.stop = chromedp.NewContext(theBrowser.Context, chromedp.WithNewBrowserContext(),
		chromedp.WithListener(func(event any) {
			if b := w.heard.Load(); b != nil {
				b.hear(event)
			}
		}))
	require.NoError(t, chromedp.Do(w.Context))
	call(t, w, network.Enable, network.EnableParams{})
	call(t, w, log.Enable, cdp.Empty{})
	call(t, w, emulation.SetFocusEmulationEnabled,
		emulation.SetFocusEmulationEnabledParams{Enabled: true}) // more than one has the focus
	return w
}

// leave makes a window as new; that of a test that failed, or that took files, is closed.
func (w *window) leave(b *browser) {
	if b.t.Failed() || b.downloads != "" {
		w.stop()
		return
	}
	eval[bool](b, `(() => { try { localStorage.clear(); sessionStorage.clear(); } catch {} return true; })()`)
	b.do(chromedp.Navigate("about:blank"))
	call(b.t, b, network.ClearBrowserCookies, cdp.Empty{})
	call(b.t, b, network.ClearBrowserCache, cdp.Empty{})
	call(b.t, b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
	b.touch(false)
	windows.Lock()
	defer windows.Unlock()
	windows.idle = append(windows.idle, w)
}

// call gives the browser one command.
func call[P, R any](t testing.TB, ctx context.Context, do cdp.Command[P, R], with P) {
	t.Helper()
	_, err := chromedp.Call(ctx, do, with)
	require.NoError(t, err)
}

// flags leave nothing to the host: neither its language nor the scale and the
// colours of its screen.
var flags = []chromedp.ExecAllocatorOption{
	chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.Headless, chromedp.DisableGPU,
	chromedp.NoSandbox,
	chromedp.WSURLReadTimeout(patience), chromedp.Flag("lang", "en-US"),
	chromedp.Flag("force-device-scale-factor", "1"), chromedp.Flag("force-color-profile", "srgb"),
	chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
	chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
	chromedp.Flag("disable-dev-shm-usage", true),
	chromedp.Flag("disable-features", "BackForwardCache,SpareRendererForSitePerProcess"),
}

// hear notes what a page did that it should not.
func (b *browser) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !strings.HasPrefix(u, "http://127.0.0.1:") &&
			!strings.HasPrefix(u, "file:") && !strings.HasPrefix(u, "data:") &&
			!strings.HasPrefix(u, "blob:") {
			b.elsewhere = append(b.elsewhere, u)
		}
	case *runtime.EventConsoleAPICalled:
		if e.Type != "log" && e.Type != "debug" && e.Type != "info" {
			b.console = append(b.console, string(e.Type))
		}
	case *runtime.EventExceptionThrown:
		b.console = append(b.console, e.ExceptionDetails.Text)
	case *ofBrowser.EventDownloadWillBegin:
		b.given[e.GUID] = e.SuggestedFilename
	case *ofBrowser.EventDownloadProgress:
		if e.State == "completed" {
			b.done <- b.given[e.GUID]
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			b.console = append(b.console, e.Entry.Text)
		}
	}
}

// quiet checks that nothing was asked of the network and nothing complained,
// but for refusals the test wanted, by a part of their text.
func (b *browser) quiet(wanted ...string) {
	b.t.Helper()
	b.mu.Lock() // not over eval, whose answer waits behind events that wait for the lock
	elsewhere, console := slices.Clone(b.elsewhere), slices.Clone(b.console)
	b.mu.Unlock()
	assert.Empty(b.t, elsewhere, "requests beyond 127.0.0.1")
	complaints := slices.DeleteFunc(console, func(text string) bool {
		return slices.ContainsFunc(wanted, func(part string) bool {
			return strings.Contains(text, part)
		})
	})
	assert.Empty(b.t, complaints, "on the console")
	assert.Empty(b.t, eval[[]string](b, `stripesong.errors`))
}

func (b *browser) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b, steps...))
}

// eval runs a script, waits for a promise, and gives what came of it.
func eval[T any](b *browser, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, script)
	return v
}

// settle waits until the page has shown all that was asked for: an event that the browser
// was given comes to the page by the next frame, and may have it ask for more.
func (b *browser) settle() {
	b.t.Helper()
	eval[bool](b, `new Promise(done => {
		const settled = () => "stripesong" in window && stripesong.settled;
		const frame = then => requestAnimationFrame(() => then());
		const look = () => settled() ? frame(() => frame(again)) : setTimeout(look, 5);
		const again = () => settled() ? done(true) : look();
		look(); })`)
}

func (b *browser) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(address))
	b.settle()
}

// arrive waits until the browser has been led to the page, whatever it shows on the way.
func (b *browser) arrive() {
	b.t.Helper()
	there := chromedp.Evaluate[bool](`"stripesong" in window`)
	for {
		if is, err := chromedp.Run(b, there); err == nil && is {
			break
		}
		require.NoError(b.t, b.Err())
		time.Sleep(5 * time.Millisecond)
	}
	b.settle()
}

// size gives the window another size.
func (b *browser) size(to [2]int) {
	b.t.Helper()
	b.do(chromedp.EmulateViewport(int64(to[0]), int64(to[1])))
}

// still waits until the page stands as its window is.
func (b *browser) still() {
	b.t.Helper()
	eval[bool](b,
		`new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))`)
	b.settle()
}

// click clicks the first thing a selector finds and waits for what follows.
func (b *browser) click(selector string) {
	b.t.Helper()
	b.do(chromedp.ScrollIntoView(chromedp.CSS(selector)), chromedp.Click(chromedp.CSS(selector)))
	b.settle()
}

// mouse moves the mouse, presses a button or lets go of it.
func (b *browser) mouse(kind input.DispatchMouseEventType, x, y float64) {
	b.t.Helper()
	p := input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: "left", ClickCount: 1}
	if kind != input.DispatchMouseEventTypeMouseReleased {
		p.Buttons = 1
	}
	call(b.t, b, input.DispatchMouseEvent, p)
}

// call dispatches an event of the mouse.
func (b *browser) call(event input.DispatchMouseEventParams) {
	b.t.Helper()
	call(b.t, b, input.DispatchMouseEvent, event)
	b.settle()
}

// press presses keys.
func (b *browser) press(keys string) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(keys))
	b.settle()
}

// hold presses the mouse at one place and draws it by way of others to the last,
// without letting go.
func (b *browser) hold(at ...[2]float64) {
	b.t.Helper()
	b.mouse(input.DispatchMouseEventTypeMousePressed, at[0][0], at[0][1])
	for i := 1; i < len(at); i++ {
		for part := 1.0; part <= 5; part++ {
			from, to := at[i-1], at[i]
			b.mouse(input.DispatchMouseEventTypeMouseMoved, from[0]+(to[0]-from[0])*part/5,
				from[1]+(to[1]-from[1])*part/5)
		}
	}
	b.settle()
}

// drag is hold, and letting go.
func (b *browser) drag(at ...[2]float64) {
	b.t.Helper()
	b.hold(at...)
	last := at[len(at)-1]
	b.mouse(input.DispatchMouseEventTypeMouseReleased, last[0], last[1])
	b.settle()
}

// tap clicks at a place.
func (b *browser) tap(at [2]float64) {
	b.t.Helper()
	b.drag(at)
}

// fingers puts fingers down, moves or lifts them.
func (b *browser) fingers(kind input.DispatchTouchEventType, at ...[2]float64) {
	b.t.Helper()
	points := []*input.TouchPoint{}
	for i, p := range at {
		id := float64(i)
		points = append(points, &input.TouchPoint{X: p[0], Y: p[1], ID: &id})
	}
	call(b.t, b, input.DispatchTouchEvent,
		input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
}

// slide draws fingers from one place to another.
func (b *browser) slide(from, to [][2]float64) {
	b.t.Helper()
	b.fingers(input.DispatchTouchEventTypeTouchStart, from...)
	for part := 1.0; part <= 5; part++ {
		var now [][2]float64
		for i := range from {
			now = append(now, [2]float64{from[i][0] + (to[i][0]-from[i][0])*part/5,
				from[i][1] + (to[i][1]-from[i][1])*part/5})
		}
		b.fingers(input.DispatchTouchEventTypeTouchMove, now...)
	}
	b.fingers(input.DispatchTouchEventTypeTouchEnd)
	b.settle()
}

// touch makes the window one for fingers, or for a mouse.
func (b *browser) touch(fingers bool) {
	b.t.Helper()
	call(b.t, b, emulation.SetTouchEmulationEnabled,
		emulation.SetTouchEmulationEnabledParams{Enabled: fingers})
}

// where is the middle of a run in the window: in a piece, or of the warp over one (via
// less than 0 for the first strip over the pieces).
func (b *browser) where(strip, run, via int) [2]float64 {
	b.t.Helper()
	return eval[[2]float64](b, fmt.Sprintf(`((strip, run, via) => {
		const S = stripesong, back = via >= 0 && S.state.back, o = document.getElementById("canvas").getBoundingClientRect();
		S.draw();
		const r = S.runBox(S.cloth(), strip, run, S.boxesOf(strip).find(b => b.piece === via), back);
		return [o.left + r.x + r.w / 2, o.top + r.y + r.h / 2]; })(%d, %d, %d)`, strip, run, via))
}

// choose makes something the chosen one; run less than 0 for the whole strip.
func (b *browser) choose(strip, run int) {
	b.t.Helper()
	eval[bool](b,
		fmt.Sprintf(
			`(stripesong.choose({ strip: %d, run: %d < 0 ? null : %d, via: Math.max(0, %d) }), stripesong.draw(), true)`, strip, run, run, strip))
	b.settle()
}

// chosen is what is chosen: strip and run, -9 for none.
func (b *browser) chosen() [2]int {
	b.t.Helper()
	return eval[[2]int](b,
		`(s => s ? [s.strip, s.run === null ? -9 : s.run] : [-9, -9])(stripesong.state.selected)`)
}

// enter puts a value into a control as if it had been typed and left.
func (b *browser) enter(selector, value string) {
	b.t.Helper()
	eval[bool](b, `(() => { const e = document.querySelector(`+quote(selector)+`); e.focus(); e.value = `+quote(value)+`;
		e.dispatchEvent(new Event("input", { bubbles: true })); e.dispatchEvent(new Event("change", { bubbles: true })); e.blur(); return true; })()`)
	b.settle()
}

// shot writes a picture of the page where STRIPESONG_SHOTS names a folder.
func (b *browser) shot(name string) {
	dir := os.Getenv("STRIPESONG_SHOTS")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(b, chromedp.CaptureScreenshot())
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(filepath.Join(dir, name+".png"), png, 0o666))
}
