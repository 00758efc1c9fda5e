package packet_test

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// block is a heading, a paragraph, an item of a list or a table, as a person meets them
// on the page from its top.
type block struct {
	level int    // of a heading; else 0
	text  string // lines as they are broken; a box to tick is ☐
	table *table
}

// table is what stands in a table: a cell that reaches over several places stands in each.
type table struct {
	caption string
	head    []string
	rows    [][]string
}

// column is the number of the column under a heading, -1 without one.
func (t *table) column(heading string) int { return slices.Index(t.head, heading) }

// unseen are drawings, and what no page shows.
var unseen = regexp.MustCompile(`(?s)<svg\b.*?</svg>|<style\b.*?</style>|` +
	`<script\b.*?</script>|<title\b.*?</title>`)

// readPage takes a page for what a person sees of it: no drawing, no attribute but how
// far a cell reaches.
func readPage(page string) ([]block, error) {
	page = unseen.ReplaceAllString(page, " ")
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	r := &pageReader{}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			r.end()
			return r.blocks, nil
		}
		if err != nil {
			return nil, err
		}
		r.token(token)
	}
}

type pageReader struct {
	blocks []block
	words  strings.Builder
	level  int
	table  *table
	row    []string
	heads  int           // cells of the row that head columns
	reach  map[int]reach // cells that reach down into rows to come, by column
	cell   xml.StartElement
}

// reach is a cell that goes on in rows below.
type reach struct {
	rows int
	text string
}

func (r *pageReader) token(token xml.Token) {
	switch t := token.(type) {
	case xml.CharData:
		r.words.WriteString(strings.ReplaceAll(string(t), "\n", " "))
	case xml.StartElement:
		r.open(t.Copy())
	case xml.EndElement:
		r.close(t.Name.Local)
	}
}

func (r *pageReader) open(e xml.StartElement) {
	switch name := e.Name.Local; name {
	case "br":
		r.words.WriteByte('\n')
	case "input":
		sign := map[string]string{"checkbox": "☐", "text": "____"}
		r.words.WriteString(sign[attribute(e, "type")])
	case "table":
		r.end()
		r.table, r.reach = &table{}, map[int]reach{}
	case "tr":
		r.row, r.heads = nil, 0
	case "td", "th":
		r.words.Reset()
		r.cell = e
	case "h1", "h2", "h3", "h4", "p", "li", "ul", "ol", "section", "header", "main", "nav":
		r.end()
		if name[0] == 'h' && len(name) == 2 {
			r.level = int(name[1] - '0')
		}
	case "div":
		r.words.WriteByte('\n')
	}
}

func (r *pageReader) close(name string) {
	switch name {
	case "h1", "h2", "h3", "h4", "p", "li", "section", "header", "div":
		if r.table == nil {
			r.end()
		}
	case "caption":
		r.table.caption = r.take()
	case "td", "th":
		r.closeCell()
	case "tr":
		r.closeRow()
	case "table":
		r.blocks = append(r.blocks, block{table: r.table})
		r.table = nil
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// take is the text since the last, its blanks as a page shows them.
func (r *pageReader) take() string {
	var lines []string
	for line := range strings.Lines(r.words.String()) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			lines = append(lines, line)
		}
	}
	r.words.Reset()
	return strings.Join(lines, "\n")
}

// end is the end of a heading, a paragraph or an item.
func (r *pageReader) end() {
	if text := r.take(); text != "" {
		r.blocks = append(r.blocks, block{level: r.level, text: text})
	}
	r.level = 0
}

func (r *pageReader) closeCell() {
	r.fromAbove()
	text := r.take()
	down, _ := strconv.Atoi(attribute(r.cell, "rowspan"))
	across, _ := strconv.Atoi(attribute(r.cell, "colspan"))
	for range max(across, 1) {
		if down > 1 {
			r.reach[len(r.row)] = reach{down - 1, text}
		}
		r.row = append(r.row, text)
	}
	if attribute(r.cell, "scope") == "col" {
		r.heads++
	}
}

// fromAbove puts down what reaches into this row from above.
func (r *pageReader) fromAbove() {
	for {
		at := len(r.row)
		above, ok := r.reach[at]
		if !ok {
			return
		}
		if above.rows--; above.rows == 0 {
			delete(r.reach, at)
		} else {
			r.reach[at] = above
		}
		r.row = append(r.row, above.text)
	}
}

func (r *pageReader) closeRow() {
	r.fromAbove()
	if r.heads == len(r.row) {
		r.table.head = r.row
		return
	}
	r.table.rows = append(r.table.rows, r.row)
}
