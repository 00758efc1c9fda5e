package workbench

// begun is where a gesture began, so that it can be given up as if it had never been.
type begun struct {
	version
	gesture string
	history history
	at      int
}

// beginning is where a gesture began: now, unless the latest change was part of it. It is
// nil for none.
func (b *Bench) beginning(gesture string) *begun {
	if gesture == "" {
		return nil
	}
	if of := b.begunBy(gesture); of != nil {
		return of
	}
	return &begun{b.version, gesture, b.history, b.at}
}

// begunBy is where a gesture began that the latest change was part of; nil if it was not.
func (b *Bench) begunBy(gesture string) *begun {
	if gesture == "" || b.begun == nil || b.begun.gesture != gesture {
		return nil
	}
	return b.begun
}

// runs are those of the warp or a piece when the gesture began; nil where it had none.
func (g *begun) runs(strip int) []run {
	switch {
	case strip == Warp:
		return warpRuns(g.plan)
	case strip >= 0 && strip < len(g.plan.Pieces):
		return pieceRuns(g.plan, strip)
	}
	return nil
}

// GiveUp takes a gesture back that the latest change was part of, and tells whether it
// was: text and steps, those that can be redone too, are as before it began.
func (b *Bench) GiveUp(gesture string) bool {
	was := b.begunBy(gesture)
	if was == nil {
		return false
	}
	b.version, b.history, b.at, b.begun = was.version, was.history, was.at, nil
	b.edition++
	return true
}
