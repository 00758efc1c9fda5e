package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// binary builds a program and returns its path.
func binary(t testing.TB, name, pkg string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	build := exec.Command("go", "build", "-o", path, pkg)
	build.Env = append(os.Environ(), "CGO_ENABLED=0") // as .ci/release does
	out, err := build.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return path
}

// hello builds a program that only prints a line.
func hello(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	source := "package main\n\nimport \"fmt\"\n\nfunc main() { fmt.Println(\"hello\") }\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "hello.go"), []byte(source), 0o644))
	return binary(t, "hello", filepath.Join(dir, "hello.go"))
}

// leastCPU is the least user and system time of several runs in dir.
func leastCPU(t testing.TB, dir string, runs int, name string, args ...string) time.Duration {
	t.Helper()
	least := time.Hour
	for range runs {
		cmd := exec.Command(name, args...)
		cmd.Dir = dir
		require.NoError(t, cmd.Run())
		least = min(least, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime())
	}
	return least
}

// TestPlanIsQuick holds the whole process, files and all, against a program
// that only prints a line: at most ten times its CPU, the least of many runs,
// taken in turns so that a busy machine treats both alike. What others do at the
// same time only ever adds, so it goes on until the least is well below, or for
// a minute and a half.
func TestPlanIsQuick(t *testing.T) {
	if testing.Short() || raceEnabled {
		t.Skip("it measures time")
	}
	line, plan, dir := hello(t), binary(t, "stripesong", "."), t.TempDir()
	best, base, ours := 1e9, time.Hour, time.Hour
	for from := time.Now(); time.Since(from) < 90*time.Second; {
		base = min(base, leastCPU(t, dir, 10, line))
		ours = min(ours, leastCPU(t, dir, 5, plan, "plan"))
		if best = float64(ours) / float64(base); best < 9 {
			break
		}
	}
	t.Logf("plan %v, a line %v: %.1f times", ours, base, best)
	assert.LessOrEqual(t, best, 10.0)
}

// wholePlan tells whether dir holds a plan with all its files.
func wholePlan(t *testing.T, dir string, pieces int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	require.NoError(t, err)
	var p struct{ Pieces []any }
	require.NoError(t, json.Unmarshal(text, &p))
	require.Len(t, p.Pieces, pieces)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 4+3*pieces)
}

// TestKilledAtAnyMoment kills plan while it replaces a folder: what stands
// there afterwards is the old plan or the new one, whole, and the next run
// clears up.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a few seconds")
	}
	program, dir := binary(t, "stripesong", "."), t.TempDir()
	brief, err := filepath.Abs("testdata/small.toml")
	require.NoError(t, err)
	run := func(pieces string) *exec.Cmd {
		cmd := exec.Command(program, "plan", brief, "--out", "o", "--pieces", pieces)
		cmd.Dir = dir
		return cmd
	}
	require.NoError(t, run("2").Run())
	killed := 0
	for i := range kills(40) {
		cmd := run("3")
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(i%50) * time.Millisecond)
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			killed++
		}
		entries, err := os.ReadDir(filepath.Join(dir, "o"))
		require.NoError(t, err)
		wholePlan(t, filepath.Join(dir, "o"), len(entries)/3-1)
	}
	assert.Positive(t, killed)
	require.NoError(t, run("2").Run())
	wholePlan(t, filepath.Join(dir, "o"), 2)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1, "no rooms are left: %v", entries)
}

func TestInterruptedLeavesNothing(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no interrupt to send")
	}
	program := binary(t, "stripesong", ".")
	for _, by := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT} {
		if signal.Ignored(by) { // under nohup, what the tests start lives on too
			continue
		}
		t.Run(by.String(), func(t *testing.T) { interrupt(t, program, by) })
	}
}

// interrupt stops plan in the middle, three times.
func interrupt(t *testing.T, program string, by syscall.Signal) {
	dir, stopped := t.TempDir(), 0
	for wait := time.Millisecond; wait < 200*time.Millisecond && stopped < 3; wait += 2 * time.Millisecond {
		cmd := exec.Command(program, "plan", "--out", "o", "--pieces", "6")
		var mistakes bytes.Buffer
		cmd.Dir, cmd.Stderr = dir, &mistakes
		require.NoError(t, cmd.Start())
		time.Sleep(wait)
		cmd.Process.Signal(by)
		if cmd.Wait() == nil || !strings.Contains(mistakes.String(), "interrupted") {
			os.RemoveAll(filepath.Join(dir, "o")) // it came before the work, or after it
			continue
		}
		stopped++
		assert.Equal(t, exitFailed, cmd.ProcessState.ExitCode())
		assert.Equal(t, "stripesong: error: interrupted: nothing was written\nstripesong: hint: nothing is left behind; run it again when you like\n", mistakes.String())
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, entries)
	}
	assert.Positive(t, stopped, "never stopped in the middle")
}
