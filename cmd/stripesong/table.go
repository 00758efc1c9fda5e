package main

import (
	"strings"

	"stripesong/cmd/stripesong/screen"
)

// widestCell is where texts in a column are cut.
const widestCell = 22

// table is text in columns: the first to the left, as are those named in
// left; all others, being numbers, to the right.
type table struct {
	left map[int]bool
	rows [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// lines lays the table out. A column without any text but its heading takes
// no room.
func (t *table) lines() []string {
	widths := t.widths()
	var lines []string
	for _, row := range t.rows {
		var b strings.Builder
		for i, cell := range row {
			if widths[i] == 0 {
				continue
			}
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(t.aligned(i, screen.Cut(cell, widestCell), widths[i]))
		}
		lines = append(lines, strings.TrimRight(b.String(), " "))
	}
	return lines
}

func (t *table) widths() []int {
	widths := make([]int, len(t.rows[0]))
	filled := make([]bool, len(widths))
	for r, row := range t.rows {
		for i, cell := range row {
			widths[i] = max(widths[i], min(screen.Width(cell), widestCell))
			filled[i] = filled[i] || r > 0 && cell != ""
		}
	}
	for i := range widths {
		if !filled[i] {
			widths[i] = 0
		}
	}
	return widths
}

func (t *table) aligned(column int, cell string, width int) string {
	if column == 0 || t.left[column] {
		return screen.Pad(cell, width)
	}
	return screen.PadLeft(cell, width)
}
