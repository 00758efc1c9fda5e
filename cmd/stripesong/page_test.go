package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// livePage is the page of a brief, served for one test.
type livePage struct {
	t       *testing.T
	brief   string // its file
	address string
	said    *bytes.Buffer // on stdout; to be read when the page is closed
	close   func() error
}

// pageAnswer is what a test looks at of an answer.
type pageAnswer struct {
	status int
	Said   string
	Asks   *struct {
		Why  string
		Lost []string
		More int
	}
	Kept struct{ Where, Wrong string }
	Left []struct {
		ID   int
		Says string
	}
	View struct {
		Title   string
		Saved   bool
		Edition int
	}
}

// openPage serves a brief of its own folder, as "stripesong page" does.
func openPage(t *testing.T, operand string) *livePage {
	t.Helper()
	return openPageWith(t, operand, t.TempDir())
}

// openPageWith has its folders for state and for what is temporary elsewhere.
func openPageWith(t *testing.T, operand, elsewhere string) *livePage {
	t.Helper()
	t.Setenv("TMPDIR", elsewhere)
	p := &livePage{t: t, brief: operand, said: &bytes.Buffer{}}
	env := func(name string) string {
		return map[string]string{"XDG_STATE_HOME": filepath.Join(elsewhere, "state")}[name]
	}
	w := &world{in: strings.NewReader(""), out: bufio.NewWriter(p.said), err: io.Discard,
		terminal: p.said, env: env}
	ctx, stop := context.WithCancel(context.Background())
	one, err := newPage(ctx, w, operand)
	require.NoError(t, err)
	io.WriteString(w.out, one.storage.keeping.greeting())
	p.address, err = one.server.Listen(0)
	require.NoError(t, err)
	done := make(chan error, 1)
	go func() { done <- one.serve(ctx) }()
	closed := false
	p.close = func() error {
		if closed {
			return nil
		}
		closed = true
		stop()
		err := <-done
		w.out.Flush()
		return err
	}
	t.Cleanup(func() { assert.NoError(t, p.close()) })
	return p
}

// post sends the page what its script would send.
func (p *livePage) post(path, body string) pageAnswer {
	p.t.Helper()
	r, err := http.NewRequest(http.MethodPost, p.address+path, strings.NewReader(body))
	require.NoError(p.t, err)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", strings.Join(strings.Split(p.address, "/")[:3], "/"))
	answer, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(p.t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(p.t, err)
	got := pageAnswer{status: answer.StatusCode}
	require.NoError(p.t, json.Unmarshal(text, &got), "%s", text)
	return got
}

func (p *livePage) view() pageAnswer {
	p.t.Helper()
	answer, err := http.Get(p.address + "view")
	require.NoError(p.t, err)
	defer answer.Body.Close()
	var got pageAnswer
	require.NoError(p.t, json.NewDecoder(answer.Body).Decode(&got))
	return got
}

func (p *livePage) title(to string) pageAnswer {
	p.t.Helper()
	return p.post("do", `{"op":{"do":"setting","key":"title","value":"`+to+`"}}`)
}

// briefIn writes the small brief into a folder of its own and returns its name.
func briefIn(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "towels.toml")
	require.NoError(t, os.WriteFile(name, read(t, "testdata/small.toml"), 0o640))
	return name
}

// appendTo is another program writing to a file.
func appendTo(t *testing.T, name, text string) {
	t.Helper()
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_APPEND, 0)
	require.NoError(t, err)
	_, err = f.WriteString(text)
	require.NoError(t, err)
	require.NoError(t, f.Close())
}

// A file is known only when it was read and is a brief: what another program
// left half written is not written over.
func TestAFailedRereadKnowsNothing(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	require.Equal(t, 200, p.title("On the page").status)
	appendTo(t, name, "titel = [\n")
	byHand := string(read(t, name))
	assert.Equal(t, 409, p.post("save", "{}").status)
	assert.Equal(t, 422, p.post("reread", "{}").status, "the file is no brief now")
	again := p.post("save", "{}")
	assert.Equal(t, 409, again.status, "it was not taken over, so it is not known")
	assert.Equal(t, "changed", again.Asks.Why)
	assert.Equal(t, byHand, string(read(t, name)))
}

// What is wrong with a long value is told with its beginning and its length.
func TestALongValueIsToldShort(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	long := strings.Repeat("k", 300_000)
	appendTo(t, name, "[vary]\nkinship = \""+long+"\"\n")
	got := p.post("reread", "{}")
	assert.Equal(t, 422, got.status)
	assert.Contains(t, got.Said, `"`+long[:59]+"… (300002 characters) is none of")
	assert.Less(t, len(got.Said), 200)
}

// Writing over a changed file is agreed to for the change that was told, not
// for one that comes after.
func TestOverIsForTheChangeThatWasTold(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	require.Equal(t, 200, p.title("On the page").status)
	appendTo(t, name, "# by hand\n")
	assert.Equal(t, 409, p.post("save", "{}").status)
	appendTo(t, name, "# and more\n")
	byHand := string(read(t, name))
	assert.Equal(t, 409, p.post("save", `{"over":true}`).status)
	assert.Equal(t, byHand, string(read(t, name)))
	assert.Equal(t, 200, p.post("save", `{"over":true}`).status, "now it was told of this one")
	assert.Contains(t, string(read(t, name)), "On the page")
}

// After a reread that succeeds the file is known, and saving needs no asking.
func TestARereadFileIsKnown(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	appendTo(t, name, "# by hand\n")
	assert.Equal(t, 200, p.post("reread", "{}").status)
	require.Equal(t, 200, p.title("On the page").status)
	assert.Equal(t, 200, p.post("save", "{}").status)
	assert.Contains(t, string(read(t, name)), "# by hand")
}
