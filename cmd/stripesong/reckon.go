package main

import (
	"context"
	"errors"
	"os"
	"os/signal"
	"syscall"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// reckon makes the plan of a brief.
func (w *world) reckon(ctx context.Context, s *source, set []brief.Override,
	p *progress) (*plan.Plan, error) {
	p.stage("working out the plan")
	b, err := s.parse(set)
	if err != nil {
		return nil, err
	}
	made, err := plan.Make(ctx, b)
	return made, interrupted(err)
}

// interruptible is a context that ends with Ctrl-C, Ctrl-\, a polite kill or a
// terminal that is closed, so that work can stop and clear up. A second one
// stops the program at once.
func interruptible() (context.Context, context.CancelFunc) {
	stops := []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGQUIT}
	if !signal.Ignored(syscall.SIGHUP) { // as nohup has it
		stops = append(stops, syscall.SIGHUP)
	}
	ctx, stop := signal.NotifyContext(context.Background(), stops...)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// interrupted says in words that a context was cancelled.
func interrupted(err error) error {
	if errors.Is(err, context.Canceled) {
		return mistake{what: "interrupted: nothing was written",
			hint: "nothing is left behind; run it again when you like", cause: err}
	}
	return err
}
