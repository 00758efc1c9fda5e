package page_test

import (
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// let asks for an address with a code, which must let it in, and gives the cookie
// and the address that it leads on to.
func let(t *testing.T, once string) (cookie *http.Cookie, page string) {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, once, nil)
	require.NoError(t, err)
	answer, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, answer.StatusCode, "%s", text)
	require.Len(t, answer.Cookies(), 1)
	leads := regexp.MustCompile(`<meta http-equiv="refresh" content="0; url=(/[^"]+/)">`).
		FindSubmatch(text)
	require.Len(t, leads, 2, "%s", text)
	return answer.Cookies()[0], strings.Join(strings.Split(once, "/")[:3], "/") + string(leads[1])
}

// knock asks for an address without following where it sends one.
func knock(t *testing.T, address string, change func(*http.Request)) *http.Response {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, address, nil)
	require.NoError(t, err)
	if change != nil {
		change(r)
	}
	answer, err := http.DefaultTransport.RoundTrip(r)
	require.NoError(t, err)
	answer.Body.Close()
	return answer
}

// with carries a cookie as a browser would.
func with(c *http.Cookie) func(*http.Request) {
	return func(r *http.Request) { r.AddCookie(&http.Cookie{Name: c.Name, Value: c.Value}) }
}

func TestACodeOpensOnce(t *testing.T) {
	server, bench, _ := serve(t, brief.Default())
	secret := strings.Split(server.Address(), "/")[3]
	once := server.Once()
	assert.NotContains(t, once, secret)
	cookie, page := let(t, once)

	t.Run("the cookie", func(t *testing.T) {
		assert.True(t, cookie.HttpOnly)
		assert.Equal(t, http.SameSiteStrictMode, cookie.SameSite)
		assert.Equal(t, page, strings.Join(strings.Split(page, "/")[:3], "/")+cookie.Path,
			"other programs on this machine are not sent it")
		assert.Len(t, cookie.Value, 32, "24 random bytes")
		assert.Zero(t, cookie.MaxAge, "gone with the browser")
		for _, text := range []string{cookie.Value, page} {
			assert.NotContains(t, text, secret)
			assert.NotContains(t, text, strings.Split(once, "/")[4])
		}
	})
	t.Run("the page with it", func(t *testing.T) {
		for _, name := range []string{"", "app/main.js", "view"} {
			assert.Equal(t, http.StatusOK, knock(t, page+name, with(cookie)).StatusCode, name)
		}
		status, _ := post(t, page, "do", rename, with(cookie))
		assert.Equal(t, http.StatusOK, status)
		assert.Contains(t, string(bench.Text()), "changed by a stranger")
	})
	t.Run("what the guard refuses with it", func(t *testing.T) {
		status, _ := post(t, page, "do", rename, func(r *http.Request) {
			with(cookie)(r)
			r.Header.Set("Origin", "http://evil.example")
		})
		assert.Equal(t, http.StatusForbidden, status)
		status, _ = post(t, page, "do", rename, func(r *http.Request) {
			with(cookie)(r)
			r.Host = "evil.example"
		})
		assert.Equal(t, http.StatusMisdirectedRequest, status)
	})
	t.Run("the page without it", func(t *testing.T) {
		for _, change := range []func(*http.Request){
			nil, with(&http.Cookie{Name: cookie.Name, Value: strings.Repeat("A", 32)}),
			with(&http.Cookie{Name: cookie.Name, Value: secret})} {
			status, text := get(t, page+"view", change)
			assert.Equal(t, http.StatusNotFound, status)
			assert.NotContains(t, text, "Orchard")
		}
	})
	t.Run("again by the one who has it", func(t *testing.T) {
		again := knock(t, once, with(cookie))
		assert.Equal(t, http.StatusGone, again.StatusCode,
			"its path is not that of the page, so a browser does not send it")
	})
}

// Where two have come with one code nobody knows which was the weaver: both
// are shut out, and the address in the terminal holds.
func TestACodeUsedTwice(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	once := server.Once()
	cookie, page := let(t, once)
	status, text := get(t, once, nil)
	assert.Equal(t, http.StatusGone, status)
	assert.Contains(t, text, "used before")
	status, text = get(t, page+"view", with(cookie))
	assert.Equal(t, http.StatusNotFound, status)
	assert.Contains(t, text, "in the terminal")
	status, _ = get(t, server.Address()+"view", nil)
	assert.Equal(t, http.StatusOK, status)
	status, _ = get(t, once, nil)
	assert.Equal(t, http.StatusGone, status)
}

func TestACodeIsSpentWithThePrintedAddress(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	once := server.Once()
	get(t, server.Address(), nil)
	answer := knock(t, once, nil)
	assert.Equal(t, http.StatusGone, answer.StatusCode)
	assert.Empty(t, answer.Cookies())
	<-server.Spent()
}

// What only the code may do, coming from elsewhere, the page may not.
func TestOnlyACodeMayComeFromAFile(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	cookie, page := let(t, server.Once())
	file := fetched("navigate", "document")
	assert.Equal(t, http.StatusForbidden, knock(t, server.Address(), file).StatusCode)
	assert.Equal(t, http.StatusForbidden,
		knock(t, page, func(r *http.Request) { file(r); with(cookie)(r) }).StatusCode)
}

func TestACodeIsNotSpentByStrangers(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	once := server.Once()
	root := strings.Join(strings.Split(once, "/")[:4], "/")
	for _, one := range []struct {
		what, address string
		status        int
		change        func(*http.Request)
	}{
		{"another host", once, 421, func(r *http.Request) { r.Host = "evil.example" }},
		{"another page", once, 403, func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", "cross-site")
		}},
		{"a script of another page", once, 403, fetched("cors", "empty")},
		{"a picture in another page", once, 403, fetched("no-cors", "image")},
		{"a frame in another page", once, 403, fetched("navigate", "iframe")},
		{"another method", once, 405, func(r *http.Request) { r.Method = http.MethodHead }},
		{"another code", root + "/" + strings.Repeat("A", 32), 410, nil},
		{"half of it", once[:len(once)-8], 410, nil},
		{"none", root, 404, nil},
		{"something below it", once + "/view", 410, nil},
	} {
		assert.Equal(t, one.status, knock(t, one.address, one.change).StatusCode, one.what)
	}
	select {
	case <-server.Spent():
		t.Error("it is spent")
	default:
	}
	assert.Equal(t, http.StatusOK, knock(t, once, fetched("navigate", "document")).StatusCode,
		"a file, opened by itself")
	<-server.Spent()
}

// fetched is how a browser asks for something on behalf of another page or a file.
func fetched(mode, dest string) func(*http.Request) {
	return func(r *http.Request) {
		r.Header.Set("Sec-Fetch-Site", "cross-site")
		r.Header.Set("Sec-Fetch-Mode", mode)
		r.Header.Set("Sec-Fetch-Dest", dest)
	}
}

// What comes without the secret can't use up what is left for the page.
func TestTheLimitCountsOnlyWhoMayComeIn(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	server.Freeze()
	address := server.Address()
	root := strings.Join(strings.Split(address, "/")[:3], "/") + "/"
	for range 3 * 600 {
		status, _ := get(t, root+"guess/view", nil)
		require.Equal(t, http.StatusNotFound, status)
	}
	status, _ := get(t, address+"icon.svg", nil)
	assert.Equal(t, http.StatusOK, status)
}

func TestTooManyRequests(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	server.Freeze()
	for range 600 {
		status, _ := get(t, server.Address()+"icon.svg", nil)
		require.Equal(t, http.StatusOK, status)
	}
	status, _ := get(t, server.Address()+"icon.svg", nil)
	assert.Equal(t, http.StatusTooManyRequests, status)
}

// A browser comes from a file, takes the cookie, sends it with everything the page asks for, and
// keeps it through a reload.
func TestACodeInABrowser(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, brief.Default())
	b := newBrowser(t, 1024, 768)
	file := filepath.Join(t.TempDir(), "a file.html")
	leads := `<!DOCTYPE html><meta http-equiv="refresh" content="0; url=` + server.Once() + `">`
	require.NoError(t, os.WriteFile(file, []byte(leads), 0o600))
	b.do(chromedp.Navigate("about:blank"))
	before := eval[int](b, `history.length`)
	b.do(chromedp.Navigate((&url.URL{Scheme: "file", Path: file}).String()))
	b.arrive()
	assert.NotContains(t, eval[string](b, `location.href`), strings.Split(server.Address(), "/")[3])
	assert.Equal(t, before+1, eval[int](b, `history.length`),
		"nothing to go back to that would use the code again")
	assert.Empty(t, eval[string](b, `document.cookie`), "no script sees it")
	b.click("#sizes")
	b.enter("#settings input", "Evening towels")
	assert.Equal(t, "Evening towels", bench.Plan().Title)
	b.do(chromedp.Reload())
	b.settle()
	assert.Equal(t, "Evening towels", eval[string](b, `stripesong.state.view.title`))
	b.quiet()
}
