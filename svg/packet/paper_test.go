package packet

import (
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// long is a brief of pieces over a metre with runs over a hundred units, names
// of several words, one of them broken by a line feed, and one that can't be
// broken.
func long(units string) []byte {
	runs := regexp.MustCompile(`(?s)runs = \["A 30 damson".*?\]`).ReplaceAllString(string(brief.Default()),
		`runs = ["A 136 damson", "plain 4", "B 12 rosehip", "A 240 leaf shade", "plain 4", "B 136 damson"]`)
	return []byte(strings.NewReplacer(` damson"`, ` deep water damson"`, `"damson"`, `"deep water damson"`, `length    = "66 cm"`, `length    = "220 cm"`,
		`"barley"`, `"unbleachedhandspunbarleystraw"`, `"rosehip"`, `"rose\nhip"`, ` rosehip"`, ` rose\nhip"`, `units = "cm"`, `units = "`+units+`"`).Replace(runs))
}

// spilt names cells whose content is wider than they are.
const spilt = `[...document.querySelectorAll("td, th, .chip")].filter(e => !e.querySelector(".hear") && e.scrollWidth > e.clientWidth + 1).map(e => e.textContent.slice(0, 40)).slice(0, 5)`

// TestNumbersNeverTouch: on paper, a long piece's numbers stay in their
// columns, on one line.
func TestNumbersNeverTouch(t *testing.T) {
	for _, units := range []string{"cm", "in"} {
		b := openBrief(t, long(units))
		_, err := chromedp.Call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		require.NoError(t, err)
		for name, width := range map[string]int64{"A4": 703, "Letter": 725} {
			require.NoError(t, chromedp.Do(b, chromedp.EmulateViewport(width, 1000)))
			assert.Empty(t, eval[[]string](b, spilt), name+" "+units)
			assert.Empty(t, eval[[]string](b, wider), name+" "+units)
			assert.Zero(t, eval[int](b, `[...document.querySelectorAll(".weave tbody .n")].filter(e => { const r = document.createRange(); r.selectNodeContents(e); return r.getBoundingClientRect().height > 30 }).length`), "one line each")
		}
	}
}

// TestFirstStepsStayTogether: where a list goes over to another page, at least
// its first three steps stand there.
func TestFirstStepsStayTogether(t *testing.T) {
	toText := need(t, "pdftotext")
	b := openBrief(t, long("cm"))
	step := regexp.MustCompile(`(?m)^\s*\d+\s+(hem|block|\d+ units? plain|separator)`)
	for name, paper := range papers {
		if name != "A4" && os.Getenv("STRIPESONG_CI") == "" {
			continue // it takes seconds
		}
		text, err := exec.Command(toText, "-layout", b.print(paper), "-").Output()
		require.NoError(t, err)
		over := 0
		for _, page := range strings.Split(string(text), "\f") {
			if line, _, _ := strings.Cut(strings.TrimSpace(page), "\n"); strings.Contains(line, "treadles") {
				over++
				assert.GreaterOrEqual(t, len(step.FindAllString(page, -1)), 3, "%s: %s", name, page)
			}
		}
		assert.Positive(t, over, name)
	}
}
