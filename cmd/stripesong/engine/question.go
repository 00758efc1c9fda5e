package engine

import (
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/workbench"
)

// question is a [Conflict] with what saving would take out of the file.
type question struct {
	*Conflict
	lost []string
}

// asks is what the page asks before it saves.
type asks struct {
	Why  Why      `json:"why"`
	Lost []string `json:"lost"` // lines of the file, the first few
	More int      `json:"more"` // how many more of them
}

// mostLost is how many lines are shown of what would be lost.
const mostLost = 6

// mostWrote is how many lines are shown of what is new in a file, and how many of what is gone.
const mostWrote = 24

func (q *question) asks() *asks {
	a := &asks{Why: q.Why, Lost: []string{}}
	for _, line := range q.lost[:min(len(q.lost), mostLost)] {
		a.Lost = append(a.Lost, screen.Short(screen.Visible(line)))
	}
	a.More = len(q.lost) - len(a.Lost)
	return a
}

// wrote is what saving changed in the file, by its lines.
type wrote struct {
	Lines int      `json:"lines"` // how many are new or gone
	New   []string `json:"new"`   // the first few of them
	Gone  []string `json:"gone"`
}

func newWrote(was, is []byte) wrote {
	fresh, gone := workbench.Lost(is, was), workbench.Lost(was, is)
	few := func(all []string) []string {
		shown := []string{}
		for _, line := range all[:min(len(all), mostWrote)] {
			shown = append(shown, screen.Short(screen.Visible(line)))
		}
		return shown
	}
	return wrote{len(fresh) + len(gone), few(fresh), few(gone)}
}
