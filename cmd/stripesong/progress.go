package main

import (
	"context"
	"fmt"
	"io"
	"sync"
	"time"

	"stripesong/cmd/stripesong/screen"
)

// How long work may take before a word is said about it, and what says that none is to
// be said however long it takes.
const (
	patience = time.Second
	never    = time.Duration(1<<63 - 1)
)

// progress says on stderr what takes so long: a line that is rewritten on a
// terminal, one plain line elsewhere.
type progress struct {
	mu       sync.Mutex
	w        io.Writer
	terminal bool
	what     string
	shown    bool
	begun    time.Time
	patience time.Duration
	timer    *time.Timer
}

// progress is for work of a command.
func (w *world) progress() *progress { return newProgress(w.err, w.patience) }

// working is for a command that may take long: it can be interrupted, and says how far
// it is until the function that is returned is called.
func (w *world) working() (context.Context, *progress, func()) {
	ctx, stop := interruptible()
	shown := w.progress()
	return ctx, shown, func() {
		shown.stop()
		stop()
	}
}

func newProgress(w io.Writer, patience time.Duration) *progress {
	p := &progress{w: w, terminal: screen.IsTerminal(w), begun: time.Now(), patience: patience}
	p.mu.Lock() // the timer may tick before it is known here
	defer p.mu.Unlock()
	p.timer = time.AfterFunc(patience, p.tick)
	return p
}

// stage says what is being done now.
func (p *progress) stage(what string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.what = what
}

func (p *progress) tick() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.timer == nil {
		return
	}
	p.shown = true
	if !p.terminal {
		fmt.Fprintf(p.w, "stripesong: %s ...\n", p.what)
		return
	}
	fmt.Fprintf(p.w, "\r\x1b[Kstripesong: %s, %d s", p.what, int(time.Since(p.begun).Seconds()))
	p.timer.Reset(p.patience)
}

// stop ends it and clears the line; it may be called again.
func (p *progress) stop() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.timer == nil {
		return
	}
	p.timer.Stop()
	p.timer = nil
	if p.shown && p.terminal {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
