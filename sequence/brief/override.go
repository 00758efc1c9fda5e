package brief

import "strings"

// ruleWins lists the keys that, given from outside, put a table's runs out of
// force: they would be ignored beside them.
var ruleWins = map[string]bool{"rhythm": true, "colours": true, "order": true, "blocks": true, "shares": true}

// instead lists keys that say the same thing in two ways: one given from
// outside puts the other out of force.
var instead = map[string]string{"width": "in_reed", "in_reed": "width", "length": "woven", "woven": "length"}

// override puts values from outside in place of the brief's.
func override(doc *document, set []Override) error {
	for _, o := range set {
		given, err := read(o.Flag, []byte("x = "+o.Value+"\n"))
		if err != nil {
			problem := err.(Problems)[0]
			return Problems{{File: o.Flag, Key: o.Key, What: problem.What, Hint: problem.Hint}}
		}
		given.flag = o.Flag
		path := strings.Split(o.Key, ".")
		at := doc.root
		for _, key := range path[:len(path)-1] {
			at = at.child(key, span{})
		}
		last := path[len(path)-1]
		at.put(last, given.root.table["x"])
		if ruleWins[last] {
			at.remove("runs")
		}
		at.remove(instead[last])
	}
	return nil
}

func (n *node) remove(key string) {
	delete(n.table, key)
	for i, k := range n.keys {
		if k == key {
			n.keys = append(n.keys[:i:i], n.keys[i+1:]...)
			return
		}
	}
}
