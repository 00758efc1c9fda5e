package plan

import (
	"context"

	"stripesong/sequence/parallel"
)

// distances measures differences of many bodies of one length: the same as
// [differ.difference], to the last millionth, with everything looked up. Several
// goroutines may use them at a time.
type distances struct {
	table  []int32 // differences of two looks, row by row
	looks  int
	length int64
	bodies []measured
}

// measured is a body and the same end for end.
type measured struct{ straight, turned []stretch }

// stretch is one run of a body: where it ends and how it looks.
type stretch struct{ end, look int32 }

// distances takes the bodies of candidates, all of one length.
func (d *differ) distances(ctx context.Context, all []candidate) (*distances, error) {
	if err := d.settle(ctx); err != nil {
		return nil, err
	}
	m := &distances{looks: len(d.shown), bodies: make([]measured, len(all))}
	for a := range m.looks {
		for b := range m.looks {
			m.table = append(m.table, int32(d.mean(a, b)))
		}
	}
	if len(all) > 0 {
		m.length = int64(all[0].body.length())
	}
	return m, parallel.Ranges(ctx, len(all), 1024, func(from, to int) {
		for i := from; i < to; i++ {
			b := all[i].body
			m.bodies[i] = measured{b.stretches(), b.turned().stretches()}
		}
	})
}

func (b body) stretches() []stretch {
	all := make([]stretch, len(b.looks))
	for i, look := range b.looks {
		all[i] = stretch{int32(b.ends[i]), int32(look)}
	}
	return all
}

func (m *distances) difference(a, b int) int64 {
	one, other := &m.bodies[a], &m.bodies[b]
	return min(m.along(one.straight, other.straight), m.along(one.straight, other.turned))
}

// along is [differ.straight] where both lengths are the same, so that places
// can be compared as they are.
func (m *distances) along(a, b []stretch) int64 {
	var sum int64
	at, j := int32(0), 0
	for _, s := range a {
		row := m.table[int(s.look)*m.looks : int(s.look+1)*m.looks]
		for ; b[j].end < s.end; j++ {
			sum += int64(b[j].end-at) * int64(row[b[j].look])
			at = b[j].end
		}
		sum += int64(s.end-at) * int64(row[b[j].look])
		at = s.end
	}
	return (2*sum + m.length) / (2 * m.length)
}
