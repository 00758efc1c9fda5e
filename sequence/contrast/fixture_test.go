package contrast

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// parsed reads a brief as the command would, with further shelves.
func parsed(t testing.TB, text []byte, more ...brief.Shelf) *brief.Brief {
	t.Helper()
	b, err := brief.Parse("test.toml", text, brief.Options{More: more})
	require.NoError(t, err)
	return b
}

func planned(t testing.TB, b *brief.Brief) *plan.Plan {
	t.Helper()
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

func reported(t testing.TB, b *brief.Brief, q Question) *Report {
	t.Helper()
	r, err := Make(context.Background(), b, planned(t, b), q)
	require.NoError(t, err)
	return r
}

// sixty is a shelf of sixty colours of one yarn, spread over the cube by a fixed
// rule.
func sixty() brief.Shelf {
	var b strings.Builder
	b.WriteString("[yarn.cotton]\ncount = \"8/2 cotton\"\n")
	for i := range 60 {
		fmt.Fprintf(&b, "[[colour]]\nname = \"shelf %d\"\nhex = \"#%02x%02x%02x\"\n"+
			"yarn = \"cotton\"\n", i+1, (i*71+20)%256, (i*113+90)%256, (i*37+140)%256)
	}
	return brief.Shelf{Name: "sixty.toml", Text: []byte(b.String())}
}

// poor is a brief in which much falls short: near neighbours everywhere.
func poor(t testing.TB) []byte {
	text, err := os.ReadFile("testdata/poor.toml")
	require.NoError(t, err)
	return text
}
