package plan

// meter measures differences of many bodies of one length: the same as
// [differ.difference], to the last millionth, with everything looked up.
type meter struct {
	table  []int64 // differences of two looks, row by row
	looks  int
	length int64
	bodies []measured
}

// measured is a body and the same end for end.
type measured struct{ straight, turned []stretch }

// stretch is one run of a body: where it ends and how it looks.
type stretch struct{ end, look int }

// meter takes bodies of one length.
func (d *differ) meter(bodies []body) *meter {
	m := &meter{looks: len(d.shown)}
	for a := range m.looks {
		for b := range m.looks {
			m.table = append(m.table, d.mean(a, b))
		}
	}
	for _, b := range bodies {
		m.length = int64(b.length())
		m.bodies = append(m.bodies, measured{b.stretches(), b.turned().stretches()})
	}
	return m
}

func (b body) stretches() []stretch {
	all := make([]stretch, len(b.looks))
	for i, look := range b.looks {
		all[i] = stretch{b.ends[i], look}
	}
	return all
}

func (m *meter) difference(a, b int) int64 {
	one, other := &m.bodies[a], &m.bodies[b]
	return min(m.along(one.straight, other.straight), m.along(one.straight, other.turned))
}

// along is [differ.straight] where both lengths are the same, so that places
// can be compared as they are.
func (m *meter) along(a, b []stretch) int64 {
	var sum int64
	at, j := 0, 0
	for _, s := range a {
		row := m.table[s.look*m.looks : (s.look+1)*m.looks]
		for ; b[j].end < s.end; j++ {
			sum += int64(b[j].end-at) * row[b[j].look]
			at = b[j].end
		}
		sum += int64(s.end-at) * row[b[j].look]
		at = s.end
	}
	return (2*sum + m.length) / (2 * m.length)
}
