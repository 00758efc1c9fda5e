package packet

import (
	"fmt"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
)

// dressing is the order in which warp and loom come together.
type dressing struct {
	FrontFirst bool   // from front to back: sley, thread, beam
	Untold     bool   // the brief does not say
	Groups     string // in the raddle
	Place      string // where they begin
}

func (m *maker) dressing() dressing {
	r := loomwork.RaddleOf(m.Plan)
	d := dressing{FrontFirst: m.Loom.Dress == "front to back", Untold: m.Loom.Dress == ""}
	each, space := "centimetre", "cm"
	if m.Units == "in" {
		each, space = "inch", "in"
	}
	d.Groups = fmt.Sprintf("%s to each %s, %s in all", groupWords(r), each,
		measure.Count(r.Groups, "group"))
	if r.Irregular() {
		d.Groups += fmt.Sprintf(", the last of %s", measure.Count(r.Last, "end"))
	}
	d.Place = fmt.Sprintf("%s %s to the left of its middle, left as seen from the front "+
		"of the loom", half(r.Across, m.Units), space)
	return d
}

// bundle is how wide a bundle of ends is that is tied on.
func (m *maker) bundle() string {
	if m.Units == "in" {
		return "about an inch"
	}
	return "2 to 3 cm"
}

// groupWords is "8 ends", or "7 and 8 ends by turns".
func groupWords(r loomwork.Raddle) string {
	if len(r.Repeat) == 1 {
		return measure.Count(r.Repeat[0], "end")
	}
	return strings.ReplaceAll(spaced(r.Repeat), " ", "-") + " ends over and over"
}

// half is half of a whole number, in figures as a ruler in these units has them.
func half(n int, units string) string {
	switch {
	case n%2 == 0:
		return fmt.Sprint(n / 2)
	case units != "in":
		return fmt.Sprintf("%d.5", n/2)
	case n == 1:
		return "1/2"
	}
	return fmt.Sprintf("%d 1/2", n/2)
}
