package brief

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief/tomltext"
)

// ruleWins lists the keys that, given from outside, put a table's runs out of
// force: they would be ignored beside them.
var ruleWins = map[string]bool{"rhythm": true, "colours": true, "order": true, "blocks": true,
	sequence.Middle.Key: true, "shares": true}

// instead lists keys that say the same thing in two ways: one given from
// outside puts the other out of force.
var instead = map[string]string{"width": "in_reed", "in_reed": "width", "length": "woven",
	"woven": "length"}

// override puts values from outside in place of the brief's.
func override(doc *tomltext.Document, set []Override) error {
	for _, o := range set {
		if err := checkSize(o.Flag, []byte(o.Value)); err != nil {
			return err
		}
		given, err := tomltext.ParseValue(o.Flag, o.Value)
		var wrong *tomltext.Error
		if errors.As(err, &wrong) {
			what, hint := inPlainWords(wrong, nil)
			return Problems{problem(wrong.Place, o.Key, what, hint)}
		}
		path := strings.Split(o.Key, ".")
		at := doc.Root
		for _, key := range path[:len(path)-1] {
			at = at.Child(key)
		}
		last := path[len(path)-1]
		at.Put(last, given)
		if ruleWins[last] {
			remove(at, "runs")
		}
		remove(at, instead[last])
	}
	return nil
}

// asFiled is a copy of [weft] as the file has it; nil where nothing is put in place of
// any of it.
func asFiled(weft *tomltext.Node, set []Override) *tomltext.Node {
	changed := func(o Override) bool { return strings.HasPrefix(o.Key, "weft.") }
	if !slices.ContainsFunc(set, changed) {
		return nil
	}
	if weft == nil {
		return &tomltext.Node{}
	}
	filed := *weft
	filed.Table = maps.Clone(weft.Table)
	filed.Keys = slices.Clone(weft.Keys)
	return &filed
}

func remove(n *tomltext.Node, key string) {
	delete(n.Table, key)
	n.Keys = slices.DeleteFunc(n.Keys, func(k string) bool { return k == key })
}
