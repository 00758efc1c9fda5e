package workbench

import (
	"math/big"
	"strconv"
	"strings"

	"stripesong/sequence"
)

// Parameter is one number or word that a kind of rhythm takes.
type Parameter struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Start   string   `json:"start"`   // what it starts with
	Options []string `json:"options"` // of a word
	List    bool     `json:"list"`    // of numbers
	Least   int      `json:"least"`   // of a number
	Most    int      `json:"most"`
}

// Kind is a kind of rhythm and what it takes.
type Kind struct {
	Kind       string      `json:"kind"`
	Parameters []Parameter `json:"parameters"`
}

var directions = []string{"rising", "falling", "out-and-back"}

// Kinds are the rhythms there are, in the order of [sequence.Kinds].
var Kinds = []Kind{
	{"even", []Parameter{whole("stripes", "Stripes", 7, sequence.MaxStripes)}},
	{"repeat", []Parameter{{Key: "weights", Label: "Widths", Start: "3, 1, 1, 1", List: true}, whole("times", "Times", 2, sequence.MaxStripes)}},
	{"fibonacci", []Parameter{whole("terms", "Terms", 5, sequence.MaxTerms), whole("from", "First term", 1, sequence.MaxWeight),
		{Key: "direction", Label: "Direction", Start: "out-and-back", Options: directions}}},
	{"graded", []Parameter{whole("stripes", "Stripes", 9, sequence.MaxStripes), {Key: "ratio", Label: "Widest to narrowest", Start: "5"},
		{Key: "steps", Label: "Steps", Start: "proportional", Options: []string{"equal", "proportional"}},
		{Key: "direction", Label: "Direction", Start: "rising", Options: directions}}},
	{"random", []Parameter{whole("stripes", "Stripes", 9, sequence.MaxStripes), whole("narrowest", "Narrowest", 1, sequence.MaxWeight),
		whole("widest", "Widest", 8, sequence.MaxWeight)}},
	{"euclid", []Parameter{whole("accents", "Accents", 5, sequence.MaxStripes), whole("of", "Places", 13, sequence.MaxStripes)}},
}

func whole(key, label string, start, most int) Parameter {
	return Parameter{Key: key, Label: label, Start: strconv.Itoa(start), Least: 1, Most: most}
}

func kindNamed(name string) *Kind {
	for i := range Kinds {
		if Kinds[i].Kind == name {
			return &Kinds[i]
		}
	}
	return nil
}

// rhythmTable writes a rhythm as TOML does, from what was typed; what was not
// is what the kind starts with.
func rhythmTable(typed map[string]string) (string, error) {
	kind := kindNamed(typed["kind"])
	if kind == nil {
		return "", refuse("the kinds are "+strings.Join(sequence.Kinds, ", "), "there is no rhythm %q", typed["kind"])
	}
	pairs := []string{"kind = " + quote(kind.Kind)}
	for _, p := range kind.Parameters {
		value, ok := typed[p.Key]
		if !ok || strings.TrimSpace(value) == "" {
			value = p.Start
		}
		written, err := p.write(value)
		if err != nil {
			return "", err
		}
		pairs = append(pairs, p.Key+" = "+written)
	}
	if typed["mirror"] == "true" {
		pairs = append(pairs, "mirror = true")
	}
	return "{ " + strings.Join(pairs, ", ") + " }", nil
}

// write is a value as TOML has it.
func (p Parameter) write(value string) (string, error) {
	value = strings.TrimSpace(value)
	switch {
	case p.Options != nil:
		return quote(value), nil
	case p.List:
		words := strings.FieldsFunc(value, func(r rune) bool { return strings.ContainsRune(" ,;", r) })
		for _, w := range words {
			if !plainNumber(w) {
				return "", refuse("write numbers such as 3, 1, 1, 1", "%s: %q is not a number", strings.ToLower(p.Label), w)
			}
		}
		return "[" + strings.Join(words, ", ") + "]", nil
	case !plainNumber(value):
		return "", refuse("write a number", "%s: %q is not a number", strings.ToLower(p.Label), value)
	}
	return value, nil
}

// plainNumber tells whether a text is a number of digits, perhaps with a
// point, as both TOML and people write them.
func plainNumber(s string) bool {
	left, right, point := strings.Cut(s, ".")
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	return digits(left) && (len(left) == 1 || left[0] != '0') && (!point || digits(right)) && len(s) <= 12
}

// typed is a rhythm as its form shows it.
func typed(r *sequence.Rhythm) map[string]string {
	if r == nil {
		return nil
	}
	values := map[string]string{
		"stripes": count(r.Stripes), "times": count(max(r.Times, 1)), "terms": count(r.Terms), "from": count(max(r.From, 1)),
		"narrowest": count(r.Narrowest), "widest": count(r.Widest), "accents": count(r.Accents), "of": count(r.Of),
		"direction": or(r.Direction, "rising"), "steps": or(r.Steps, "equal"), "weights": list(r.Weights), "ratio": decimal(r.Ratio),
	}
	form := map[string]string{"kind": r.Kind, "mirror": strconv.FormatBool(r.Mirror)}
	if kind := kindNamed(r.Kind); kind != nil {
		for _, p := range kind.Parameters {
			form[p.Key] = values[p.Key]
		}
	}
	return form
}

func count(n int) string { return strconv.Itoa(n) }

func or(word, otherwise string) string {
	if word == "" {
		return otherwise
	}
	return word
}

func list(weights []*big.Rat) string {
	words := make([]string, len(weights))
	for i, w := range weights {
		words[i] = decimal(w)
	}
	return strings.Join(words, ", ")
}

func decimal(r *big.Rat) string {
	switch {
	case r == nil:
		return ""
	case r.IsInt():
		return r.Num().String()
	}
	return strings.TrimRight(r.FloatString(6), "0")
}
