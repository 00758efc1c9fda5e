package brief

import (
	_ "embed"
	"slices"
)

//go:embed default.toml
var defaultText []byte

// DefaultName is what messages call the brief that comes with the program.
const DefaultName = "the built-in brief"

// Default is the commented brief that comes with the program: what "plan"
// runs without a brief and what "new" writes.
func Default() []byte { return slices.Clone(defaultText) }

// DefaultIn is [Default] in "cm" or in "in", with sizes that are round in these.
func DefaultIn(units string) []byte {
	if units == "in" {
		return swapped(defaultText, defaultInInches)
	}
	return Default()
}
