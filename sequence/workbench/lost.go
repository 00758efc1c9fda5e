package workbench

import "bytes"

// Lost are the lines of a text that another does not have, in their order, without the
// blanks around them; as often as they are missing there. Blank lines do not count.
func Lost(from, in []byte) []string {
	have := map[string]int{}
	for line := range bytes.Lines(in) {
		have[string(bytes.TrimSpace(line))]++
	}
	var lost []string
	for line := range bytes.Lines(from) {
		line := string(bytes.TrimSpace(line))
		if have[line]--; have[line] < 0 && line != "" {
			lost = append(lost, line)
		}
	}
	return lost
}
