package page

import "time"

// Freeze stops the clock of the limit on requests, so that a test knows what
// is left.
func (s *Server) Freeze() {
	at := time.Unix(0, 0)
	s.setClock(func() time.Time { return at })
}

// Unlimited lets as many requests through as a fast machine can make: between two
// of them the clock of the limit goes on by an hour.
func (s *Server) Unlimited() {
	at := time.Unix(0, 0)
	s.setClock(func() time.Time { at = at.Add(time.Hour); return at })
}

func (s *Server) setClock(now func() time.Time) {
	s.limit.mu.Lock()
	defer s.limit.mu.Unlock()
	s.limit.now = now
}

// Patient makes the end wait for what is under way, however slow the machine is.
func (s *Server) Patient() { s.farewell = time.Hour }
