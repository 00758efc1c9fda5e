package palette

import (
	"fmt"
	"math"
)

// Grade is how plainly a pattern shows, in a word.
type Grade int

// The grades from worst to best.
const (
	Unseen Grade = iota
	Faint
	Soft
	Clear
	Strong
	Bold
)

// Grades is all of them, in order.
var Grades = [...]Grade{Unseen, Faint, Soft, Clear, Strong, Bold}

// String is "unseen", "faint", "soft", "clear", "strong" or "bold".
func (g Grade) String() string {
	return [...]string{"unseen", "faint", "soft", "clear", "strong", "bold"}[g]
}

// MarshalText is [Grade.String], so that answers have the word.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// UnmarshalText reads what [Grade.String] says.
func (g *Grade) UnmarshalText(text []byte) (err error) {
	*g, err = called(string(text), Grades[:])
	return err
}

// called finds the value that prints itself as a word.
func called[T fmt.Stringer](word string, all []T) (T, error) {
	for _, v := range all {
		if v.String() == word {
			return v, nil
		}
	}
	return all[0], fmt.Errorf("%q is none of %v", word, all)
}

// gradeEnds are the differences in L* at which [Faint], [Soft], [Clear] and [Strong]
// end, in millionths. 3.4, 6.8 and 13.6 are grades 3, 2 and 1 of the textile grey scale
// (ISO 105-A02, "Grey scale for assessing change in colour", 1993, from memory); 30 is
// a contrast ratio above 2.2 : 1 for every pair (W3C, "Web Content Accessibility
// Guidelines 2.1", 2018, relative luminance and contrast ratio, from memory).
var gradeEnds = [...]struct {
	microL int64
	grade  Grade
}{
	{3_400_000, Faint},
	{6_800_000, Soft},
	{13_600_000, Clear},
	{30_000_000, Strong},
}

// hueOnlyMicro is the difference, in millionths, that separates soft from clear.
const hueOnlyMicro = 6_800_000

// unseenMicro is the difference in dE00, in millionths, below which nothing is
// seen: on the surface of yarn tolerances of lightness are about twice those of
// paint (E. D. Montag and R. S. Berns, "Lightness dependencies and the effect of
// texture on suprathreshold lightness tolerances", Color Research and Application
// 25, 241, 2000).
const unseenMicro = 2_000_000

// GradeOf grades a seen difference: below dE00 2 it is [Unseen], otherwise the
// difference in lightness decides, since weave patterns are read by light and
// dark. deltaL counts without its sign. Both are rounded to millionths first; NaN
// counts as 0.
func GradeOf(deltaL, deltaE float64) Grade {
	if micro(deltaE) < unseenMicro {
		return Unseen
	}
	l := micro(math.Abs(deltaL))
	for _, end := range gradeEnds {
		if l < end.microL {
			return end.grade
		}
	}
	return Bold
}

// HueOnly reports whether two colours differ in hue rather than in light and
// dark: less than 6.8 in L*, yet a dE00 of 6.8 or more.
func HueOnly(deltaL, deltaE float64) bool {
	return micro(math.Abs(deltaL)) < hueOnlyMicro && micro(deltaE) >= hueOnlyMicro
}
