package palette

// none marks that nothing on the shelf was left for a colour.
const none = -1

// Snap finds for each wanted colour one of the shelf, none twice, so that the sum
// of the CIEDE2000 differences is the least there is: each gets its nearest where
// no two want the same, and where they do, the one that loses less gives way.
// The result has a place on the shelf for each wanted colour; with fewer on the
// shelf than wanted, -1 for those that go without (again at the least sum).
//
// It is the assignment problem on whole millionths, solved by the Hungarian
// method with potentials (Kuhn 1955, Munkres 1957), in len(wanted)^2 times
// len(shelf) steps.
func Snap(wanted, shelf []Lab) []int {
	columns := len(shelf) + max(0, len(wanted)-len(shelf))
	cost := make([][]int64, len(wanted))
	for i := range cost {
		cost[i] = make([]int64, columns)
		for j := range cost[i] {
			cost[i][j] = without
			if j < len(shelf) {
				cost[i][j] = MicroE(wanted[i], shelf[j])
			}
		}
	}
	out := assign(cost)
	for i, j := range out {
		if j >= len(shelf) {
			out[i] = none
		}
	}
	return out
}

// without is the cost of going without: more than any difference.
const without = 1_000_000_000_000

// assignment is the work of the Hungarian method; columns count from 1, column 0
// stands for the row that is being placed.
type assignment struct {
	cost     [][]int64
	row, col []int64 // potentials
	owner    []int   // row of each column, -1 for none
}

// assign gives each row a column of its own at the least sum; there must be as
// many columns as rows at least.
func assign(cost [][]int64) []int {
	if len(cost) == 0 {
		return nil
	}
	a := &assignment{cost: cost, row: make([]int64, len(cost)), col: make([]int64, len(cost[0])+1)}
	a.owner = make([]int, len(a.col))
	for j := range a.owner {
		a.owner[j] = none
	}
	for i := range cost {
		a.place(i)
	}
	out := make([]int, len(cost))
	for j, i := range a.owner[1:] {
		if i != none {
			out[i] = j
		}
	}
	return out
}

// place finds row i a column by the shortest augmenting path.
func (a *assignment) place(i int) {
	const far = 1 << 62
	slack, from := make([]int64, len(a.col)), make([]int, len(a.col))
	done := make([]bool, len(a.col))
	for j := range slack {
		slack[j] = far
	}
	a.owner[0] = i
	at := 0
	for a.owner[at] != none {
		done[at] = true
		at = a.nextColumn(at, slack, from, done)
	}
	for at != 0 {
		a.owner[at] = a.owner[from[at]]
		at = from[at]
	}
}

// nextColumn relaxes the slack of the open columns from column at, moves the
// potentials, and returns the open column that has none left.
func (a *assignment) nextColumn(at int, slack []int64, from []int, done []bool) int {
	i, next := a.owner[at], 0
	for j := 1; j < len(a.col); j++ {
		if done[j] {
			continue
		}
		if rest := a.cost[i][j-1] - a.row[i] - a.col[j]; rest < slack[j] {
			slack[j], from[j] = rest, at
		}
		if next == 0 || slack[j] < slack[next] {
			next = j
		}
	}
	least := slack[next]
	for j := range a.col {
		if done[j] {
			a.row[a.owner[j]] += least
			a.col[j] -= least
		} else {
			slack[j] -= least
		}
	}
	return next
}
