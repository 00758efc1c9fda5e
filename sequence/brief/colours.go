package brief

import (
	"fmt"
	"math/big"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

// shelf reads the shelf file the brief names, if any.
func (p *parser) shelf(load func(string) ([]byte, error)) {
	s := &section{r: p.reader, node: p.doc.Root}
	name := s.text("shelf", "")
	if name == "" {
		return
	}
	if load == nil {
		s.wrong("shelf", "a shelf file can't be read here",
			"put its [yarn.*] and [[colour]] tables into the brief")
		return
	}
	text, err := load(name)
	if err != nil {
		s.wrong("shelf", fmt.Sprintf("%q can't be read: %v", name, err),
			"name a file that stands beside the brief")
		return
	}
	doc, err := read(name, text)
	if err != nil {
		p.problems = append(p.problems, err.(Problems)...)
		return
	}
	p.shelves = append(p.shelves, &section{r: p.reader, node: doc.Root})
}

// yarns reads [yarn.*] of the brief, then of the shelf.
func (p *parser) yarns(s *section) {
	p.yarnTables(s.sub("yarn"))
	for _, shelf := range p.shelves {
		p.yarnTables(shelf.sub("yarn"))
	}
	if len(p.brief.Yarns) == 0 {
		s.missing("yarn", "describe at least one yarn: [yarn.cotton] with count = \"8/2 cotton\"")
	}
}

func (p *parser) yarnTables(all *section) {
	if all.node == nil {
		return
	}
	for _, name := range all.node.Keys {
		p.yarnName(all.node.Table[name], name)
		s := all.sub(name)
		y := p.yarn(s, name)
		s.close()
		p.addYarn(y)
	}
}

// yarnName refuses a name that says nothing or can't be shown.
func (p *parser) yarnName(n *tomltext.Node, name string) {
	const hint = "write it as in [yarn.cotton]"
	if strings.TrimSpace(name) == "" {
		p.report(n, n.Key.From, "yarn", "the name of a yarn is empty", hint)
	}
	if what := tooLong(name); what != "" {
		p.report(n, n.Key.From, "yarn", "the name of a yarn "+what, hint)
	}
}

// addYarn adds a yarn; of two with one name the first counts.
func (p *parser) addYarn(y Yarn) {
	if p.yarnNamed(y.Name) >= 0 {
		return
	}
	if p.yarnAt == nil {
		p.yarnAt = make(map[string]int)
	}
	p.yarnAt[y.Name] = len(p.brief.Yarns)
	p.brief.Yarns = append(p.brief.Yarns, y)
}

func (p *parser) yarn(s *section, name string) Yarn {
	y := Yarn{Name: name, Tex: p.tex(s), Count: s.countWords()}
	y.Wraps = s.threads("wraps")
	if amount := quantity(s, "package", measure.ParseAmount); amount != nil {
		y.PackageM = p.metres(s, "package", *amount, y.Tex)
	}
	y.Price = s.price("price")
	return y
}

// price reads a sum of money without a sign, exactly as it is written.
func (s *section) price(key string) *Price {
	if !s.has(key) {
		s.know(key)
		return nil
	}
	text := s.find(key, tomltext.String)
	if text == nil {
		return nil
	}
	whole, part, point := strings.Cut(strings.TrimSpace(text.Text), ".")
	figures := func(s string, most int) bool {
		return s != "" && len(s) <= most && strings.Trim(s, "0123456789") == ""
	}
	if !figures(whole, 9) || point && !figures(part, 4) {
		s.wrong(key, fmt.Sprintf("%q is no price", text.Text),
			"write what a package costs in figures with a point, without a sign, as in \"12.50\"")
		return nil
	}
	each, _ := new(big.Rat).SetString(whole + "." + part + "0")
	return &Price{each, len(part)}
}

// tex reads run, tex or count; a typed run wins over tex, and tex over count.
func (p *parser) tex(s *section) *big.Rat {
	var found *big.Rat
	if count := quantity(s, "count", yarn.Tex); count != nil {
		found = *count
	}
	if tex := s.number("tex"); tex != nil {
		found = tex
	}
	if run := quantity(s, "run", yarn.TexOfRun); run != nil {
		found = *run
	}
	switch {
	case found == nil && !s.has("count") && !s.has("tex") && !s.has("run"):
		s.missing("count", "write count = \"8/2 cotton\", tex = 148, or run = \"3360 yd/lb\"")
	case found != nil &&
		(found.Cmp(big.NewRat(1, 10)) < 0 || found.Cmp(big.NewRat(100_000, 1)) > 0):
		key := "count"
		for _, k := range []string{"tex", "run"} {
			if s.has(k) {
				key = k
			}
		}
		s.wrong(key, fmt.Sprintf("comes to %s tex, which is no yarn for weaving",
			found.FloatString(2)), "a yarn of 8/2 cotton is 148 tex")
	case found != nil:
		return found
	}
	return big.NewRat(100, 1) // to go on with; the brief is refused
}

// countWords is how thick a yarn is in the brief's own words: those [parser.tex] reads.
func (s *section) countWords() string {
	switch {
	case s.has("run"):
		return s.node.Table["run"].Text
	case s.has("tex"):
		return "tex " + s.node.Table["tex"].Text
	case s.has("count"):
		return s.node.Table["count"].Text
	}
	return ""
}

// metres is an amount as length; a weight needs the yarn's tex.
func (p *parser) metres(s *section, key string, amount measure.Amount, tex *big.Rat) *big.Rat {
	var m *big.Rat
	if amount.MM != nil {
		m = exact.Over(amount.MM, exact.Whole(1000))
	} else {
		m = yarn.Metres(amount.Grams, tex)
	}
	switch {
	case key == "package" && m.Cmp(big.NewRat(1, 1)) < 0:
		s.wrong(key, fmt.Sprintf("%s comes to less than a metre", amount),
			"write a package as in \"225 g\" or \"900 m\"")
	case m.Cmp(mostYarnM) > 0:
		s.wrong(key, fmt.Sprintf("%s comes to more than the 10 000 km that are worked on", amount),
			"is the unit mistaken?")
	default:
		return m
	}
	return nil
}

func (p *parser) yarnNamed(name string) int {
	if at, ok := p.yarnAt[name]; ok {
		return at
	}
	return -1
}

// colours reads [[colour]] of the brief, then of the shelf, whose colours of
// the same name give way.
func (p *parser) colours(s *section) {
	p.colourTables(s, false)
	for _, shelf := range p.shelves {
		p.colourTables(shelf, true)
		shelf.close()
	}
	if len(p.brief.Colours) == 0 && len(p.problems) == 0 {
		s.missing("colour", "describe at least one colour: [[colour]] with name, hex and yarn")
	}
}

func (p *parser) colourTables(s *section, shelf bool) {
	list := s.find("colour", tomltext.Array)
	if list == nil {
		return
	}
	if len(list.Items) > MaxColours {
		s.wrong("colour", fmt.Sprintf("there are %d colours, more than %d", len(list.Items),
			MaxColours), "split the shelf into several files")
		return
	}
	before := len(p.brief.Colours)
	for _, n := range list.Items {
		if n.Kind != tomltext.Table {
			s.r.report(n, n.Value.From, "colour", "should hold tables",
				"write [[colour]] above each colour's keys")
			continue
		}
		one := &section{r: p.reader, node: n, path: "colour"}
		p.colour(one, shelf, before)
		one.close()
	}
}

func (p *parser) colour(s *section, shelf bool, before int) {
	const hint = "give every colour a name of yours"
	c := Colour{Name: s.named("name", "", hint), Shelf: shelf}
	if !s.has("name") {
		s.missing("name", hint)
	}
	c.RGB = p.hex(s)
	c.Yarn = p.colourYarn(s)
	if amount := quantity(s, "on_hand", measure.ParseAmount); amount != nil &&
		c.Yarn < len(p.brief.Yarns) {
		c.OnHandM = p.metres(s, "on_hand", *amount, p.brief.Yarns[c.Yarn].Tex)
		c.OnHand = amount.String()
	}
	if c.Name == "" {
		return
	}
	if at := p.brief.ColourNamed(c.Name); at >= 0 {
		if at >= before {
			s.wrong("name", fmt.Sprintf("there are two colours called %q", c.Name),
				"give every colour a name of its own")
		}
		return
	}
	p.brief.Colours = append(p.brief.Colours, c)
}

func (p *parser) hex(s *section) palette.RGB {
	if !s.has("hex") {
		s.missing("hex", "write the colour as in hex = \"#24463c\"")
	}
	text := s.text("hex", "#000000")
	rgb, err := palette.ParseHex(text)
	if err != nil {
		s.wrong("hex", fmt.Sprintf("%q is not a colour", text),
			"write six hexadecimal digits after a #, as in \"#24463c\"")
	}
	return rgb
}

// colourYarn is the number of the yarn a colour is of: the only one, where it
// is left out.
func (p *parser) colourYarn(s *section) int {
	name := s.text("yarn", "")
	if what := tooLong(name); what != "" {
		s.wrong("yarn", what, "write a shorter one")
	}
	switch {
	case name == "" && !s.has("yarn") && len(p.brief.Yarns) == 1:
		return 0
	case name == "" && !s.has("yarn"):
		if len(p.brief.Yarns) > 1 {
			s.missing("yarn", "there are several yarns: say which one this colour is of")
		}
		return 0
	}
	at := p.yarnNamed(name)
	if at < 0 && !s.r.full() {
		known := make([]string, len(p.brief.Yarns))
		for i, y := range p.brief.Yarns {
			known[i] = y.Name
		}
		s.wrong("yarn", fmt.Sprintf("there is no yarn %q", name), nearestHint(name, known))
	}
	return max(at, 0)
}

// colourNames are all names there are, for hints.
func (p *parser) colourNames() []string {
	names := make([]string, len(p.brief.Colours))
	for i, c := range p.brief.Colours {
		names[i] = c.Name
	}
	return names
}
