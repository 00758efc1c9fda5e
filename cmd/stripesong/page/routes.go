package page

import (
	"io"
	"net/http"
	"time"

	"stripesong/cmd/stripesong/engine"
)

// Handler answers the requests of the page.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", file("index.html"))
	for _, name := range []string{"style.css", "icon.svg"} {
		mux.HandleFunc("GET /"+name, file(name))
	}
	mux.HandleFunc("GET /app/{name}", func(w http.ResponseWriter, r *http.Request) {
		file("app/"+r.PathValue("name"))(w, r)
	})
	for _, r := range engine.Routes() {
		mux.HandleFunc(r.Method+" "+r.Path, s.pass)
	}
	return s.guarded(mux)
}

// answering is how long an answer may take to be taken, from when it is ready.
const answering = 2 * time.Minute

// productPolicy lets a file of the plan style itself and tick its boxes, and keeps it
// from the page and from everything else.
const productPolicy = "sandbox allow-scripts allow-modals; default-src 'none'; " +
	"style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// pass has the engine answer a request.
func (s *Server) pass(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	if err != nil {
		http.Error(w, "the request can't be read", http.StatusBadRequest)
		return
	}
	q := r.URL.Query()
	answer := s.Engine.Answer(engine.Ask{Method: r.Method, Path: r.URL.Path, Query: q, Body: body})
	late := time.Now().Add(answering) // the work may have taken longer than that
	http.NewResponseController(w).SetWriteDeadline(late)
	w.Header().Set("Content-Type", answer.Kind)
	if r.URL.Path == "/file" {
		w.Header().Set("Content-Security-Policy", productPolicy)
		if q.Has("save") && answer.Status == http.StatusOK {
			w.Header().Set("Content-Disposition", "attachment")
		}
	}
	w.WriteHeader(answer.Status)
	w.Write(answer.Body)
}
