package page

import (
	"crypto/subtle"
	"net/http"
	"strings"
	"sync"
	"time"
)

// MaxBody is the most bytes a request may carry.
const MaxBody = 64 << 10

// policy lets the page load what stands beside it and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

var headers = map[string]string{
	"Content-Security-Policy":      policy,
	"Referrer-Policy":              "no-referrer",
	"X-Content-Type-Options":       "nosniff",
	"X-Frame-Options":              "DENY",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Cache-Control":                "no-store",
	"Permissions-Policy":           "camera=(), microphone=(), geolocation=()",
}

// guarded lets through only what the page itself can have sent, and hides the
// secret from what is behind.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		for name, value := range headers {
			w.Header().Set(name, value)
		}
		if status, why := s.refuse(r); why != "" {
			http.Error(w, why, status)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, MaxBody)
		http.StripPrefix("/"+s.secret, next).ServeHTTP(w, r)
	})
}

// refuse says why a request is not answered; "" where it is.
func (s *Server) refuse(r *http.Request) (status int, why string) {
	origin, site := r.Header.Get("Origin"), r.Header.Get("Sec-Fetch-Site")
	switch {
	case r.Host != s.host:
		return http.StatusMisdirectedRequest, "this is not the address of the page"
	case !s.limit.allow():
		return http.StatusTooManyRequests, "too many requests"
	case !s.secretIn(r.URL.Path):
		return http.StatusNotFound, "there is no such page"
	case origin != "" && origin != "http://"+s.host:
		return http.StatusForbidden, "the request comes from another page"
	case site != "" && site != "same-origin" && site != "none":
		return http.StatusForbidden, "the request comes from another page"
	case r.Method == http.MethodPost && origin == "":
		return http.StatusForbidden, "the request does not say which page it comes from"
	case r.Method == http.MethodPost && r.Header.Get("Content-Type") != "application/json":
		return http.StatusUnsupportedMediaType, "the request is not JSON"
	case r.ContentLength > MaxBody:
		return http.StatusRequestEntityTooLarge, "the request is too large"
	}
	return 0, ""
}

func (s *Server) secretIn(path string) bool {
	first, _, found := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	return found && subtle.ConstantTimeCompare([]byte(first), []byte(s.secret)) == 1
}

// limiter lets a number of requests through at once and refills steadily: far
// more than a hand makes, far less than a machine.
type limiter struct {
	mu   sync.Mutex
	now  func() time.Time
	last time.Time
	left float64
}

const (
	atOnce    = 600.0
	perSecond = 300.0
)

func (l *limiter) allow() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	if l.last.IsZero() {
		l.left = atOnce
	} else {
		l.left = min(atOnce, l.left+float64(now.Sub(l.last).Seconds()*perSecond))
	}
	l.last = now
	if l.left < 1 {
		return false
	}
	l.left--
	return true
}
