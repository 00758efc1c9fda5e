// Package parallel does one piece of work on as many processors as there are, so
// that what comes of it does not depend on how many that is.
//
// [Ranges] divides numbers into ranges. Where the work of each range writes only
// what belongs to its numbers, and the ranges' answers are put together in their
// order, the result is the same on one processor as on many.
package parallel

import (
	"context"
	"runtime"
	"sync"
)

// Ranges calls work with ranges of size numbers, the last maybe shorter, that
// together are 0 to n-1, and returns when all of them are done. Several may be
// worked on at a time. The context is asked before each of them; once it has
// ended no more are begun, and its error is returned. A panic of work is passed
// on to the caller.
func Ranges(ctx context.Context, n, size int, work func(from, to int)) error {
	if n <= size { // nothing to divide
		err := ctx.Err()
		if err == nil && n > 0 {
			work(0, n)
		}
		return err
	}
	d := &division{ctx: ctx, n: n, size: size, work: work}
	var group sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+size-1)/size) - 1 {
		group.Go(d.run)
	}
	d.run()
	group.Wait()
	if d.panicked != nil {
		panic(d.panicked)
	}
	return d.err
}

// division is the ranges that are left.
type division struct {
	ctx     context.Context
	n, size int
	work    func(from, to int)

	mutex    sync.Mutex
	next     int
	err      error
	panicked any
}

// run works on one range after another, until there are no more.
func (d *division) run() {
	defer func() {
		if p := recover(); p != nil {
			d.mutex.Lock()
			d.panicked, d.next = p, d.n
			d.mutex.Unlock()
		}
	}()
	for {
		from, found := d.take()
		if !found {
			return
		}
		d.work(from, min(from+d.size, d.n))
	}
}

// take is where the next range begins.
func (d *division) take() (from int, found bool) {
	d.mutex.Lock()
	defer d.mutex.Unlock()
	if d.next >= d.n || d.err != nil {
		return 0, false
	}
	if d.err = d.ctx.Err(); d.err != nil {
		return 0, false
	}
	from = d.next
	d.next += d.size
	return from, true
}
