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
func (w *world) reckon(ctx context.Context, s *source, set []brief.Override, p *progress) (*plan.Plan, error) {
	p.stage("working out the plan")
	b, err := s.parse(set)
	if err != nil {
		return nil, err
	}
	made, err := plan.Make(ctx, b)
	return made, interrupted(err)
}

// interruptible is a context that ends with Ctrl-C or a polite kill, so that
// work can stop and clear up. A second one stops the program at once.
func interruptible() (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// interrupted says in words that a context was cancelled.
func interrupted(err error) error {
	if errors.Is(err, context.Canceled) {
		return mistake{what: "interrupted: nothing was written", cause: err}
	}
	return err
}
