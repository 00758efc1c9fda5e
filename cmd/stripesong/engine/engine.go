package engine

import (
	"context"
	"sync"
	"time"

	"stripesong/sequence/workbench"
)

// Engine is what stands behind a page: one bench, and what is worked on there.
type Engine struct {
	mu    sync.Mutex // held while the bench or the job is looked at or changed
	bench *workbench.Bench
	job   *job            // what is being worked on; nil for nothing
	jobs  int             // how many there were
	kept  kept            // where the bench's text is kept
	turn  chan struct{}   // holds one thing while there is a job
	news  chan struct{}   // closed when the bench is another
	life  context.Context // ends when the engine does

	offers  []offered // what may be taken, the latest last
	offered int       // how many there have been

	keeping sync.Mutex // held while the text is kept, before mu

	storage Storage
	again   string // the command that starts the program as it was started

	// Yielding, if it is not nil, makes the context that a piece of work is done in: one
	// that lets others have their turn when it is looked at. It is set before anything
	// is asked.
	Yielding func(context.Context) context.Context
}

// New makes the engine of a bench. Where the program does not answer any more, the page
// tells the command that starts it again.
func New(bench *workbench.Bench, storage Storage, again string) *Engine {
	return &Engine{bench: bench, storage: storage, again: again,
		turn: make(chan struct{}, 1), news: make(chan struct{}), life: context.Background()}
}

// LiveUntil ends what is worked on, now and later, when the context ends. It is called
// before anything is asked.
func (s *Engine) LiveUntil(ctx context.Context) { s.life = ctx }

// Rest waits until nothing is worked on, or until patience ends. Nothing is worked on
// afterwards.
func (s *Engine) Rest(patience <-chan time.Time) {
	select {
	case s.turn <- struct{}{}:
	case <-patience:
	}
}
