package measure

import (
	"fmt"
	"strings"
)

// ParseDensity reads "8/cm", "20/in", "80/10cm", "13 1/3 per inch". Zero is
// refused.
func ParseDensity(text string) (Density, error) {
	s := tidy(text)
	count, per, ok := cutDensity(s)
	if !ok {
		return Density{}, notADensity(s)
	}
	n, err := ParseNumber(count)
	if err != nil {
		return Density{}, fmt.Errorf("thread count %q: %w", s, err)
	}
	mm, err := lengths.read(per)
	if err != nil {
		return Density{}, fmt.Errorf("thread count %q: threads lie on a length: "+
			"write for instance %s", s, densities.example)
	}
	if n.Sign() == 0 || mm.Sign() == 0 {
		return Density{}, fmt.Errorf("thread count %q is not above 0: write for instance %s", s,
			densities.example)
	}
	return Density{n.Quo(n, mm), s}, nil
}

// cutDensity takes a density apart into its number and the length, with its
// own number, that this number lies on; ok is false where no unit follows.
func cutDensity(s string) (count, per string, ok bool) {
	count, per, ok = strings.Cut(s, " per ")
	if cut := strings.LastIndex(s, "/"); !ok && cut >= 0 {
		count, per, ok = s[:cut], s[cut+1:], true
	}
	count, per = strings.TrimSpace(count), strings.TrimSpace(per)
	if !ok || strings.Trim(per, "0123456789.") == "" {
		return "", "", false
	}
	if strings.IndexAny(per, "0123456789.") != 0 {
		per = "1 " + per
	}
	return count, per, true
}

// perInch are the short words for threads to an inch; they are answered with
// the way to write it.
const perInch = " epi ppi wpi dpi "

// notADensity answers a text that has no stroke, or no unit after it.
func notADensity(s string) error {
	if strings.Contains(s, "/") && strings.Trim(s, "0123456789./ ") == "" {
		return fmt.Errorf("%q has no unit: write \"%scm\" or \"%sin\"", s, s, s)
	}
	n, name, err := densities.split(s)
	if err != nil {
		return err
	}
	if _, ok := lengths.size(name); ok {
		return fmt.Errorf("%q is a length, not a thread count: write \"%s/%s\"", s,
			readable(n), name)
	}
	if strings.Contains(perInch, " "+strings.ToLower(name)+" ") {
		return fmt.Errorf("%q: write \"%s/in\"", s, readable(n))
	}
	return densities.unknown(s, name)
}
