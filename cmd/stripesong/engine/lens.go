package engine

import (
	"bytes"
	"strconv"

	"stripesong/palette"
	"stripesong/sequence/workbench"
	"stripesong/svg"
)

// lens answers with a little of a piece thread by thread, as an SVG: about a column
// as the side is seen and a pick, both from 0.
func (s *Engine) lens(a Ask) Answer {
	q := a.Query
	number := func(key string) int {
		n, err := strconv.Atoi(q.Get(key))
		if err != nil {
			return -1 // which there is not
		}
		return n
	}
	at := svg.Magnifier{Column: number("column"), Pick: number("pick"), Back: q.Get("side") == "back"}
	if eyes := number("eyes"); eyes > 0 {
		at.See = func(c palette.Linear) palette.Linear { return workbench.Through(eyes, c) }
	}
	s.mu.Lock()
	plan := s.bench.Plan()
	s.mu.Unlock()
	var drawing bytes.Buffer
	if err := svg.Magnified(&drawing, plan, number("piece"), at); err != nil {
		return refused(notFound, err.Error())
	}
	return Answer{ok, "image/svg+xml", drawing.Bytes()}
}
