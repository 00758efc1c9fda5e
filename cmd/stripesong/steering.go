package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/plan"
)

// steers are the flags that narrow down what is tried.
type steers struct {
	kinds, stripes, bold, calm value
	anyColours                 yes
}

func (t *steers) declare(f *flags) {
	f.sharedGroup("trials", "Flags", "")
	t.kinds = value{kind: "A,B", check: kindNames, words: sequence.KindNames()}
	t.stripes = value{kind: "N-M", check: stripeBounds}
	t.bold = value{kind: "SHARE", check: partOfAll}
	t.calm = value{kind: "SHARE", check: partOfAll}
	f.add("kinds", "only these kinds of rhythm: "+either(sequence.KindNames()), &t.kinds)
	f.add("stripes", "only with so many stripes, as in 7 or 5-9", &t.stripes)
	f.add("bold", "only the boldest, as in 25%", &t.bold)
	f.add("calm", "only the calmest, as in 25%", &t.calm)
	f.addYes("any-colours", "other colours of the same yarn too, or fewer colours", &t.anyColours)
}

func kindNames(text string) error {
	_, err := kindsOf(text)
	return err
}

// kindsOf reads kinds of rhythm, with commas between them.
func kindsOf(text string) (kinds []string, err error) {
	for name := range strings.SplitSeq(text, ",") {
		name = strings.TrimSpace(name)
		if known := sequence.KindNames(); !slices.Contains(known, name) {
			return nil, mistake{what: fmt.Sprintf("%q is no kind of rhythm", name),
				hint: nearestOr(name, known, "the kinds are: "+strings.Join(known, ", "))}
		}
		kinds = append(kinds, name)
	}
	return kinds, nil
}

func stripeBounds(text string) error {
	_, _, err := stripesOf(text)
	return err
}

// stripesOf reads a number, or the least and the greatest with a dash between them.
func stripesOf(text string) (fewest, most int, err error) {
	low, high, found := strings.Cut(text, "-")
	if !found {
		high = low
	}
	fewest, errLow := strconv.Atoi(strings.TrimSpace(low))
	most, errHigh := strconv.Atoi(strings.TrimSpace(high))
	if errLow != nil || errHigh != nil || fewest < 1 || most < fewest {
		return 0, 0, mistake{what: fmt.Sprintf("%q is no number of stripes", text),
			hint: "write it as in 7 or 5-9"}
	}
	return fewest, most, nil
}

func partOfAll(text string) error {
	_, err := wholePercent(text)
	return err
}

// wholePercent reads a share in whole per cent, from 1 to 100.
func wholePercent(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")))
	if err != nil || n < 1 || n > 100 || !strings.HasSuffix(strings.TrimSpace(text), "%") {
		return 0, mistake{what: fmt.Sprintf("%q is no share of all", text),
			hint: "write it as in 25%"}
	}
	return n, nil
}

// steering is what the flags say of what is tried; each was checked when it was read.
func (t *steers) steering() (s plan.Steering) {
	if t.kinds.given {
		s.Kinds, _ = kindsOf(t.kinds.text)
	}
	if t.stripes.given {
		s.Fewest, s.Most, _ = stripesOf(t.stripes.text)
	}
	if t.bold.given {
		s.Bold, _ = wholePercent(t.bold.text)
	}
	if t.calm.given {
		s.Calm, _ = wholePercent(t.calm.text)
	}
	s.LetColoursGo = bool(t.anyColours)
	return s
}

// given tells whether any of them were given.
func (t *steers) given() bool {
	return t.kinds.given || t.stripes.given || t.bold.given || t.calm.given || bool(t.anyColours)
}
