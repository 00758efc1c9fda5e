package brief

import (
	"fmt"
	"sort"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// Problem is one thing wrong with a brief and where it stands.
type Problem struct {
	File     string
	Line     int    // from 1; 0 where the problem has no place in a file
	Col      int    // from 1, in characters
	Key      string // dotted
	What     string
	Hint     string
	LineText string // the line itself, without its end
}

// Error is "file:line:col: key: what", as far as these are known.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", p.Line, p.Col)
	}
	if p.Key != "" {
		fmt.Fprintf(&b, ": %s", p.Key)
	}
	fmt.Fprintf(&b, ": %s", p.What)
	return strings.TrimPrefix(b.String(), ": ")
}

// Problems are all that were found, in the order of the brief; never empty
// where returned as an error.
type Problems []Problem

func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, one := range p {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// sort puts problems in the order of their places, file by file as they came;
// those without a place come last.
func (p Problems) sort() {
	sort.SliceStable(p, func(i, j int) bool {
		a, b := p[i], p[j]
		switch {
		case (a.Line == 0) != (b.Line == 0):
			return b.Line == 0
		case a.File != b.File:
			return false
		case a.Line != b.Line:
			return a.Line < b.Line
		}
		return a.Col < b.Col
	})
}

// problem makes a Problem of a place.
func problem(at tomltext.Place, key, what, hint string) Problem {
	return Problem{File: at.Name, Line: at.Line, Col: at.Col, Key: key, What: what, Hint: hint,
		LineText: at.Text}
}

// longestName is the longest name in bytes that a known one could be meant by.
const longestName = 400

// Nearest is the known name closest to a misspelt one, or "" where none is
// near: at most a third of its letters, and never more than three, differ.
func Nearest(name string, known []string) string {
	best, least := "", 4
	if len(name) > longestName {
		return ""
	}
	for _, k := range known {
		if apart := len(name) - len(k); max(apart, -apart) > 4*3 {
			continue // more than three characters, of at most four bytes each
		}
		d := distance(strings.ToLower(name), strings.ToLower(k))
		if d < least && d <= max(1, len(k)/3) {
			best, least = k, d
		}
	}
	return best
}

// distance counts insertions, deletions, substitutions and swaps of neighbours
// (the optimal string alignment distance, after Damerau 1964).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 100 || len(t) > 100 {
		return 100
	}
	rows := make([][]int, len(s)+1)
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
		rows[i][0] = i
	}
	for j := range t {
		rows[0][j+1] = j + 1
	}
	for i := 1; i <= len(s); i++ {
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(s)][len(t)]
}

// Wrong is a problem found after reading, as an error, at the first of the
// dotted keys that was given from outside, as by a flag, else the first that the
// brief has: of a piece from 0 its own table before [weft], of piece -1 the brief
// as a whole and its [warp].
func (b *Brief) Wrong(piece int, what, hint string, keys ...string) error {
	found := Problems{{File: b.File, What: what, Hint: hint}}
	none := true
	for _, key := range keys {
		n, name := b.at(piece, key)
		if n == nil || !none && !n.Doc.Loose {
			continue
		}
		found[0], none = problem(n.Doc.Place(n.Value.From), name, what, hint), false
		if n.Doc.Loose {
			break
		}
	}
	return found
}

// at is the value that counts for a key, and its whole name; nil where there is none.
func (b *Brief) at(piece int, key string) (*tomltext.Node, string) {
	for _, at := range b.roots(piece) {
		if n := at.node.Find(key); n != nil {
			return n, strings.TrimPrefix(at.path+"."+key, ".")
		}
	}
	return nil, ""
}

type rootAt struct {
	node *tomltext.Node
	path string
}

func (b *Brief) roots(piece int) []rootAt {
	root := b.doc.Root
	all := []rootAt{}
	if pieces := root.Table["piece"]; piece >= 0 && pieces != nil && piece < len(pieces.Items) {
		all = append(all, rootAt{pieces.Items[piece], "piece"})
	}
	if piece >= 0 {
		all = append(all, rootAt{root.Table["weft"], "weft"})
	} else {
		all = append(all, rootAt{root.Table["warp"], "warp"})
	}
	return append(all, rootAt{root, ""})
}
