package workbench

import (
	"context"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/plan"
)

// Other is a piece that a step has changed besides what the step was about.
type Other struct {
	Strip int    `json:"strip"`
	Name  string `json:"name"`
}

// latest is what the latest step began with, to tell what it changed.
type latest struct {
	before  version
	target  int   // the piece it is about, as it was numbered before; below 0 for none
	from    []int // which piece each was before; nil where they kept their numbers
	at      int   // where the piece it is about is now
	gesture string
	others  []Other
}

// follow remembers what the present version was made from. The steps of one
// gesture began where the first of them did.
func (b *Bench) follow(before version, op Op, d *draft) {
	l := &latest{before: before, target: op.Strip, from: d.from, at: d.at, gesture: op.Gesture}
	if last := b.latest; last != nil && op.Gesture != "" && last.gesture == op.Gesture {
		l.before, l.target, l.from = last.before, last.target, throughBoth(last.from, d.from)
	}
	if !operations()[op.Do].chooses {
		l.others = l.changed(b.version)
	}
	b.latest = l
}

// throughBoth is which piece each was before two steps, from which it was before each.
func throughBoth(first, second []int) []int {
	if first == nil || second == nil {
		return slices.Concat(first, second)
	}
	all := make([]int, len(second))
	for i, at := range second {
		all[i] = before(first, at)
	}
	return all
}

// before is which piece one was before a step; one that no piece was is none.
func before(from []int, is int) int {
	switch {
	case from == nil:
		return is
	case is < len(from):
		return from[is]
	}
	return math.MaxInt
}

// changed lists the chosen pieces that are not as they were. Only what the
// program chooses can change without being spoken of.
func (l *latest) changed(now version) (others []Other) {
	for was, is := range l.pairs(now) {
		if !l.alike(was, now, is) {
			others = append(others, Other{is, now.plan.Pieces[is].Name})
		}
	}
	return others
}

// pairs goes through the pieces that are left to the program now and were before the
// step, but for the one it is about, each with what it was.
func (l *latest) pairs(now version) func(yield func(was, is int) bool) {
	return func(yield func(int, int) bool) {
		for _, is := range now.open() {
			was := before(l.from, is)
			both := was < len(l.before.brief.Pieces) && l.before.brief.Pieces[was].Open
			if now.brief.Vary == nil || was == l.target || !both {
				continue
			}
			if !yield(was, is) {
				return
			}
		}
	}
}

// open lists the pieces that are left open.
func (v version) open() (all []int) {
	for i, p := range v.brief.Pieces {
		if p.Open {
			all = append(all, i)
		}
	}
	return all
}

// alike tells whether a piece has the runs it had; where the length of pieces
// was changed, as many of the same.
func (l *latest) alike(was int, now version, is int) bool {
	old, all := l.held(was, now), pieceRuns(now.plan, is)
	if len(old) != len(all) {
		return false
	}
	sameLength := unitsOf(old) == unitsOf(all)
	for i, r := range all {
		if !sameLength {
			r.units = old[i].units
		}
		if r != old[i] {
			return false
		}
	}
	return true
}

// held are the runs of a piece before the step, its colours called as they are
// called now.
func (l *latest) held(was int, now version) []run {
	all := pieceRuns(l.before.plan, was)
	if len(l.before.brief.Colours) != len(now.brief.Colours) {
		return all // one came or went, and none got another name
	}
	for i := range all {
		if all[i].block != "" {
			all[i].colour = now.brief.Colours[l.before.index(all[i].colour)].Name
		}
	}
	return all
}

func unitsOf(all []run) (n int) {
	for _, r := range all {
		n += r.units
	}
	return n
}

// Hold puts the pieces that the latest step changed besides back as they were,
// written out as runs that are held together with the others the program chose,
// and makes that part of the step. It fails where there is nothing to put back.
func (b *Bench) Hold(ctx context.Context) (string, error) {
	l := b.latest
	if l == nil || len(l.others) == 0 {
		return "", refuse("", "the latest step changed no other piece")
	}
	d := &draft{bench: b, doc: b.doc, at: -1}
	if err := d.fixNumber(); err != nil {
		return "", problems(err)
	}
	for was, is := range l.pairs(b.version) {
		if err := d.holdOut(is, l.held(was, b.version)); err != nil {
			return "", problems(err)
		}
	}
	before, text, what := b.Text(), d.doc.Bytes(), names(b.plan, l.others)
	if err := b.lay(ctx, text); err != nil {
		return "", err
	}
	b.history.amend(before, text)
	b.latest = &latest{before: b.version, target: -1, at: l.at}
	return "held as before: " + what, nil
}

func names(p *plan.Plan, others []Other) string {
	all := make([]string, len(others))
	for i, o := range others {
		all[i] = p.Label(o.Strip)
	}
	return strings.Join(all, ", ")
}
