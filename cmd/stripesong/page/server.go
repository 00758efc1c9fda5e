package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"net"
	"net/http"
	"sync"
	"time"

	"stripesong/sequence/workbench"
)

//go:embed index.html style.css page.js icon.svg
var files embed.FS

// Server is the page of one bench.
type Server struct {
	mu    sync.Mutex // held while the bench or the job is looked at or changed
	bench *workbench.Bench
	job   *job            // what is being worked on; nil for nothing
	jobs  int             // how many there were
	kept  kept            // where the bench's text is kept
	turn  chan struct{}   // holds one thing while there is a job
	life  context.Context // ends when the server does

	keeping sync.Mutex // held while the text is kept, before mu

	desk   Desk
	again  string // the command that starts the program as it was started
	door   *door
	host   string // "127.0.0.1:4321"
	listen net.Listener
	limit  limiter

	farewell time.Duration // how long the end waits for what is under way
}

// New makes the server of a bench; it does not listen yet. Where the program does not
// answer any more, the page tells the command that starts it again.
func New(bench *workbench.Bench, desk Desk, again string) (*Server, error) {
	door, err := newDoor()
	if err != nil {
		return nil, err
	}
	return &Server{bench: bench, desk: desk, again: again, door: door, limit: limiter{now: time.Now},
		turn: make(chan struct{}, 1), life: context.Background(), farewell: 2 * time.Second}, nil
}

// Listen takes a port of 127.0.0.1: the one given, or with 0 a free one. It
// returns the address of the page.
func (s *Server) Listen(port int) (string, error) {
	l, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return "", err
	}
	s.listen, s.host = l, l.Addr().String()
	return s.Address(), nil
}

// Address is where the page is, secret and all.
func (s *Server) Address() string { return "http://" + s.host + "/" + s.door.secret + "/" }

// Serve answers until the context ends, which also stops what is worked on.
func (s *Server) Serve(ctx context.Context) error {
	s.life = ctx
	server := &http.Server{Handler: s.Handler(),
		ReadHeaderTimeout: time.Minute, ReadTimeout: time.Minute,
		WriteTimeout: answering, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 8 << 10}
	stopped := context.AfterFunc(ctx, func() {
		s.keepNow() // before anything is waited for
		patience, done := context.WithTimeout(context.Background(), s.farewell)
		defer done()
		if server.Shutdown(patience) != nil {
			server.Close()
		}
	})
	defer stopped()
	err := server.Serve(s.listen)
	if !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	select { // what is worked on stops, and clears up
	case s.turn <- struct{}{}:
	case <-time.After(s.farewell):
	}
	return nil
}
