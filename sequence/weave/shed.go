package weave

import (
	"encoding/json"
	"fmt"
	"math/bits"
	"strconv"
	"strings"
)

// MaxShafts is the most shafts a structure may use.
const MaxShafts = 32

// ShedOf is the shed in which the weft covers the shafts named, each 1 to
// [MaxShafts].
func ShedOf(shafts ...int) Shed {
	var sh Shed
	for _, s := range shafts {
		sh |= 1 << (s - 1)
	}
	return sh
}

// Covers tells whether the weft lies over the ends of a shaft on the face.
func (sh Shed) Covers(shaft int) bool { return sh>>(shaft-1)&1 == 1 }

// Shafts lists the shafts the weft covers, lowest first.
func (sh Shed) Shafts() []int {
	list := make([]int, 0, bits.OnesCount32(uint32(sh)))
	for rest := uint32(sh); rest != 0; rest &= rest - 1 {
		list = append(list, bits.TrailingZeros32(rest)+1)
	}
	return list
}

// String is "1+2"; of a shed that covers nothing, "none".
func (sh Shed) String() string {
	if sh == 0 {
		return "none"
	}
	var words []string
	for _, s := range sh.Shafts() {
		words = append(words, strconv.Itoa(s))
	}
	return strings.Join(words, "+")
}

// MarshalJSON writes the list of shafts.
func (sh Shed) MarshalJSON() ([]byte, error) { return json.Marshal(sh.Shafts()) }

// UnmarshalJSON reads a list of shafts.
func (sh *Shed) UnmarshalJSON(data []byte) error {
	var shafts []int
	if err := json.Unmarshal(data, &shafts); err != nil {
		return fmt.Errorf("a shed is a list of shafts, as in [1, 2]: %w", err)
	}
	for _, s := range shafts {
		if s < 1 || s > MaxShafts {
			return fmt.Errorf("shaft %d of a shed: write 1 to %d", s, MaxShafts)
		}
	}
	*sh = ShedOf(shafts...)
	return nil
}

// all is every shaft of the structure.
func (s *Structure) all() Shed { return Shed(uint64(1)<<s.Shafts - 1) }
