package screen

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief/tomltext"
)

// steering are characters that a terminal or a reader obeys: the 8-bit control
// sequence introducer, a turn of direction, a line separator, delete.
const steering = "a\u009b31m b\u202egpj c\u2028d e\u007f é 織"

// TestPlainJSON: what steers is escaped, and a program reads the same text.
func TestPlainJSON(t *testing.T) {
	want, err := json.MarshalIndent(map[string]string{"name": steering}, "", " ")
	require.NoError(t, err)
	got := PlainJSON(want)
	assert.Equal(t, "{\n \"name\": \"a\\u009b31m b\\u202egpj c\\u2028d e\\u007f é 織\"\n}",
		string(got))
	var read map[string]string
	require.NoError(t, json.Unmarshal(got, &read))
	assert.Equal(t, steering, read["name"])
	assert.Equal(t, `"\udb40\udc41"`, string(PlainJSON([]byte("\"\U000E0041\""))),
		"a hidden tag, in two units of UTF-16")
	assert.Equal(t, `"\U000e0041"`, tomltext.Quote("\U000E0041"))
}

// TestQuotedIsPlain: so it is in TOML.
func TestQuotedIsPlain(t *testing.T) {
	assert.Equal(t, `"a\u009b31m b\u202egpj c\u2028d e\u007f é 織"`, tomltext.Quote(steering))
}
