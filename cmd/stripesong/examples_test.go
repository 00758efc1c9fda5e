package main

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

var update = flag.Bool("update", false, "renew what the examples produce")

const examplesFolder = "../../examples"

// kept tells whether a file the plan writes is kept beside its brief. The packet
// is large and made of the same numbers; its own tests hold it. The list of sums
// would change with the packing of pictures.
func kept(name string) bool { return filepath.Ext(name) != ".html" && name[0] != '.' }

// TestExamples plans every brief in examples and holds what it produces against
// what is kept there, byte for byte (pictures pixel for pixel, since a newer
// standard library may pack them otherwise).
func TestExamples(t *testing.T) {
	briefs, err := filepath.Glob(examplesFolder + "/*/brief.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(briefs), 6)
	for _, name := range briefs {
		t.Run(filepath.Base(filepath.Dir(name)), func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "out")
			var stdout, stderr bytes.Buffer
			code := run([]string{"plan", name, "--out", out}, strings.NewReader(""), &stdout,
				&stderr, func(string) string { return "" }, never)
			require.Equal(t, exitGood, code, stderr.String())
			golden := filepath.Join(filepath.Dir(name), "plan")
			if *update {
				renew(t, out, golden)
			}
			assert.Equal(t, files(t, golden), files(t, out))
			for _, file := range files(t, golden) {
				same(t, filepath.Join(golden, file), filepath.Join(out, file))
			}
		})
	}
}

func files(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		if kept(e.Name()) {
			names = append(names, e.Name())
		}
	}
	return names
}

func renew(t *testing.T, from, to string) {
	t.Helper()
	require.NoError(t, os.RemoveAll(to))
	require.NoError(t, os.MkdirAll(to, 0o755))
	for _, name := range files(t, from) {
		require.NoError(t, os.WriteFile(filepath.Join(to, name), read(t, filepath.Join(from, name)),
			0o644))
	}
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	return data
}

func same(t *testing.T, want, got string) {
	t.Helper()
	a, b := read(t, want), read(t, got)
	if filepath.Ext(want) == ".png" {
		x, err := png.Decode(bytes.NewReader(a))
		require.NoError(t, err)
		y, err := png.Decode(bytes.NewReader(b))
		require.NoError(t, err)
		assert.Equal(t, x, y, want)
		return
	}
	if !bytes.Equal(a, b) {
		t.Errorf("%s differs from what is kept: run go test ./cmd/stripesong -run Examples "+
			"-update and look at what changed", want)
	}
}

// TestBuiltInExample: the first example is the brief that comes with the
// program.
func TestBuiltInExample(t *testing.T) {
	assert.Equal(t, string(brief.Default()),
		string(read(t, examplesFolder+"/orchard-kitchen/brief.toml")))
}
