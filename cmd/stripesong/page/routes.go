package page

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"time"

	"stripesong/cmd/stripesong/screen"
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
	mux.HandleFunc("GET /view", s.view)
	mux.HandleFunc("GET /status", s.status)
	mux.HandleFunc("GET /threads", s.threads)
	mux.HandleFunc("GET /seen", s.seen)
	mux.HandleFunc("GET /lens", s.lens)
	mux.HandleFunc("POST /stop", s.stop)
	for path, work := range map[string]work{
		"/do": s.do, "/undo": s.undo, "/redo": s.redo, "/aside": s.aside,
		"/save": s.save, "/save-as": s.saveAs, "/reread": s.reread,
		"/left": s.decide,
	} {
		mux.HandleFunc("POST "+path, s.answer("", work))
	}
	mux.HandleFunc("POST /publish", s.answer("drawing sheets and pictures", s.publish))
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

	Job  int  `json:"job"`  // what to stop
	Left int  `json:"left"` // what to decide on
	Take bool `json:"take"` // to take it up, not to throw it away
}

// reply is what the page gets: the view, and what was done or why not.
type reply struct {
	View     *workbench.View `json:"view,omitempty"`
	Said     string          `json:"said"`
	Problems []problem       `json:"problems,omitempty"`
	Asks     *asks           `json:"asks,omitempty"` // before it saves
	Busy     *busy           `json:"busy,omitempty"` // what is being worked on
	Kept     kept            `json:"kept"`
	Left     []left          `json:"left"`            // with a view
	Again    string          `json:"again,omitempty"` // too: what starts the program again
}

type problem struct {
	Key  string `json:"key"`
	What string `json:"what"`
	Hint string `json:"hint"`
}

// answer reads a request, has its work done, and writes the reply.
func (s *Server) answer(what string, do work) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		q, ok := read(w, r)
		if !ok {
			return
		}
		said, err := s.inTurn(q, what, do)
		status, answer := conclude(said, err)
		s.show(w, status, answer)
	}
}

// read takes the JSON of a request; where it can't, it has answered.
func read(w http.ResponseWriter, r *http.Request) (q request, ok bool) {
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(&q); err != nil {
		http.Error(w, "the request can't be read", http.StatusBadRequest)
		return q, false
	}
	return q, true
}

func (s *Server) view(w http.ResponseWriter, _ *http.Request) {
	s.show(w, http.StatusOK, reply{})
}

// show writes a reply together with the view.
func (s *Server) show(w http.ResponseWriter, status int, answer reply) {
	answer.Left = s.offers()
	s.mu.Lock()
	view := s.bench.View()
	answer.View, answer.Busy, answer.Kept, answer.Again = &view, s.busy(), s.kept, s.again
	s.mu.Unlock()
	late := time.Now().Add(answering) // the work may have taken longer than that
	http.NewResponseController(w).SetWriteDeadline(late)
	write(w, status, answer)
}

// current does the work of a request that speaks of the present edition.
func current(ctx context.Context, at *workbench.Bench, q request, do work) (string, error) {
	if q.Edition != 0 && q.Edition != at.Edition() {
		return "", brief.Problems{{What: "another window has changed the brief",
			Hint: "this one shows it now: look, and do it again"}}
	}
	return do(ctx, at, q)
}

func conclude(said string, err error) (int, reply) {
	var problems brief.Problems
	var q *question
	switch {
	case err == nil:
		return http.StatusOK, reply{Said: said}
	case errors.As(err, &q):
		return http.StatusConflict, reply{Said: q.Error(), Asks: q.asks()}
	case errors.As(err, &problems):
		a := reply{Said: screen.Short(problems[0].What)}
		for _, p := range problems[:min(len(problems), 5)] {
			a.Problems = append(a.Problems,
				problem{screen.Short(p.Key), screen.Short(p.What), screen.Short(p.Hint)})
		}
		return http.StatusUnprocessableEntity, a
	case errors.Is(err, errStopped):
		return http.StatusUnprocessableEntity, reply{Said: err.Error()}
	case errors.Is(err, context.Canceled):
		err = errors.New("the program is ending, and nothing was changed")
	}
	what := screen.Short(err.Error())
	return http.StatusUnprocessableEntity, reply{Said: what, Problems: []problem{{What: what}}}
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

func (s *Server) do(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	return at.Do(ctx, q.Op)
}

func (s *Server) undo(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	what, err := at.Undo(ctx)
	return prefixed("undone: ", what, "there is nothing to undo"), err
}

func (s *Server) redo(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	what, err := at.Redo(ctx)
	return prefixed("done again: ", what, "there is nothing to do again"), err
}

func prefixed(prefix, what, otherwise string) string {
	if what == "" {
		return otherwise
	}
	return prefix + what
}

func (s *Server) aside(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	switch q.Aside {
	case "put":
		at.SetAside()
		return "this version is put beside; go on with the other", nil
	case "back":
		return at.FromAside(ctx)
	}
	at.ClearAside()
	return "the version beside is taken away", nil
}

func (s *Server) save(_ context.Context, at *workbench.Bench, q request) (string, error) {
	text := at.Text()
	name, before, err := s.desk.Save(text, at.Origin(), q.Over)
	var c *Conflict
	if errors.As(err, &c) {
		return "", &question{c, workbench.Lost(c.File, text)}
	}
	if err != nil {
		return "", err
	}
	at.MarkSaved(text)
	said := "saved in " + name
	if before != "" {
		said += "; the brief as it was: " + before
	}
	return said, nil
}

func (s *Server) saveAs(_ context.Context, at *workbench.Bench, q request) (string, error) {
	text := at.Text()
	name, err := s.desk.SaveAs(q.Title, text)
	if err != nil {
		return "", err
	}
	if !s.desk.FromFile() {
		at.MarkSaved(text) // there is nowhere else to save it
	}
	return "a copy is saved as " + name, nil
}

func (s *Server) reread(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	text, origin, err := s.desk.Reread()
	if err != nil {
		return "", err
	}
	if err := at.Load(ctx, text, origin, "the file as it is now"); err != nil {
		return "", err
	}
	s.desk.Known(origin)
	at.MarkSaved(text)
	return "this is the file as it is now; undo brings your version back", nil
}

func (s *Server) publish(ctx context.Context, at *workbench.Bench, _ request) (string, error) {
	folder, err := s.desk.Publish(ctx, at.Plan())
	said := "drawings and lists are in the folder " + folder
	if !at.Saved() {
		said += "; they show your work as it is here, which is not saved yet"
	}
	return said, err
}

// threads answers with one piece down to its crossings.
func (s *Server) threads(w http.ResponseWriter, r *http.Request) {
	piece, _ := strconv.Atoi(r.URL.Query().Get("piece"))
	s.mu.Lock()
	t := s.bench.Threads(piece)
	s.mu.Unlock()
	write(w, http.StatusOK, t)
}
