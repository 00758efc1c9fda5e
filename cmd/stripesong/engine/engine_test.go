package engine_test

import (
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/cmd/stripesong/engine"
)

// The codes of answers are those of net/http, which package engine can't afford.
func TestAnswersWithoutABench(t *testing.T) {
	e := engine.New(nil, nil, "")
	for _, c := range []struct {
		what string
		ask  engine.Ask
		want int
	}{
		{"a path there is not", engine.Ask{Method: "GET", Path: "/nothing"}, http.StatusNotFound},
		{"another method", engine.Ask{Method: "GET", Path: "/do"}, http.StatusNotFound},
		{"no JSON", engine.Ask{Method: "POST", Path: "/do", Body: []byte("x")}, http.StatusBadRequest},
		{"an unknown field", engine.Ask{Method: "POST", Path: "/stop", Body: []byte(`{"n":1}`)},
			http.StatusBadRequest},
		{"no distance", engine.Ask{Method: "GET", Path: "/seen", Query: url.Values{"m": {"-1"}}},
			http.StatusBadRequest},
		{"nothing to stop", engine.Ask{Method: "POST", Path: "/stop", Body: []byte(`{"job":1}`)},
			http.StatusOK},
	} {
		t.Run(c.what, func(t *testing.T) {
			assert.Equal(t, c.want, e.Answer(c.ask).Status)
		})
	}
}
