package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"stripesong/cmd/stripesong/engine"
)

//go:embed index.html style.css icon.svg app/*.js
var files embed.FS

// Server is the page of one engine.
type Server struct {
	*engine.Engine
	door   *door
	host   string // "127.0.0.1:4321"
	listen net.Listener
	limit  limiter

	farewell time.Duration // how long the end waits for what is under way
}

// New makes the server of an engine; it does not listen yet.
func New(behind *engine.Engine) (*Server, error) {
	door, err := newDoor()
	if err != nil {
		return nil, err
	}
	return &Server{Engine: behind, door: door, limit: limiter{now: time.Now},
		farewell: 2 * time.Second}, nil
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
	s.LiveUntil(ctx)
	server := &http.Server{Handler: s.Handler(),
		ReadHeaderTimeout: time.Minute, ReadTimeout: time.Minute,
		WriteTimeout: answering, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 8 << 10}
	stopped := context.AfterFunc(ctx, func() {
		s.Keep() // before anything is waited for
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
	s.Rest(time.After(s.farewell)) // what is worked on stops, and clears up
	return nil
}
