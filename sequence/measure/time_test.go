package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestFormatTime by hand: minutes below an hour, beyond it the nearest five: 1.3933 h are 83.6
// minutes, 1.3689 h 82.1.
func TestFormatTime(t *testing.T) {
	for hours, want := range map[float64]string{
		0.001: "1 min", 0.5: "30 min", 0.99: "59 min", 0.9999: "1 h", 1.3933: "1 h 25 min",
		1.3689: "1 h 20 min", 2: "2 h", 8.3356: "8 h 20 min", 8.99: "9 h", 120.5: "120 h 30 min",
	} {
		assert.Equal(t, want, FormatTime(hours), "%v", hours)
	}
}
