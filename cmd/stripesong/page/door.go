package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"net/http"
	"strings"
	"sync"
)

// door is who may come in. The printed address has a secret in its path. A
// browser that the program starts must not be told that secret: it gets a code,
// which it exchanges for a cookie once.
type door struct {
	secret string // the first part of the printed address
	place  string // the first part of the address for who has the cookie

	mu     sync.Mutex
	code   string        // what opens once; "" when it is spent
	spent  chan struct{} // closed when the code is
	used   string        // the code that was exchanged
	cookie string        // what it was exchanged for; "" for nothing
}

// onceAt is the first part of the address that takes codes.
const onceAt = "once"

// cookieName is that of the cookie, which is sent to the page's path alone:
// other ports of this machine are of the same site and would see it.
const cookieName = "stripesong"

func newDoor() (*door, error) {
	d := &door{spent: make(chan struct{})}
	for _, part := range []*string{&d.secret, &d.place, &d.code} {
		var err error
		if *part, err = randomText(); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// randomText is 24 random bytes as letters, digits, dashes and underlines.
func randomText() (string, error) {
	bytes := make([]byte, 24)
	_, err := rand.Read(bytes)
	return base64.RawURLEncoding.EncodeToString(bytes), err
}

// prefix is what to take off the path of a request that may come in, or knock
// with a code; "" where it may not, and why.
func (d *door) prefix(r *http.Request) (prefix, why string) {
	first, _, found := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	d.mu.Lock()
	defer d.mu.Unlock()
	switch {
	case found && first == onceAt:
		return "/" + onceAt, ""
	case found && same(first, d.secret):
		d.spend()
		return "/" + d.secret, ""
	case !found || !same(first, d.place):
		return "", "there is no such page"
	}
	if c, err := r.Cookie(cookieName); err == nil && d.cookie != "" && same(c.Value, d.cookie) {
		return "/" + d.place, ""
	}
	return "", "this window may not come in any more; open the address printed in the terminal"
}

// spend makes the code open nothing. The lock is held.
func (d *door) spend() {
	if d.code != "" {
		d.code = ""
		close(d.spent)
	}
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// What a browser is told whose code opens nothing.
const (
	usedBefore = "this address has been used before, and it opens the page only once. " +
		"Whoever used it is shut out now: open the address printed in the terminal"
	opensNothing = "this address opens nothing any more; open the address printed in the terminal"
)

// exchange answers a request that brings a code. Where one comes a second time
// nobody knows which of the two was the weaver's, so the first is shut out too.
func (d *door) exchange(w http.ResponseWriter, r *http.Request) {
	code := strings.TrimPrefix(r.URL.Path, "/"+onceAt+"/")
	d.mu.Lock()
	defer d.mu.Unlock()
	switch {
	case r.Method != http.MethodGet:
		http.Error(w, "this takes GET alone", http.StatusMethodNotAllowed)
	case d.used != "" && same(code, d.used):
		d.cookie = ""
		http.Error(w, usedBefore, http.StatusGone)
	case d.code == "" || !same(code, d.code):
		http.Error(w, opensNothing, http.StatusGone)
	default:
		d.let(w)
	}
}

// let turns the code into a cookie and sends the browser to the page.
func (d *door) let(w http.ResponseWriter) {
	cookie, err := randomText()
	if err != nil {
		http.Error(w, "there is no chance to be had", http.StatusInternalServerError)
		return
	}
	d.cookie, d.used = cookie, d.code
	d.spend()
	at := "/" + d.place + "/"
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: cookie, Path: at,
		HttpOnly: true, SameSite: http.SameSiteStrictMode})
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	fmt.Fprintf(w, onward, at)
}

// onward leads the browser to the page. It is not told to go on by a status: it
// comes from a file, and a browser that is sent on by a status is still on its way
// from there, and shows no cookie that is for the page's own way alone.
const onward = `<!DOCTYPE html>
<html lang="en">
<meta charset="utf-8">
<meta http-equiv="refresh" content="0; url=%[1]s">
<link rel="icon" href="data:,">
<title>stripesong</title>
<p>The page opens by itself. If it does not, <a href="%[1]s">open it</a>.</p>
</html>
`

// Once is an address that opens the page one time, for a browser that is
// started with it. It holds until it is used, until [Server.Address] is, or
// until [Server.Forget].
func (s *Server) Once() string {
	s.door.mu.Lock()
	defer s.door.mu.Unlock()
	return fmt.Sprintf("http://%s/%s/%s", s.host, onceAt, s.door.code)
}

// Forget makes the address of [Server.Once] open nothing.
func (s *Server) Forget() {
	s.door.mu.Lock()
	defer s.door.mu.Unlock()
	s.door.spend()
}

// Spent is closed when the address of [Server.Once] opens nothing any more.
func (s *Server) Spent() <-chan struct{} { return s.door.spent }
