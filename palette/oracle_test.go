package palette

import (
	"encoding/csv"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAgreesWithOtherLibraries holds CIELAB and CIEDE2000 of a thousand pairs
// against two libraries of other authors in another language, culori and
// color-diff: what .ci/oracle/reference.mjs printed, named by STRIPESONG_ORACLE.
func TestAgreesWithOtherLibraries(t *testing.T) {
	name := os.Getenv("STRIPESONG_ORACLE")
	if name == "" {
		if os.Getenv("STRIPESONG_CI") == "1" {
			t.Fatal("STRIPESONG_ORACLE names no file of reference values")
		}
		t.Skip("STRIPESONG_ORACLE is not set: run .ci/oracle/reference.mjs for the other " +
			"libraries' values")
	}
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1001)
	require.Equal(t, []string{"hex1", "hex2", "L1", "a1", "b1", "L2", "a2", "b2", "culori",
		"color_diff"}, rows[0])
	for _, row := range rows[1:] {
		v := numbers(t, row[2:])
		p, q := hex(t, row[0]).Lab(), hex(t, row[1]).Lab()
		assertLab(t, row[0], Lab{v[0], v[1], v[2]}, p)
		assertLab(t, row[1], Lab{v[3], v[4], v[5]}, q)
		assert.InDelta(t, v[6], DeltaE00(p, q), oracleTolerance, "culori: %v", row)
		assert.InDelta(t, v[7], DeltaE00(p, q), oracleTolerance, "color-diff: %v", row)
	}
}

// oracleTolerance is far below what prints, and above rounding to 1e-9.
const oracleTolerance = 1e-6

func assertLab(t *testing.T, name string, want, got Lab) {
	t.Helper()
	for i, pair := range [][2]float64{{want.L, got.L}, {want.A, got.A}, {want.B, got.B}} {
		assert.InDelta(t, pair[0], pair[1], oracleTolerance, "%s %c", name, "Lab"[i])
	}
}
