package plan

import (
	"math/big"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

func readFile(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return text
}

// density reads threads to a length; "40/3in" is 40 to three inches.
func density(t *testing.T, text string) *big.Rat {
	t.Helper()
	d, err := measure.ParseDensity(text)
	require.NoError(t, err)
	return d.PerMM
}
