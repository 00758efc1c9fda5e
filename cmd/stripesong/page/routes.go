package page

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"time"

	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

// Handler answers the requests of the page.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", file("index.html", "text/html; charset=utf-8"))
	mux.HandleFunc("GET /style.css", file("style.css", "text/css; charset=utf-8"))
	mux.HandleFunc("GET /page.js", file("page.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET /icon.svg", file("icon.svg", "image/svg+xml"))
	mux.HandleFunc("GET /view", s.answer(func(context.Context, request) (string, error) { return "", nil }))
	mux.HandleFunc("GET /threads", s.threads)
	mux.HandleFunc("GET /seen", s.seen)
	for path, work := range map[string]work{
		"/do": s.do, "/undo": s.undo, "/redo": s.redo, "/aside": s.aside,
		"/save": s.save, "/save-as": s.saveAs, "/reread": s.reread, "/publish": s.publish,
	} {
		mux.HandleFunc("POST "+path, s.answer(work))
	}
	return s.guarded(mux)
}

func file(name, kind string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		text, err := files.ReadFile(name)
		if err != nil {
			http.Error(w, "there is no such page", http.StatusNotFound)
			return
		}
		w.Header().Set("Content-Type", kind)
		w.Write(text)
	}
}

// request is what the page sends; which fields count depends on the path.
type request struct {
	Op    workbench.Op `json:"op"`
	Title string       `json:"title"`
	Over  bool         `json:"over"`
	Aside string       `json:"aside"` // "put", "clear" or "back"

	// Edition is that of the view the page showed; a page that shows an older
	// one, in a second window, is told so instead of changing what it can't see.
	Edition int `json:"edition"`
}

// reply is what the page gets: the view, and what was done or why not.
type reply struct {
	View     *workbench.View `json:"view,omitempty"`
	Said     string          `json:"said"`
	Problems []problem       `json:"problems,omitempty"`
	Changed  bool            `json:"changed,omitempty"` // the file on the disk is another
}

type problem struct {
	Key  string `json:"key"`
	What string `json:"what"`
	Hint string `json:"hint"`
}

// work does what a request is for and says what was done.
type work func(context.Context, request) (string, error)

// patience is how long one change may take.
const patience = 30 * time.Second

// answer reads a request, does its work with the bench to itself, and writes
// the reply.
func (s *Server) answer(do work) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var q request
		if r.Method == http.MethodPost {
			d := json.NewDecoder(r.Body)
			d.DisallowUnknownFields()
			if err := d.Decode(&q); err != nil {
				http.Error(w, "the request can't be read", http.StatusBadRequest)
				return
			}
		}
		ctx, stop := context.WithTimeout(r.Context(), patience)
		defer stop()
		s.mu.Lock()
		said, err := s.current(ctx, r, q, do)
		view := s.bench.View()
		s.mu.Unlock()
		status, answer := conclude(said, err)
		answer.View = &view
		write(w, status, answer)
	}
}

// current does the work of a request that speaks of the present edition.
func (s *Server) current(ctx context.Context, r *http.Request, q request, do work) (string, error) {
	if r.Method == http.MethodPost && q.Edition != 0 && q.Edition != s.bench.Edition() {
		return "", brief.Problems{{What: "another window has changed the brief", Hint: "this one shows it now: look, and do it again"}}
	}
	return do(ctx, q)
}

func conclude(said string, err error) (int, reply) {
	var problems brief.Problems
	switch {
	case err == nil:
		return http.StatusOK, reply{Said: said}
	case errors.Is(err, ErrChanged):
		return http.StatusConflict, reply{Said: err.Error(), Changed: true}
	case errors.As(err, &problems):
		a := reply{Said: problems[0].What}
		for _, p := range problems[:min(len(problems), 5)] {
			a.Problems = append(a.Problems, problem{p.Key, p.What, p.Hint})
		}
		return http.StatusUnprocessableEntity, a
	case errors.Is(err, context.DeadlineExceeded):
		err = errors.New("it took too long, and nothing was changed")
	}
	return http.StatusUnprocessableEntity, reply{Said: err.Error(), Problems: []problem{{What: err.Error()}}}
}

func write(w http.ResponseWriter, status int, v any) {
	text, err := json.Marshal(v)
	if err != nil {
		http.Error(w, "the answer can't be written", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	w.Write(text)
}

func (s *Server) do(ctx context.Context, q request) (string, error) { return s.bench.Do(ctx, q.Op) }

func (s *Server) undo(ctx context.Context, _ request) (string, error) {
	what, err := s.bench.Undo(ctx)
	return prefixed("undone: ", what, "there is nothing to undo"), err
}

func (s *Server) redo(ctx context.Context, _ request) (string, error) {
	what, err := s.bench.Redo(ctx)
	return prefixed("done again: ", what, "there is nothing to do again"), err
}

func prefixed(prefix, what, otherwise string) string {
	if what == "" {
		return otherwise
	}
	return prefix + what
}

func (s *Server) aside(ctx context.Context, q request) (string, error) {
	switch q.Aside {
	case "put":
		s.bench.SetAside()
		return "this version is put beside; go on with the other", nil
	case "back":
		return s.bench.FromAside(ctx)
	}
	s.bench.ClearAside()
	return "the version beside is taken away", nil
}

func (s *Server) save(_ context.Context, q request) (string, error) {
	text := s.bench.Text()
	name, err := s.desk.Save(text, q.Over)
	if err != nil {
		return "", err
	}
	s.bench.MarkSaved(text)
	return "saved in " + name, nil
}

func (s *Server) saveAs(_ context.Context, q request) (string, error) {
	text := s.bench.Text()
	name, err := s.desk.SaveAs(q.Title, text)
	if err != nil {
		return "", err
	}
	return "a copy is saved as " + name, nil
}

func (s *Server) reread(ctx context.Context, _ request) (string, error) {
	text, err := s.desk.Reread()
	if err != nil {
		return "", err
	}
	if err := s.bench.Load(ctx, text, "the file as it is now"); err != nil {
		return "", err
	}
	s.desk.Known(text)
	s.bench.MarkSaved(text)
	return "this is the file as it is now; undo brings your version back", nil
}

func (s *Server) publish(ctx context.Context, _ request) (string, error) {
	folder, err := s.desk.Publish(ctx, s.bench.Plan())
	return "drawings and lists are in the folder " + folder, err
}

// threads answers with one piece down to its crossings.
func (s *Server) threads(w http.ResponseWriter, r *http.Request) {
	piece, _ := strconv.Atoi(r.URL.Query().Get("piece"))
	s.mu.Lock()
	t := s.bench.Threads(piece)
	s.mu.Unlock()
	write(w, http.StatusOK, t)
}
