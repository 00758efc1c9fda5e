package palette

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// rows reads a table of testdata: comment lines start with #, the first line
// after them names the columns. Each table's source is its first line.
func rows(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, "%s is empty", name)
	return all[1:]
}

// numbers reads fields as numbers.
func numbers(t testing.TB, fields []string) []float64 {
	t.Helper()
	out := make([]float64, len(fields))
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		require.NoError(t, err)
		out[i] = v
	}
	return out
}

// hex reads a colour that must be one.
func hex(t testing.TB, text string) RGB {
	t.Helper()
	c, err := ParseHex(text)
	require.NoError(t, err)
	return c
}
