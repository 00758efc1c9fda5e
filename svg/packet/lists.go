package packet

import (
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"
	"unicode/utf8"

	"stripesong/sequence/loomwork"
	"stripesong/svg"
)

// listPage is what stands of a piece's list on one page of paper, read upwards.
type listPage struct {
	Opener     string
	Number, Of int
	From, To   int    // steps, from 1
	Steps      []step // the last woven first
	Picture    template.HTML
}

// What a page holds, in mm: what is printed is 255 mm high on Letter, the lower of the
// two papers. On a page on which a list goes on stand a heading and a picture.
const (
	pageMM      = 252
	laterPageMM = 198
)

// headMM is about how high stands what a sheet says before its list, rather more than
// less.
func (s *piece) headMM(names []string) float64 {
	key := utf8.RuneCountInString(s.Rhythm + s.Time)
	if s.Order != "" {
		key += 100
	}
	if s.Show > 0 {
		key += 50
	}
	return headMM(key, s.Beat, s.Handling, names)
}

// headMM is the same from how many characters a key has more than the shortest, and the
// words before the yarns.
func headMM(more int, beat, handling string, names []string) float64 {
	const headingsMM, lineMM, keyLineMM = 34, 6.6, 6.5
	lines := func(length, across int) float64 { return float64(1 + (length-1)/across) }
	key := 95 + more
	shuttles := utf8.RuneCountInString(handling)
	for _, name := range names {
		shuttles += utf8.RuneCountInString(name) + 9
	}
	return headingsMM + float64(keyLineMM*lines(key, 70)) +
		float64(lineMM*(lines(utf8.RuneCountInString(beat), 85)+lines(shuttles, 80)))
}

// rowMM is about how high a step stands on paper, rather more than less: lines of
// 10.5 pt, below them boxes to tick. See style.css.
func rowMM(s step, names [2]string) float64 {
	const lineMM, chipMM, smallMM, boxesMM, padding = 4.7, 5.2, 4, 4.6, 2.2
	const across = 13 // characters of a name
	lines := func(text string, across int) int {
		return 1 + (utf8.RuneCountInString(text)-1)/across
	}
	what := float64(lineMM * float64(lines(s.Head+" · "+s.Treadles, 27)))
	if len(s.Shuttles) > 0 {
		all := 0
		for _, words := range s.Shuttles {
			all += utf8.RuneCountInString(words) + 3
		}
		what += float64(smallMM * float64(1+(all-1)/36))
	}
	if s.Boxes > 0 {
		// of 20 to a line; three figures take more
		places := 4*min(s.Boxes, 9) + 5*max(s.Boxes-9, 0) + 4
		what += 0.6 + float64(boxesMM*float64((places+19)/20))
	}
	chips := 0.0
	for _, name := range names {
		if name != "" {
			chips += float64(chipMM * float64(lines(name, across)))
		}
	}
	if names[0] != "" && utf8.RuneCountInString(names[1]) > across {
		chips += chipMM // "on" stands by itself
	}
	return padding + max(what, chips, 6)
}

// lists share the steps of piece i, or of the sample for -1, among as few pages as hold
// them, about evenly, so that none has a step or two; headMM is what stands before them on
// the first. They also tell how much of the last page is used.
func (m *maker) lists(i int, headMM float64, steps []loomwork.Step,
	rows []step) (all []listPage, usedMM float64) {
	high, sum := make([]float64, len(rows)), 0.0
	for n, s := range steps {
		high[n] = rowMM(rows[n], [2]string{seen(s.Pattern), seen(s.Ground)})
		sum += high[n]
	}
	const wordsMM = 7 // that there is another page
	first, pages := pageMM-headMM, 1
	if sum > first {
		first -= wordsMM
		pages = 1 + max(1, int(math.Ceil((sum-first)/laterPageMM)))
	}
	ends := evenly(high, sum, first, pages)
	all = make([]listPage, pages)
	from, used := 0, headMM
	if pages > 1 {
		used = pageMM - laterPageMM
	}
	for k, to := range ends {
		page := listPage{Opener: m.opener(), Number: k + 1, Of: pages, From: from + 1, To: to,
			Steps: slices.Clone(rows[from:to])}
		slices.Reverse(page.Steps)
		if pages > 1 {
			page.Picture = m.partOf(i, steps, from, to)
		}
		all[k], from = page, to
	}
	for _, mm := range high[len(rows)-len(all[pages-1].Steps):] {
		used += mm
	}
	return all, used
}

// namesOf are those of the yarns of some steps.
func namesOf(steps []loomwork.Step) (names []string) {
	for _, s := range steps {
		for _, use := range s.Shuttles {
			if name := seen(use.Colour); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

// evenly shares rows among pages: after which row each page ends.
func evenly(high []float64, sum, first float64, pages int) (ends []int) {
	whole := first + float64(laterPageMM*float64(pages-1))
	at, row := 0.0, 0
	for k := range pages {
		room := sum * (first + float64(laterPageMM*float64(k))) / whole // up to this page's end
		for row < len(high) && (k == pages-1 || at+float64(high[row]/2) <= room) {
			at += high[row]
			row++
		}
		ends = append(ends, row)
	}
	return ends
}

// partOf is a small picture of piece i, or of the sample for -1, with the steps of one page marked.
func (m *maker) partOf(i int, steps []loomwork.Step, from, to int) template.HTML {
	below := 0.0
	if from > 0 {
		below = steps[from-1].Woven
	}
	return m.draw(func(w io.Writer) error {
		if i < 0 {
			return svg.SamplePart(w, m.Plan, below, steps[to-1].Woven)
		}
		return svg.Part(w, m.Plan, i, below, steps[to-1].Woven)
	})
}

// Words says which steps a page has; "" where it has them all.
func (p listPage) Words() string {
	if p.Of == 1 {
		return ""
	}
	words := fmt.Sprintf("Page %d of %d: steps %d to %d.", p.Number, p.Of, p.From, p.To)
	if p.Number < p.Of {
		words += fmt.Sprintf(" It goes on with step %d on the next page.", p.To+1)
	}
	return words
}
