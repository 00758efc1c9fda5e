package packet_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// TestWeaveTheRest: a weaver who dressed the loom and wove the first pieces by one packet
// goes on by that of the rest, which has neither winding nor threading, and has the cloth,
// the yarn and the lengths of its plan.
func TestWeaveTheRest(t *testing.T) {
	want := 3
	if allChecks() {
		want = 30
	}
	weaveRest(t, string(brief.Default()), 3)
	for seed, done := uint64(1), 0; done < want; seed++ {
		text := madeUp(seed)
		b, err := brief.Parse("made up", []byte(text), brief.Options{})
		require.NoError(t, err)
		p, err := plan.Make(context.Background(), b)
		if err != nil || len(p.Pieces) < 2 {
			continue
		}
		done++
		woven := int(seed) % len(p.Pieces)
		if !t.Run(fmt.Sprintf("brief %d, %d woven", seed, woven), func(t *testing.T) {
			weaveRest(t, text, woven)
		}) {
			t.Log(text)
		}
	}
}

// weaveRest weaves the first pieces of a brief by its packet, each a little longer than
// planned, and the rest by that of a brief in which they are woven.
func weaveRest(t *testing.T, text string, woven int) {
	t.Helper()
	before, q := restOf(t, text, woven)
	w := goOn(before, pages(t, q), woven)
	assert.Empty(t, w.doubts)
	assert.Empty(t, differences(t, w, q))
}

// restOf is a weaver who has woven a brief by its packet, and the plan of the rest where
// only the first pieces are woven, each a little longer than planned.
func restOf(t *testing.T, text string, woven int) (*weaver, *plan.Plan) {
	t.Helper()
	b, err := brief.Parse("whole", []byte(text), brief.Options{})
	require.NoError(t, err)
	p := planned(t, []byte(text))
	lengths := make([]string, woven)
	for i := range lengths {
		lengths[i] = fmt.Sprintf("\"%d mm\"", int(1.01*p.Pieces[i].WovenMM))
	}
	changes := append(plan.RunsOf(b, p),
		brief.Change{Key: "midway.woven", Value: "[" + strings.Join(lengths, ", ") + "]"},
		brief.Text("midway.warp", "9 m"), brief.Text("midway.waste", "40 cm"))
	rest, err := brief.Edit("rest", []byte(text), changes)
	require.NoError(t, err)
	before := weaveFrom(pages(t, p))
	require.Empty(t, before.doubts)
	return before, planned(t, rest)
}

// TestWeaverNoticesFaultsOfTheRest: pages of the rest of the built-in brief with one fault
// each.
func TestWeaverNoticesFaultsOfTheRest(t *testing.T) {
	before, p := restOf(t, string(brief.Default()), 3)
	page := pages(t, p)
	for _, fault := range []struct{ name, was, is string }{
		{"how many are woven", "<b>3 of 6 pieces are woven.</b>",
			"<b>2 of 6 pieces are woven.</b>"},
		{"with which she goes on", "Go on with piece 4", "Go on with piece 3"},
		{"what the rest takes", "takes <b>3.09 m</b>", "takes <b>3.19 m</b>"},
		{"a part of it", `<td class="n">89 cm</td>`, `<td class="n">88 cm</td>`},
		{"a woven length", `<th scope="row">ladder</th><td class="n">82.7 cm</td>`,
			`<th scope="row">ladder</th><td class="n">82.0 cm</td>`},
		{"the separator between", "2 separator picks", "3 separator picks"},
		{"a count of picks in a row", `>60 &#43; 60<`, `>60 &#43; 58<`},
		{"a piece's number", "Piece 5 of 6", "Piece 4 of 6"},
		{"where to cut", `<td class="n">248.6 cm</td>`, `<td class="n">247.6 cm</td>`},
	} {
		t.Run(fault.name, func(t *testing.T) {
			require.True(t, strings.Contains(page, fault.was), fault.was)
			w := goOn(before, strings.Replace(page, fault.was, fault.is, 1), 3)
			if len(w.doubts) == 0 {
				assert.NotEmpty(t, differences(t, w, p))
			}
		})
	}
}

// ahead are the pieces of this packet, without those that were woven before it.
func (w *weaver) ahead() []sheet { return w.pieces[w.done:] }

// shopPart is the part with the table of yarn.
func (w *weaver) shopPart() []block {
	if w.onLoom {
		return w.under("Yarn for the rest")
	}
	return w.under("Shopping and shelf")
}

// goOn is a weaver at the loom of another, so many of whose pieces are woven, with the
// packet of the rest.
func goOn(before *weaver, page string, done int) *weaver {
	w := &weaver{names: map[string]string{}, shelf: map[string][]string{}, onLoom: true,
		done: done, warp: before.warp}
	var err error
	if w.blocks, err = readPage(page); err != nil {
		w.doubt("the page can't be read: %v", err)
		return w
	}
	w.card()
	for letter, name := range w.names {
		w.check(before.names[letter] == name, "colour %s was %q and is %q", letter,
			before.names[letter], name)
	}
	w.facts()
	w.loom.shafts = before.loom.shafts
	w.fromLoom(before)
	w.atTheLoom()
	return w
}

// fromLoom reads where she is: what is woven, as it was measured, what is left of the warp,
// and what the rest takes of it.
func (w *weaver) fromLoom(before *weaver) {
	page := w.under("Weaving")
	w.pieces = append(w.pieces, before.pieces[:w.done]...)
	if w.done > 0 {
		w.wovenBefore(page)
	}
	m := w.said(page, `(\S+(?: \S+)+?) of the warp are left, from the fell to its end; what is `+
		`yet to be woven takes (\S+(?: \S+)+?), with what can’t be woven at the end`)
	w.warp.wound, w.warp.parts = w.length(m[1]), nil
	sum := 0.0
	for i, row := range w.tableWith(page, "Of the warp").rows {
		w.check(row[0] == fmt.Sprint(i+1), "part %s of the warp is number %d", row[0], i+1)
		p := part{row[1], w.partLength(row[2])}
		w.warp.parts = append(w.warp.parts, p)
		sum += p.wound.v
	}
	w.check(math.Abs(sum-w.warp.wound.v) < 1e-6,
		"the parts of the warp are %.0f mm, and the rest takes %.0f mm", sum, w.warp.wound.v)
	next := w.said(page, `Go on with piece (\d+), `)[0]
	w.check(next == fmt.Sprint(w.done+1), "she goes on with piece %s, and %d are woven", next,
		w.done)
	if w.done > 0 {
		w.separatorNow(page)
	}
}

// wovenBefore takes the lengths of woven pieces as they were measured.
func (w *weaver) wovenBefore(page []block) {
	said := w.said(page, `(\d+) of (\d+) pieces are woven\.`)
	w.check(said[0] == fmt.Sprint(w.done), "%s pieces are woven, and %d were", said[0], w.done)
	rows := w.tableWith(page, "On the loom").rows
	w.check(len(rows) == w.done, "%d lengths of %d pieces", len(rows), w.done)
	for i, row := range rows {
		if i < w.done {
			s := &w.pieces[i]
			w.check(row[0] == fmt.Sprint(i+1) && row[1] == s.name, "woven piece %d is %q", i+1,
				row[1])
			s.measured, s.woven = row[2], w.length(row[2])
		}
	}
}

// separatorNow holds the separator that may still follow the last woven piece against the
// one its list had.
func (w *weaver) separatorNow(page []block) {
	last := w.pieces[w.done-1].separator
	m := find(page,
		`(One separator pick|(\d+) separator picks) of (.*) follow piece (\d+): weave them now`)
	if m == nil || len(last) == 0 {
		w.check(m == nil && len(last) == 0, "a separator of %d picks follows, and it says %v",
			len(last), m)
		return
	}
	picks := 1
	if m[1] != "" {
		picks = w.number(m[1])
	}
	w.check(picks == len(last) && m[3] == fmt.Sprint(w.done) && w.chip(m[2]) == last[0].colour,
		"a separator of %d picks after piece %d, and it says %v", len(last), w.done, m)
}
