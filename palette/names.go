package palette

import "fmt"

// The lightness from which a colour is called light, and from which middle;
// darker ones are dark. A judgement, as are all names.
const (
	lightFrom  = 70
	middleFrom = 40
)

// Names gives each colour a plain name by its lightness, "light 1", "middle 1",
// "dark 1" and so on, counted in the order of the list. The names are all
// different, and not from a list of taken names.
func Names(colours []Lab, taken []string) []string {
	used := make(map[string]bool)
	for _, name := range taken {
		used[name] = true
	}
	count := make(map[string]int)
	names := make([]string, len(colours))
	for i, c := range colours {
		word := lightness(c.L)
		for names[i] == "" || used[names[i]] {
			count[word]++
			names[i] = fmt.Sprintf("%s %d", word, count[word])
		}
		used[names[i]] = true
	}
	return names
}

func lightness(l float64) string {
	switch m := micro(l); {
	case m >= micro(lightFrom):
		return "light"
	case m >= micro(middleFrom):
		return "middle"
	}
	return "dark"
}
