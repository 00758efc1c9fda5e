package engine_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io/fs"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/folder"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
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
		{"no JSON", engine.Ask{Method: "POST", Path: "/do", Body: []byte("x")},
			http.StatusBadRequest},
		{"an unknown field", engine.Ask{Method: "POST", Path: "/stop", Body: []byte(`{"n":1}`)},
			http.StatusBadRequest},
		{"no photo", engine.Ask{Method: "POST", Path: "/photo", Body: []byte(`{"pixels":""}`)},
			http.StatusBadRequest},
		{"nothing to stop", engine.Ask{Method: "POST", Path: "/stop", Body: []byte(`{"job":1}`)},
			http.StatusOK},
	} {
		t.Run(c.what, func(t *testing.T) {
			assert.Equal(t, c.want, e.Answer(c.ask).Status)
		})
	}
}

// What the engine gives is what the plan's folder has, one by one and in a zip; nothing
// is kept for that, so that it needs no [Storage].
func TestFilesAreThoseOfTheFolder(t *testing.T) {
	bench, err := workbench.Open(t.Context(), "towels", brief.Default(), brief.Options{})
	require.NoError(t, err)
	e := engine.New(bench, nil, "")
	get := func(name string) engine.Answer {
		return e.Answer(engine.Ask{Method: "GET", Path: "/file", Query: url.Values{"name": {name}}})
	}
	all := get("orchard kitchen.zip")
	require.Equal(t, http.StatusOK, all.Status)
	assert.Equal(t, all.Body, get("orchard kitchen.zip").Body, "the same bytes each time")
	in, err := zip.NewReader(bytes.NewReader(all.Body), int64(len(all.Body)))
	require.NoError(t, err)
	files := folder.Files(bench.Plan())
	require.Len(t, in.File, len(files))
	for i, f := range files {
		var want bytes.Buffer
		require.NoError(t, f.Write(&want, bench.Plan()))
		got, err := fs.ReadFile(in, "orchard-kitchen/"+f.Name)
		require.NoError(t, err)
		require.Equal(t, f.Name, strings.TrimPrefix(in.File[i].Name, "orchard-kitchen/"))
		require.True(t, bytes.Equal(want.Bytes(), got), f.Name)
	}
	single := get("plan.json")
	assert.Equal(t, "application/json", single.Kind)
	var made struct{ Title string }
	require.NoError(t, json.Unmarshal(single.Body, &made))
	assert.Equal(t, bench.Plan().Title, made.Title)
	assert.Equal(t, http.StatusNotFound, get("../plan.json").Status)
}
