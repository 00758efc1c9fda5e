package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onSmallDisk runs a shell script in a folder of a disk of so many kilobytes,
// which only it can see. The program is $stripesong, the small brief $brief.
func onSmallDisk(t *testing.T, kilobytes int, script string) string {
	t.Helper()
	if runtime.GOOS != "linux" || os.Getuid() != 0 ||
		exec.Command("unshare", "-m", "true").Run() != nil {
		t.Skip("only root can put up a small disk")
	}
	brief, err := filepath.Abs("testdata/small.toml")
	require.NoError(t, err)
	disk := t.TempDir()
	cmd := exec.Command("unshare", "-m", "sh", "-c",
		fmt.Sprintf("mount -t tmpfs -o size=%dk none %q && cd %q && %s", kilobytes, disk, disk,
			script))
	cmd.Env = append(os.Environ(), "stripesong="+binary(t), "brief="+brief)
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return string(out)
}

// busy matches what is told on a slow machine before the answer comes.
const busy = `(stripesong: .* \.\.\.\n)*`

// TestFullDisk: with too little room nothing is left behind, and what stood
// there stands there still.
func TestFullDisk(t *testing.T) {
	out := onSmallDisk(t, 64, `$stripesong plan $brief --out o; echo "code $?"; ls -A`)
	assert.Regexp(t, "^"+busy+
		"stripesong: error: can't write the folder \"o\": .*no space left on device\n"+
		"stripesong: hint: .*\ncode 2\n$", out)
	out = onSmallDisk(t, 900, `$stripesong plan $brief --out o >log; sha256sum o/* >before; head -c 500000 /dev/zero >filler 2>/dev/null
		$stripesong plan $brief --out o --seed 9; echo "code $?"; sha256sum -c --quiet before && ls -A`)
	assert.Regexp(t, "no space left on device\nstripesong: hint: .*\ncode 2\nbefore\nfiller\n"+
		"log\no\n$", out)
}

// TestFullDiskLeavesNoFolders: nor one that was made for a drawing.
func TestFullDiskLeavesNoFolders(t *testing.T) {
	out := onSmallDisk(t, 16,
		`head -c 90000 /dev/zero >filler 2>/dev/null; $stripesong contrast $brief --out a/b; echo "code $?"; ls -A`)
	assert.Regexp(t, "no space left on device\nstripesong: hint: .*\ncode 2\nfiller\n$", out)
}

// TestFullDiskKeepsABrief: a brief that can't be rewritten stays as it is.
func TestFullDiskKeepsABrief(t *testing.T) {
	out := onSmallDisk(t, 32,
		`cp $brief b.toml; head -c 90000 /dev/zero >filler 2>/dev/null; $stripesong try b.toml --keep 3; echo "code $?"; cmp b.toml $brief && ls -A`)
	assert.Regexp(t, "no space left on device(\nstripesong: hint: .*)?\ncode 2\nb.toml\nfiller\n$",
		out)
}

// TestReadOnlyDisk says why nothing can be written.
func TestReadOnlyDisk(t *testing.T) {
	out := onSmallDisk(t, 600,
		`cp $brief b.toml; mount -o remount,ro . ; $stripesong plan b.toml --out o; echo "code $?"; $stripesong try b.toml --keep 2; echo "code $?"; $stripesong new c.toml; echo "code $?"; ls -A`)
	refused := busy + "stripesong: error: .*read-only file system\n(.*\n)*code 2\n"
	assert.Regexp(t, "^"+refused+refused+refused+"b.toml\n$", out)
}

// TestRewritingIsOneStep kills the program while it rewrites a brief: the old
// text or the new, whole, and the next run clears up.
func TestRewritingIsOneStep(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a few seconds")
	}
	program, dir := binary(t), t.TempDir()
	before := read(t, "testdata/small.toml")
	name := filepath.Join(dir, "b.toml")
	keep := func() *exec.Cmd {
		return exec.Command(program, "try", name, "--count", "4", "--keep", "3")
	}
	require.NoError(t, os.WriteFile(name, before, 0o640))
	whole := runTime(t, keep())
	after := read(t, name)
	require.NotEqual(t, before, after)
	chance, killed := rand.New(rand.NewPCG(1, 2)), 0
	for range kills(60) {
		require.NoError(t, os.WriteFile(name, before, 0o640))
		cmd := keep()
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(chance.Int64N(int64(whole * 5 / 4))))
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			killed++
		}
		if got := read(t, name); !slices.Equal(got, before) {
			require.Equal(t, string(after), string(got))
		}
	}
	assert.Positive(t, killed)
	require.NoError(t, keep().Run())
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 2, "nothing is left beside the brief and what it was: %v", entries)
	assert.Equal(t, string(before), string(read(t, filepath.Join(dir, "b-before.toml"))))
	info, err := os.Stat(name)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())
}

// kills is how often a program is killed: a few hundred times where all checks
// are run, fewer otherwise.
func kills(n int) int {
	if os.Getenv("STRIPESONG_CI") != "" {
		return 5 * n
	}
	return n / 4
}
