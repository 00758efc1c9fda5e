package main

import (
	"runtime"
	"runtime/debug"

	"stripesong/sequence/brief"
)

// mostMemory is the memory in bytes that is taken before what is no longer used is given back.
const mostMemory = 96 << 20

// settleRuntime prepares the Go runtime for a program that runs for a few hundredths
// of a second and does one thing after another: threads that look for work to
// share find none, and sweeping up seven megabytes costs more than they do.
// Nothing that is worked out depends on it.
func settleRuntime() {
	runtime.GOMAXPROCS(1)
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(mostMemory)
}

// A brief is much work from so many candidates or colours on.
const (
	manyCandidates = 2000
	manyColours    = 60
)

// settleFor takes all processors where a brief makes work for them.
func settleFor(b *brief.Brief) {
	if len(b.Colours) > manyColours || b.Vary != nil && b.Vary.Candidates > manyCandidates {
		runtime.SetDefaultGOMAXPROCS()
	}
}
