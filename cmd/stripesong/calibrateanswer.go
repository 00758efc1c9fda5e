package main

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// answer prints what was worked out, as a table and where each line is from.
func (c *calibrating) answer(w *world, s *source, a *calibrate.Answer, made *rewriting) error {
	if made != nil {
		a.Changed, a.Held = made.numbers(made.changed()), made.numbers(made.held)
		a.Before = made.kept
	}
	if c.json {
		return screen.WriteJSON(w.out, a)
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is about %s\n", s.name)
	}
	for _, line := range answerTable(a).lines() {
		fmt.Fprintln(w.out, line)
	}
	for _, share := range a.Shares {
		fmt.Fprintf(w.out, "%s: %s\n", share.Key, screen.Visible(share.From))
	}
	sampleLines(w, a.Sample)
	if made != nil {
		path := s.name
		if c.toFile {
			path = c.write.text
		}
		fmt.Fprintf(w.out, "wrote them into %s\n", screen.Visible(path))
		made.tell(w)
		made.tellRefit(w, path)
	}
	return nil
}

// tellRefit names what was written by hand and is no longer of the size asked for, and
// what would scale it.
func (r *rewriting) tellRefit(w *world, path string) {
	if r.refused != nil {
		return
	}
	_, all, err := plan.Refit(r.brief)
	off := slices.DeleteFunc(all, func(r plan.Refitted) bool { return !r.Off() })
	if err != nil || len(off) == 0 {
		return
	}
	var names []string
	for _, o := range off {
		name := "the warp"
		if o.Piece >= 0 {
			name = r.after.Called(o.Piece)
		}
		names = append(names, fmt.Sprintf("%s (%s, asked %s)", name,
			measure.FormatLength(o.WasMM, r.after.Units),
			measure.FormatLength(o.MM, r.after.Units)))
	}
	fmt.Fprintf(w.out, "runs written by hand that now come out at another size than asked "+
		"for: %s\n",
		screen.Visible(strings.Join(names, ", ")))
	fmt.Fprintf(w.out, "to scale them: stripesong plan %s --refit --write-runs FILE\n",
		screen.Visible(shellWord(path)))
}

func answerTable(a *calibrate.Answer) *table {
	t := &table{left: map[int]bool{4: true}}
	t.add("", "measured", "between", "assumed", "")
	for _, s := range a.Shares {
		t.add(s.Key, s.Text(), fmt.Sprintf("%.1f%% and %.1f%%", 100*s.Least, 100*s.Most),
			fmt.Sprintf("%.1f%%", 100*s.Assumed), agreeing(s.Agrees))
	}
	if a.Sample == nil {
		return t
	}
	for _, v := range a.Sample.Values {
		least, most := v.Between()
		text, word := v.Text(), agreeing(v.Agrees)
		if !v.Solved {
			text, word = "?", ""
		}
		t.add(v.Key, text, least+" and "+most, fmt.Sprintf("%g", v.Assumed), word)
	}
	return t
}

func agreeing(agrees bool) string {
	if agrees {
		return "agrees"
	}
	return "differs"
}

// sampleLines tells where the numbers of a sample are from, and how well they
// explain its photo.
func sampleLines(w *world, s *calibrate.Sample) {
	if s == nil {
		return
	}
	for _, v := range s.Values {
		fmt.Fprintf(w.out, "%s: %s\n", v.Key, screen.Visible(v.From))
	}
	if f := s.Fit; f != nil {
		fmt.Fprintf(w.out, "the photo: pattern area %s, by these numbers %s (dE00 %.1f); ground "+
			"area %s, by these numbers %s (dE00 %.1f)\n",
			f.Pattern.Seen.Hex(), f.Pattern.Model.Hex(), f.Pattern.DeltaE, f.Ground.Seen.Hex(),
			f.Ground.Model.Hex(), f.Ground.DeltaE)
	}
}
