package weave

import "slices"

// builtin are the built-in structures. All three weave pattern over a plain ground; the
// weaver's own are written in the same terms.
//
// Halvdräll has been threaded in several ways over time; these units are from
// memory, confirmed by the validator. The other two are common practice, no
// source.
var builtin = []Structure{
	{
		Name:   "halvdrall",
		Shafts: 4,
		Blocks: []Block{
			{"A", []int{1, 2, 3, 2}, []Shed{ShedOf(1, 2)}},
			{"B", []int{3, 4, 1, 4}, []Shed{ShedOf(3, 4)}},
		},
		Tabby: [2]Shed{ShedOf(1, 3), ShedOf(2, 4)},
		Order: []Pick{{true, 0}, {false, 0}, {true, 0}, {false, 1}}, // P a P b
	},
	{
		Name:   "summer-and-winter",
		Shafts: 4,
		Blocks: []Block{
			{"A", []int{1, 3, 2, 3}, []Shed{ShedOf(1, 3), ShedOf(2, 3)}},
			{"B", []int{1, 4, 2, 4}, []Shed{ShedOf(1, 4), ShedOf(2, 4)}},
		},
		Tabby: [2]Shed{ShedOf(1, 2), ShedOf(3, 4)},
		Order: []Pick{{true, 0}, {false, 0}, {true, 1}, {false, 1}}, // P1 a P2 b
	},
	{
		Name:   "monks-belt",
		Shafts: 4,
		Blocks: []Block{
			{"A", []int{1, 2}, []Shed{ShedOf(1, 2)}},
			{"B", []int{3, 4}, []Shed{ShedOf(3, 4)}},
		},
		Tabby: [2]Shed{ShedOf(1, 3), ShedOf(2, 4)},
		Order: []Pick{{true, 0}, {false, 0}, {true, 0}, {false, 1}}, // P a P b
	},
}

// Names lists the built-in structures.
func Names() []string {
	names := make([]string, len(builtin))
	for i := range builtin {
		names[i] = builtin[i].Name
	}
	return names
}

// Lookup finds a built-in structure by name. The result is the caller's own
// copy.
func Lookup(name string) (*Structure, bool) {
	for i := range builtin {
		if builtin[i].Name == name {
			return builtin[i].clone(), true
		}
	}
	return nil, false
}

func (s *Structure) clone() *Structure {
	c := *s
	c.Order = slices.Clone(s.Order)
	c.Blocks = slices.Clone(s.Blocks)
	for i, b := range c.Blocks {
		c.Blocks[i].Unit, c.Blocks[i].Sheds = slices.Clone(b.Unit), slices.Clone(b.Sheds)
	}
	return &c
}

// Spelt is the name of a structure as people write it; briefs and plans have the
// built-in ones in letters that every keyboard has.
func Spelt(name string) string {
	switch name {
	case "halvdrall":
		return "halvdräll"
	case "summer-and-winter":
		return "summer and winter"
	case "monks-belt":
		return "monk's belt"
	}
	return name
}
