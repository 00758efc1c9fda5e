package workbench

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/plan"
)

// run is a stripe of the warp or a block of a piece. Block "" is plain.
type run struct {
	block  string
	units  int
	colour string
}

func (r run) String() string { return brief.RunText(r.block, r.units, r.colour) }

func warpRuns(p *plan.Plan) []run {
	all := make([]run, len(p.Warp.Runs))
	for i, r := range p.Warp.Runs {
		all[i] = run{r.Block, r.Units, r.Colour}
	}
	return all
}

func pieceRuns(p *plan.Plan, piece int) []run {
	all := make([]run, len(p.Pieces[piece].Runs))
	for i, r := range p.Pieces[piece].Runs {
		all[i] = run{r.Block, r.Units, r.Pattern}
	}
	return all
}

// widestLine is where a list of runs goes on in the next line.
const widestLine = 100

// runList writes runs as TOML does.
func runList(all []run) string {
	var b strings.Builder
	b.WriteByte('[')
	width := len("runs = [")
	for i, r := range all {
		word := tomltext.Quote(r.String())
		switch {
		case i == 0:
		case width+len(word)+2 > widestLine:
			b.WriteString(",\n        ")
			width = 8
		default:
			b.WriteString(", ")
			width += 2
		}
		b.WriteString(word)
		width += len(word)
	}
	b.WriteByte(']')
	return b.String()
}

// runs are the runs of a strip as the plan has them.
func (d *draft) runs(strip int) ([]run, error) {
	switch {
	case strip == Warp:
		return warpRuns(d.bench.plan), nil
	case strip >= 0 && strip < len(d.bench.plan.Pieces):
		return pieceRuns(d.bench.plan, strip), nil
	}
	return nil, refuse("choose the warp or a piece", "this has no runs of its own")
}

// write writes runs into a strip's table: text by text where as many are
// written there already, so that comments between them stay.
func (d *draft) write(strip int, all []run) error {
	table, err := d.table(strip)
	if err != nil {
		return err
	}
	if at := d.doc.Root.Find(table + ".runs"); at != nil && len(at.Items) == len(all) {
		return d.become(d.doc.SetTexts(changed(at.Items, all)))
	}
	return d.set(table+".runs", runList(all))
}

// changed leaves out the texts that say the same already.
func changed(at []*tomltext.Node, all []run) (texts []*tomltext.Node, with []string) {
	for i, n := range at {
		if word := all[i].String(); plainly(n.Text) != word {
			texts, with = append(texts, n), append(with, word)
		}
	}
	return texts, with
}

// plainly is a written run with single blanks between its words; those inside a
// colour's name stay.
func plainly(run string) string {
	words := strings.Fields(run)
	if len(words) < 3 {
		return strings.Join(words, " ")
	}
	rest := strings.TrimLeft(run, " \t")[len(words[0]):]
	rest = strings.TrimLeft(rest, " \t")[len(words[1]):]
	return words[0] + " " + words[1] + " " + strings.TrimSpace(rest)
}

// reshape changes the runs of a strip. Held ones that get another number of
// units are held no longer: they would be scaled back to what they were.
func (d *draft) reshape(strip int, change func([]run) ([]run, error)) error {
	before, err := d.runs(strip)
	if err != nil {
		return err
	}
	all, err := change(slices.Clone(before))
	if err != nil {
		return err
	}
	if strip >= 0 && d.bench.brief.Pieces[strip].Hold && unitsOf(all) != unitsOf(before) {
		if err := d.unhold(fmt.Sprintf("piece[%d]", strip)); err != nil {
			return err
		}
	}
	d.before, d.after = before, all
	return d.write(strip, all)
}

// reorder puts the runs of a strip into another order. Where they are written out, the
// comments of each go with it.
func (d *draft) reorder(strip int, change func(places []int) error) error {
	return d.reshape(strip, func(all []run) ([]run, error) {
		places := upTo(len(all))
		if err := change(places); err != nil {
			return nil, err
		}
		path := "warp.runs"
		if strip >= 0 {
			path = fmt.Sprintf("piece[%d].runs", strip) // none where it has no table
		}
		if at := d.doc.Root.Find(path); at != nil && len(at.Items) == len(all) {
			if err := d.become(d.doc.ArrangeItems(path, places)); err != nil {
				return nil, err
			}
		}
		moved := make([]run, len(all))
		for to, from := range places {
			moved[to] = all[from]
		}
		return moved, nil
	})
}

// mirrored turns the first half of the runs on the middle, keeping the number
// of units.
func mirrored(all []run) []run {
	var each []run
	for _, r := range all {
		for range r.units {
			each = append(each, run{r.block, 1, r.colour})
		}
	}
	for i, n := 0, len(each); i < n/2; i++ {
		each[n-1-i] = each[i]
	}
	return joined(each)
}

// joined puts neighbours of one block and colour together.
func joined(all []run) []run {
	var out []run
	for _, r := range all {
		last := len(out) - 1
		if last >= 0 && out[last].block == r.block && out[last].colour == r.colour {
			out[last].units += r.units
			continue
		}
		out = append(out, r)
	}
	return out
}
