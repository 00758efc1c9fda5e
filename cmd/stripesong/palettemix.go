package main

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// scatterText takes what a brief takes for its key scatter.
func scatterText(text string) error {
	if err := plainNumber(text); err != nil {
		return err
	}
	b, err := strconv.ParseFloat(text, 64)
	if err != nil || b < 0 || b > brief.MostScatter {
		return mistake{
			what: fmt.Sprintf("%q is not from 0 to %g", text, brief.MostScatter),
			hint: "0 is for yarn that lets no light through; 0.02 is usual",
		}
	}
	return nil
}

func shareText(text string) error {
	_, err := measure.ParseShare(text)
	return err
}

// mix prints what two yarns look like woven together.
func (p *paletting) mix(w *world, file string) ([]finding, error) {
	from, to, err := p.ends(w, file, "a mixture")
	if err != nil {
		return nil, err
	}
	scatter, err := p.scattering(w, file)
	if err != nil {
		return nil, err
	}
	shares := palette.NinthsOf()
	if p.share.given {
		share, err := measure.ParseShare(p.share.text)
		if err != nil {
			return nil, err
		}
		part := exact.Float(share.Part)
		shares = []float64{part}
	}
	mixing := palette.Mixings(named(p.from, from), named(p.to, to), shares, scatter)
	p.answer = &mixing
	p.title = fmt.Sprintf("%s and %s, woven together", p.from.text, p.to.text)
	var found []finding
	for _, m := range mixing.Mixtures {
		found = append(found, finding{name: percentOf(m.Share) + " " + p.from.text, colour: m.RGB})
	}
	p.plain = mixingTable(w, p.from.text, mixing)
	return found, nil
}

// named is a colour as the brief calls it; one written as #24463c has no name.
func named(v value, c palette.RGB) palette.Named {
	if strings.HasPrefix(v.text, "#") {
		return palette.Named{RGB: c}
	}
	return palette.Named{Name: v.text, RGB: c}
}

// scattering is how far light spreads: as the flag says, or the brief, or as is
// usual.
func (p *paletting) scattering(w *world, file string) (palette.Scatter, error) {
	if p.scatter.given {
		b, err := strconv.ParseFloat(p.scatter.text, 64)
		return palette.Scatter(b), err
	}
	s, err := w.open(file)
	if err != nil {
		return 0, err
	}
	b, _ := brief.ScatterOf(s.name, s.text, brief.Options{Shelf: s.shelf}).Float64()
	return palette.Scatter(b), nil
}

func percentOf(share float64) string {
	return strconv.FormatFloat(100*share, 'f', 0, 64) + "%"
}

// mixingTable is a row for each mixture, with a swatch where the terminal has
// colours.
func mixingTable(w *world, from string, m palette.Mixing) []string {
	paint := screen.Detect(w.terminal, w.env)
	t := table{}
	t.add(screen.Visible(from), "hex", "L*", "a*", "b*")
	for _, x := range m.Mixtures {
		t.add(strconv.FormatFloat(100*x.Share, 'f', 1, 64)+" %", x.RGB.Hex(),
			fmt.Sprintf("%.1f", x.Lab[0]), signed(x.Lab[1]), signed(x.Lab[2]))
	}
	lines := t.lines()
	for i := range m.Mixtures {
		lines[i+1] = paint.Swatch(m.Mixtures[i].RGB, 2) + lines[i+1]
	}
	return append(lines, "",
		fmt.Sprintf("The percentage is that of %s on top of the cloth; light spreads from "+
			"yarn to yarn",
			screen.Visible(from)),
		fmt.Sprintf("by %g. Colours on a screen are not yarn: weave a sample.", m.Scatter))
}
