package palette

import (
	"fmt"
	"sort"

	"github.com/lucasb-eyer/go-colorful"
)

// RGB is a colour as a screen is told it: sRGB (IEC 61966-2-1), eight bits a
// channel.
type RGB struct{ R, G, B uint8 }

// ParseHex reads "#24463c" or the short "#abc", in either case. Anything else is
// an error that quotes what was written.
func ParseHex(text string) (RGB, error) {
	if !isHex(text) {
		return RGB{},
			fmt.Errorf("%q is not a colour: write # and six hexadecimal digits, as in \"#24463c\"",
				text)
	}
	c, _ := colorful.Hex(text) // takes all that isHex does
	r, g, b := c.RGB255()
	return RGB{r, g, b}, nil
}

// isHex reports whether text is # and three or six hexadecimal digits.
func isHex(text string) bool {
	if (len(text) != 4 && len(text) != 7) || text[0] != '#' {
		return false
	}
	for _, d := range []byte(text[1:]) {
		if !('0' <= d && d <= '9' || 'a' <= d && d <= 'f' || 'A' <= d && d <= 'F') {
			return false
		}
	}
	return true
}

// Hex writes the colour as "#24463c".
func (c RGB) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// MarshalText is [RGB.Hex], so that an answer has the colour as a brief does.
func (c RGB) MarshalText() ([]byte, error) { return []byte(c.Hex()), nil }

// UnmarshalText is [ParseHex].
func (c *RGB) UnmarshalText(text []byte) (err error) {
	*c, err = ParseHex(string(text))
	return err
}

// Linear is the light the colour stands for.
func (c RGB) Linear() Linear { return Linear{light[c.R], light[c.G], light[c.B]} }

// Lab is short for the way by [RGB.Linear].
func (c RGB) Lab() Lab { return c.Linear().Lab() }

// light holds the linear light of the 256 levels, and thresholds[i] the light
// from which level i+1 is nearer than level i in the gamma-encoded sense. Both
// are rounded to 2^-37, so that they are the same numbers on every processor
// whatever its power function does with the last bit.
var light, thresholds = lightTables()

func lightTables() (levels [256]float64, between [255]float64) {
	for i := range levels {
		levels[i] = lightOf(float64(i) / 255)
	}
	for i := range between {
		between[i] = lightOf((float64(i) + 0.5) / 255)
	}
	return levels, between
}

// lightOf undoes the transfer curve of sRGB for one channel, 0..1.
func lightOf(v float64) float64 {
	r, _, _ := colorful.Color{R: v}.LinearRgb()
	return snap(r, 1<<37)
}

// level is the nearest of the 256 levels for linear light; light outside 0..1
// is clamped and NaN counts as black.
func level(v float64) uint8 {
	if !(v > 0) {
		return 0
	}
	return uint8(sort.Search(len(thresholds), func(i int) bool { return thresholds[i] > v }))
}
