package page_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

var sizes = [][2]int{{1440, 900}, {1024, 768}, {390, 844}}

// sets are six pieces, one, and twelve on 800 ends.
func sets(t testing.TB) []cloth {
	text := string(brief.Default())
	first := strings.Index(text, "[[piece]]")
	require.Positive(t, first)
	one := strings.Replace(text[:first], "pieces    = 6", "pieces    = 1", 1)
	return []cloth{{"twelve", twelve(t)}, {"six", brief.Default()}, {"one", []byte(one)}}
}

// twelve is a brief of twelve pieces on 800 ends.
func twelve(t testing.TB) []byte {
	t.Helper()
	text := strings.NewReplacer("pieces    = 6", "pieces    = 12", `width     = "46 cm"`,
		`width     = "68 cm"`).Replace(string(brief.Default()))
	return []byte(text)
}

// shown are the controls that are seen.
const shown = `[...document.querySelectorAll("a[href], button, input, select, summary, [role=slider]")].filter(e => {
	const r = e.getBoundingClientRect();
	return e.checkVisibility() && r.right > 0 && r.bottom > 0 && r.left < innerWidth && r.top < innerHeight; })`

// cut are words of the bar and the tags that are cut off, but for a name, and
// tags that lie over each other.
const cut = `(() => {
	const all = [...document.querySelectorAll("#title, .tag .line:nth-child(n + 2), #eyes, #bar button")];
	const wrong = all.filter(e => e.checkVisibility() && (e.scrollWidth > e.clientWidth + 1 ||
		e.getBoundingClientRect().right > innerWidth))
		.map(e => e.id + ": " + e.textContent.slice(0, 60));
	const boxes = [...document.querySelectorAll(".tag")].map(e => e.getBoundingClientRect());
	boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b, k) => {
		if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) wrong.push("tags " + (i + 1) + " and " + (i + k + 2));
	}));
	return wrong;
})()`

// The cloth owns the window, few controls are seen at rest, and nothing is cut off.
func TestTheClothOwnsTheWindow(t *testing.T) { onBoth(t, theClothOwnsTheWindow) }

func theClothOwnsTheWindow(t *testing.T, on target) {
	b := newBrowser(t, 1440, 900)
	for _, set := range few(2, sets(t)) {
		name := set.name
		bench := on.work(t, set.text)
		b.size(sizes[0])
		bench.open(b)
		if name == "twelve" {
			require.InDelta(t, 800, bench.Plan().Warp.Ends, 10)
			require.Len(t, bench.Plan().Pieces, 12)
		}
		for _, size := range sizes {
			t.Run(fmt.Sprintf("%s %d", name, size[0]), func(t *testing.T) {
				b.size(size)
				b.still()
				b.shot(fmt.Sprintf("rest-%s-%d", name, size[0]))
				assert.False(t, eval[bool](b,
					`document.documentElement.scrollWidth > innerWidth || document.documentElement.scrollHeight > innerHeight`))
				part := eval[float64](b,
					`(r => r.width * r.height / innerWidth / innerHeight)(document.getElementById("canvas").getBoundingClientRect())`)
				assert.LessOrEqual(t, eval[int](b, shown+`.length`), 25, "controls at rest")
				if size[0] == 1440 {
					assert.GreaterOrEqual(t, part, 0.7, "of the window")
				} else {
					assert.GreaterOrEqual(t, part, 0.55)
				}
				assert.Empty(t, eval[[]string](b, cut), "cut off, or over each other")
				assert.True(t, eval[bool](b,
					`document.getElementById("file").checkVisibility() && document.getElementById("file").textContent.startsWith("saved · ")`),
					"whether it is saved")
				assert.True(t, eval[bool](b, `document.getElementById("begin").checkVisibility()`),
					"how to begin")
				assert.True(t, eval[bool](b, `(e => e.scrollWidth <= e.clientWidth)(document.getElementById("looking"))`),
					"how it is looked at is in one row")
				n := len(bench.Plan().Pieces)
				assert.Equal(t, n, eval[int](b, `stripesong.state.view.pieces.filter((_, i) => { const c = document.getElementById("canvas"), r = stripesong.boxesOf(i)[0];
					return r.x >= 0 && r.y >= 0 && r.x + r.w <= c.clientWidth && r.y + r.h <= c.clientHeight && r.w >= 30; }).length`), "pieces in sight")
				assert.True(t, eval[bool](b,
					`stripesong.laid().strips.every((s, i) => s.x === stripesong.laid().pieces[i].x && s.w === stripesong.laid().pieces[i].w)`), "the warp's stripes over the pieces in their own width")
			})
		}
	}
	b.quiet()
}

// What is chosen and its controls are seen together, on a phone too; neither hides the
// other.
func TestControlsBesideWhatIsChosen(t *testing.T) { onBoth(t, controlsBesideWhatIsChosen) }

func controlsBesideWhatIsChosen(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	strips := []int{-1, 0, len(bench.Plan().Pieces) - 1, 1, 2, 3, 4}
	for _, size := range sizes {
		b.size(size)
		b.still()
		for _, strip := range few(3, strips) {
			for _, run := range []int{-1, 2} {
				b.choose(strip, run)
				b.settle()
				assert.True(t, eval[bool](b, fmt.Sprintf(`(() => { stripesong.draw();
					const c = document.getElementById("canvas").getBoundingClientRect(), card = document.getElementById("card").getBoundingClientRect();
					const box = stripesong.boxesOf(%d).find(b => b.piece === Math.max(0, %d)), r = %d < 0 ? box : stripesong.runBox(stripesong.cloth(), %d, %d, box, false);
					const x = c.left + r.x + r.w / 2, y = c.top + r.y + r.h / 2;
					const inside = (r, x, y) => x > r.left && x < r.right && y > r.top && y < r.bottom;
					return card.width > 200 && card.left >= 0 && card.right <= innerWidth && card.top >= 0 && card.bottom <= innerHeight + 1 && inside(c, x, y) && !inside(card, x, y); })()`,
					strip, strip, run, strip, run)), "%v, strip %d, run %d", size, strip, run)
			}
		}
	}
	b.quiet()
}

// The page is under 150 KiB before the cloth, as it is sent, and answers are under 30.
func TestPageIsSmall(t *testing.T) {
	t.Parallel()
	server, _, _ := serve(t, twelve(t))
	names := []string{"", "style.css", "icon.svg", "view", "lists"}
	_, main := get(t, server.Address(), nil)
	require.Contains(t, main, "app/main.js")
	for _, name := range scripts(t, server.Address()) {
		assert.Contains(t, main, `="app/`+name+`">`, "asked for at once, not one after the other")
		names = append(names, "app/"+name)
	}
	sent, whole := 0, 0
	for _, name := range names {
		_, text := get(t, server.Address()+name, nil)
		_, packed := get(t, server.Address()+name, func(r *http.Request) {
			r.Header.Set("Accept-Encoding", "gzip")
		})
		sent, whole = sent+len(packed), whole+len(text)
		if name != "view" {
			assert.NotContains(t, text, "//cdn", "nothing from the network")
			assert.NotContains(t, strings.ReplaceAll(text, "http://www.w3.org", ""), "http:", name)
		}
	}
	t.Logf("%d files, %d bytes sent, %d unpacked", len(names), sent, whole)
	assert.Less(t, sent, 150_000)
	assert.Less(t, whole, 230_000)
	_, view := get(t, server.Address()+"view", nil)
	t.Logf("an answer for twelve of 800 ends: %d bytes", len(view))
	assert.Less(t, len(view), 30_000)
	_, answer := post(t, server.Address(), "do",
		`{"op":{"do":"edge","strip":-1,"run":0,"to":1}}`, nil)
	assert.Less(t, len(answer), 30_000)
	_, answer = post(t, server.Address(), "others", `{"strip":-2,"unlike":true,"count":6}`, nil)
	t.Logf("six other sets of twelve: %d bytes", len(answer))
}

// scripts are the names of all modules that the page loads.
func scripts(t testing.TB, address string) (all []string) {
	t.Helper()
	seen := map[string]bool{}
	queue := []string{"main.js"}
	for len(queue) > 0 {
		name := queue[0]
		queue = queue[1:]
		if seen[name] {
			continue
		}
		seen[name] = true
		all = append(all, name)
		status, text := get(t, address+"app/"+name, nil)
		require.Equal(t, http.StatusOK, status, name)
		for _, part := range strings.Split(text, `from "./`)[1:] {
			queue = append(queue, part[:strings.Index(part, `"`)])
		}
	}
	return all
}
