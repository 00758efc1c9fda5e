package packet_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// tail reads how long a tail is left, where a yarn starts or is cut.
func (w *weaver) tail(words string, there bool) amount {
	if words == "" {
		return amount{}
	}
	w.check(there, "a tail of %s of a yarn that goes on", words)
	return w.length(words)
}

// one counts what is there.
func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

// fringes reads how warp is left bare and ends are hemstitched, and does it: each end with
// a tail of its own ground yarn, which is not cut off before.
func (w *weaver) fringes(page []block) {
	if !w.hasStep("bare") {
		w.check(find(page, `(?i)(hemstitch)`) == nil, "hemstitching without fringes")
		return
	}
	bare := w.length(w.said(page,
		`^Before a piece, leave (\S+(?: \S+)+?) of warp bare, which is `+
			`the fringe on the loom, and shorter once it is knotted and trimmed: open the two `+
			`tabby sheds in turn and lay a strip of card into each`)[0])
	tail := w.length(w.said(page, `^Start the first ground yarn from the right with a tail of `+
		`(\S+(?: \S+)+?), four times the width in the reed`)[0])
	reed := w.length(w.cloth.width[0])
	// in whole centimetres or inches, and not less than it takes
	more := tail.v - 4*reed.v
	grain := 10.0
	if strings.HasSuffix(w.cloth.width[0], " in") {
		grain = 25.4
	}
	w.check(more > -4*reed.half && more < grain+4*reed.half && tail.whole(grain),
		"a tail of %.0f mm for %.0f mm of width", tail.v, reed.v)
	w.bundles(page)
	for i := range w.pieces {
		s := &w.pieces[i]
		w.check(s.bare[0] == bare && s.bare[1] == bare, "piece %d has fringes of %v", i+1, s.bare)
		for k, use := range w.groundEnds(s) {
			is, want := []bool{use.start, use.cut}[k], []amount{use.firstTail, use.lastTail}[k]
			w.check(is && want == tail, "piece %d: no tail of %v to hemstitch with", i+1, tail.v)
			w.check(k == 1 || use.stitch != nil && !use.left,
				"piece %d: its foot is not hemstitched", i+1)
			if want.v > 0 {
				s.tails = append(s.tails, use.letter)
			}
		}
		s.tail = amount{tail.v - grain/2, grain / 2}
		w.deep(s)
	}
}

// deep hemstitches both ends of a piece over as many picks as the list says: two at least,
// and one of ground, or they slip off; those that are named are those that lie there.
func (w *weaver) deep(s *sheet) {
	foot := w.groundEnds(s)[0].stitch
	var top []string
	for _, st := range s.steps {
		if st.over != nil {
			top = st.over
		}
	}
	if foot == nil || top == nil {
		w.doubt("piece %d: how deep is it hemstitched?", s.number)
		return
	}
	w.over(s, s.picks, foot[2], foot[3])
	above := slices.Clone(s.picks)
	slices.Reverse(above)
	w.over(s, above, top[0], top[1])
	begun := spelt[foot[0]]
	both := slices.ContainsFunc(s.picks[:min(begun, len(s.picks))],
		func(p pick) bool { return p.pattern })
	w.check(begun > spelt[foot[2]] && both == (foot[1] != ""),
		"piece %d: hemstitched when %q picks are woven", s.number, foot[:2])
}

// spelt are the numbers that a list spells.
var spelt = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}

// over holds the picks that a stitch catches, from the edge on, against those that lie there.
func (w *weaver) over(s *sheet, picks []pick, number, which string) {
	n := spelt[number]
	w.check(n >= 2, "piece %d: hemstitched over %q picks", s.number, number)
	var lie []string
	pattern, ground := false, false
	for _, p := range picks[:min(n, len(picks))] {
		if pattern, ground = pattern || p.pattern, ground || !p.pattern; p.pattern {
			lie = append(lie, "pattern")
		} else {
			lie = append(lie, "ground")
		}
	}
	w.check(ground, "piece %d: hemstitched over pattern picks alone", s.number)
	w.check(which == strings.Join(lie, ", ") || !pattern && which == "",
		"piece %d: hemstitched over %q, where %q lie", s.number, which, lie)
}

// groundEnds is what the list says of the first and the last ground yarn of a piece.
func (w *weaver) groundEnds(s *sheet) (ends [2]use) {
	var grounds []use
	for _, st := range s.steps {
		if st.kind == "bare" || st.kind == "separator" {
			continue
		}
		for k, u := range w.toldOf(st) {
			if !k.pattern {
				grounds = append(grounds, u)
			}
		}
	}
	if len(grounds) > 0 {
		ends = [2]use{grounds[0], grounds[len(grounds)-1]}
	}
	return ends
}

// bundles hemstitches all ends, in bundles of four; what is over is said.
func (w *weaver) bundles(page []block) {
	m := w.said(page, `over four ends at a time: (\d+) bundles?(?:, of which the last takes `+
		`(\d+) ends?)?\.`)
	last := 4
	if m[1] != "" {
		last = w.number(m[1])
	}
	w.check(4*(w.number(m[0])-1)+last == len(w.warp.ends) && last > 1,
		"%s bundles, the last of %d, for %d ends", m[0], last, len(w.warp.ends))
}

// tailsOf is what a piece takes of a colour to be hemstitched with, in metres.
func (s sheet) tailsOf(letter string) (metres amount) {
	for _, of := range s.tails {
		if of == letter {
			metres.v += s.tail.v / 1000
			metres.half += s.tail.half / 1000
		}
	}
	return metres
}

// hemstitching finds what the tails take beside the table of yarn.
func (w *weaver) hemstitching() {
	page := w.shopPart()
	for letter, u := range w.spent() {
		if u.tails.v == 0 {
			continue
		}
		words := w.said(page, `That takes .*?(\d\S* (?:m|yd)) of `+
			regexp.QuoteMeta(w.names[letter])+`(?:,|\.| and )`)[0]
		w.check(w.yarn(words).within(u.tails.v, u.tails.half), "%.1f m in tails, and it says %s",
			u.tails.v, words)
	}
	fringed := slices.ContainsFunc(w.ahead(), func(s sheet) bool { return s.tail.v > 0 })
	w.check(fringed == (find(page, `(To hemstitch, a tail)`) != nil), "tails are said or not")
}

// TestWeaverNoticesFaultsOfFringes: pages with a fringe, each with one fault.
func TestWeaverNoticesFaultsOfFringes(t *testing.T) {
	text := string(brief.Default())
	for was, is := range map[string]string{`fringe    = "0 cm"`: `fringe = "6 cm"`,
		`hem       = "4 cm"`: `hem = "0 cm"`, "# closing_end": "closing_end"} {
		require.Equal(t, 1, strings.Count(text, was), was)
		text = strings.Replace(text, was, is, 1)
	}
	p := planned(t, []byte(text))
	page := pages(t, p)
	require.Empty(t, weaveFrom(page).doubts)
	for _, fault := range []struct{ name, was, is string }{
		{"the tail is not left", "cut after with a tail of 2.17 m", "cut after"},
		{"the foot is not hemstitched",
			" · hemstitch with the first tail when four picks, pattern and ground together, are " +
				"woven, over the lowest two (pattern, ground)", ""},
		{"hemstitched over pattern picks alone", "over the lowest two (pattern, ground)",
			"over the lowest two (pattern, pattern)"},
		{"hemstitched deeper", "hemstitch over the topmost two (ground, pattern)",
			"hemstitch over the topmost three (ground, pattern)"},
		{"hemstitched behind the bare warp", "<b>hemstitch with the last tail, then leave",
			"<b>leave"},
		{"a tail too short", "start with a tail of 2.17 m", "start with a tail of 1.08 m"},
		{"bundles", "of which the last takes 5 ends", "of which the last takes 2 ends"},
		{"yarn for the tails", "That takes 22 m of oat", "That takes 12 m of oat"},
		{"tails to turn in", "2 to hemstitch with", "3 to hemstitch with"},
	} {
		t.Run(fault.name, func(t *testing.T) {
			require.Contains(t, page, fault.was)
			assert.NotEmpty(t, weaveFrom(strings.Replace(page, fault.was, fault.is, 1)).doubts)
		})
	}
}
