package weave

import (
	"errors"
	"fmt"
	"slices"
)

// The bounds of what a hand-written structure may hold.
const (
	minBlocks, maxBlocks = 2, 8
	minShafts            = 2
	maxUnit              = 64 // ends in a unit, picks in an order
)

// Validate tells whether a structure weaves as said, and if not, everything
// that is wrong with it, each problem on a line of its own.
//
// Units and sheds must keep to the shafts and the order to the sheds. Then the
// tabby sheds must cover each shaft once between them and make plain weave
// over every join of units, a unit joined to itself included; the ground picks
// of the order must alternate a b and come out even, so that unit follows on
// unit and nothing but plain weave is left without the pattern picks; every
// end must be tied down in every weft unit, lying both above and below a pick;
// and each block's pattern sheds must cover more of it than of any other.
func (s *Structure) Validate() error { return s.valid(true) }

// ValidateOrder holds the structure woven in another order of picks against the same
// rules, but that it may leave pattern sheds out, as long as some pick has a pattern:
// summer and winter trodden "P1 a P1 b" has columns.
func (s *Structure) ValidateOrder(order []Pick) error {
	if !slices.ContainsFunc(order, func(p Pick) bool { return p.Pattern }) {
		return errors.New("the order has no pattern pick: write P where the pattern shuttle goes")
	}
	return s.InOrder(order).valid(false)
}

// valid is [Structure.Validate]; with all, every pattern shed must be used.
func (s *Structure) valid(all bool) error {
	if err := s.checkParts(all); err != nil {
		return err
	}
	return errors.Join(s.checkTabby(), s.checkJoins(), s.checkOrder(), s.checkTies(),
		s.checkCover())
}

// checkParts checks that everything refers to something that is there, which
// all other methods rely on.
func (s *Structure) checkParts(all bool) error {
	if s.Shafts < minShafts || s.Shafts > MaxShafts {
		return fmt.Errorf("%d shafts: a structure has %d to %d", s.Shafts, minShafts, MaxShafts)
	}
	if n := len(s.Blocks); n < minBlocks || n > maxBlocks {
		return fmt.Errorf("%d blocks: a structure has %d to %d", n, minBlocks, maxBlocks)
	}
	errs := []error{s.checkSize(len(s.Order), "the order", "picks")}
	for i, b := range s.Blocks {
		if want := string(rune('A' + i)); b.Letter != want {
			errs = append(errs,
				fmt.Errorf("block %d is called %q: call it %q, blocks are lettered in order", i+1,
					b.Letter, want))
		}
		errs = append(errs, s.checkUnit(b), s.checkSheds(b, all))
	}
	for i, shed := range s.Tabby {
		errs = append(errs, s.checkShed("tabby "+tabbyNames[i], shed))
	}
	for i, p := range s.Order {
		errs = append(errs, s.checkPick(i, p))
	}
	return errors.Join(errs...)
}

var tabbyNames = [2]string{"a", "b"}

func (s *Structure) checkSize(n int, what, of string) error {
	if n < 1 || n > maxUnit {
		return fmt.Errorf("%s has %d %s: write 1 to %d", what, n, of, maxUnit)
	}
	return nil
}

func (s *Structure) checkUnit(b Block) error {
	errs := []error{s.checkSize(len(b.Unit), "the unit of block "+b.Letter, "ends")}
	if want := len(s.Blocks[0].Unit); len(b.Unit) != want {
		errs = append(errs,
			fmt.Errorf("the unit of block %s has %d ends and that of block %s %d: make them alike",
				b.Letter, len(b.Unit), s.Blocks[0].Letter, want))
	}
	for i, shaft := range b.Unit {
		if shaft < 1 || shaft > s.Shafts {
			errs = append(errs,
				fmt.Errorf("the unit of block %s puts end %d on shaft %d: there are shafts 1 to %d",
					b.Letter, i+1, shaft, s.Shafts))
		}
	}
	return errors.Join(errs...)
}

// checkSheds checks the pattern sheds of a block, each of which, with all, some pick
// must use.
func (s *Structure) checkSheds(b Block, all bool) error {
	if len(b.Sheds) == 0 {
		return fmt.Errorf("block %s has no pattern shed: write the shafts the weft covers",
			b.Letter)
	}
	var errs []error
	for i, shed := range b.Sheds {
		errs = append(errs, s.checkShed("pattern shed "+b.shedName(i), shed))
		if all && !slices.Contains(s.Order, Pick{Pattern: true, Index: i}) {
			errs = append(errs,
				fmt.Errorf("no pick of the order uses pattern shed %s: drop the shed or add "+
					"a pick P%d", b.shedName(i), i+1))
		}
	}
	return errors.Join(errs...)
}

func (s *Structure) checkShed(what string, shed Shed) error {
	switch {
	case shed&^s.all() != 0:
		return fmt.Errorf("%s covers shafts %v: there are shafts 1 to %d", what, shed, s.Shafts)
	case shed == 0:
		return fmt.Errorf("%s covers no shaft, so the weft would only lie behind: name the "+
			"shafts it covers", what)
	case shed == s.all():
		return fmt.Errorf("%s covers every shaft, so the weft would only lie in front: "+
			"leave some out", what)
	}
	return nil
}

func (s *Structure) checkPick(i int, p Pick) error {
	if !p.Pattern {
		if p.Index != 0 && p.Index != 1 {
			return fmt.Errorf("pick %d of the order is ground with tabby %d: there are a (0) "+
				"and b (1)", i+1, p.Index)
		}
		return nil
	}
	for _, b := range s.Blocks {
		if p.Index < 0 || p.Index >= len(b.Sheds) {
			return fmt.Errorf("pick %d of the order wants pattern shed %d, and block %s has %d: "+
				"give every block that many sheds",
				i+1, p.Index+1, b.Letter, len(b.Sheds))
		}
	}
	return nil
}
