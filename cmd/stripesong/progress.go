package main

import (
	"fmt"
	"io"
	"sync"
	"time"

	"stripesong/cmd/stripesong/screen"
)

// patience is how long work may take before a word is said about it.
const patience = time.Second

// progress says on stderr what takes so long: a line that is rewritten on a
// terminal, one plain line elsewhere.
type progress struct {
	mu       sync.Mutex
	w        io.Writer
	terminal bool
	what     string
	shown    bool
	begun    time.Time
	timer    *time.Timer
}

func newProgress(w io.Writer) *progress { return progressAfter(patience, w) }

// progressAfter is [newProgress] with a patience of its own.
func progressAfter(patience time.Duration, w io.Writer) *progress {
	p := &progress{w: w, terminal: screen.IsTerminal(w), begun: time.Now()}
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
	p.timer.Reset(patience)
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
