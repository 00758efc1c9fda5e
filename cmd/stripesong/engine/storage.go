package engine

import (
	"context"

	"stripesong/sequence/plan"
)

// Why says why [Storage.Save] asks before it writes.
type Why string

const (
	// Changed is where something else wrote to the file since it was last known.
	Changed Why = "changed"
	// Older is where the file is known, but the text goes back to an earlier one: what
	// something else wrote to the file, and was then taken over, is not in it.
	Older Why = "older"
	// Gone is where there is no file any more.
	Gone Why = "gone"
)

// Conflict is what [Storage.Save] returns where it asks before it writes.
type Conflict struct {
	Why  Why
	File []byte // as it is now
}

// Error says in a line why it asks.
func (c *Conflict) Error() string {
	switch c.Why {
	case Older:
		return "the file has changes that this version does not go on from"
	case Gone:
		return "the file is gone"
	}
	return "the file has changed since it was read"
}

// Left is unsaved work of an earlier page.
type Left struct {
	ID   int
	Says string // when it was left, and where it is
	Text []byte
}

// Storage is where a page's work goes. Names come back as they are shown to the
// weaver.
type Storage interface {
	// Save writes the brief back to where it came from. Origin is the text that it goes
	// back to: 0 for the file as it was opened, else a number from Reread or TakenUp.
	// Over a file that is not what this text goes on from it writes only if asked to,
	// and only if an earlier call has told of that very file with a [Conflict]. It fails
	// where the brief came from no file. Before is the file that has the text which was
	// written over, as it was; "" where the page itself had saved that one.
	Save(text []byte, origin int, over bool) (name, before string, err error)
	// SaveAs writes the brief to a new file beside it, called something like
	// title, and never over another.
	SaveAs(title string, text []byte) (name string, err error)
	// Reread is the file as it is now, which may be no brief, and its number as an origin.
	Reread() (text []byte, origin int, err error)
	// Known says that the text of that origin has been taken over.
	Known(origin int)
	// Called is what the brief is called: SaveAs may make a file its own.
	Called() string
	// FromFile tells whether the brief came from a file that Save can write to.
	FromFile() bool
	// Keep is given the brief after every change, before the change is answered:
	// nil where it is saved. It says where the brief is kept until it is. It may
	// be called while another method runs.
	Keep(unsaved []byte, origin int) (where string, err error)
	// Left is what earlier pages of this brief left unsaved, until Forget.
	Left() []Left
	// TakenUp numbers what one of these was begun with as an origin.
	TakenUp(id int) (origin int)
	// Forget takes one of these away: it is taken up, or not wanted.
	Forget(id int) error
	// Publish writes the drawings, the yarn list and the packet.
	Publish(ctx context.Context, p *plan.Plan) (folder string, err error)
}
