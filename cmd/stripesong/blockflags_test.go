package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
	"stripesong/sequence/brief"
)

// TestBlocksByFlags: flags give what the keys give that they stand for.
func TestBlocksByFlags(t *testing.T) {
	text := string(brief.Default())
	for _, c := range []struct{ flags, table, keys string }{
		{"--warp-blocks ABA --weights 1,2,1 --edges stripes", "[warp]",
			`blocks = { letters = "ABA", weights = [1, 2, 1], edges = "stripes" }`},
		{"--warp-blocks stripes --shares 1,2", "[warp]", `blocks = { shares = [1, 2] }`},
		{"--warp-blocks BA --mirror", "[warp]", `blocks = { letters = "BA", mirror = true }`},
		{"--warp-blocks ABA --centre 40%", "[warp]",
			`blocks = { letters = "ABA", centre = "40%" }`},
		{"--weft-blocks ABA --shares 1,3", "[weft]",
			`blocks = { letters = "ABA", shares = [1, 3] }`},
		{"--weft-blocks stripes", "[weft]", `blocks = "stripes"`},
	} {
		t.Run(c.flags, func(t *testing.T) {
			dir := t.TempDir()
			plain, keyed := filepath.Join(dir, "plain.toml"), filepath.Join(dir, "keyed.toml")
			lines := strings.ReplaceAll(text, "\nblocks  = \"stripes\"", "\n")
			require.NotEqual(t, text, lines)
			lines = strings.Replace(lines, "\n"+c.table, "\n"+c.table+"\n"+c.keys, 1)
			require.NoError(t, os.WriteFile(plain, []byte(text), 0o644))
			require.NoError(t, os.WriteFile(keyed, []byte(lines), 0o644))
			_, want, mistakes := call("contrast", keyed, "--json")
			require.Empty(t, mistakes)
			_, got, mistakes := call(append([]string{"contrast", plain, "--json"},
				strings.Fields(c.flags)...)...)
			require.Empty(t, mistakes)
			assert.Equal(t, strings.ReplaceAll(want, "keyed", "plain"), got)
		})
	}
}

// TestBlockFlagsMisplaced: a parameter that the flag before it does not take is refused,
// with where to put it.
func TestBlockFlagsMisplaced(t *testing.T) {
	for flags, says := range map[string]string{
		"--shares 1,2":                        "--shares: belongs to blocks",
		"--warp-rhythm even --centre 40%":     "--centre: belongs to blocks",
		"--warp-blocks ABA --terms 4":         "--terms: does not go with --warp-blocks",
		"--terms 4":                           "--terms: belongs to a rhythm",
		"--warp-blocks AX":                    `there is no block "X"`,
		"--warp-blocks AB --edges x":          `"x" is none of free, stripes`,
		"--warp-blocks AB --mirror --mirror":  "given twice",
		"--warp-blocks AB --centre 40 --json": "--warp-blocks: warp.blocks.centre",
	} {
		code, out, mistakes := call(append([]string{"check"}, strings.Fields(flags)...)...)
		assert.Equal(t, exitFailed, code, flags)
		assert.Empty(t, out)
		assert.Contains(t, mistakes, says)
	}
}

// TestKeysOfBlocksAreTold: each is in README, in the brief that new writes and, as a flag,
// in help and completion.
func TestKeysOfBlocksAreTold(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, help, _ := call("help", "rhythms")
	_, completed, _ := call("completion", "bash")
	keys := append(new(sequence.Laying).Spec().Keys(), sequence.Middle.Key)
	for _, key := range keys {
		assert.True(t, strings.Contains(string(readme), key), key)
		assert.True(t, strings.Contains(string(brief.Default()), key+" = "), key)
		flag := "--" + key
		switch key {
		case lettersKey:
			flag = "--warp-" + layingName
		case sequence.Middle.Key:
			flag = "--weft-" + key
		}
		assert.True(t, strings.Contains(help, flag+" "), flag)
		assert.True(t, strings.Contains(completed, flag[2:]), flag)
	}
}
