package plan

import (
	"os"
	"runtime/debug"
	"testing"
)

// TestMain gives memory back as seldom as the program does.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
