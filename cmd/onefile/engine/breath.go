//go:build js && wasm

package main

import (
	"context"
	"time"
)

// breath is how long work goes on before the worker looks at what it was sent.
const breath = 50 * time.Millisecond

// breather is a context that lets the worker have its messages whenever somebody asks
// whether to go on, as long work does: the browser runs one thing at a time, and what
// says "stop" is a message.
type breather struct {
	context.Context
	last *time.Time
}

func breathing(ctx context.Context) context.Context {
	now := time.Now()
	return breather{ctx, &now}
}

func (b breather) Err() error {
	if time.Since(*b.last) > breath {
		time.Sleep(time.Millisecond) // the browser's messages come in
		*b.last = time.Now()
	}
	return b.Context.Err()
}
