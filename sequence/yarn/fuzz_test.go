package yarn

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzCount reads any text as a yarn's count and as a run: a count that is read
// is a number above nothing, and where both orders of a plied count are read
// they agree.
func FuzzCount(f *testing.F) {
	for _, s := range []string{"8/2 cotton", "16/2 linen", "20/2 worsted", "Nm 28/2", "28/2 Nm",
		"2/10 worsted", "3 run", "tex 30", "30s cotton", "R 60 tex / 2", "dtex 167/2", "0/2 cotton",
		"8/0 cotton",
		"8/2", "cotton", "6770 m/kg", "3360 yd/lb", "1e9 m/kg", "999999999999/1 cotton",
		"0.000000000001 Nm", "8//2 cotton", "-8/2 cotton", "８/2 cotton", "8/2/2 cotton", "8/2 silk",
		"", "/"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !utf8.ValidString(s) {
			return
		}
		if tex, err := Tex(s); err == nil {
			require.Positive(t, tex.Sign(), "%q", s)
			same, err := Tex(s + " ")
			require.NoError(t, err)
			require.Zero(t, tex.Cmp(same))
		} else {
			require.NotContains(t, err.Error(), "\n")
			require.Nil(t, tex)
		}
		if tex, err := TexOfRun(s); err == nil {
			require.Positive(t, tex.Sign(), "%q", s)
		} else {
			require.NotContains(t, err.Error(), "\n")
		}
	})
}
