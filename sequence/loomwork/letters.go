package loomwork

import (
	"strconv"
	"strings"

	"stripesong/sequence/plan"
)

// LettersOf gives every colour of a plan a letter of its own, for print without
// colour: the first letter of its name that is free, else the first free one of
// the alphabet, with a number from the second round on. The letters of the
// blocks, and A and B, which the tabbies are called by, are never used.
func LettersOf(p *plan.Plan) map[string]string {
	taken := map[string]bool{"A": true, "B": true}
	for _, block := range p.Weave.Letters() {
		taken[block] = true
	}
	letters := make(map[string]string, len(p.Colours))
	for _, c := range p.Colours {
		letter := freeLetter(c.Name, taken)
		taken[letter] = true
		letters[c.Name] = letter
	}
	return letters
}

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

func freeLetter(name string, taken map[string]bool) string {
	for _, r := range strings.ToUpper(name) {
		if letter := string(r); strings.ContainsRune(alphabet, r) && !taken[letter] {
			return letter
		}
	}
	for round := 1; ; round++ {
		for _, r := range alphabet {
			letter := string(r)
			if round > 1 {
				letter += strconv.Itoa(round)
			}
			if !taken[letter] {
				return letter
			}
		}
	}
}
