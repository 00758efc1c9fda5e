package main

import (
	"bufio"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opened is "stripesong page --open" where what is to open a browser writes down
// what it was started with.
type opened struct {
	*exec.Cmd
	dir     string // that of the brief, the user's own, and that for what is temporary
	printed string // the address
	given   string // to the browser
}

func openIn(t *testing.T, program, dir string) *opened {
	t.Helper()
	pipe := filepath.Join(dir, "pipe")
	if exec.Command("mkfifo", pipe).Run() != nil {
		t.Skip("needs a pipe with a name")
	}
	script := "#!/bin/sh\nprintf '%s\\n' \"$@\" >" + pipe + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(script), 0o755))
	o := &opened{Cmd: exec.Command(program, "page", "--open"), dir: dir}
	o.Dir = dir
	o.Env = append(os.Environ(), "HOME="+dir, "TMPDIR="+dir,
		"PATH="+dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	out, err := o.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, o.Start())
	t.Cleanup(func() { o.Process.Kill(); o.Wait() })
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if o.printed = strings.TrimSpace(lines.Text()); strings.HasPrefix(o.printed,
			"http://127.0.0.1:") {
			break
		}
	}
	go io.Copy(io.Discard, out)
	text, err := os.ReadFile(pipe)
	require.NoError(t, err)
	require.NoError(t, os.Remove(pipe))
	o.given = strings.TrimSpace(string(text))
	return o
}

// file is what the browser was started with.
func (o *opened) file(t *testing.T) string {
	t.Helper()
	at, err := url.Parse(o.given)
	require.NoError(t, err)
	require.Equal(t, "file", at.Scheme, o.given)
	return at.Path
}

// --open starts a browser with the name of a file that only the user can read: no
// address that opens the page is on its command line, which all users can read.
func TestOpenKeepsTheSecretFromTheCommandLine(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the browser is started by xdg-open on Linux alone")
	}
	o := openIn(t, binary(t), t.TempDir())
	file := o.file(t)
	for path, want := range map[string]os.FileMode{file: 0o600, filepath.Dir(file): 0o700} {
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, want, info.Mode().Perm(), path)
	}
	leads := regexp.MustCompile(`url=(http://127[^"]+)"`).FindSubmatch(read(t, file))
	require.Len(t, leads, 2)
	once := string(leads[1])
	require.Len(t, strings.Split(o.printed, "/"), 5, o.printed)
	secret, code := strings.Split(o.printed, "/")[3], strings.Split(once, "/")[4]
	assert.NotContains(t, once, secret)
	for _, hidden := range []string{secret, code} {
		assert.NotContains(t, o.given, hidden)
	}
	first, err := http.Get(once)
	require.NoError(t, err)
	first.Body.Close()
	assert.Equal(t, http.StatusOK, first.StatusCode, "it lets in")
	again, err := http.Get(once)
	require.NoError(t, err)
	again.Body.Close()
	assert.Equal(t, http.StatusGone, again.StatusCode, "and only once")
	o.gone(t)
}

// gone waits until no file that led a browser is left.
func (o *opened) gone(t *testing.T) {
	t.Helper()
	for left := []string{""}; len(left) > 0; time.Sleep(time.Millisecond) {
		var err error
		left, err = filepath.Glob(filepath.Join(o.dir, openingPrefix+"*"))
		require.NoError(t, err)
	}
}

// The file goes with the end of the program, and after a kill with the next start.
func TestOpenLeavesNothing(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the browser is started by xdg-open on Linux alone")
	}
	program, dir := binary(t), t.TempDir()
	killed := openIn(t, program, dir)
	require.NoError(t, killed.Process.Kill())
	killed.Wait()
	assert.FileExists(t, killed.file(t))
	ended := openIn(t, program, dir)
	assert.NoFileExists(t, killed.file(t))
	assert.FileExists(t, ended.file(t))
	require.NoError(t, ended.Process.Signal(os.Interrupt))
	require.NoError(t, ended.Wait())
	ended.gone(t)
}
