package workbench

import (
	"fmt"
	"slices"

	"stripesong/sequence/measure"
)

// wide is how wide the finished cloth is, as it is told.
func (v version) wide() string {
	return measure.FormatLength(v.plan.Warp.FinishedWidthMM, v.plan.Units)
}

// widths are the settings that ask for a width.
var widths = []string{"set.width", "set.in_reed"}

// widthSaid tells where work on the warp made the cloth wider or narrower, and where a width
// was asked for that a warp which is written out does not follow; "" elsewhere.
func (v version) widthSaid(op Op, before string) string {
	asked := op.Do == "setting" && slices.Contains(widths, op.Key)
	switch now := v.wide(); {
	case asked && v.brief.Warp.Runs != nil:
		return "; " + v.staysWide()
	case op.Do != "setting" && op.Strip == Warp && now != before:
		return fmt.Sprintf("; the cloth is %s wide now, not %s", now, before)
	}
	return ""
}

// staysWide says of a warp that is written out that it follows no width.
func (v version) staysWide() string {
	return fmt.Sprintf("the warp is written out and stays %s wide: set it free to change, or "+
		"change its stripes", v.wide())
}
