package main

import (
	"fmt"
	"io"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// refitted is the brief with runs written by hand scaled to the size it asks for, which
// is told before anything else is done.
func (p *planning) refitted(w *world, s *source) (*source, error) {
	b, err := s.parse(p.all())
	if err != nil {
		return nil, err
	}
	set := b.Set
	if set.Width == nil && set.InReed == nil && set.Length == nil && set.Woven == nil {
		return nil, mistake{what: "--refit scales runs to a size, and the brief asks for none",
			hint: "write width and length in [set], or give --width and --length"}
	}
	changes, all, err := plan.Refit(b)
	if err != nil {
		return nil, s.named(err)
	}
	text, err := brief.Edit(s.name, s.text, changes)
	if err != nil {
		return nil, err
	}
	p.tellRefitted(w, b, all)
	changed := *s
	changed.text = text
	return &changed, nil
}

// tellRefitted says what is scaled, from which size to which.
func (p *planning) tellRefitted(w *world, b *brief.Brief, all []plan.Refitted) {
	var to io.Writer = w.out
	before := ""
	if p.json {
		to, before = w.err, "stripesong: "
	}
	if len(all) == 0 {
		fmt.Fprintf(to, "%snothing to refit: every piece has the size asked for, follows a rule, "+
			"or is held\n", before)
	}
	for _, r := range all {
		what, unit, side := "the warp", "threading", "wide"
		if r.Piece >= 0 {
			what, unit, side = fmt.Sprintf("%q", b.Pieces[r.Piece].Name), "weft", "long"
		}
		fmt.Fprintf(to, "%srefit   %s: %d %s units instead of %d, %s %s finished instead of %s\n",
			before,
			screen.Visible(what), r.Is, unit, r.Was, measure.FormatLength(r.MM, b.Units), side,
			measure.FormatLength(r.WasMM, b.Units))
	}
	if len(all) > 0 && !p.runs.given {
		fmt.Fprintf(to, "%srefit   the brief stays as it is; --write-runs FILE writes them out\n",
			before)
	}
}
