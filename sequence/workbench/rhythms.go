package workbench

import (
	"cmp"
	"math/big"
	"strconv"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
)

// rhythmTable writes a rhythm as TOML does, from what was typed; what was not
// is what the kind starts with.
func rhythmTable(typed map[string]string) (string, error) {
	kind := sequence.NewKind(typed["kind"])
	if kind == nil {
		return "", refuse("the kinds are "+strings.Join(sequence.KindNames(), ", "),
			"there is no rhythm %q", typed["kind"])
	}
	spec := kind.Spec()
	pairs := []string{"kind = " + tomltext.Quote(spec.Name)}
	for _, p := range spec.Parameters {
		value := strings.TrimSpace(typed[p.Key])
		written, err := written(p, cmp.Or(value, p.Start))
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

// written is a value as TOML has it.
func written(p sequence.Parameter, value string) (string, error) {
	words, hint := []string{value}, "write a number"
	switch p.Value.(type) {
	case *string:
		return tomltext.Quote(value), nil
	case *[]*big.Rat:
		blank := func(r rune) bool { return strings.ContainsRune(" ,;", r) }
		words = strings.FieldsFunc(value, blank)
		value, hint = "["+strings.Join(words, ", ")+"]", "write numbers such as 3, 1, 1, 1"
	}
	for _, w := range words {
		if !plainNumber(w) {
			return "", refuse(hint, "%s: %q is not a number", strings.ToLower(p.Label), w)
		}
	}
	return value, nil
}

// plainNumber tells whether a text is a number of digits, perhaps with a
// point, as both TOML and people write them.
func plainNumber(s string) bool {
	left, right, point := strings.Cut(s, ".")
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	return digits(left) && (len(left) == 1 || left[0] != '0') &&
		(!point || digits(right)) && len(s) <= 12
}

// typed is a rhythm as its form shows it.
func typed(r *sequence.Rhythm) map[string]string {
	if r == nil {
		return nil
	}
	spec := r.Spec()
	form := map[string]string{"kind": spec.Name, "mirror": strconv.FormatBool(r.Mirror)}
	for _, p := range spec.Parameters {
		form[p.Key] = p.Text(6, ", ")
	}
	return form
}
