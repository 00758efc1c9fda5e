package main

import (
	"runtime"
	"runtime/debug"
)

// thrifty settles the Go runtime for a program that runs for a few hundredths
// of a second and does one thing after another: threads that look for work to
// share find none, and sweeping up seven megabytes costs more than they do.
// Nothing that is worked out depends on it.
func thrifty() {
	runtime.GOMAXPROCS(1)
	debug.SetGCPercent(400)
}
