package packet

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"
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

// headMM is about how high, in mm on paper, stands what a sheet says before its list,
// rather more than less.
func (s *piece) headMM(names []string) float64 {
	key := utf8.RuneCountInString(s.Rhythm + s.Time)
	if s.Order != "" {
		key += 100
	}
	if s.Show > 0 {
		key += 50
	}
	high := headMM(key, s.Beat, s.Handling, names)
	if s.Noted.More {
		high += moreMM
	}
	return high
}

// headMM is the height of what a sheet says before its list: of headings, of a key that has
// so many characters more than the shortest, and of the words and names of its yarns.
func headMM(more int, beat, handling string, names []string) float64 {
	const headingsMM, lineMM, keyLineMM = 35, 6.6, 6.5
	lines := func(length, across int) float64 { return float64(1 + (length-1)/across) }
	key := 95 + more
	shuttles := utf8.RuneCountInString(handling)
	for _, name := range names {
		shuttles += utf8.RuneCountInString(name) + 9
	}
	return headingsMM + float64(keyLineMM*lines(key, 70)) +
		float64(lineMM*(lines(utf8.RuneCountInString(beat), 85)+lines(shuttles, 80)))
}

// The columns of a list on A4, the narrower of the two papers, in mm, without their padding.
const (
	whatMM  = 52.8 // what is woven; see style.css for the others
	yarnsMM = 41
)

// rowMM is about how high a step stands on paper, rather more than less: lines of
// 10.5 pt, below them boxes to tick. See style.css.
func rowMM(s step, names [2]string) float64 {
	const lineMM, paddingMM, leastMM, bothMM = 4.72, 2.3, 6.9, 10.7
	const headMM, smallMM = 10.5 * pointMM, 9 * pointMM
	words := wordsMM(s.Head, headMM*bold)
	if s.Treadles != "" {
		words = append(words, wordsMM("·", headMM)...)
		words = append(words, wordsMM(strings.ReplaceAll(s.Treadles, " ", "\u00a0"), headMM)...)
	}
	lines := wrapped(words, headMM*bold, whatMM)
	if len(s.Shuttles) > 0 {
		words := wordsMM(strings.Join(s.Shuttles, " · "), smallMM)
		lines += wrapped(words, smallMM, whatMM)
	}
	what := float64(lineMM*float64(lines)) + boxesMM(s.Boxes)
	high := max(what, chipsMM(names), leastMM)
	if s.Both != "" {
		high = max(high, bothMM)
	}
	return paddingMM + high
}

// boxesMM is how high boxes to tick stand, of which n are numbered in tens, and the word
// after them.
func boxesMM(n int) float64 {
	const lineMM, gapMM, wordMM = 4.55, 0.5, 10
	if n == 0 {
		return 0
	}
	lines, at := 1, 0.0
	place := func(wide float64) {
		if at > 0 && at+gapMM+wide > whatMM {
			lines++
			at = 0
		}
		at += gapMM + wide
	}
	for k := range n {
		place(5.5 + float64(2.2*float64(max(2, len(strconv.Itoa(10*(k+1)))))))
	}
	place(wordMM)
	return 0.6 + float64(lineMM*float64(lines))
}

// chipsMM is how high the colours of a step stand, pattern over ground.
func chipsMM(names [2]string) (high float64) {
	const chipMM, signsMM, onMM, size = 5.25, 9.7, 5.1, 10 * pointMM
	for _, name := range names {
		if name != "" {
			high += float64(chipMM * float64(wrapped(wordsMM(name, size), size, yarnsMM-signsMM)))
		}
	}
	if names[0] != "" && float64(ems(names[1])*size) > yarnsMM-signsMM-onMM {
		high += chipMM // "on" stands by itself
	}
	return high
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
	ends := []int{len(rows)}
	noted := 0.0 // beside the picture where there is one
	if i >= 0 {
		noted = notedMM
	}
	if sum+noted > first {
		first -= wordsMM
		for ends = nil; ends == nil; {
			pages++
			ends = evenly(high, sum, first, pages)
		}
	}
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

// namesOf are the names of the yarns of some steps.
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

// evenly shares rows among pages: after which row each page ends; nil where a page would
// be too full, unless it holds one row or none.
func evenly(high []float64, sum, first float64, pages int) (ends []int) {
	whole := first + float64(laterPageMM*float64(pages-1))
	at, row, fits := 0.0, 0, true
	for k := range pages {
		room := sum * (first + float64(laterPageMM*float64(k))) / whole // up to this page's end
		from, begins := row, at
		for row < len(high) && (k == pages-1 || at+float64(high[row]/2) <= room) {
			at += high[row]
			row++
		}
		ends = append(ends, row)
		holds := float64(laterPageMM)
		if k == 0 {
			holds = first
		}
		fits = fits && (at-begins <= holds || row-from < 2)
	}
	if !fits {
		return nil
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
