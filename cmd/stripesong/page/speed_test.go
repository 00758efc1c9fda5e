package page_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// BenchmarkPage measures, in the browser, with the program on this machine and as one file
// (where STRIPESONG_ONE_FILE names it): how long it takes to draw what is in the hand at
// every move of an edge (frame), until the program has answered and that is drawn (answer),
// and at every step of the distance (distance); and how long from opening the page to the
// first picture (first). Of many the median and the 95th percentile are told. How much is
// loaded before that picture is told as it is sent, packed (sent-kB, 150 at most), and
// unpacked.
func BenchmarkPage(b *testing.B) {
	for _, on := range targets() {
		for name, text := range map[string][]byte{"six pieces": brief.Default(),
			"twelve of 800 ends": twelve(b)} {
			b.Run(on.name()+"/"+name, func(b *testing.B) {
				work, page := on.work(b, text), newBrowser(b, 1440, 900)
				work.open(page)
				page.choose(-1, 2)
				times := map[string][]float64{}
				for b.Loop() {
					for what, all := range eval[map[string][]float64](page, measure) {
						times[what] = append(times[what], all...)
					}
					work.open(page)
					page.choose(-1, 2)
					times["first"] = append(times["first"],
						eval[float64](page, `performance.getEntriesByName("drawn")[0].startTime`))
				}
				for what, all := range times {
					slices.Sort(all)
					b.ReportMetric(all[len(all)/2], what+"-median-ms")
					b.ReportMetric(all[len(all)*95/100], what+"-p95-ms")
				}
				if on == (machine{}) {
					size := eval[[2]float64](page, `(all => [all.reduce((n, e) => n + e.encodedBodySize, 0),
						all.reduce((n, e) => n + e.decodedBodySize, 0)])([...performance.getEntriesByType("navigation"),
						...performance.getEntriesByType("resource").filter(e => !/[/](view|wait|status|file)/.test(e.name))])`)
					b.ReportMetric(size[0]/1000, "sent-kB")
					b.ReportMetric(size[1]/1000, "unpacked-kB")
				}
				page.quiet()
			})
		}
	}
}

// many is a brief of twelve pieces on 800 ends, each of which the program chooses from
// 10 000 candidates.
func many(t testing.TB) []byte {
	t.Helper()
	text := string(twelve(t))
	first := strings.Index(text, "[[piece]]")
	require.Positive(t, first)
	return []byte(text[:first] + "[vary]\ncandidates = 10_000\n")
}

// BenchmarkPageChoice measures how long it takes from asking for it until a set of twelve
// pieces that is chosen anew from 10 000 candidates is there (chosen), and six other sets
// to look at (others); and until a choice that is under way has stopped (stop).
func BenchmarkPageChoice(b *testing.B) {
	for _, on := range targets() {
		b.Run(on.name(), func(b *testing.B) {
			work, page := on.work(b, many(b)), newBrowser(b, 1440, 900)
			work.open(page)
			var all [3]float64
			for b.Loop() {
				for i, ms := range eval[[3]float64](page, `(async () => {
					const time = async act => { const from = performance.now(); await act(); return performance.now() - from; };
					const S = stripesong, anew = () => S.send("do", { op: { do: "seed" } });
					const chosen = await time(anew), others = await time(() => S.send("others",
						{ strip: -2, unlike: true, count: 6 }));
					const choosing = anew(), busy = document.getElementById("busy");
					while (busy.hidden) await new Promise(r => setTimeout(r, 5));
					const stop = await time(() => {
						document.getElementById("busy-stop").click();
						return choosing;
					});
					return [chosen, others, stop];
				})()`) {
					all[i] += ms
				}
			}
			for i, what := range []string{"chosen-ms", "others-ms", "stop-ms"} {
				b.ReportMetric(all[i]/float64(b.N), what)
			}
			page.quiet("422")
		})
	}
}

// measure moves an edge and the distance many times.
const measure = `(async () => {
	const S = stripesong, frame = [], answer = [], distance = [], next = () => new Promise(requestAnimationFrame);
	const stage = document.getElementById("stage"), from = document.getElementById("from");
	for (let i = 0; i < 60; i++) {
		const start = performance.now();
		S.state.edges = false;
		stage.dispatchEvent(new KeyboardEvent("keydown", { key: i % 2 ? "ArrowLeft" : "ArrowRight", shiftKey: true, bubbles: true }));
		S.draw();
		frame.push(performance.now() - start);
		while (!S.settled) await new Promise(r => setTimeout(r, 0));
		S.draw();
		answer.push(performance.now() - start);
		await next();
	}
	for (let i = 0; i < 30; i++) {
		const start = performance.now();
		from.value = String(30 + i);
		from.dispatchEvent(new Event("input", { bubbles: true }));
		S.draw();
		distance.push(performance.now() - start);
		await next();
	}
	from.value = "0";
	from.dispatchEvent(new Event("input", { bubbles: true }));
	from.dispatchEvent(new Event("change", { bubbles: true }));
	return { frame, answer, distance };
})()`
