package packet

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/svg"
)

// need finds a program. Where there is none the test is skipped, except with
// STRIPESONG_CI=1, where that is a failure.
func need(t testing.TB, names ...string) string {
	t.Helper()
	for _, name := range names {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	lacking(t, "no "+names[0]+" is installed: the packet was not tried with it")
	return ""
}

func lacking(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("STRIPESONG_CI") == "1" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// browser is a tab as one test uses it.
type browser struct {
	*tab
	t testing.TB
}

// tab is one of headless Chromium with a packet open, what it did that it should not, and
// the files that it was printed to, by paper.
type tab struct {
	context.Context
	mu         sync.Mutex
	complaints []string
	prints     map[string]string
}

// theBrowser is started when the first test asks for it, and shared by all.
var theBrowser struct {
	sync.Once
	context.Context
	stop func()
	err  error
	// laidOut are the packets that tests only look at, by their briefs; dir has their files
	laidOut map[string]*tab
	dir     string
}

func startBrowser(path string) {
	allocator, stop := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath(path),
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.Headless, chromedp.DisableGPU,
		chromedp.NoSandbox,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	ctx, end := chromedp.NewContext(allocator)
	theBrowser.Context, theBrowser.stop = ctx, func() { end(); stop() }
	theBrowser.laidOut = map[string]*tab{}
	if theBrowser.err = chromedp.Do(ctx); theBrowser.err == nil {
		theBrowser.dir, theBrowser.err = os.MkdirTemp("", "packet-test")
	}
}

func TestMain(m *testing.M) {
	code := m.Run()
	if theBrowser.stop != nil {
		theBrowser.stop()
	}
	if theBrowser.dir != "" {
		os.RemoveAll(theBrowser.dir)
	}
	os.Exit(code)
}

// openPacket opens a window of its own, which shares nothing kept with any other.
func openPacket(t testing.TB) *browser {
	t.Helper()
	needBrowser(t)
	return &browser{tab: newTab(t, brief.Default()), t: t}
}

// layOut opens the packet of a brief to be looked at and printed: its window is shared by
// all tests that ask for it, laying out a long packet takes a second.
func layOut(t testing.TB, text []byte) *browser {
	t.Helper()
	needBrowser(t)
	open := theBrowser.laidOut[string(text)]
	if open == nil {
		open = newTab(t, text)
		theBrowser.laidOut[string(text)] = open
	}
	return &browser{tab: open, t: t}
}

func needBrowser(t testing.TB) {
	t.Helper()
	if testing.Short() {
		t.Skip("opens no browser in short mode")
	}
	path := need(t, "chromium", "chromium-browser", "google-chrome", "chrome")
	theBrowser.Do(func() { startBrowser(path) })
	require.NoError(t, theBrowser.err)
}

// newTab ends with the browser.
func newTab(t testing.TB, text []byte) *tab {
	t.Helper()
	dir, err := os.MkdirTemp(theBrowser.dir, "")
	require.NoError(t, err)
	file := filepath.Join(dir, "packet.html")
	require.NoError(t, os.WriteFile(file, []byte(pageOf(t, planOf(t, text))), 0o644))
	made := &tab{prints: map[string]string{}}
	made.Context, _ = chromedp.NewContext(theBrowser.Context, chromedp.WithNewBrowserContext(),
		chromedp.WithListener(made.heard))
	require.NoError(t, chromedp.Do(made))
	_, err = chromedp.Call(made, network.Enable, network.EnableParams{})
	require.NoError(t, err)
	_, err = chromedp.Call(made, log.Enable, cdp.Empty{})
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(made, chromedp.EmulateViewport(768, 1024),
		chromedp.Navigate("file://"+file)))
	return made
}

// shownOn lays the packet out for a medium, "print" or, as it comes, "", in a window of a
// size.
func (b *browser) shownOn(medium string, width, height int64) {
	b.t.Helper()
	_, err := chromedp.Call(b, emulation.SetEmulatedMedia,
		emulation.SetEmulatedMediaParams{Media: medium})
	require.NoError(b.t, err)
	require.NoError(b.t, chromedp.Do(b, chromedp.EmulateViewport(width, height)))
}

func (b *tab) heard(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, "file://") ||
			!strings.HasSuffix(e.Request.URL, "/packet.html") {
			b.complaints = append(b.complaints, "asked for "+e.Request.URL)
		}
	case *runtime.EventConsoleAPICalled:
		b.complaints = append(b.complaints, "console: "+string(e.Type))
	case *runtime.EventExceptionThrown:
		b.complaints = append(b.complaints, e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		b.complaints = append(b.complaints, e.Entry.Text)
	}
}

func (b *browser) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	assert.Empty(b.t, b.complaints)
}

func eval[T any](b *browser, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, script)
	return v
}

// wider names what reaches beyond the page's right edge.
const wider = `[...document.body.querySelectorAll("*")].filter(e => !e.closest("svg svg, .hear") && e.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
	.map(e => e.tagName + "." + (e.getAttribute("class") || "") + " " + e.textContent.slice(0, 40)).slice(0, 5)`

// TestNothingIsWiderThanThePage: at the widths of tablets, and of A4 and Letter less the
// margins of 12 mm, laid out as for print. What is touched is a centimetre high and wide, 38
// pixels at 96 to the inch (a fingertip: common practice, no source).
func TestNothingIsWiderThanThePage(t *testing.T) {
	b := layOut(t, brief.Default())
	for _, width := range []int64{768, 1024} {
		b.shownOn("", width, 1024)
		assert.Empty(t, eval[[]string](b, wider), width)
		assert.LessOrEqual(t, eval[int64](b, `document.documentElement.scrollWidth`), width)
		assert.Zero(t, eval[int](b,
			`[...document.querySelectorAll(".wide")].filter(e => e.scrollWidth > e.clientWidth + 1).length`), "nothing has to be scrolled sideways")
		assert.Empty(t, eval[[]string](b,
			`[...document.querySelectorAll("input, button, a")].filter(e => { const r = (e.closest("label") || e).getBoundingClientRect(); return r.width && (r.height < 38 || r.width < 38) }).map(e => e.outerHTML.slice(0, 80))`), "too small to touch")
	}
	for name, width := range map[string]int64{"A4": 703, "Letter": 725} {
		b.shownOn("print", width, 1000)
		assert.Empty(t, eval[[]string](b, wider), name)
	}
	b.quiet()
}

// TestTicksSurviveAReload, and what is typed; clearing takes both away.
func TestTicksSurviveAReload(t *testing.T) {
	b := openPacket(t)
	const state = `(() => { const s = document.querySelector("#piece-2"), f = document.querySelector("#measuring input"); return [...s.querySelectorAll("input")].filter(e => e.checked).length + " " + f.value })()`
	assert.Equal(t, "0 ", eval[string](b, state))
	require.NoError(t, chromedp.Do(b,
		chromedp.Click(chromedp.CSS(`#piece-2 tbody tr:last-child input`))))
	eval[bool](b,
		`(() => { const f = document.querySelector("#measuring input"); f.value = "1 mm"; f.dispatchEvent(new Event("change")); return true })()`)
	require.NoError(t, chromedp.Do(b, chromedp.Reload()))
	assert.Equal(t, "1 1 mm", eval[string](b, state))
	assert.True(t, eval[bool](b,
		`document.querySelector("#piece-2 tbody tr:last-child input").checked`))
	eval[bool](b, `(window.confirm = () => true, document.querySelector("#clear").click(), true)`)
	require.NoError(t, chromedp.Do(b, chromedp.Reload()))
	assert.Equal(t, "0 ", eval[string](b, state))
	b.quiet()
}

// TestAccessible asks the engine of STRIPESONG_AXE for violations.
func TestAccessible(t *testing.T) {
	file := os.Getenv("STRIPESONG_AXE")
	if file == "" {
		lacking(t, "STRIPESONG_AXE does not say where axe.min.js is")
	}
	engine, err := os.ReadFile(file)
	require.NoError(t, err)
	b := openPacket(t)
	eval[bool](b, string(engine)+";true")
	assert.Empty(t, eval[[]string](b,
		`axe.run(document, { resultTypes: ["violations"] }).then(r => r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")))`))
	assert.Equal(t, []float64{},
		eval[[]float64](b,
			`[...document.querySelectorAll("h1,h2,h3,h4")].map(h => +h.tagName[1]).filter((l, i, all) => l > (all[i - 1] || 0) + 1)`), "no level of headings is left out")
}

// papers are the sheets, in inches.
var papers = map[string][2]float64{"A4": {210 / 25.4, 297 / 25.4}, "Letter": {8.5, 11}}

// print is the packet as a PDF file, printed on a paper the first time it is asked for.
func (b *browser) print(paper string) (file string) {
	b.t.Helper()
	if done := b.prints[paper]; done != "" {
		return done
	}
	b.shownOn("", 768, 1024)
	yes := true
	out, err := chromedp.Call(b, cdppage.PrintToPDF,
		cdppage.PrintToPDFParams{PaperWidth: papers[paper][0], PaperHeight: papers[paper][1],
			PrintBackground: &yes})
	require.NoError(b.t, err)
	f, err := os.CreateTemp(theBrowser.dir, "*.pdf")
	require.NoError(b.t, err)
	defer f.Close()
	_, err = f.Write(out.Data)
	require.NoError(b.t, err)
	b.prints[paper] = f.Name()
	return f.Name()
}

// TestPrint: every part and sheet begins a page, no page is empty, and the
// rulers and the tapes are true.
func TestPrint(t *testing.T) {
	toText, toPicture := need(t, "pdftotext"), need(t, "pdftoppm")
	b := layOut(t, brief.Default())
	for name := range papers {
		t.Run(name, func(t *testing.T) {
			file := b.print(name)
			text, err := exec.Command(toText, "-layout", file, "-").Output()
			require.NoError(t, err)
			pages := strings.Split(strings.TrimSuffix(string(text), "\f"), "\f")
			tape := 0
			first := map[string]int{}
			for i, page := range pages {
				page, numbered := strings.CutSuffix(strings.TrimSpace(page),
					fmt.Sprintf("page %d of %d", i+1, len(pages)))
				assert.True(t, numbered, page)
				line, _, _ := strings.Cut(strings.TrimSpace(page), "\n")
				assert.NotEmpty(t, line, "page %d is empty", i+1)
				first[strings.Join(strings.Fields(line), " ")]++
				if tape == 0 && strings.HasPrefix(line, "Tape of piece 1") {
					tape = i + 1
				}
			}
			for _, heading := range expectedPages(t) {
				assert.Equal(t, 1, first[heading], heading)
			}
			// cover, shopping, yarn card, winding (2 or 3), loom (4 or 5), weaving, sample (2), six
			// lists of one or two, six tapes, finishing (1 or 2), measuring (2)
			assert.GreaterOrEqual(t, len(pages), 26)
			assert.LessOrEqual(t, len(pages), 36)
			checkTape(t, toPicture, file, tape)
		})
	}
	b.quiet()
}

func expectedPages(t testing.TB) []string {
	headings := []string{"Orchard kitchen towels", "1 Shopping and shelf", "2 Winding",
		"3 Reed and loom", "5 Off the loom", "6 Measure and write down"}
	p := planOf(t, brief.Default())
	for i, piece := range p.Pieces {
		headings = append(headings, fmt.Sprintf("Piece %d of 6: %s", i+1, piece.Name),
			fmt.Sprintf("Tape of piece %d: %s", i+1, piece.Name))
		require.LessOrEqual(t, svg.NewTape(p, i).Strips(), stripsAcross, "one page of tape")
	}
	return headings
}

// checkTape measures a page of tape at ten pixels a millimetre: the ruler of
// 100 mm and that of 4 in, and the rule of a strip, 20 cm, to half a millimetre.
func checkTape(t *testing.T, tool, file string, page int) {
	t.Helper()
	require.Positive(t, page)
	out := filepath.Join(t.TempDir(), "tape")
	require.NoError(t, exec.Command(tool, "-r", "254", "-gray", "-png", "-singlefile", "-f",
		fmt.Sprint(page), "-l", fmt.Sprint(page), file, out).Run())
	f, err := os.Open(out + ".png")
	require.NoError(t, err)
	defer f.Close()
	picture, err := png.Decode(f)
	require.NoError(t, err)
	across, up := longest(picture, false, 400), longest(picture, true, picture.Bounds().Dx())
	assert.InDelta(t, 1016, across, 5, "4 inches") // the longest line above the strips
	assert.InDelta(t, 2000, up, 5, "20 cm of tape")
	assert.InDelta(t, 1000, second(picture, across), 5, "100 mm")
}

func dark(p image.Image, x, y int) bool {
	if grey, ok := p.(*image.Gray); ok {
		return grey.Pix[y*grey.Stride+x] < 0x90
	}
	r, _, _, _ := p.At(x, y).RGBA()
	return r < 0x9000
}

// longest is the longest dark line along a row, among the first rows that hold
// the rulers, or along a column.
func longest(p image.Image, column bool, limit int) (best int) {
	for _, n := range runs(p, column, limit) {
		best = max(best, n)
	}
	return best
}

// second is the longest line along a row that is clearly shorter than one.
func second(p image.Image, than int) (best int) {
	for _, n := range runs(p, false, 400) {
		if n < than-8 {
			best = max(best, n)
		}
	}
	return best
}

// runs are the longest dark line of each row or column.
func runs(p image.Image, column bool, limit int) (all []int) {
	size := p.Bounds().Size()
	lines, length := min(limit, size.Y), size.X
	if column {
		lines, length = min(limit, size.X), size.Y
	}
	for i := range lines {
		best, run := 0, 0
		for k := range length {
			x, y := k, i
			if column {
				x, y = i, k
			}
			if run++; !dark(p, x, y) {
				run = 0
			}
			best = max(best, run)
		}
		all = append(all, best)
	}
	return all
}
