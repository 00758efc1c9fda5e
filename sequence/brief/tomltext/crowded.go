package tomltext

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"
)

// MostKeys is how many keys one table may have, each part of a dotted key counted; all
// headings of a text may have twice as many. go-toml compares each key with all that its
// table has already, so that time grows with the square of their number.
const MostKeys = 500

// Crowded is what [Error] says of a text with more.
var Crowded = fmt.Sprintf("these are too many keys: a table may have %d, all headings together %d",
	MostKeys, 2*MostKeys)

// crowded is the first byte at which there are more keys than [MostKeys]; -1 where there
// are not, or where the text is no TOML before that.
func (d *Document) crowded() int {
	var parser unstable.Parser
	parser.Reset(d.text)
	headings, keys := -MostKeys, 0
	for parser.NextExpression() {
		e := parser.Expression()
		count := &keys
		switch e.Kind {
		case unstable.Table:
			count, keys = &headings, 0
		case unstable.ArrayTable:
			keys = 0
			continue
		}
		if at := overfull(e, count); at >= 0 {
			return at
		}
	}
	return -1
}

// overfull counts the keys of a heading or an assignment, and those of the tables in
// braces in its value; it is the byte at which there are too many, else -1.
func overfull(e *unstable.Node, keys *int) int {
	for it := e.Key(); it.Next(); {
		if *keys++; *keys > MostKeys {
			return span(it.Node().Raw).From
		}
	}
	if e.Kind == unstable.KeyValue {
		return overfullValue(e.Value())
	}
	return -1
}

func overfullValue(value *unstable.Node) int {
	if value.Kind != unstable.Array && value.Kind != unstable.InlineTable {
		return -1
	}
	keys, at := 0, -1
	for it := value.Children(); at < 0 && it.Next(); {
		if value.Kind == unstable.Array {
			at = overfullValue(it.Node())
			continue
		}
		at = overfull(it.Node(), &keys)
	}
	return at
}
