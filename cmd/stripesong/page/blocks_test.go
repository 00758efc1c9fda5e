package page_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/brief"
)

// TestBlocksTyped: how blocks lie has fields of its own, of which those are shown that say
// something; a middle has one too.
func TestBlocksTyped(t *testing.T) { onBoth(t, blocksTyped) }

func blocksTyped(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1440, 900)
	bench.open(b)
	b.choose(1, -1)
	shown := func(key string) bool {
		return eval[bool](b, `document.querySelector("#blocks [data-key=`+key+`]").checkVisibility()`)
	}
	assert.Equal(t, []bool{true, true, false, false}, []bool{shown("letters"), shown("shares"),
		shown("edges"), shown("mirror")})
	b.enter("#blocks [data-key=letters]", "ABA")
	assert.True(t, shown("edges"))
	b.enter("#blocks [data-key=edges]", "stripes")
	b.enter("#blocks [data-key=centre]", "40%")
	blocks := bench.View().Pieces[1].Blocks
	assert.Equal(t, []string{"ABA", "stripes", "40%"},
		[]string{blocks["letters"], blocks["edges"], blocks["centre"]})
	assert.Empty(t, bench.View().Pieces[1].First)
	b.shot("blocks")
	b.enter("#blocks [data-key=letters]", "")
	assert.False(t, shown("edges"))
	assert.Equal(t, "A", bench.View().Pieces[1].First)
	b.enter("#middle", "60% plain")
	assert.Equal(t, "60% plain", bench.View().Pieces[1].Middle)
	b.quiet()
}
