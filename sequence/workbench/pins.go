package workbench

import "context"

// pin is a version that is kept beside the one being worked on.
type pin struct {
	id   int
	what string
	version
}

// Pinned names a version that is kept beside the one being worked on.
type Pinned struct {
	ID     int    `json:"id"`
	What   string `json:"what"`
	Sketch Sketch `json:"sketch"`
}

// mostPins is how many versions are kept beside the one being worked on; of more the
// oldest goes.
const mostPins = 6

// Pin keeps the present version, or what is offered, beside the one being worked on.
func (b *Bench) Pin(o *Offer, what string) {
	b.pinning++
	one := pin{b.pinning, what, b.version}
	if o != nil {
		one.version = o.version
	}
	pins := append([]pin{one}, b.pins...) // made anew: a copy of the bench may have the old
	b.pins = pins[:min(len(pins), mostPins)]
}

// Unpin lets go of a version.
func (b *Bench) Unpin(id int) {
	var left []pin
	for _, p := range b.pins {
		if p.id != id {
			left = append(left, p)
		}
	}
	b.pins = left
}

// FromPin makes a version that is kept the present one.
func (b *Bench) FromPin(ctx context.Context, id int) (string, error) {
	for _, p := range b.pins {
		if p.id == id {
			what := "back to what was pinned: " + p.what
			return what, b.replace(ctx, p.doc.Bytes(), p.origin, what, "")
		}
	}
	return "", refuse("another window may have taken it away", "this is not pinned any more")
}

func (b *Bench) pinned() []Pinned {
	all := []Pinned{}
	for _, p := range b.pins {
		all = append(all, Pinned{p.id, p.what, p.sketch(b.version)})
	}
	return all
}
