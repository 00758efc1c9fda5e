package main

import (
	"bufio"
	"net/http"
	"net/http/cookiejar"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// --open starts a browser with an address that opens the page once: the secret
// of the printed address is not on its command line, which all users can read.
func TestOpenKeepsTheSecretFromTheCommandLine(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the browser is started by xdg-open on Linux alone")
	}
	if _, err := exec.LookPath("mkfifo"); err != nil {
		t.Skip("needs a pipe with a name")
	}
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe")
	require.NoError(t, exec.Command("mkfifo", pipe).Run())
	script := "#!/bin/sh\nprintf '%s\\n' \"$@\" >" + pipe + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(script), 0o755))
	page := exec.Command(binary(t, "stripesong", "."), "page", "--open")
	page.Dir, page.Env = dir, append(os.Environ(), "PATH="+dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	out, err := page.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, page.Start())
	defer func() { page.Process.Kill(); page.Wait() }()
	printed := ""
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if printed = strings.TrimSpace(lines.Text()); strings.HasPrefix(printed, "http://127.0.0.1:") {
			break
		}
	}
	started, err := os.ReadFile(pipe)
	require.NoError(t, err)
	given := strings.TrimSpace(string(started))
	require.True(t, strings.HasPrefix(given, "http://127.0.0.1:"), given)
	require.Len(t, strings.Split(printed, "/"), 5, printed)
	assert.NotContains(t, given, strings.Split(printed, "/")[3])
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	opened, err := (&http.Client{Jar: jar}).Get(given)
	require.NoError(t, err)
	opened.Body.Close()
	assert.Equal(t, http.StatusOK, opened.StatusCode, "it opens the page")
	again, err := http.Get(given)
	require.NoError(t, err)
	again.Body.Close()
	assert.Equal(t, http.StatusGone, again.StatusCode, "and only once")
}
