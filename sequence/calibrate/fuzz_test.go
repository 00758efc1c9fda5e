package calibrate

import (
	"bytes"
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// FuzzMeasured reads any text as measurements of the built-in brief. What it
// tells lies within its own bounds and can be put into the brief; what it
// refuses is refused with a place that exists and something to do.
func FuzzMeasured(f *testing.F) {
	b, err := brief.Parse("brief.toml", brief.Default(), brief.Options{})
	require.NoError(f, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(f, err)
	whole := bytes.ReplaceAll(brief.MeasuredTemplate(), []byte("\n# "), []byte("\n"))
	f.Add(brief.MeasuredTemplate())
	f.Add(whole)
	f.Add(append([]byte("\ufeff"), bytes.ReplaceAll(whole, []byte("\n"), []byte("\r\n"))...))
	for _, text := range []string{
		"[width]\nreed = \"54 cm\"\nfell = \"51.2 cm\"\nfinished = \"46.1 cm\"\n",
		"ruler = \"1/8 in\"\n[length]\nwoven = \"32 in\"\nfinished = \"29 1/2 in\"\n" +
			"to = \"1 in\"\n",
		"[warp]\nwound = \"6.3 m\"\nwoven = \"5.1 m\"\nleftover = \"76 cm\"\n",
		"[[weft]]\ncolour = \"oat\"\npicks = 640\nused = \"52 g\"\nstrands = 2\n",
		"[[weft]]\ncolour = \"damson\"\npicks = 1\nused = \"1 m\"\nto = \"2 m\"\n",
		"[width]\nreed = \"1 mm\"\nfell = \"2 mm\"\n", "[width]\nreed = 5\n", "[nothing]\n", "",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := brief.ParseMeasured("measured.toml", text)
		if err != nil {
			refused(t, text, err)
			return
		}
		a, err := Make(b, p, m, nil)
		if err != nil {
			refused(t, text, err)
			return
		}
		for _, s := range a.Shares {
			require.LessOrEqual(t, s.Least, s.Measured, s.Key)
			require.LessOrEqual(t, s.Measured, s.Most, s.Key)
			require.GreaterOrEqual(t, s.Least, 0.0, s.Key)
		}
		_, err = plan.JSON(a)
		require.NoError(t, err)
		after, err := brief.Edit("brief.toml", brief.Default(), a.Changes())
		require.NoError(t, err)
		_, err = brief.Parse("brief.toml", after, brief.Options{})
		require.NoError(t, err, "what was measured can be written: %v", a.Changes())
	})
}

// refused holds an error to what it promises.
func refused(t *testing.T, text []byte, err error) {
	t.Helper()
	var problems brief.Problems
	require.True(t, errors.As(err, &problems), "%v", err)
	require.NotEmpty(t, problems)
	lines := bytes.Count(text, []byte("\n")) + 1
	for _, p := range problems {
		require.NotEmpty(t, p.What)
		require.NotEmpty(t, p.Hint, "%v", p)
		require.LessOrEqual(t, p.Line, lines, "%v", p)
		require.GreaterOrEqual(t, p.Line, 0, "%v", p)
	}
}
