package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// built is the whole program, built when the first test asks for it.
var built struct {
	sync.Once
	dir string
	err error
}

// binary is where the whole program is.
func binary(t testing.TB) string {
	t.Helper()
	path := func() string {
		name := "stripesong"
		if runtime.GOOS == "windows" {
			name += ".exe"
		}
		return filepath.Join(built.dir, name)
	}
	built.Do(func() {
		if built.dir, built.err = os.MkdirTemp("", "stripesong-test-*"); built.err != nil {
			return
		}
		build := exec.Command("go", "build", "-o", path(), ".")
		build.Env = append(os.Environ(), "CGO_ENABLED=0") // as .ci/release does
		if out, err := build.CombinedOutput(); err != nil {
			built.err = fmt.Errorf("%w: %s", err, out)
		}
	})
	require.NoError(t, built.err)
	return path()
}

// BenchmarkPlan is a whole process, from its start to its files, BenchmarkLine a
// process that only prints a line, which is the floor of both.
func BenchmarkPlan(b *testing.B) { benchmarkProcess(b, "plan") }

func BenchmarkLine(b *testing.B) { benchmarkProcess(b, "--version") }

// benchmarkProcess tells the processor time of a run besides the time it takes.
func benchmarkProcess(b *testing.B, args ...string) {
	program, dir := binary(b), b.TempDir()
	var used time.Duration
	for b.Loop() {
		cmd := exec.Command(program, args...)
		cmd.Dir = dir
		require.NoError(b, cmd.Run())
		used += cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	}
	b.ReportMetric(float64(used.Nanoseconds())/float64(b.N), "cpu-ns/op")
}

// wholePlan tells how many pieces the plan in dir has, all of whose files must be
// there: a list of them, four for the set, and five for each piece.
func wholePlan(t *testing.T, dir string) (pieces int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	require.NoError(t, err)
	var p struct{ Pieces []any }
	require.NoError(t, json.Unmarshal(text, &p))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 5+5*len(p.Pieces))
	return len(p.Pieces)
}

// TestKilledAtAnyMoment kills plan while it replaces a folder: what stands
// there afterwards is the old plan or the new one, whole, and the next run
// clears up.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a few seconds")
	}
	program, dir := binary(t), t.TempDir()
	brief, err := filepath.Abs("testdata/small.toml")
	require.NoError(t, err)
	run := func(pieces string) *exec.Cmd {
		cmd := exec.Command(program, "plan", brief, "--out", "o", "--pieces", pieces)
		cmd.Dir = dir
		return cmd
	}
	whole := runTime(t, run("2"))
	killed := 0
	for i := range kills(40) {
		cmd := run("3")
		require.NoError(t, cmd.Start())
		time.Sleep(whole * time.Duration(i%20) / 16)
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			killed++
		}
		require.Contains(t, []int{2, 3}, wholePlan(t, filepath.Join(dir, "o")))
	}
	assert.Positive(t, killed)
	require.NoError(t, run("2").Run())
	require.Equal(t, 2, wholePlan(t, filepath.Join(dir, "o")))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1, "no working folders are left: %v", entries)
}

func TestInterruptedLeavesNothing(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no interrupt to send")
	}
	program := binary(t)
	whole := runTime(t, exec.Command(program, "plan", "--out", filepath.Join(t.TempDir(), "o")))
	for _, by := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP,
		syscall.SIGQUIT} {
		if signal.Ignored(by) { // under nohup, what the tests start lives on too
			continue
		}
		t.Run(by.String(), func(t *testing.T) { interrupt(t, program, by, whole) })
	}
}

// interrupt stops plan in the middle, three times: at moments spread over the
// time that a whole run takes here, as often as it needs.
func interrupt(t *testing.T, program string, by syscall.Signal, whole time.Duration) {
	dir, stopped := t.TempDir(), 0
	chance := rand.New(rand.NewPCG(1, 2))
	for tries := 0; tries < 2000 && stopped < 3; tries++ {
		cmd := exec.Command(program, "plan", "--out", "o", "--pieces", "6")
		var mistakes bytes.Buffer
		cmd.Dir, cmd.Stderr = dir, &mistakes
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(chance.Int64N(int64(whole))))
		cmd.Process.Signal(by)
		if cmd.Wait() == nil || !strings.Contains(mistakes.String(), "interrupted") {
			os.RemoveAll(filepath.Join(dir, "o")) // it came before the work, or after it
			continue
		}
		stopped++
		assert.Equal(t, exitFailed, cmd.ProcessState.ExitCode())
		assert.Equal(t, "stripesong: error: interrupted: nothing was written\n"+
			"stripesong: hint: nothing is left behind; run it again when you like\n",
			withoutProgress(mistakes.String()))
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, entries)
	}
	assert.Equal(t, 3, stopped, "never stopped in the middle")
}

// withoutProgress is what a program said, but for what it says of work that takes long:
// on a busy machine any does.
func withoutProgress(said string) string {
	return regexp.MustCompile(`(?m)^stripesong: .* \.\.\.\n`).ReplaceAllString(said, "")
}

// runTime is how long a command takes here.
func runTime(t *testing.T, cmd *exec.Cmd) time.Duration {
	t.Helper()
	from := time.Now()
	require.NoError(t, cmd.Run())
	return time.Since(from)
}
