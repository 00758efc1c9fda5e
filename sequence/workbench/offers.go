package workbench

import (
	"context"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/remedy"
)

// Offer is another version of the brief, planned through, that may be taken.
type Offer struct {
	What  string
	Costs []string
	version
}

// Sketch is what it looks like where it is not as the version being worked on.
func (o *Offer) Sketch(b *Bench) Sketch { return o.sketch(b.version) }

// Take makes an offer the present version.
func (b *Bench) Take(ctx context.Context, o *Offer) (string, error) {
	return o.What, b.replace(ctx, o.doc.Bytes(), b.origin, o.What, "")
}

// Ways are the ways out of what the plan warns of: those about one colour, or of one
// kind of trouble by its code, or with both empty all. Nearest says in words what came
// nearest where there is none. The context may stop it, with its error.
func (b *Bench) Ways(ctx context.Context, code,
	about string) (all []*Offer, nearest string, err error) {
	read := func(text []byte) (*brief.Brief, error) { return brief.Parse(b.name, text, b.options) }
	source := remedy.Source{Name: b.name, Text: b.Text(), Read: read}
	fresh, err := read(b.Text())
	if err != nil {
		return nil, "", err
	}
	answer, err := remedy.Find(ctx, source, fresh, b.plan)
	if err != nil {
		return nil, "", err
	}
	meant := func(itsCode, itsAbout string) bool {
		return itsCode == "" ||
			(code == "" || code == itsCode) && (about == "" || about == itsAbout)
	}
	for _, r := range answer.Remedies {
		means := func(m remedy.Mended) bool { return meant(m.Code, m.About) }
		if r.For != "" && !slices.ContainsFunc(r.Mends(), means) {
			continue
		}
		text, err := brief.Edit(b.name, b.Text(), r.Changes)
		if err != nil {
			return nil, "", err
		}
		v, err := b.try(ctx, text)
		if err != nil {
			return nil, "", err
		}
		all = append(all, &Offer{r.What, r.Costs, v})
	}
	at := slices.IndexFunc(answer.Unmended, func(u remedy.Unmended) bool {
		return meant(u.Code, u.About)
	})
	if at >= 0 {
		nearest = answer.Unmended[at].Nearest
	}
	return all, nearest, nil
}

// Past is an earlier version.
type Past struct {
	Back   int    `json:"back"` // how many steps ago; below 0 for those undone
	What   string `json:"what"` // the step that led to it; "" for the first
	Sketch Sketch `json:"sketch"`
}

// Trail is the versions there have been, so many at most, the latest first, and those
// that were undone before it.
func (b *Bench) Trail(ctx context.Context, most int) ([]Past, error) {
	all := []Past{}
	undo, redo := b.Steps()
	for back := -min(redo, most/2); back <= undo && len(all) < most; back++ {
		text, what := b.history.then(b.Text(), back)
		v, err := b.try(ctx, text)
		if err != nil {
			return nil, err
		}
		all = append(all, Past{back, what, v.sketch(b.version)})
	}
	return all, nil
}
