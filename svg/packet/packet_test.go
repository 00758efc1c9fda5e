package packet

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

func planOf(t testing.TB, text []byte) *plan.Plan {
	t.Helper()
	shelf := func(name string) ([]byte, error) {
		found, err := filepath.Glob("../../examples/*/" + name)
		require.NoError(t, err)
		require.NotEmpty(t, found)
		return os.ReadFile(found[0])
	}
	b, err := brief.Parse("test", text, brief.Options{Shelf: shelf})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

func pageOf(t testing.TB, p *plan.Plan) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, p))
	return b.String()
}

// section is the part of a page from one id to the next section's end.
func section(t *testing.T, page, id string) string {
	t.Helper()
	from := strings.Index(page, `<section id="`+id+`"`)
	require.GreaterOrEqual(t, from, 0, id)
	return page[from : from+strings.Index(page[from:], "</section>")]
}

// texts are the bodies of all elements that match, tags inside dropped.
func texts(page, pattern string) (found []string) {
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(page, -1) {
		found = append(found,
			html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(m[1], "")))
	}
	return found
}

func whole(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return n
}

// TestNumbersAreThePlans reads the page as a weaver does and holds its counts
// against the plan of every example.
func TestNumbersAreThePlans(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		p := planOf(t, text)
		page := pageOf(t, p)
		t.Run(filepath.Base(filepath.Dir(file)), func(t *testing.T) {
			winding := section(t, page, "winding")
			counts := texts(winding, `<td class="n big">(\d+)</td>`)
			ends := 0
			for i := 0; i < len(counts); i += 2 { // a stripe's ends, then the running total
				ends += whole(t, counts[i])
				assert.Equal(t, ends, whole(t, counts[i+1]))
			}
			assert.Equal(t, p.Warp.Ends, ends)
			bouts := 0
			for _, n := range texts(winding, `<span class="small">(\d+) ends</span>`) {
				bouts += whole(t, n)
			}
			assert.Equal(t, p.Warp.Ends, bouts)
			var heddles []int
			loom := section(t, page, "loom")
			for _, n := range texts(loom, `<td class="n big">(\d+)</td>`) {
				heddles = append(heddles, whole(t, n))
			}
			assert.Equal(t, p.Warp.Heddles, heddles)
			for i := range p.Pieces {
				checkSheet(t, p, i, section(t, page, fmt.Sprintf("piece-%d", i+1)))
			}
		})
	}
}

// checkSheet holds the list of one piece, whose pages are each read upwards.
func checkSheet(t *testing.T, p *plan.Plan, i int, sheet string) {
	t.Helper()
	piece := p.Pieces[i]
	picks, step := 0, 0
	var soFar, woven string
	for _, list := range regexp.MustCompile(`(?s)<tbody>(.*?)</tbody>`).
		FindAllStringSubmatch(sheet, -1) {
		rows := strings.Split(strings.TrimSpace(list[1]), "</tr>\n")
		slices.Reverse(rows)
		for _, row := range rows {
			step++
			assert.Equal(t, strconv.Itoa(step),
				texts(row, `<th scope="row" class="n">(\d+)</th>`)[0],
				"steps are numbered from the foot of the first page")
			if cells := texts(row, `<td class="n big">([^<]*)<`); len(cells) == 2 {
				soFar, woven = cells[0], cells[1]
				for _, n := range strings.Split(texts(row, `<td class="n">([^<]*)</td>`)[0],
					" + ") {
					picks += whole(t, n)
				}
			}
		}
	}
	assert.Equal(t, piece.Picks, picks)
	assert.Equal(t, strconv.Itoa(piece.Picks), soFar, "of the last step")
	assert.Equal(t, measure.FormatLength(piece.WovenMM, p.Units), woven)
}

// TestMeasuredKeys: the blank fields are those of the file that calibrate
// reads, all of them but how exact a reading is, and pictures.
func TestMeasuredKeys(t *testing.T) {
	page := section(t, pageOf(t, planOf(t, brief.Default())), "measuring")
	fields := texts(page, `aria-label="([^"]*)"`)
	table, want := "", []string{}
	for line := range strings.Lines(string(brief.MeasuredTemplate())) {
		if m := regexp.MustCompile(`^(?:# )?(\[+\w+\]+)`).FindStringSubmatch(line); m != nil {
			table = m[1] + " "
		} else if m := regexp.MustCompile(`^# (\w+) *= `).FindStringSubmatch(line); m != nil &&
			!slices.Contains([]string{"within", "pattern_area", "ground_area", "wraps"}, m[1]) {
			want = append(want, table+m[1])
		}
	}
	assert.ElementsMatch(t, want, fields)
}

// hostile is a brief whose every name tries to be something else.
var hostile = strings.NewReplacer(
	`title = "Orchard kitchen towels"`,
	`title = "</title><script>alert(1)</script>\u0007{{.}}\n\u202e"`,
	`"oat"`, `"</td><img src=x onerror=alert(1)>"`,
	`"damson"`, `"\" onclick=alert(1) x=\""`, " damson\"", ` \" onclick=alert(1) x=\""`,
	`"first light"`, `"--></svg><style>*{display:none}</style>\u001b[31m"`,
	"[yarn.linen]", `[yarn."javascript:alert(1)"]`, `yarn    = "linen"`,
	`yarn = "javascript:alert(1)"`,
)

// harmless is the same brief with names as long and as wide that try nothing.
var harmless = strings.NewReplacer(
	`"oat"`, `"+/td++img src=x onerror=alert(1)+"`,
	`"damson"`, `"n onclick=alert(1) x=n"`, " damson\"", ` n onclick=alert(1) x=n"`,
	"[yarn.linen]", `[yarn.llllllllllllllllll]`, `yarn    = "linen"`, `yarn = "llllllllllllllllll"`,
)

// TestTextNeverBecomesMarkup: the page has the elements it has with harmless
// names, and nothing of the names is among them; control characters are shown.
func TestTextNeverBecomesMarkup(t *testing.T) {
	tame, wild := pageOf(t, planOf(t, []byte(harmless.Replace(string(brief.Default()))))),
		pageOf(t, planOf(t, []byte(hostile.Replace(string(brief.Default())))))
	elements := func(page string) map[string]int {
		counts := map[string]int{}
		for _, m := range regexp.MustCompile(`<(\w+)`).FindAllStringSubmatch(page, -1) {
			counts[m[1]]++
		}
		return counts
	}
	want, got := elements(tame), elements(wild)
	for _, name := range []string{"script", "style", "img", "svg", "title", "section", "input", "a",
		"table"} {
		assert.Equal(t, want[name], got[name], name)
	}
	for _, tag := range regexp.MustCompile(`<[a-z][^>]*>`).FindAllString(wild, -1) {
		assert.NotContains(t, tag, "onclick")
		assert.NotContains(t, tag, "onerror")
		assert.NotContains(t, tag, "javascript:")
	}
	assert.Contains(t, wild, "␇{{.}}␊")
	assert.Contains(t, wild, "␛[31m")
	for _, r := range wild {
		assert.False(t, r < 0x20 && r != '\n', "%U", r)
		assert.NotEqual(t, '\u202e', r)
	}
}

// TestCompleteInItself: nothing is fetched, and the one script is the one that
// the page's own policy lets run.
func TestCompleteInItself(t *testing.T) {
	page := pageOf(t, planOf(t, brief.Default()))
	for _, m := range regexp.MustCompile(`\b(?:src|href|url)\s*[=(]\s*["']?([^"')\s>]*)`).
		FindAllStringSubmatch(page, -1) {
		assert.True(t, strings.HasPrefix(m[1], "#"), m[0])
	}
	without := strings.NewReplacer(`"http://www.w3.org/2000/svg"`, "",
		`"http://www.w3.org/1999/xlink"`, "").Replace(page)
	assert.NotRegexp(t, `https?:`, without)
	assert.False(t, strings.Contains(page, "@import"))
	assert.True(t, strings.Contains(page, `content="default-src`))
	assert.True(t, page == pageOf(t, planOf(t, brief.Default())), "the same bytes")
	assert.Less(t, len(page), 600<<10)
}

// TestDrawingsAreXML: every drawing in the page is well-formed by itself and
// has a title.
func TestDrawingsAreXML(t *testing.T) {
	drawings := regexp.MustCompile(`(?s)<svg.*?</svg>`).
		FindAllString(pageOf(t, planOf(t, []byte(hostile.Replace(string(brief.Default()))))), -1)
	require.Greater(t, len(drawings), 30)
	for _, d := range drawings {
		decoder := xml.NewDecoder(strings.NewReader(d))
		for {
			_, err := decoder.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err)
		}
		assert.Contains(t, d, "<title>")
	}
}

type full struct{ room int }

func (f *full) Write(b []byte) (int, error) {
	if f.room -= len(b); f.room < 0 {
		return 0, errors.New("disk full")
	}
	return len(b), nil
}

func TestErrorsComeBack(t *testing.T) {
	p := planOf(t, brief.Default())
	assert.ErrorContains(t, Write(&full{100_000}, p), "disk full")
}

// rest is what a plan of the brief takes besides its packet.
func rest(t testing.TB) {
	p := planOf(t, brief.Default())
	_, err := plan.JSON(p)
	require.NoError(t, err)
	require.NoError(t, svg.Set(io.Discard, p))
	for i := range p.Pieces {
		require.NoError(t, svg.Piece(io.Discard, p, i))
		require.NoError(t, svg.Picture(io.Discard, p, i, false))
		require.NoError(t, svg.Picture(io.Discard, p, i, true))
		require.NoError(t, svg.Crossings(io.Discard, p, i, false))
		require.NoError(t, svg.Crossings(io.Discard, p, i, true))
	}
}

// BenchmarkWrite is the packet of six towels, [BenchmarkRest] all else of their plan.
func BenchmarkWrite(b *testing.B) {
	p := planOf(b, brief.Default())
	for b.Loop() {
		require.NoError(b, Write(io.Discard, p))
	}
}

func BenchmarkRest(b *testing.B) {
	for b.Loop() {
		rest(b)
	}
}

// TestHeddlesByShaft: where the brief counts heddles by shaft, the sheet says
// what each has to spare or lacks. Worked by hand: 108 units, 76 of A and 32 of
// B, take 108, 152, 108 and 64 (a+b, 2a, a+b, 2b).
func TestHeddlesByShaft(t *testing.T) {
	m := &maker{Plan: &plan.Plan{Loom: plan.Loom{HeddlesBy: []int{100, 160}}}}
	assert.Equal(t, []string{"100: add 8", "160: 8 stay empty", ""},
		[]string{m.shaftHas(0, 108), m.shaftHas(1, 152), m.shaftHas(2, 108)})
}

// TestUnitsOfThePlan: a plan in inches has no millimetres in what is to be done,
// its cut lines are all in inches, and scales are told ounces and grams. By
// hand: 48 picks of hem at 11/cm, shrunk by 10 %, are 39.3 mm or 1 1/2 in.
func TestUnitsOfThePlan(t *testing.T) {
	inches := pageOf(t, planOf(t,
		[]byte(strings.Replace(string(brief.Default()), `units = "cm"`, `units = "in"`, 1))))
	weaving, finishing, shopping := section(t, inches, "weaving"), section(t, inches, "finishing"),
		section(t, inches, "shopping")
	assert.Contains(t, weaving, "over at most 1 in;")
	assert.Contains(t, finishing, "1 1/2 in is turned under: first 5/8 in, and press; then 7/8 in,")
	cuts := texts(finishing, `<td class="n">([^<]* \w+)</td></tr>`)
	assert.Len(t, cuts, 5)
	for _, at := range cuts {
		assert.True(t, strings.HasSuffix(at, " in"), at)
	}
	assert.Contains(t, shopping, "10 yd weigh")
	assert.Regexp(t, `<td class="n">\d\.\d oz<br>\d+ g</td>`, shopping)
	assert.Contains(t, inches, "in the reed; the finished cloth weighs 9.8 oz/yd².") // 333 / 33.906
	metric := pageOf(t, planOf(t, brief.Default()))
	assert.Contains(t, metric, "over at most 25 mm;")
	assert.Contains(t, metric, "54.0 cm wide in the reed; the finished cloth weighs 333 g/m².")
}

// TestPiecesOfOneName: where the set is cut apart and what each piece takes says
// which of two pieces of one name is meant.
func TestPiecesOfOneName(t *testing.T) {
	text := strings.Replace(string(brief.Default()), `"ladder"`, `"first light"`, 1)
	page := pageOf(t, planOf(t, []byte(text)))
	for _, id := range []string{"finishing", "shopping"} {
		assert.Contains(t, section(t, page, id), "first light (piece 1)", id)
		assert.Contains(t, section(t, page, id), "first light (piece 2)", id)
	}
}
