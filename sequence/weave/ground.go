package weave

import (
	"errors"
	"fmt"
)

// checkTabby checks that each shaft is covered by one tabby and not the other.
func (s *Structure) checkTabby() error {
	a, b := s.Tabby[0], s.Tabby[1]
	var errs []error
	if both := a & b; both != 0 {
		errs = append(errs,
			fmt.Errorf("tabby a and tabby b both cover shafts %v: leave each in one of them", both))
	}
	if neither := s.all() &^ (a | b); neither != 0 {
		errs = append(errs, fmt.Errorf("neither tabby covers shafts %v: put each into one of them",
			neither))
	}
	return errors.Join(errs...)
}

// checkJoins checks that tabby covers every other end within each unit and
// over every join, and names the first place where it does not.
func (s *Structure) checkJoins() error {
	for _, left := range s.Blocks {
		for i := 1; i < len(left.Unit); i++ {
			if !s.alternate(left.Unit[i-1], left.Unit[i]) {
				return fmt.Errorf("no plain weave in the unit of block %s: ends %d and %d, on "+
					"shafts %d and %d, lie in the same tabby",
					left.Letter, i, i+1, left.Unit[i-1], left.Unit[i])
			}
		}
	}
	for _, left := range s.Blocks {
		for _, right := range s.Blocks {
			last, first := left.Unit[len(left.Unit)-1], right.Unit[0]
			if !s.alternate(last, first) {
				return fmt.Errorf("no plain weave where a unit of block %s joins one of block "+
					"%s: its last end, on shaft %d, "+
					"and the next, on shaft %d, lie in the same tabby", left.Letter, right.Letter,
					last, first)
			}
		}
	}
	return nil
}

// alternate tells whether two neighbouring ends make plain weave.
func (s *Structure) alternate(shaft, next int) bool {
	return s.Tabby[0].Covers(shaft) != s.Tabby[0].Covers(next) &&
		s.Tabby[1].Covers(shaft) != s.Tabby[1].Covers(next)
}

// checkOrder checks that the picks left without the pattern alternate tabby a
// and b and come out even. That there is a pattern follows from every shed
// being used.
func (s *Structure) checkOrder() error {
	n := 0
	for i, p := range s.Order {
		if p.Pattern {
			continue
		}
		if p.Index != n%2 {
			return fmt.Errorf("pick %d of the order is tabby %s: without the pattern picks the "+
				"ground must go a b a b, so write %s here",
				i+1, tabbyNames[p.Index], tabbyNames[n%2])
		}
		n++
	}
	switch {
	case n == 0:
		return errors.New("the order has no ground picks: let tabby a and b alternate between " +
			"the pattern picks")
	case n%2 == 1:
		return fmt.Errorf("the order has %d ground picks: end it on tabby b, so that the next "+
			"unit can begin with a", n)
	}
	return nil
}

// checkTies checks that every end is tied down: that in each weft unit some
// pick lies over it and some pick under it.
func (s *Structure) checkTies() error {
	var errs []error
	for _, woven := range s.Blocks {
		picks := s.UnitPicks(woven.Letter)
		var seen Shed
		for _, b := range s.Blocks {
			for _, shaft := range b.Unit {
				if !seen.Covers(shaft) {
					seen |= ShedOf(shaft)
					errs = append(errs, tied(woven.Letter, shaft, column(shaft, picks)))
				}
			}
		}
	}
	return errors.Join(errs...)
}

func tied(woven string, shaft int, end []bool) error {
	if longest(end, end[0]) < len(end) {
		return nil
	}
	lies := "above"
	if end[0] {
		lies = "below"
	}
	return fmt.Errorf("the ends of shaft %d are not tied down: while block %s is woven they lie "+
		"%s every pick; put them into a shed",
		shaft, woven, lies)
}

// checkCover checks that each block's sheds cover more of it than of any other
// block, or what is called one block would show as another.
func (s *Structure) checkCover() error {
	var errs []error
	for i := range s.Blocks {
		for j := range s.Blocks {
			woven, lies := &s.Blocks[i], &s.Blocks[j]
			own, _ := covered(s, woven, woven)
			other, _ := covered(s, woven, lies)
			if i != j && other >= own {
				errs = append(errs,
					fmt.Errorf("the pattern sheds of block %s cover %d crossings of block %s and "+
						"%d of its own unit: "+
						"they must cover their own block most", woven.Letter, other,
						lies.Letter, own))
			}
		}
	}
	return errors.Join(errs...)
}
