package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

// onShelf puts colours with yarns of the shelf, none twice, or names them.
func (p *paletting) onShelf(found []finding) ([]finding, error) {
	if !p.shelf.given {
		for i, name := range palette.Names(labs(found), nil) {
			found[i].name = name
		}
		return found, nil
	}
	text, err := readFile(p.shelf.text)
	if err != nil {
		return nil, unreadable(p.shelf.text, shelfHint, err)
	}
	shelf, err := stockOf(brief.Shelf{Name: p.shelf.text, Text: text})
	if err != nil {
		return nil, err
	}
	p.heading = append(p.heading, fmt.Sprintf("The nearest yarns of %q, none twice.", p.shelf.text))
	for i, place := range palette.Snap(labs(found), labs(shelf)) {
		wanted := found[i]
		if place < 0 {
			found[i].missing = true
			continue
		}
		found[i] = shelf[place]
		found[i].remark = strings.TrimPrefix(fmt.Sprintf("%s; for %s, %.1f dE00 off", wanted.remark,
			wanted.colour.Hex(),
			palette.DeltaE00(wanted.colour.Lab(), shelf[place].colour.Lab())), "; ")
	}
	return found, nil
}

// print writes the tables, or what list has to say.
func (p *paletting) print(w *world, found []finding) error {
	if p.json {
		text, err := plan.Indented(p.answer, "  ")
		if err == nil {
			_, err = w.out.Write(screen.PlainJSON(text))
		}
		return err
	}
	if p.plain != nil {
		for _, l := range p.plain {
			fmt.Fprintln(w.out, l)
		}
		return nil
	}
	for _, l := range p.heading {
		fmt.Fprintf(w.out, "# %s\n", comment(l))
	}
	yarn := false
	for _, f := range found {
		if f.missing {
			fmt.Fprintf(w.out, "\n# nothing on the shelf is left for %s\n", f.colour.Hex())
			continue
		}
		yarn = yarn || f.yarn != ""
		fmt.Fprintf(w.out, "\n%s", f.toml())
	}
	if !yarn {
		fmt.Fprintln(w.out, "\n# where a brief has several yarns, say which of them each is: "+
			"yarn = \"...\"")
	}
	return nil
}

// comment is text fit to stand behind a # in TOML.
func comment(s string) string { return screen.Visible(s) }

// toml is the colour as a table of a brief.
func (f finding) toml() string {
	var b strings.Builder
	fmt.Fprintf(&b, "[[colour]]\nname = %s\nhex  = %s", tomltext.Quote(f.name),
		tomltext.Quote(f.colour.Hex()))
	remark := fmt.Sprintf("L* %.0f", f.colour.Lab().L)
	if f.remark != "" {
		remark += "; " + f.remark
	}
	fmt.Fprintf(&b, " # %s\n", comment(remark))
	if f.yarn != "" {
		fmt.Fprintf(&b, "yarn = %s\n", tomltext.Quote(f.yarn))
	}
	if f.onHand != "" {
		fmt.Fprintf(&b, "on_hand = %s\n", tomltext.Quote(f.onHand))
	}
	return b.String()
}

// swatches is the answer for the sheet.
func swatches(found []finding) (all []svg.Swatch) {
	for _, f := range found {
		if !f.missing {
			all = append(all, svg.Swatch{Name: f.name, Colour: f.colour, Note: f.remark})
		}
	}
	return all
}

// nearestShown is how many neighbours list names.
const nearestShown = 2

// list describes a palette.
func (p *paletting) list(w *world, file string) ([]finding, error) {
	all, err := w.stock(file)
	if err != nil {
		return nil, err
	}
	p.title = fmt.Sprintf("%s on the shelf", measure.Count(len(all), "colour"))
	paint := screen.Detect(w.terminal, w.env)
	ranks, near := palette.LightnessRanks(labs(all)), palette.Neighbours(labs(all), nearestShown)
	t := table{left: map[int]bool{1: true, 6: true, 7: true}}
	t.add("  colour", "hex", "rank", "L*", "a*", "b*", "nearest", "next", "yarn")
	for i, f := range all {
		lab := f.colour.Lab()
		row := []string{screen.Visible(f.name), f.colour.Hex(), fmt.Sprint(ranks[i]),
			fmt.Sprintf("%.1f", lab.L), signed(lab.A), signed(lab.B), "", "", ""}
		for j, n := range near[i] {
			row[6+j] = fmt.Sprintf("%.1f %s", n.E00(), screen.Visible(all[n.Index].name))
			if j == 0 {
				all[i].remark = fmt.Sprintf("nearest: %s, %.1f dE00", all[n.Index].name, n.E00())
			}
		}
		t.add(row...)
	}
	for i, l := range t.lines() {
		if i > 0 {
			l = strings.TrimRight(cmp.Or(paint.Swatch(all[i-1].colour, 2), "  ")+l, " ")
		}
		p.plain = append(p.plain, l)
	}
	p.plain = append(p.plain, "",
		"rank: from the lightest on; nearest, next: most like it, by dE00")
	p.merging(all)
	return all, nil
}

// signed has one decimal and no -0.
func signed(v float64) string { return strings.Replace(fmt.Sprintf("%.1f", v), "-0.0", "0.0", 1) }

// mostMerging is how many pairs that merge are listed: of more, those that differ most
// to normal sight.
const mostMerging = 30

// merging lists the pairs that a sight takes for one.
func (p *paletting) merging(all []finding) {
	light := make([]palette.Linear, len(all))
	for i, f := range all {
		light[i] = f.colour.Linear()
	}
	merges := palette.Merging(light)
	p.plain = append(p.plain, "")
	if len(merges) == 0 {
		p.plain = append(p.plain, "No two that differ well look alike to red-green blind eyes.")
		return
	}
	rest := len(merges) - mostMerging
	if rest > 0 {
		slices.SortStableFunc(merges, func(a, b palette.Merge) int {
			return cmp.Compare(b.Normal, a.Normal)
		})
		merges = merges[:mostMerging]
	}
	p.plain = append(p.plain, "These differ well, but look alike to red-green blind eyes:")
	for _, m := range merges {
		p.plain = append(p.plain,
			fmt.Sprintf("  %s and %s: dE00 %.1f for %s, %.1f for ordinary eyes",
				screen.Visible(all[m.A].name), screen.Visible(all[m.B].name), float64(m.Seen)/1e6,
				m.Sight.Eyes(), float64(m.Normal)/1e6))
	}
	if rest > 0 {
		p.plain = append(p.plain,
			fmt.Sprintf("  and %s more, which differ less to other eyes",
				measure.Count(rest, "pair")))
	}
}
