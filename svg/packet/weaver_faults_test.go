package packet_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestWeaverNoticesFaults: pages with one fault each, as a page of the built-in brief
// might have it, are noticed: they contradict themselves, or the cloth is another.
func TestWeaverNoticesFaults(t *testing.T) {
	p := planned(t, brief.Default())
	page := pages(t, p)
	for _, fault := range []struct{ name, was, is string }{
		{"a count of picks in a row", `>60 &#43; 60<`, `>60 &#43; 58<`},
		{"units in a row", `block A, 30 units</b>`, `block A, 31 units</b>`},
		{"treadles of a row", `block A, 30 units</b> · <span class="nowrap">1 5 1 6<`,
			`block A, 30 units</b> · <span class="nowrap">1 6 1 5<`},
		{"block of a row", `<b>block A, 30 units</b> · <span class="nowrap">1 5 1 6<`,
			`<b>block B, 30 units</b> · <span class="nowrap">2 5 2 6<`},
		{"a treadle's shafts", `<td class="big">3 4</td>`, `<td class="big">2 4</td>`},
		{"treadles exchanged in a unit", `pattern <b>1 (A)</b>, ground <b>5 (a)</b>`,
			`ground <b>5 (a)</b>, pattern <b>1 (A)</b>`},
		{"a letter of a colour", `<b>L</b> <span>leaf shade</span>`,
			`<b>D</b> <span>leaf shade</span>`},
		{"ends of a stripe", `<td class="n big">72</td><td class="n big">188</td>`,
			`<td class="n big">76</td><td class="n big">188</td>`},
		{"a unit threaded otherwise", `<br>3 4 1 4<br>`, `<br>3 4 1 2<br>`},
		{"a running count of threading", `84 88 92 96 100`, `84 88 92 100`},
		{"a part of the warp's length", `<td class="n">75 cm</td>`, `<td class="n">65 cm</td>`},
		{"where to cut", `<td class="n">82.1 cm</td>`, `<td class="n">83.1 cm</td>`},
		{"picks of a separator", `<td class="n">2</td><td class="n">164.2 cm</td>`,
			`<td class="n">3</td><td class="n">164.2 cm</td>`},
		{"a shuttle that is not started", `: start · `, `: cut after · `},
		{"yarn a colour takes", `<td class="n">1516 m</td>`, `<td class="n">1616 m</td>`},
		{"weft of a pick", `59.4 cm for each pick`, `54.4 cm for each pick`},
		{"strands", `a pattern pick takes 2 times that`, `a pattern pick takes 3 times that`},
		{"how close the picks lie", `8.0/cm ground and`, `9.0/cm ground and`},
		{"the edge of threading", `from the left edge of the warp: the`,
			`from the right edge of the warp: the`},
		{"dents", `270, which is`, `271, which is`},
		{"heddles", `<td class="n big">170</td>`, `<td class="n big">171</td>`},
		{"way of the shafts", `<th scope="col">Raises</th>`, `<th scope="col">Lowers</th>`},
		{"how close plain stripes lie", `plain stripes 8.0/cm`, `plain stripes 9.0/cm`},
		{"how close one lies", `4 units plain, 8.0/cm`, `4 units plain, 11.0/cm`},
		{"how wide the loom is", `at least 54.4 cm wide`, `at least 54.3 cm wide`},
		{"when it is measured", `When step 10 is woven`, `When step 11 is woven`},
		{"picks that are weighed", `390 picks of it`, `391 picks of it`},
		{"a length to write down", `see its sheet</td><td class="n">82.0 cm`,
			`see its sheet</td><td class="n">83.0 cm`},
		{"heddles in the middle", `and bring the heddles to the middle`, ``},
		{"pressed after it is dry", `Press while still damp`, `Press`},
		{"length of the warp", `<b>6.53 m</b>`, `<b>6.43 m</b>`},
	} {
		t.Run(fault.name, func(t *testing.T) {
			require.Contains(t, page, fault.was)
			w := weaveFrom(strings.Replace(page, fault.was, fault.is, 1))
			if len(w.doubts) == 0 {
				assert.NotEmpty(t, differences(t, w, p))
			}
		})
	}
	t.Run("a step missing", func(t *testing.T) {
		from := strings.LastIndex(page,
			"<tr><td><input type=\"checkbox\" aria-label=\"step 5 woven")
		to := from + strings.Index(page[from:], "</tr>\n") + len("</tr>\n")
		w := weaveFrom(page[:from] + page[to:])
		assert.NotEmpty(t, w.doubts)
	})
}

// TestWeaverNoticesEveryNumber adds one to every whole number in the tables that are worked
// from, one at a time; every twentieth of them where not all checks are run.
func TestWeaverNoticesEveryNumber(t *testing.T) {
	noticesEveryNumber(t, madeUp(2), "measuring", 500)
}

// TestWeaverNoticesEveryNumberOfAClosedWarp: the same of winding and threading with a
// closing end in the middle.
func TestWeaverNoticesEveryNumberOfAClosedWarp(t *testing.T) {
	text := string(brief.Default())
	require.Contains(t, text, "# closing_end")
	noticesEveryNumber(t, strings.Replace(text, "# closing_end", "closing_end", 1), "weaving", 150)
}

// noticesEveryNumber goes from the winding to another part, which hold more numbers than
// some.
func noticesEveryNumber(t *testing.T, text, upTo string, more int) {
	p := planned(t, []byte(text))
	page := pages(t, p)
	from := strings.Index(page, `<section id="winding"`)
	to := strings.Index(page, `<section id="`+upTo+`"`)
	every := 20
	if allChecks() {
		every = 1
	}
	cells := regexp.MustCompile(`(?s)<t[dh]\b.*?</t[dh]>`)
	number := regexp.MustCompile(`>[^<>]*?(\d+)[^<>]*`)
	count := 0
	for _, cell := range cells.FindAllStringIndex(page[from:to], -1) {
		text := page[from+cell[0] : from+cell[1]]
		for _, at := range number.FindAllStringSubmatchIndex(text, -1) {
			n, err := strconv.Atoi(text[at[2]:at[3]])
			require.NoError(t, err)
			if count++; count%every != 0 || text[at[2]-1] == '#' {
				continue
			}
			at := [2]int{from + cell[0] + at[2], from + cell[0] + at[3]}
			w := weaveFrom(page[:at[0]] + strconv.Itoa(n+1) + page[at[1]:])
			if len(w.doubts) == 0 && differences(t, w, p) == nil {
				t.Errorf("%s with %d", text, n+1)
			}
		}
	}
	require.Greater(t, count, more)
}
