package main

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// longBriefs are texts of about so many bytes that no weaver writes, mostly in one
// line.
func longBriefs(size int) map[string]string {
	fill := func(part string) string { return strings.Repeat(part, max(1, size/len(part))) }
	return map[string]string{
		"text":     "title = \"" + fill("a") + "\"\n",
		"open":     "title = \"" + fill("a"),
		"wide":     "title = \"" + fill("織") + "\n",
		"key":      fill("k") + " = 1\n",
		"value":    "units = \"" + fill("b") + "\"\n",
		"table":    "yarn = { " + fill("k = 1, ") + "}\n",
		"tables":   "yarn = [" + fill("{ k = 1 }, ") + "]\n",
		"comment":  "# " + fill("c") + "\ntitle = 1\n",
		"blanks":   "title = " + fill(" ") + "x\n",
		"number":   "seed = " + fill("9") + "\n",
		"runs":     "[warp]\nruns = [" + fill(`"A 1 x", `) + "]\n",
		"lists":    "[warp]\ncolours = " + strings.Repeat("[", min(size, 200)) + "\n" + fill("\n"),
		"returns":  fill("# x\r\n"),
		"no utf-8": "title = \"" + fill("\xff") + "\"\n",
		"marks":    "title = \"" + fill("\u0301") + "\n",
		"zeros":    fill("\x00"),
	}
}

// TestLongBriefsDoNotFlood: whatever is wrong with a long line is told in a few
// lines.
func TestLongBriefsDoNotFlood(t *testing.T) {
	for name, text := range longBriefs(200_000) {
		t.Run(name, func(t *testing.T) {
			var out, mistakes bytes.Buffer
			code := run([]string{"check", "-"}, strings.NewReader(text), &out, &mistakes,
				func(string) string { return "" }, never)
			assert.Equal(t, exitFailed, code)
			assert.Empty(t, out.String())
			assert.Less(t, mistakes.Len(), 12_000)
			for _, line := range strings.Split(mistakes.String(), "\n") {
				assert.Less(t, len(line), 2_500, "%.80q", line)
			}
		})
	}
}

// BenchmarkLong reads such texts of an eighth of a MiB and of nearly a whole one,
// the most that is read.
func BenchmarkLong(b *testing.B) {
	for _, kib := range []int{127, 1016} {
		briefs := longBriefs(kib << 10)
		for _, name := range slices.Sorted(maps.Keys(briefs)) {
			text := briefs[name]
			b.Run(fmt.Sprintf("%s/%d KiB", name, kib), func(b *testing.B) {
				for b.Loop() {
					var out, mistakes bytes.Buffer
					run([]string{"check", "-"}, strings.NewReader(text), &out, &mistakes,
						func(string) string { return "" }, never)
				}
			})
		}
	}
}
