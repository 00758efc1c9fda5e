//go:build js && wasm

package main

import (
	"context"
	"time"
)

// atOnce is how long work goes on before the worker looks at what it was sent.
const atOnce = 50 * time.Millisecond

// yielder is a context that lets the worker have its messages whenever somebody asks
// whether to go on, as long work does: the browser runs one thing at a time, and what
// says "stop" is a message.
type yielder struct {
	context.Context
	last *time.Time
}

// yielding is a yielder of a context.
func yielding(ctx context.Context) context.Context {
	now := time.Now()
	return yielder{ctx, &now}
}

func (y yielder) Err() error {
	if time.Since(*y.last) > atOnce {
		time.Sleep(time.Millisecond) // the browser's messages come in
		*y.last = time.Now()
	}
	return y.Context.Err()
}
