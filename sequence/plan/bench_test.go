package plan

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// BenchmarkMake plans the built-in brief with its pieces and with ten times as
// many.
func BenchmarkMake(b *testing.B) {
	for _, times := range []int{1, 10} {
		text := string(brief.Default())
		pieces := text[strings.Index(text, "[[piece]]"):strings.Index(text,
			"# With a [vary] table")]
		text = strings.Replace(text, pieces, strings.Repeat(pieces, times), 1)
		text = strings.Replace(text, "pieces    = 6", fmt.Sprintf("pieces = %d", 6*times), 1)
		b.Run(fmt.Sprintf("%d pieces", 6*times), func(b *testing.B) {
			for b.Loop() {
				read, err := brief.Parse("d", []byte(text), brief.Options{})
				require.NoError(b, err)
				p, err := Make(context.Background(), read)
				require.NoError(b, err)
				_, err = JSON(p)
				require.NoError(b, err)
			}
		})
	}
}
