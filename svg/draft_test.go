package svg

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestDraft: halvdräll as it is threaded, tied and trodden, written out by hand: a pick
// covers the ends of the shafts that are not raised.
func TestDraft(t *testing.T) {
	p := planFrom(t, string(brief.Default()))
	var b bytes.Buffer
	require.NoError(t, Draft(&b, p))
	at := map[string]string{}
	tree(t, b.Bytes()).walk(func(n *node) {
		if n.Name == "path" && n.Attr["fill"] != "" {
			at[strings.SplitN(n.Attr["d"], "h", 2)[0]] = n.Attr["fill"]
		}
	})
	threading := []int{1, 2, 3, 2, 1, 2, 3, 2, 3, 4, 1, 4, 3, 4, 1, 4}
	const over1and2, over3and4, over1and3, over2and4 = "12", "34", "13", "24"
	unitA := []string{over1and2, over1and3, over1and2, over2and4}
	unitB := []string{over3and4, over1and3, over3and4, over2and4}
	picks := append(append(append(append([]string{}, unitA...), unitA...), unitB...), unitB...)
	seen := 0
	for i, covers := range picks {
		for k, shaft := range threading {
			place := strings.SplitN(
				string(rect(draftAside+um(k)*square, um(len(picks)-i-1)*square, square, square)),
				"h", 2)[0]
			want := ""
			if strings.Contains(covers, fmt.Sprint(shaft)) {
				seen++
				want = string(hair)
				if i%2 == 0 {
					want = string(black)
				}
			}
			assert.Equal(t, want, at[place], "pick %d, end %d", i+1, k+1)
		}
	}
	assert.Equal(t, 128, seen, "half of all crossings: every shed covers two shafts of four")
}
