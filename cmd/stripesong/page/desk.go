package page

import (
	"context"
	"errors"

	"stripesong/sequence/plan"
)

// ErrChanged is what [Desk.Save] returns where the file is no longer as it was
// read or last saved.
var ErrChanged = errors.New("the file has changed since it was read")

// Left is unsaved work of an earlier page.
type Left struct {
	ID   int
	Says string // when it was left, and where it is
	Text []byte
}

// Desk is where a page's work goes. Names come back as they are shown to the
// weaver.
type Desk interface {
	// Save writes the brief back to where it came from. Over a file that changed
	// since it was last known it writes only if asked to, and only if an earlier
	// call has told of that very change with [ErrChanged]. It fails where the
	// brief came from no file.
	Save(text []byte, over bool) (name string, err error)
	// SaveAs writes the brief to a new file beside it, called something like
	// title, and never over another.
	SaveAs(title string, text []byte) (name string, err error)
	// Reread is the file as it is now, which may be no brief.
	Reread() ([]byte, error)
	// Known says that a text from Reread has been taken over.
	Known(text []byte)
	// FromFile tells whether the brief came from a file that Save can write to.
	FromFile() bool
	// Keep is given the brief after every change, before the change is answered:
	// nil where it is saved. It says where the brief is kept until it is. It may
	// be called while another method runs.
	Keep(unsaved []byte) (where string, err error)
	// Left is what earlier pages of this brief left unsaved, until Forget.
	Left() []Left
	// TakenUp says that the work goes on from one of these. Save then holds the
	// file against the text that this was begun with.
	TakenUp(id int)
	// Forget takes one of these away: it is taken up, or not wanted.
	Forget(id int) error
	// Publish writes the drawings, the yarn list and the packet.
	Publish(ctx context.Context, p *plan.Plan) (folder string, err error)
}
