package brief

import (
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// reader collects problems while tables are read.
type reader struct {
	problems Problems
	root     *tomltext.Node // of the brief
}

// section is a table that is being read: every key asked for becomes known,
// and what is left over when it is closed is a problem.
type section struct {
	r     *reader
	node  *tomltext.Node // nil where the table is missing
	path  string
	known []string
}

// maxProblems is how many are reported at once.
const maxProblems = 20

// full tells whether as many problems were found as are reported: then no more hints
// are worked out, which can take long where names are many.
func (r *reader) full() bool { return len(r.problems) >= maxProblems }

func (r *reader) report(n *tomltext.Node, at int, key, what, hint string) {
	if !r.full() { // to find a place takes as long as the text is
		r.add(problem(n.Doc.Place(at), key, what, hint))
	}
}

// add keeps a problem, once, while there is room.
func (r *reader) add(p Problem) {
	if !r.full() && !slices.Contains(r.problems, p) {
		r.problems = append(r.problems, p)
	}
}

func (s *section) name(key string) string {
	if s.path == "" {
		return key
	}
	return s.path + "." + key
}

// find gives the value of a key, or nil; the key becomes known.
func (s *section) find(key string, want tomltext.Kind) *tomltext.Node {
	s.known = append(s.known, key)
	if s.node == nil {
		return nil
	}
	n := s.node.Table[key]
	if n == nil {
		return nil
	}
	if n.Kind != want {
		hint := examples[want]
		if want == tomltext.Array && n.Kind == tomltext.Table {
			hint = fmt.Sprintf("write [[%s]], in two pairs of brackets, above each of them",
				s.name(key))
		}
		s.r.report(n, n.Value.From, s.name(key),
			fmt.Sprintf("should be %s, not %s", want, n.Kind), hint)
		return nil
	}
	return n
}

var examples = map[tomltext.Kind]string{
	tomltext.Table:   "write a table: key = { ... } or a [heading]",
	tomltext.Array:   "write a list: [ ... ]",
	tomltext.String:  "put it in quotes: \"...\"",
	tomltext.Integer: "write a whole number without quotes",
	tomltext.Float:   "write a number without quotes",
	tomltext.Bool:    "write true or false without quotes",
}

func (s *section) has(key string) bool { return s.node != nil && s.node.Table[key] != nil }

// meant tells whether a table has a key, be it misspelt.
func (s *section) meant(key string) bool {
	return s.has(key) || s.node != nil && misspelt(s.node, key, s.known)
}

// wrong reports a value; the place is where it begins.
func (s *section) wrong(key, what, hint string) {
	if s.node == nil {
		return
	}
	at, n := s.node.Key.From, s.node
	if v := s.node.Table[key]; v != nil {
		at, n = v.Value.From, v
	}
	s.r.report(n, at, s.name(key), what, hint)
}

func (s *section) sub(key string) *section {
	return &section{r: s.r, node: s.find(key, tomltext.Table), path: s.name(key)}
}

func (s *section) text(key, otherwise string) string {
	if n := s.find(key, tomltext.String); n != nil {
		return n.Text
	}
	return otherwise
}

func (s *section) yes(key string, otherwise bool) bool {
	if n := s.find(key, tomltext.Bool); n != nil {
		return n.Text == "true"
	}
	return otherwise
}

// choice reads one of a few words.
func (s *section) choice(key, otherwise string, words ...string) string {
	word := s.text(key, otherwise)
	if slices.Contains(words, word) {
		return word
	}
	s.wrong(key, fmt.Sprintf("%q is none of %s", word, strings.Join(words, ", ")),
		nearestHint(word, words))
	return otherwise
}

func nearestHint(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "write one of: " + strings.Join(known, ", ")
}

// count reads a whole number within bounds.
func (s *section) count(key string, otherwise, low, high int) int {
	return int(s.within(key, int64(otherwise), int64(low), int64(high)))
}

// seed reads a seed of chance: a whole number that every reader of JSON keeps
// whole, on processors of 32 bits too.
func (s *section) seed(key string, otherwise int64) int64 {
	return s.within(key, otherwise, 0, 1<<53)
}

// ownSeed reads the seed of a table; nil where it has none of its own.
func (s *section) ownSeed() *int64 {
	if seed := s.seed("seed", 0); s.has("seed") {
		return &seed
	}
	return nil
}

func (s *section) within(key string, otherwise, low, high int64) int64 {
	n := s.find(key, tomltext.Integer)
	if n == nil {
		return otherwise
	}
	v, err := n.WholeNumber()
	if err != nil || v < low || v > high {
		s.wrong(key, fmt.Sprintf("must be from %d to %d, not %s", low, high, n.Text),
			fmt.Sprintf("write a whole number from %d to %d", low, high))
		return otherwise
	}
	return v
}

// number reads a whole or decimal number exactly.
func (s *section) number(key string) *big.Rat {
	want := tomltext.Float
	if s.has(key) && s.node.Table[key].Kind == tomltext.Integer {
		want = tomltext.Integer
	}
	n := s.find(key, want)
	if n == nil {
		return nil
	}
	v, ok := exactNumber(n)
	if !ok {
		s.wrong(key, fmt.Sprintf("%q is not a number this can work with", n.Text),
			"write a plain number such as 3 or 1.5")
		return nil
	}
	return v
}

func exactNumber(n *tomltext.Node) (*big.Rat, bool) {
	text := strings.ReplaceAll(n.Text, "_", "")
	if n.Kind == tomltext.Integer {
		v, err := strconv.ParseInt(strings.TrimPrefix(text, "+"), 0, 64)
		return big.NewRat(v, 1), err == nil
	}
	if n.Kind != tomltext.Float || len(text) > 20 || strings.ContainsAny(text, "eEni") {
		return nil, false
	}
	return new(big.Rat).SetString(strings.TrimPrefix(text, "+"))
}

// quantity reads a text with a unit through parse. A bare number is passed to
// parse as it stands, whose error offers the readings.
func quantity[T any](s *section, key string, parse func(string) (T, error)) *T {
	s.known = append(s.known, key)
	if s.node == nil || s.node.Table[key] == nil {
		return nil
	}
	n := s.node.Table[key]
	if n.Kind != tomltext.String && n.Kind != tomltext.Integer && n.Kind != tomltext.Float {
		s.wrong(key, fmt.Sprintf("should be a text with a unit, not %s", n.Kind),
			examples[tomltext.String])
		return nil
	}
	v, err := parse(n.Text)
	if err != nil {
		s.wrong(key, err.Error(), quantityHint(key, n))
		return nil
	}
	return &v
}

// hintOf says how the quantity of a key is written, where that is not plain.
var hintOf = map[string]string{
	"reed": "count the reed's dents as its label does, as in \"10/in\" or \"50/10cm\"",
	"count": "write it as on the label, size and ply and kind, as in \"8/2 cotton\", \"16/2 " +
		"linen\" or \"Nm 28/2\"",
	"run":     "write it as on the label, as in \"6770 m/kg\" or \"3360 yd/lb\"",
	"package": "write a weight or a length, as in \"225 g\" or \"900 m\"",
	"on_hand": "write a weight or a length, as in \"225 g\" or \"900 m\"",
}

func quantityHint(key string, n *tomltext.Node) string {
	if n.Kind != tomltext.String {
		return "a quantity is a text that carries its unit, in quotes"
	}
	if hint := hintOf[key]; hint != "" {
		return hint
	}
	return "a quantity is a number and its unit, as in \"46 cm\", \"8/cm\", \"10%\" or \"225 g\""
}

func or[T any](v *T, otherwise T) T {
	if v != nil {
		return *v
	}
	return otherwise
}

// names reads a list of texts.
func (s *section) names(key string) []*tomltext.Node {
	list := s.find(key, tomltext.Array)
	if list == nil {
		return nil
	}
	var found []*tomltext.Node
	for _, n := range list.Items {
		if n.Kind != tomltext.String {
			s.r.report(n, n.Value.From, s.name(key),
				fmt.Sprintf("should hold texts, not %s", n.Kind), examples[tomltext.String])
			continue
		}
		found = append(found, n)
	}
	return found
}

// numbers reads a list of positive numbers exactly.
func (s *section) numbers(key string) []*big.Rat {
	list := s.find(key, tomltext.Array)
	if list == nil {
		return nil
	}
	var found []*big.Rat
	for _, n := range list.Items {
		v, ok := exactNumber(n)
		if !ok || v.Sign() <= 0 {
			s.r.report(n, n.Value.From, s.name(key), "should hold numbers more than 0",
				"write a list such as [3, 1, 1]")
			return nil
		}
		found = append(found, v)
	}
	return found
}

// close reports every key that nobody asked for.
func (s *section) close() {
	if s.node == nil {
		return
	}
	for _, key := range s.node.Keys {
		if s.r.full() {
			return
		}
		if !slices.Contains(s.known, key) {
			n := s.node.Table[key]
			s.r.report(n, n.Key.From, s.name(key), "there is no such key", s.unknownHint(key))
		}
	}
}

// belongs tells in which table a key stands that has lost its heading.
var belongs = map[string]string{
	"pieces": "set", "in_reed": "set", "length": "set", "woven": "set", "hem": "set",
	"hem_show": "set", "spare": "set", "fringe": "set",
	"structure": "cloth", "sett": "cloth", "hem_ground": "cloth", "draw_in": "cloth",
	"take_up": "cloth", "shrink_width": "cloth",
	"shrink_length": "cloth", "weft_extra": "cloth", "strands": "cloth", "spread": "cloth",
	"scatter": "cloth", "floating_selvedge": "cloth",
	"closing_end": "cloth",
	"shafts":      "loom", "treadles": "loom", "tie_up": "loom", "shed": "loom", "dress": "loom",
	"thread_from": "loom", "pace": "loom", "heddles": "loom", "bout": "loom", "waste": "loom",
	"sample": "loom", "retie": "loom", "board": "loom", "reed": "loom",
	"candidates": "vary", "at_least": "vary", "per_piece": "vary", "within": "vary",
	"kinship": "vary",
}

// inCommon says of keys that a piece lacks what of [set] all pieces have.
var inCommon = map[string]string{
	"width":    "all pieces have the width of [set]: they are woven on one warp",
	"in_reed":  "all pieces have the width of [set]: they are woven on one warp",
	"length":   "all pieces have the length of [set]; a length of its own comes from runs",
	"woven":    "all pieces have the length of [set]; a length of its own comes from runs",
	"hem_show": "all pieces have the hem_show of [set]",
	"fringe":   "all pieces have the fringe of [set]",
}

func (s *section) unknownHint(key string) string {
	if hint := inCommon[key]; hint != "" && s.path == "piece" {
		return hint
	}
	if table := belongs[key]; table != "" && table != s.path {
		return fmt.Sprintf("it stands under [%s]: is that heading missing or further down?", table)
	}
	return unknownHint(key, s.known)
}

func unknownHint(key string, all []string) string {
	if near := Nearest(key, all); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	var once []string
	for _, k := range all {
		if !slices.Contains(once, k) {
			once = append(once, k)
		}
	}
	return "the keys here are: " + strings.Join(once, ", ")
}
