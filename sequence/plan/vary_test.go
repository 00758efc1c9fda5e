package plan

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

func BenchmarkVary(b *testing.B) {
	text, err := os.ReadFile("testdata/eight.toml")
	require.NoError(b, err)
	for b.Loop() {
		makePlan(b, "eight.toml", text)
	}
}
