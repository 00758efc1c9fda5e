package brief

import (
	"fmt"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/weave"
)

// maxShafts is how many shafts a weaver's own structure may use.
const maxShafts = 32

// ownStructure reads [structure]: units and sheds by block letter, the two
// tabby sheds, the pick order and the number of shafts.
func (p *parser) ownStructure(s, cloth *section) {
	own := &weave.Structure{
		Name:   s.named("name", "own", "give the structure a name, or leave the key out"),
		Shafts: s.count("shafts", 4, 2, maxShafts),
	}
	if name := cloth.text("structure", own.Name); name != own.Name {
		cloth.wrong("structure",
			fmt.Sprintf("%q is named here, and there is a [structure] table called %q", name,
				own.Name),
			"take one of the two away, or give both the same name")
	}
	units, sheds, tabby := s.sub("units"), s.sub("sheds"), s.sub("tabby")
	for _, letter := range letters(units.node) {
		own.Blocks = append(own.Blocks,
			weave.Block{Letter: letter, Unit: units.shafts(letter, own.Shafts),
				Sheds: sheds.sheds(letter, own.Shafts)})
	}
	for i, name := range []string{"a", "b"} {
		own.Tabby[i] = shed(tabby.shafts(name, own.Shafts))
	}
	own.Order = s.order()
	for _, sub := range []*section{units, sheds, tabby, s} {
		sub.close()
	}
	if len(p.problems) > 0 {
		return
	}
	if err := own.Validate(); err != nil {
		for _, what := range allOf(err) {
			s.r.report(s.node, s.node.Key.From, "structure", what.Error(),
				"see the commented brief that \"stripesong new\" writes for a table that works")
		}
		return
	}
	p.brief.Structure = own
}

// letters are the block letters of a table, in alphabetical order.
func letters(units *tomltext.Node) []string {
	var found []string
	for c := 'A'; units != nil && c <= 'Z'; c++ {
		if units.Table[string(c)] != nil {
			found = append(found, string(c))
		}
	}
	return found
}

// shafts reads a list of shaft numbers.
func (s *section) shafts(key string, most int) []int {
	list := s.find(key, tomltext.Array)
	if list == nil {
		if !s.has(key) {
			s.missing(key, "write a list of shafts such as [1, 2]")
		}
		return nil
	}
	return s.shaftList(key, list, most)
}

func (s *section) shaftList(key string, list *tomltext.Node, most int) []int {
	var found []int
	for _, n := range list.Items {
		v, err := n.WholeNumber()
		if n.Kind != tomltext.Integer || err != nil || v < 1 || v > int64(most) {
			s.r.report(n, n.Value.From, s.name(key),
				fmt.Sprintf("should hold shafts from 1 to %d", most),
				"write a list such as [1, 2, 3, 2]")
			return nil
		}
		found = append(found, int(v))
	}
	return found
}

// sheds reads one shed, [1, 2], or several taken in turn, [[1, 3], [2, 3]].
func (s *section) sheds(key string, most int) []weave.Shed {
	if !s.has(key) {
		s.missing(key, "write the shafts the weft covers where this block is woven, such as [1, 2]")
		return nil
	}
	list := s.find(key, tomltext.Array)
	if list == nil {
		return nil
	}
	if len(list.Items) == 0 || list.Items[0].Kind != tomltext.Array {
		return []weave.Shed{shed(s.shaftList(key, list, most))}
	}
	var found []weave.Shed
	for _, n := range list.Items {
		found = append(found, shed(s.shaftList(key, n, most)))
	}
	return found
}

func shed(shafts []int) weave.Shed {
	var all weave.Shed
	for _, s := range shafts {
		all |= 1 << (s - 1)
	}
	return all
}

// orderHint says how picks are written.
const orderHint = "write P for a pattern pick (P1, P2 where sheds are taken in turn), " +
	"a and b for tabby, as in \"P a P b\""

// order reads the pick order of [structure], which is called order or, as in the other
// tables, pick_order.
func (s *section) order() []weave.Pick {
	key := "order"
	if s.has("pick_order") {
		key = "pick_order"
		if s.has("order") {
			s.wrong(key, "stands beside order, and they say the same thing in two ways",
				"keep one of the two")
		}
	}
	s.know("order", "pick_order")
	return s.picks(key, "P a P b")
}

// picks reads an order of picks.
func (s *section) picks(key, otherwise string) []weave.Pick {
	picks, err := weave.ParseOrder(s.text(key, otherwise))
	if err != nil {
		s.wrong(key, err.Error(), orderHint)
	}
	return picks
}

// pickOrder reads a pick order that stands beside an order of colours: the structure's
// own where it is left out.
func (p *parser) pickOrder(s *section, base []weave.Pick) []weave.Pick {
	if !s.has("pick_order") {
		s.know("pick_order")
		return base
	}
	before := len(p.problems)
	picks := s.picks("pick_order", "")
	if s.node.Table["pick_order"].Kind != tomltext.String || len(p.problems) > before {
		return base
	}
	if err := p.brief.Structure.ValidateOrder(picks); err != nil {
		for _, what := range allOf(err) {
			s.wrong("pick_order", what.Error(), orderHint)
		}
		return base
	}
	if weave.OrderText(picks) == weave.OrderText(p.brief.Structure.Order) {
		return nil
	}
	return picks
}

// allOf are the errors that [errors.Join] made one of, in their order.
func allOf(err error) (all []error) {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	for _, one := range joined.Unwrap() {
		all = append(all, allOf(one)...)
	}
	return all
}
