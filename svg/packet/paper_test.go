package packet

import (
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/loomwork"
)

// long is a brief of pieces over a metre with runs over a hundred units, names
// of several words, one of them broken by a line feed, and one that can't be
// broken.
func long(units string) []byte {
	runs := regexp.MustCompile(`(?s)runs = \["A 30 damson".*?\]`).
		ReplaceAllString(string(brief.Default()),
			`runs = ["A 136 damson", "plain 4", "B 12 rosehip", "A 240 leaf shade", "plain 4", "B 136 damson"]`)
	return []byte(strings.NewReplacer(` damson"`, ` deep water damson"`, `"damson"`,
		`"deep water damson"`, `length    = "66 cm"`, `length    = "220 cm"`,
		`"barley"`, `"unbleachedhandspunbarleystraw"`, `"rosehip"`, `"rose\nhip"`, ` rosehip"`,
		` rose\nhip"`, `units = "cm"`, `units = "`+units+`"`).Replace(runs))
}

// spilt names cells whose content is wider than they are.
const spilt = `[...document.querySelectorAll("td, th, .chip")].filter(e => !e.querySelector(".hear") && e.scrollWidth > e.clientWidth + 1).map(e => e.textContent.slice(0, 40)).slice(0, 5)`

// TestNumbersNeverTouch: on paper, a long piece's numbers stay in their columns, on one
// line. A4 less margins of 12 mm is 186 mm, at 96 pixels to the inch 703; Letter is 191.9
// mm, 725.
func TestNumbersNeverTouch(t *testing.T) {
	for _, units := range []string{"cm", "in"} {
		b := layOut(t, long(units))
		for name, width := range map[string]int64{"A4": 703, "Letter": 725} {
			b.shownOn("print", width, 1000)
			assert.Empty(t, eval[[]string](b, spilt), name+" "+units)
			assert.Empty(t, eval[[]string](b, wider), name+" "+units)
			assert.Zero(t, eval[int](b,
				`[...document.querySelectorAll(".weave tbody .n:not(.big), .weave tbody .big:last-child, .weave tbody .big .small")].filter(e => { const r = document.createRange(); r.selectNodeContents(e); return r.getBoundingClientRect().height > 30 }).length`), "one line each")
		}
	}
}

// TestNoPageIsNearlyEmpty: what stands on a page reaches down at least two fifths of it (a
// judgement).
func TestNoPageIsNearlyEmpty(t *testing.T) {
	toPicture := need(t, "pdftoppm")
	for name, text := range printed(t) {
		b := layOut(t, text)
		for paper := range papers {
			file := filepath.Join(t.TempDir(), "page")
			require.NoError(t, exec.Command(toPicture, "-r", "20", "-gray", "-png", b.print(paper),
				file).Run())
			pages, err := filepath.Glob(file + "-*.png")
			require.NoError(t, err)
			require.NotEmpty(t, pages)
			for i, page := range pages {
				assert.GreaterOrEqual(t, filled(t, page), 0.4, "%s, %s, page %d", name, paper, i+1)
			}
		}
	}
}

// printed are the briefs whose paper is looked at: the built-in one, and where all checks
// are run those of the examples.
func printed(t *testing.T) map[string][]byte {
	all := map[string][]byte{"built-in": brief.Default()}
	if os.Getenv("STRIPESONG_CI") == "" {
		return all
	}
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		all[file] = text
	}
	return all
}

// filled is how far down a page its words and drawings reach, of what lies between
// margins of 12 mm; the number of the page stands below.
func filled(t *testing.T, file string) float64 {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	page, err := png.Decode(f)
	require.NoError(t, err)
	margin := 20 * 12 / 25.4
	size, lowest := page.Bounds().Size(), 0
	for y := range size.Y - int(margin) {
		for x := range size.X {
			if dark(page, x, y) {
				lowest = y
			}
		}
	}
	return (float64(lowest) - margin) / (float64(size.Y) - 2*margin)
}

// fringed is a set with fringes and without hems, on a loom with levers: the words of its
// steps are the longest there are.
func fringed(t testing.TB) []byte {
	t.Helper()
	text, err := os.ReadFile("../../examples/mill-race/brief.toml")
	require.NoError(t, err)
	changed := string(text)
	for _, change := range [][2]string{{`(?m)^hem .*`, "hem = \"0 in\"\nfringe = \"2 1/2 in\""},
		{`(?m)^treadles.*`, `treadles = 0`}, {`(?m)^shed .*`, `shed = "rising"`}} {
		of := regexp.MustCompile(change[0])
		require.Len(t, of.FindAllString(changed, -1), 1, change[0])
		changed = of.ReplaceAllString(changed, change[1])
	}
	return []byte(changed)
}

// TestListsAreNoHigherThanReckoned: on both papers no step stands higher than it was
// reckoned to, or pages would hold more of them than there is room for; and every page of
// a list, from its heading to its last row, is as high as paper at most.
func TestListsAreNoHigherThanReckoned(t *testing.T) {
	const pxMM, rounding, letterMM = 25.4 / 96, 0.3, 255.4
	briefs := map[string][]byte{"fringed": fringed(t)}
	if os.Getenv("STRIPESONG_CI") != "" {
		briefs["long"], briefs["built-in"] = long("in"), brief.Default()
	}
	for name, text := range briefs {
		b, m := layOut(t, text), newMaker(planOf(t, text))
		for paper, width := range map[string]int64{"A4": 703, "Letter": 725} {
			b.shownOn("print", width, 1000)
			for i := range m.Pieces {
				steps := loomwork.StepsOf(m.Plan, i)
				p := m.Pieces[i]
				rows := m.rows(steps, m.groundBeat(m.UnitMM(&p), p.PickOrder))
				high := eval[[]float64](b,
					fmt.Sprintf(
						`[...document.querySelectorAll("#piece-%d .weave tbody")].flatMap(t => [...t.rows].reverse().map(r => r.getBoundingClientRect().height))`, i+1))
				require.Len(t, high, len(rows))
				for n, s := range steps {
					assert.LessOrEqual(t, high[n]*pxMM, rounding+
						rowMM(rows[n], [2]string{seen(s.Pattern), seen(s.Ground)}),
						"%s, %s, piece %d, step %d: %v", name, paper, i+1, n+1, rows[n])
				}
				pages := eval[[]float64](b,
					fmt.Sprintf(
						`[...document.querySelectorAll("#piece-%d .weave")].map(t => t.parentElement.parentElement.getBoundingClientRect().bottom - (t.closest(".goeson") || t.closest(".sheet")).getBoundingClientRect().top)`, i+1))
				for n, high := range pages {
					assert.LessOrEqual(t, high*pxMM, letterMM,
						"%s, %s, piece %d, page %d", name, paper, i+1, n+1)
				}
			}
		}
	}
}

// TestListsFitTheirPages: each page of a list begins with its piece, holds all the steps
// it says, and none less than three.
func TestListsFitTheirPages(t *testing.T) {
	toText := need(t, "pdftotext")
	step := regexp.MustCompile(
		`(?m)^\s*(\d+)\s+(hem ·|block \w+, \d+ unit|\d+ units? plain|separator,|` +
			`leave \d|hemstitch with)`)
	says := regexp.MustCompile(`Page \d+ of \d+: steps (\d+) to (\d+)\.`)
	briefs := [][]byte{fringed(t), long("cm"), brief.Default()}
	if os.Getenv("STRIPESONG_CI") == "" {
		briefs = briefs[:2] // it takes seconds
	}
	for _, text := range briefs {
		b := layOut(t, text)
		for name := range papers {
			if name != "Letter" && os.Getenv("STRIPESONG_CI") == "" {
				continue
			}
			text, err := exec.Command(toText, "-layout", b.print(name), "-").Output()
			require.NoError(t, err)
			lists := 0
			for _, page := range strings.Split(string(text), "\f") {
				steps := step.FindAllStringSubmatch(page, -1)
				if len(steps) == 0 {
					continue
				}
				lists++
				assert.GreaterOrEqual(t, len(steps), 3, "%s: %s", name, page)
				assert.Regexp(t, `^(Piece \d|The sample)`, strings.TrimSpace(page), name)
				if told := says.FindStringSubmatch(page); told != nil {
					assert.Equal(t, told[1:], []string{steps[len(steps)-1][1], steps[0][1]}, name)
				} else {
					assert.Equal(t, "1", steps[len(steps)-1][1], name)
				}
			}
			assert.GreaterOrEqual(t, lists, 3, name)
		}
	}
}
