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
	mux.HandleFunc("GET /{$}", file("index.html", "text/html; charset=utf-8"))
	mux.HandleFunc("GET /style.css", file("style.css", "text/css; charset=utf-8"))
	mux.HandleFunc("GET /page.js", file("page.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET /icon.svg", file("icon.svg", "image/svg+xml"))
	for _, r := range engine.Routes() {
		mux.HandleFunc(r.Method+" "+r.Path, s.pass)
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

// answering is how long an answer may take to be taken, from when it is ready.
const answering = 2 * time.Minute

// pass has the engine answer a request.
func (s *Server) pass(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	if err != nil {
		http.Error(w, "the request can't be read", http.StatusBadRequest)
		return
	}
	answer := s.Engine.Answer(engine.Ask{Method: r.Method, Path: r.URL.Path,
		Query: r.URL.Query(), Body: body})
	late := time.Now().Add(answering) // the work may have taken longer than that
	http.NewResponseController(w).SetWriteDeadline(late)
	w.Header().Set("Content-Type", answer.Kind)
	w.WriteHeader(answer.Status)
	w.Write(answer.Body)
}
