package weave

import (
	"fmt"
	"strings"
)

// ParseOrder reads a pick order such as "P a P b" or "P1 a P2 b": P is a pattern
// pick, with a number where a block's sheds are taken in turn, a and b are tabby. The
// error names the word that is none of these.
func ParseOrder(text string) ([]Pick, error) {
	var picks []Pick
	for _, word := range strings.Fields(text) {
		switch {
		case word == "a" || word == "b":
			picks = append(picks, Pick{Index: int(word[0] - 'a')})
		case word == "P":
			picks = append(picks, Pick{Pattern: true})
		case len(word) == 2 && word[0] == 'P' && word[1] >= '1' && word[1] <= '9':
			picks = append(picks, Pick{Pattern: true, Index: int(word[1] - '1')})
		default:
			return nil, fmt.Errorf("%q is no pick", word)
		}
	}
	return picks, nil
}

// OrderText writes a pick order as [ParseOrder] reads it, the same for the same picks.
func OrderText(picks []Pick) string {
	numbered := false
	for _, p := range picks {
		numbered = numbered || p.Pattern && p.Index > 0
	}
	words := make([]string, len(picks))
	for i, p := range picks {
		switch {
		case !p.Pattern:
			words[i] = tabbyNames[p.Index]
		case numbered:
			words[i] = fmt.Sprintf("P%d", p.Index+1)
		default:
			words[i] = "P"
		}
	}
	return strings.Join(words, " ")
}

// InOrder is a copy of the structure that is woven in another order of picks.
func (s *Structure) InOrder(order []Pick) *Structure {
	other := *s
	other.Order = order
	return &other
}
