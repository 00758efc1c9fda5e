package page

import "time"

// Freeze stops the clock of the limit on requests, so that a test knows what
// is left.
func (s *Server) Freeze() {
	s.limit.mu.Lock()
	defer s.limit.mu.Unlock()
	at := time.Unix(0, 0)
	s.limit.now = func() time.Time { return at }
}
