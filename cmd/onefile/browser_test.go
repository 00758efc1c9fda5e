package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// patience is how long anything is waited for: no verdict hangs on how fast a machine is.
const patience = 30 * time.Minute

// window is the one file, opened from a disk in headless Chromium without a network, and
// what it did that it should not.
type window struct {
	context.Context
	t         testing.TB
	downloads string

	mu       sync.Mutex
	requests []string // for anything but the file itself, blobs and data
	console  []string // errors and warnings
	given    map[string]string
	done     chan string // the names of downloads that are complete
}

// oneFile is the file to try, as .ci/run makes it. Without it the test is skipped, except
// with STRIPESONG_CI=1, where that is a failure.
func oneFile(t testing.TB) string {
	t.Helper()
	name := os.Getenv("STRIPESONG_ONE_FILE")
	if name == "" && os.Getenv("STRIPESONG_CI") == "1" {
		t.Fatal("STRIPESONG_ONE_FILE names no file")
	}
	if name == "" {
		t.Skip("STRIPESONG_ONE_FILE names no file: the page as one file was not tried")
	}
	return name
}

func open(t testing.TB, file string, width, height int64) *window {
	t.Helper()
	path, err := exec.LookPath("chromium")
	require.NoError(t, err)
	allocator, stop := chromedp.NewExecAllocator(t.Context(), chromedp.ExecPath(path),
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.Headless,
		chromedp.DisableGPU, chromedp.NoSandbox, chromedp.WSURLReadTimeout(patience),
		chromedp.Flag("lang", "en-US"), chromedp.Flag("force-device-scale-factor", "1"),
		chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND"))
	t.Cleanup(stop)
	w := &window{t: t, downloads: t.TempDir(), given: map[string]string{},
		done: make(chan string, 20)}
	ctx, stop := chromedp.NewContext(allocator, chromedp.WithListener(w.heard))
	t.Cleanup(stop)
	require.NoError(t, chromedp.Do(ctx))
	ctx, stop = context.WithTimeout(ctx, patience)
	t.Cleanup(stop)
	w.Context = ctx
	_, err = chromedp.Call(ctx, network.Enable, network.EnableParams{})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, log.Enable, cdp.Empty{})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: "allow", DownloadPath: w.downloads, EventsEnabled: new(true)})
	require.NoError(t, err)
	whole, err := filepath.Abs(file)
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height),
		chromedp.Navigate("file://"+whole)))
	w.settle()
	return w
}

// second is another tab of the same browser with the file open.
func (w *window) second(file string) *window {
	w.t.Helper()
	ctx, stop := chromedp.NewContext(w.Context)
	w.t.Cleanup(stop)
	tab := &window{Context: ctx, t: w.t}
	whole, err := filepath.Abs(file)
	require.NoError(w.t, err)
	require.NoError(w.t, chromedp.Do(ctx, chromedp.Navigate("file://"+whole)))
	tab.settle()
	return tab
}

func (w *window) heard(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if u := e.Request.URL; !ownAddress.MatchString(u) {
			w.requests = append(w.requests, u)
		}
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "warning" {
			w.console = append(w.console, string(e.Type))
		}
	case *runtime.EventExceptionThrown:
		w.console = append(w.console, e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			w.console = append(w.console, e.Entry.Text)
		}
	case *browser.EventDownloadWillBegin:
		w.given[e.GUID] = e.SuggestedFilename
	case *browser.EventDownloadProgress:
		if e.State == "completed" {
			w.done <- w.given[e.GUID]
		}
	}
}

// eval runs a script, waits for a promise, and gives what came of it.
func eval[T any](w *window, script string) T {
	w.t.Helper()
	v, err := chromedp.Run(w, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(w.t, err, script)
	return v
}

// settle waits until the page has shown all that was asked for.
func (w *window) settle() {
	w.t.Helper()
	eval[bool](w, `new Promise(done => {
		const settled = () => "stripesong" in window && stripesong.settled;
		const frame = then => requestAnimationFrame(() => then());
		const look = () => settled() ? frame(() => frame(again)) : setTimeout(look, 5);
		const again = () => settled() ? done(true) : look();
		look(); })`)
}

// download is a file that the page gave, when it is complete.
func (w *window) download() (name string, body []byte) {
	w.t.Helper()
	name = <-w.done
	body, err := os.ReadFile(filepath.Join(w.downloads, name))
	require.NoError(w.t, err)
	return name, body
}
