package page_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
)

// post sends JSON the way the page does, after change has had its way with it.
func post(t testing.TB, address, path, body string, change func(*http.Request)) (int, string) {
	t.Helper()
	r, err := http.NewRequest(http.MethodPost, address+path, strings.NewReader(body))
	require.NoError(t, err)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", strings.Join(strings.Split(address, "/")[:3], "/"))
	if change != nil {
		change(r)
	}
	return fetch(t, r)
}

func fetch(t testing.TB, r *http.Request) (int, string) {
	t.Helper()
	answer, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	assert.NotContains(t, answer.Header, "Access-Control-Allow-Origin")
	return answer.StatusCode, string(text)
}

func get(t testing.TB, address string, change func(*http.Request)) (int, string) {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, address, nil)
	require.NoError(t, err)
	if change != nil {
		change(r)
	}
	return fetch(t, r)
}

const rename = `{"op":{"do":"setting","key":"title","value":"changed by a stranger"}}`

func TestStrangersAreRefused(t *testing.T) {
	server, bench, _ := serve(t, brief.Default())
	address := server.Address()
	secret := strings.Split(address, "/")[3]
	assert.Len(t, secret, 32, "24 random bytes")
	root := strings.TrimSuffix(address, secret+"/")
	for _, one := range []struct {
		what   string
		status int
		change func(*http.Request)
	}{
		{"another name for this machine", 421, func(r *http.Request) {
			r.Host = "localhost:" + r.URL.Port()
		}},
		{"a name that was made to point here", 421, func(r *http.Request) {
			r.Host = "evil.example"
		}},
		{"another port", 421, func(r *http.Request) { r.Host = "127.0.0.1:1" }},
		{"another page", 403, func(r *http.Request) {
			r.Header.Set("Origin", "http://evil.example")
		}},
		{"a page on another port", 403, func(r *http.Request) {
			r.Header.Set("Origin", "http://127.0.0.1:1")
		}},
		{"a page without an address", 403, func(r *http.Request) {
			r.Header.Set("Origin", "null")
		}},
		{"nobody", 403, func(r *http.Request) { r.Header.Del("Origin") }},
		{"a page from elsewhere", 403, func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", "cross-site")
		}},
		{"a form", 415, func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") }},
		{"without the secret", 404, func(r *http.Request) { r.URL.Path = "/do" }},
		{"with half of it", 404, func(r *http.Request) { r.URL.Path = "/" + secret[:16] + "/do" }},
		{"with another", 404, func(r *http.Request) {
			r.URL.Path = "/" + strings.Repeat("A", 32) + "/do"
		}},
		{"another method", 405, func(r *http.Request) { r.Method = http.MethodPut }},
	} {
		status, text := post(t, address, "do", rename, one.change)
		assert.Equal(t, one.status, status, one.what)
		assert.NotContains(t, text, "Orchard", one.what)
	}
	for _, path := range []string{"", "view", "app/main.js", "..", "%2e%2e/", "../../etc/passwd"} {
		status, text := get(t, root+path, nil)
		assert.Equal(t, http.StatusNotFound, status, path)
		assert.NotContains(t, text, "Orchard")
	}
	assert.Equal(t, string(brief.Default()), string(bench.Text()))
	status, _ := post(t, address, "do", rename, nil)
	assert.Equal(t, http.StatusOK, status, "the page itself")
}

func TestPathsReachNoFile(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	for _, path := range []string{"server.go", "doc.go", "..%2f..%2fgo.mod", "%2e%2e/%2e%2e/go.mod",
		"index.html", "style.css/", "./../page.go", "app/main.js%00"} {
		status, text := get(t, server.Address()+path, nil)
		assert.Contains(t, []int{http.StatusNotFound, http.StatusBadRequest,
			http.StatusMovedPermanently, http.StatusTemporaryRedirect}, status, path)
		assert.NotContains(t, text, "package page")
	}
	for _, name := range []string{"", "app/main.js", "style.css", "icon.svg", "view"} {
		status, _ := get(t, server.Address()+name, nil)
		assert.Equal(t, http.StatusOK, status, name)
	}
}

func TestLargeAndBrokenBodies(t *testing.T) {
	server, bench, _ := serve(t, brief.Default())
	large := `{"title":"` + strings.Repeat("x", page.MaxBody) + `"}`
	status, _ := post(t, server.Address(), "save-as", large, nil)
	assert.Equal(t, http.StatusRequestEntityTooLarge, status)
	status, _ = post(t, server.Address(), "save-as", large, func(r *http.Request) {
		r.ContentLength = -1
	})
	assert.Equal(t, http.StatusBadRequest, status, "of unknown length")
	for _, body := range []string{"", "[]", "{", `{"nothing":1}`, `{"op":{"do":7}}`, "null x"} {
		status, _ = post(t, server.Address(), "do", body, nil)
		assert.Contains(t, []int{http.StatusBadRequest, http.StatusUnprocessableEntity},
			status, body)
	}
	assert.Equal(t, string(brief.Default()), string(bench.Text()))
}

func TestHeadersAndAddress(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	host, port, err := net.SplitHostPort(strings.Split(server.Address(), "/")[2])
	require.NoError(t, err)
	assert.Equal(t, "127.0.0.1", host)
	assert.NotEqual(t, "0", port)
	answer, err := http.Get(server.Address())
	require.NoError(t, err)
	defer answer.Body.Close()
	policy := answer.Header.Get("Content-Security-Policy")
	assert.Contains(t, policy, "default-src 'none'")
	assert.NotContains(t, policy, "unsafe")
	assert.NotContains(t, policy, "http:")
	assert.Equal(t, "no-referrer", answer.Header.Get("Referrer-Policy"))
	assert.Equal(t, "nosniff", answer.Header.Get("X-Content-Type-Options"))
	assert.Equal(t, "no-store", answer.Header.Get("Cache-Control"))
}

func TestSavingWhereTheFileChanged(t *testing.T) {
	server, _, storage := serve(t, brief.Default())
	post(t, server.Address(), "do", rename, nil)
	storage.asks = engine.Changed
	storage.saved = append(bytes.Clone(storage.saved), "# by hand\n"...)
	byHand := string(storage.saved)
	status, text := post(t, server.Address(), "save", "{}", nil)
	assert.Equal(t, http.StatusConflict, status)
	var answer struct {
		Asks struct {
			Why  string
			Lost []string
		}
		View struct{ Saved bool }
	}
	require.NoError(t, json.Unmarshal([]byte(text), &answer))
	assert.Equal(t, "changed", answer.Asks.Why)
	assert.Equal(t, []string{`title = "Orchard kitchen towels"`, "# by hand"}, answer.Asks.Lost)
	assert.False(t, answer.View.Saved)
	assert.Equal(t, byHand, string(storage.saved))
	status, _ = post(t, server.Address(), "save", `{"over":true}`, nil)
	assert.Equal(t, http.StatusOK, status)
	assert.Contains(t, string(storage.saved), "changed by a stranger")
	unsaved, _ := server.Unsaved()
	assert.Nil(t, unsaved)
}

// A window that shows an older edition is told so and changes nothing.
func TestAnotherWindow(t *testing.T) {
	server, bench, _ := serve(t, brief.Default())
	old := bench.Edition()
	post(t, server.Address(), "do", rename, nil)
	before := string(bench.Text())
	status, text := post(t, server.Address(), "do",
		fmt.Sprintf(`{"edition":%d,"op":{"do":"piece.drop","strip":0}}`, old), nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status)
	assert.Contains(t, text, "another window has changed the brief")
	assert.Equal(t, before, string(bench.Text()))
}

// Many edits with their views and pictures, 250 or, with STRIPESONG_LONG=1, 4000,
// leave the server as small as it was.
func TestServerStaysSmall(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	edit := func(i int) {
		body := fmt.Sprintf(`{"op":{"do":"colour.hex","colour":"oat","value":"#ffee%02x"}}`, i%256)
		status, _ := post(t, server.Address(), "do", body, nil)
		require.Equal(t, http.StatusOK, status)
		if i%20 == 0 {
			get(t, server.Address()+"file?name=plan.svg", nil)
		}
	}
	heap := func() int64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	for i := range 50 {
		edit(i)
	}
	before := heap()
	edits := 250
	if os.Getenv("STRIPESONG_LONG") == "1" {
		edits = 4000
	}
	for i := range edits {
		edit(i)
	}
	grown := heap() - before
	t.Logf("%d KiB more after %d edits, all of which can be undone", grown>>10, edits)
	assert.Less(t, grown, int64(edits)<<10, "a KiB each")
}
