package page_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// built is the whole program, built when the first test asks for it.
var built struct {
	sync.Once
	dir string
	err error
}

// program is where the whole program is.
func program(t testing.TB) string {
	t.Helper()
	path := func() string { return filepath.Join(built.dir, "stripesong") }
	built.Do(func() {
		if built.dir, built.err = os.MkdirTemp("", "stripesong-test-*"); built.err != nil {
			return
		}
		out, err := exec.Command("go", "build", "-o", path(), "stripesong/cmd/stripesong").
			CombinedOutput()
		built.err = err
		if err != nil {
			built.err = fmt.Errorf("%w: %s", err, out)
		}
	})
	require.NoError(t, built.err)
	return path()
}

// running is "stripesong page" in a folder.
type running struct {
	*exec.Cmd
	address string
	said    *bufio.Scanner
}

func start(t testing.TB, program, dir string, args ...string) *running {
	t.Helper()
	r := &running{Cmd: exec.Command(program, append([]string{"page"}, args...)...)}
	r.Dir = dir
	out, err := r.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, r.Start())
	t.Cleanup(func() { r.Process.Kill() })
	r.said = bufio.NewScanner(out)
	for r.said.Scan() {
		if line := strings.TrimSpace(r.said.Text()); strings.HasPrefix(line, "http://127.0.0.1:") {
			r.address = line
		}
		if strings.HasSuffix(r.said.Text(), "Ctrl-C ends it") {
			break
		}
	}
	require.NotEmpty(t, r.address, "it printed no address")
	return r
}

// interrupt is Ctrl-C; it gives what the program said after it.
func (r *running) interrupt(t *testing.T) string {
	t.Helper()
	require.NoError(t, r.Process.Signal(os.Interrupt))
	var said []string
	for r.said.Scan() {
		said = append(said, r.said.Text())
	}
	require.NoError(t, r.Wait(), "Ctrl-C is how it ends, and all is well")
	return strings.Join(said, "\n")
}

func runIn(dir, name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Dir = dir
	out, err := c.Output()
	return string(out), err
}

func TestPortTaken(t *testing.T) {
	t.Parallel()
	stripesong, dir := program(t), t.TempDir()
	first := start(t, stripesong, dir)
	port := strings.Split(strings.Split(first.address, "/")[2], ":")[1]
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	c := exec.CommandContext(ctx, stripesong, "page", "--port", port)
	out, err := c.CombinedOutput()
	require.Error(t, err)
	assert.Equal(t, 2, c.ProcessState.ExitCode())
	assert.Contains(t, string(out), "can't answer at port "+port)
	assert.Contains(t, string(out), "hint: leave --port out")
	assert.Empty(t, first.interrupt(t))
}
