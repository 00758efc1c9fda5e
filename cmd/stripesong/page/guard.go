package page

import (
	"net/http"
	"strings"
	"sync"
	"time"
)

// MaxBody is the most bytes a request may carry.
const MaxBody = 64 << 10

// policy lets the page load what stands beside it and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; " +
	"img-src 'self' data: blob:; connect-src 'self'; " +
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

// guarded lets through only what the page itself can have sent, and hides from
// what is behind how it came in.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		for name, value := range headers {
			w.Header().Set(name, value)
		}
		prefix, status, why := s.admit(r)
		switch {
		case why != "":
			http.Error(w, why, status)
		case prefix == "/"+onceAt:
			s.door.exchange(w, r)
		default:
			r.Body = http.MaxBytesReader(w, r.Body, MaxBody)
			http.StripPrefix(prefix, next).ServeHTTP(w, r)
		}
	})
}

// admit gives the first part of the path a request comes in by, or says why it
// may not. The limit is asked last of all that a stranger could use up.
func (s *Server) admit(r *http.Request) (prefix string, status int, why string) {
	if r.Host != s.host {
		return "", http.StatusMisdirectedRequest, "this is not the address of the page"
	}
	prefix, why = s.door.prefix(r)
	switch {
	case why != "":
		return "", http.StatusNotFound, why
	case prefix != "/"+onceAt && !s.limit.allow():
		return "", http.StatusTooManyRequests, "too many requests"
	}
	status, why = s.refuse(r)
	return prefix, status, why
}

// refuse says why a request is not answered, whoever sends it; "" where it is.
func (s *Server) refuse(r *http.Request) (status int, why string) {
	origin, site := r.Header.Get("Origin"), r.Header.Get("Sec-Fetch-Site")
	switch {
	case origin != "" && origin != "http://"+s.host:
		return http.StatusForbidden, "the request comes from another page"
	case site != "" && site != "same-origin" && site != "none" && !s.leads(r):
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

// leads tells whether a request brings a code from the file that leads a browser
// here, which is no page of this site. It is known by its code.
func (s *Server) leads(r *http.Request) bool {
	return strings.HasPrefix(r.URL.Path, "/"+onceAt+"/") &&
		r.Header.Get("Sec-Fetch-Mode") == "navigate" && r.Header.Get("Sec-Fetch-Dest") == "document"
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
