package main

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
)

// fromPhoto brings a picture down to a few colours.
func (p *paletting) fromPhoto(w *world, file string) ([]finding, error) {
	samples, err := w.photo(file)
	if err != nil {
		return nil, err
	}
	seed := uint64(1)
	if p.seed.given {
		n, _ := strconv.ParseInt(p.seed.text, 10, 64) // checked when it was read
		seed = uint64(n)
	}
	p.title = "Colours of " + file
	p.heading = []string{
		fmt.Sprintf("The colours of %q, the largest part of the picture first.", file)}
	var found []finding
	for _, c := range palette.Clusters(samples, p.count(), rand.New(rand.NewPCG(seed, 0))) {
		found = append(found,
			finding{colour: c.Colour, remark: fmt.Sprintf("%.1f %% of the picture", 100*c.Share)})
	}
	if len(found) < p.count() {
		p.heading = append(p.heading,
			fmt.Sprintf("It has no more than %d that differ by %g dE00 or more.", len(found),
				palette.MergedBelow))
	}
	return p.onShelf(found)
}

// photoHint says what pictures are read.
const photoHint = "a PNG or JPEG of up to 50 megapixels and 64 MiB is read"

func (w *world) photo(file string) ([]palette.Sample, error) {
	if file == "" {
		return nil, mistake{what: "name the photo", hint: "stripesong palette from-photo FILE"}
	}
	in := w.in
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, unreadable(file, photoHint, err)
		}
		defer f.Close()
		in = f
	}
	samples, err := palette.ReadPhoto(in, palette.PhotoLimits)
	if path := (*fs.PathError)(nil); errors.As(err, &path) {
		return nil, unreadable(file, photoHint, err)
	}
	if err != nil {
		return nil, mistake{what: fmt.Sprintf("%q: %v", file, err), cause: err, hint: photoHint}
	}
	return samples, nil
}

// spread picks colours of a brief or shelf that differ most.
func (p *paletting) spread(w *world, file string) ([]finding, error) {
	s, err := w.stock(file)
	if err != nil {
		return nil, err
	}
	choice := palette.Spread(labs(s), min(p.count(), len(s)))
	p.title = fmt.Sprintf("%d colours that differ", len(choice.Picked))
	p.heading = []string{
		fmt.Sprintf("%d of %d colours, as unlike as can be: the two most alike differ by "+
			"%.1f dE00.", len(choice.Picked), len(s), choice.LeastE00()),
		"No choice of so many has more."}
	if !choice.Best() {
		p.heading[1] = fmt.Sprintf("No choice of so many has more than %.1f.", choice.BoundE00())
	}
	var found []finding
	for _, i := range choice.Picked {
		found = append(found, s[i])
	}
	return found, nil
}

// ramp steps evenly from one colour to another.
func (p *paletting) ramp(w *world, file string) ([]finding, error) {
	from, to, err := p.ends(w, file, "a ramp")
	if err != nil {
		return nil, err
	}
	p.title = fmt.Sprintf("From %s to %s", p.from.text, p.to.text)
	p.heading = []string{
		fmt.Sprintf("%d equal steps of lightness from %s to %s. Colours on a screen are not yarn.",
			p.count(), p.from.text, p.to.text)}
	var found []finding
	for _, c := range palette.Ramp(from, to, p.count()) {
		found = append(found, finding{colour: c})
	}
	return p.onShelf(found)
}

// ends are the two colours of a ramp or a mixture.
func (p *paletting) ends(w *world, file, what string) (from, to palette.RGB, err error) {
	if !p.from.given || !p.to.given {
		return from, to, mistake{what: what + " needs both ends", hint: quoteHint}
	}
	if from, err = w.colour(p.from.text, file); err != nil {
		return from, to, err
	}
	to, err = w.colour(p.to.text, file)
	return from, to, err
}

// colour is one written as #24463c, or named in a brief or shelf.
func (w *world) colour(text, file string) (palette.RGB, error) {
	if strings.HasPrefix(text, "#") {
		c, err := palette.ParseHex(text)
		if err != nil {
			return c, mistake{what: err.Error(), cause: err}
		}
		return c, nil
	}
	all, err := w.stock(file)
	if err != nil {
		return palette.RGB{}, err
	}
	var names []string
	for _, c := range all {
		if c.name == text {
			return c.colour, nil
		}
		names = append(names, c.name)
	}
	return palette.RGB{},
		mistake{what: fmt.Sprintf("there is no colour %q", text),
			hint: nearestOr(text, names, "write it as in \"#24463c\", or by its name in FILE")}
}

// stock is the colours of a brief or shelf.
func (w *world) stock(file string) ([]finding, error) {
	s, err := w.open(file)
	if err != nil {
		return nil, err
	}
	return stockOf(brief.Shelf{Name: s.name, Text: s.text})
}

func stockOf(shelf brief.Shelf) ([]finding, error) {
	yarns, colours, err := brief.Stock(shelf)
	if err != nil {
		return nil, err
	}
	var all []finding
	for _, c := range colours {
		f := finding{name: c.Name, colour: c.RGB}
		if c.Yarn < len(yarns) {
			f.yarn = yarns[c.Yarn].Name
		}
		f.onHand = c.OnHand
		all = append(all, f)
	}
	return all, nil
}

func labs(all []finding) []palette.Lab {
	out := make([]palette.Lab, len(all))
	for i, f := range all {
		out[i] = f.colour.Lab()
	}
	return out
}
