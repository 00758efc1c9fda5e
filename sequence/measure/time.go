package measure

import (
	"fmt"
	"math"
)

// FormatTime prints hours as an estimate of work: minutes below an hour, beyond that
// in steps of five: "45 min", "2 h", "8 h 20 min".
func FormatTime(hours float64) string {
	minutes := int(math.Round(hours * 60))
	if minutes < 60 {
		return fmt.Sprintf("%d min", max(minutes, 1))
	}
	minutes = (minutes + 2) / 5 * 5
	if minutes%60 == 0 {
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}
