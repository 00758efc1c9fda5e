package brief

import (
	"bytes"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Shorten takes the [[piece]] tables from number n, counted from 0, out of a
// brief's text, with the comment lines that stand right above their headings.
func Shorten(text []byte, n int) ([]byte, error) {
	mark := len(text) - len(bytes.TrimPrefix(text, byteOrderMark))
	body := text[mark:]
	out := append([]byte{}, text[:mark]...)
	from, drop, pieces := 0, false, 0
	var parser unstable.Parser
	parser.Reset(body)
	for parser.NextExpression() {
		expression := parser.Expression()
		if expression.Kind != unstable.Table && expression.Kind != unstable.ArrayTable {
			continue
		}
		keys := expression.Key()
		keys.Next()
		key := keys.Node()
		piece := string(key.Data) == "piece"
		if piece && expression.Kind == unstable.ArrayTable && !keys.Next() {
			pieces++
		}
		at := above(body, int(key.Raw.Offset))
		if gone := piece && pieces > n; gone != drop {
			if !drop {
				out = append(out, body[from:at]...)
			}
			from, drop = at, gone
		}
	}
	if !drop {
		out = append(out, body[from:]...)
	}
	return out, parser.Error()
}

// above is where the line of a heading begins, or the first of the comment
// lines right above it.
func above(text []byte, at int) int {
	start := bytes.LastIndexByte(text[:at], '\n') + 1
	for start > 0 {
		before := bytes.LastIndexByte(text[:start-1], '\n') + 1
		if !bytes.HasPrefix(bytes.TrimSpace(text[before:start]), []byte("#")) {
			break
		}
		start = before
	}
	return start
}
