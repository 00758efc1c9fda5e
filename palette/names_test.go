package palette

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNamesGoByLightnessAndDiffer(t *testing.T) {
	colours := []Lab{{L: 90}, {L: 70}, {L: 69.9}, {L: 40}, {L: 39}, {L: 0}}
	assert.Equal(t, []string{"light 1", "light 2", "middle 1", "middle 2", "dark 1", "dark 2"},
		Names(colours, nil))
	assert.Equal(t, []string{"light 2", "light 3", "middle 1", "middle 2", "dark 1", "dark 3"},
		Names(colours, []string{"light 1", "dark 2"}))
	assert.Empty(t, Names(nil, nil))
}
