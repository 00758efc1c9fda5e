package engine

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"stripesong/sequence/workbench"
)

// job is one piece of work at the bench, which may take long.
type job struct {
	number int
	what   string
	stop   context.CancelCauseFunc
}

// busy tells the page what is being worked on.
type busy struct {
	Job  int    `json:"job"`
	What string `json:"what"`
}

// errStopped is why work ends that the weaver stopped.
var errStopped = errors.New("stopped, and nothing was changed")

// work does what a request is for, at a bench of its own, and says what was done.
type work func(context.Context, *workbench.Bench, request) (string, error)

// inTurn does one piece of work when those before it are done. It works at a
// copy of the bench, which takes the bench's place if all went well; all the
// while the bench is as it was, for whoever looks. Work goes on when the page
// that asked for it is closed, and stops when the server ends or the weaver
// says so.
func (s *Engine) inTurn(q request, what string, do work) (string, error) {
	return s.turnTo(q, what, do, s.takeOver)
}

// lookInTurn is [Engine.inTurn] for work that changes nothing: the copy of the bench is
// dropped, and nothing is kept anew.
func (s *Engine) lookInTurn(q request, what string, do work) (string, error) {
	return s.turnTo(q, what, do, func(*workbench.Bench) {})
}

func (s *Engine) turnTo(q request, what string, do work,
	done func(*workbench.Bench)) (string, error) {
	select {
	case s.turn <- struct{}{}:
		defer func() { <-s.turn }()
	case <-s.life.Done():
		return "", context.Cause(s.life)
	}
	ctx, stop := context.WithCancelCause(s.life)
	defer stop(nil)
	at := s.begin(what, stop)
	if s.Yielding != nil {
		ctx = s.Yielding(ctx)
	}
	said, err := current(ctx, at, q, do)
	if err != nil && ctx.Err() != nil {
		err = context.Cause(ctx)
	}
	if err == nil {
		done(at)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.job = nil
	return said, err
}

// begin makes the job known and returns the bench to work at.
func (s *Engine) begin(what string, stop context.CancelCauseFunc) *workbench.Bench {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.jobs++
	s.job = &job{number: s.jobs, what: what, stop: stop}
	return s.bench.Copy()
}

// busy is what is being worked on; nil for nothing. The lock is held.
func (s *Engine) busy() *busy {
	if s.job == nil {
		return nil
	}
	b := &busy{Job: s.job.number, What: s.job.what}
	if n := s.bench.Chooses(); b.What == "" && n > 0 {
		b.What = Choosing(n)
	}
	if b.What == "" {
		b.What = "working out the plan"
	}
	return b
}

// Choosing tells in words that pieces are being chosen from so many candidates.
func Choosing(candidates int) string {
	return fmt.Sprintf("choosing pieces from %d candidates", candidates)
}

// status answers what is being worked on, which edition there is and where the brief is
// kept, without the view.
func (s *Engine) status(Ask) Answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	return written(ok, reply{Busy: s.busy(), Kept: s.kept, Edition: s.bench.Edition(),
		Saved: s.bench.Saved()})
}

// waiting is how long a window waits for news before it asks again.
const waiting = 25 * time.Second

// wait answers when the bench shows another edition than the one a window shows, or is
// saved where that is not, or after a while: so that a window follows what another does.
func (s *Engine) wait(a Ask) Answer {
	shown, _ := strconv.Atoi(a.Query.Get("edition"))
	unsaved := a.Query.Get("saved") == "false"
	patience := time.NewTimer(waiting)
	defer patience.Stop()
	for {
		s.mu.Lock()
		now, saved, news := s.bench.Edition(), s.bench.Saved(), s.news
		s.mu.Unlock()
		if now != shown || saved && unsaved {
			return s.status(a)
		}
		select {
		case <-news:
		case <-patience.C:
			return s.status(a)
		case <-s.life.Done():
			return s.status(a)
		}
	}
}

// stop stops the job of a number, and no other that may have begun meanwhile.
func (s *Engine) stop(a Ask) Answer {
	q, err := read(a)
	if err != nil {
		return unread
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	said := "that has come to an end already"
	if s.job != nil && s.job.number == q.Job {
		s.job.stop(errStopped)
		said = "stopping"
	}
	return written(ok, reply{Said: said, Busy: s.busy(), Kept: s.kept})
}
