package whole

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWithin(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	require.NoError(t, os.MkdirAll("there/below", 0o777))
	require.NoError(t, os.MkdirAll("other", 0o777))
	for name, to := range map[string]string{"link": "there", "deep": "there/below",
		"nowhere": "new", "far": "nowhere/x", "round": "round", "whole": dir} {
		require.NoError(t, os.Symlink(to, name))
	}
	for _, one := range []struct {
		path, dir string
		want      bool
	}{
		{"there/x", "there", true}, {"there", "there", true}, {"there/below/x", "there", true},
		{"other/x", "there", false}, {"therefore", "there", false},
		{"there/../other/x", "there", false},
		{"link/x", "there", true}, {"there/x", "link", true}, {"deep/x", "there", true},
		{"there/x", "deep", false},
		{"deep/../x", "there", true}, {"deep/../../x", "there", false},
		{"whole/there/x", "there", true},
		{filepath.Join(dir, "there", "x"), "there", true},
		{"there/x", filepath.Join(dir, "link"), true},
		{"new/x", "new", true}, {"new", "new", true}, {"new/x", "new/y", false},
		{"newer", "new", false},
		{"nowhere/x", "new", true}, {"new/x", "nowhere", true}, {"far", "new", true},
		{"far/y", "new/x", true},
		{"there/new/x", "link/new", true}, {"link/new", "there/new/sub", false},
		{"round/x", "there", false}, {"..x", "..", true}, {"..", ".", false}, {"x", "/", true},
	} {
		assert.Equal(t, one.want, Within(one.path, one.dir), "%s in %s", one.path, one.dir)
	}
}

// TestOnePlaceByTwoNames: without any link. A folder that is mounted in two places
// stands for one on a disk that takes Towels and towels for the same.
func TestOnePlaceByTwoNames(t *testing.T) {
	if runtime.GOOS != "linux" || os.Getuid() != 0 ||
		exec.Command("unshare", "-m", "true").Run() != nil {
		t.Skip("only root can mount a folder twice")
	}
	if dir := os.Getenv("STRIPESONG_TWICE"); dir != "" {
		t.Chdir(dir)
		assert.True(t, Within("TOWELS/x", "towels"))
		assert.True(t, Within("TOWELS/new/x", "towels/new"))
		assert.False(t, Within("TOWELS/x", "towels/new"))
		assert.False(t, Within("x", "towels"))
		return
	}
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "towels"), 0o777))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "TOWELS"), 0o777))
	cmd := exec.Command("unshare", "-m", "sh", "-c",
		`cd "$STRIPESONG_TWICE" && mount --bind towels TOWELS && exec "$0" -test.run='^TestOnePlaceByTwoNames$' -test.v`, os.Args[0])
	cmd.Env = append(os.Environ(), "STRIPESONG_TWICE="+dir)
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	assert.True(t, strings.Contains(string(out), "--- PASS"), "%s", out)
}
