package tomltext

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCommentOut(t *testing.T) {
	for _, one := range []struct{ name, text, path, want string }{
		{"a key", "a = 1 # one\nb = 2\n", "a", "# a = 1 # one\nb = 2\n"},
		{"the last, without a line end", "a = 1\r\n  b = 2", "b", "a = 1\r\n  # b = 2"},
		{"over several lines", "a = [1, # one\n  # two\n\n  2]\nb = 2\n", "a",
			"# a = [1, # one\n  # two\n\n  # 2]\nb = 2\n"},
		{"a table", "[warp]\nb = 2\n# of it\n[warp.rhythm]\nkind = 1\n\n[weft]\n", "warp.rhythm",
			"[warp]\nb = 2\n# of it\n# [warp.rhythm]\n# kind = 1\n\n[weft]\n"},
		{"in braces", "a = { b = 1 }\n", "a.b", "a = { b = 1 }\n"},
		{"not there", "a = 1\n", "b", "a = 1\n"},
	} {
		t.Run(one.name, func(t *testing.T) {
			got, err := parse(t, one.text).CommentOut(one.path)
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got.Bytes()))
		})
	}
}

func TestRemark(t *testing.T) {
	for _, one := range []struct{ name, text, path, want string }{
		{"a key", "a = 1\n  b = [\n2]\n", "b", "a = 1\n  # so\n  b = [\n2]\n"},
		{"in braces", "a = { b = 1 }\n", "a.b", "a = { b = 1 }\n"},
		{"a table", "[a]\nb = 1\n", "a", "[a]\nb = 1\n"},
		{"not there", "a = 1\n", "b", "a = 1\n"},
	} {
		t.Run(one.name, func(t *testing.T) {
			got, err := parse(t, one.text).Remark(one.path, "so")
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got.Bytes()))
		})
	}
}
