package yarn_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/yarn"
)

// F. T. Peirce, "The geometry of cloth structure", Journal of the Textile Institute
// 28(3), 1937 (from memory): d = 0.03568 sqrt(tex x 1.1) mm; 8/2 cotton 0.455 mm.
func TestDiameterOfACount(t *testing.T) {
	cotton := float(tex(t, "8/2 cotton"))
	assert.InDelta(t, 0.455, yarn.DiameterMM(cotton, 1), 0.0005)
	assert.InDelta(t, 2*yarn.DiameterMM(cotton, 1), yarn.DiameterMM(cotton, 4), 1e-12,
		"four strands, twice the width")
	assert.InDelta(t, yarn.DiameterMM(2*cotton, 1), yarn.DiameterMM(cotton, 2), 1e-12,
		"two strands, twice the tex")
}

// By hand: 14 wraps to a centimetre are 10/14 = 0.714 mm each; four strands
// together are twice as wide.
func TestDiameterOfWraps(t *testing.T) {
	assert.InDelta(t, 0.7142857, yarn.DiameterOfWrapsMM(1.4, 1), 1e-7)
	assert.InDelta(t, 1.4285714, yarn.DiameterOfWrapsMM(1.4, 4), 1e-7)
}

// T. R. Ashenhurst, "A Treatise on Textile Calculations and the Structure of Fabrics",
// 1884, as later users print his rule (from memory): 8/2 cotton at 0.90: 52 diameters
// an inch, plain 26, 2/2 twill 34 (exact 52.17, 26.09, 34.78).
func TestClosestSetts(t *testing.T) {
	perMM := yarn.DiametersPerMM(float(tex(t, "8/2 cotton")), yarn.FirmYarn)
	assert.InDelta(t, 52.17, perMM*25.4, 0.005)
	assert.InDelta(t, 26.09, yarn.ClosestSett(perMM, 2, 2)*25.4, 0.006)
	assert.InDelta(t, 34.78, yarn.ClosestSett(perMM, 4, 2)*25.4, 0.005)
	soft := yarn.DiametersPerMM(float(tex(t, "8/2 cotton")), yarn.SoftYarn)
	assert.InDelta(t, 0.84/0.90, soft/perMM, 1e-12)
}

// J. T. Taylor, "Cotton Weaving and Designing", 6th ed., 1909 (the year from memory), with
// k = 0.95: diameters an inch as printed, to the half. By hand: 0.95 sqrt(32 x 840 yd/lb)
// = 0.95 x 163.95 = 155.75 for 32s.
func TestDiametersInAnInch(t *testing.T) {
	for _, c := range []struct {
		count string
		want  float64
	}{
		{"32s cotton", 156}, {"60s cotton", 213}, {"15s cotton", 106.5},
		{"26s cotton", 140.5}, {"78s cotton", 243}, {"200s cotton", 390},
	} {
		got := yarn.DiametersPerMM(float(tex(t, c.count)), 0.95) * 25.4
		assert.InDelta(t, c.want, got, 0.75, c.count)
	}
	assert.InDelta(t, 155.75, yarn.DiametersPerMM(float(tex(t, "32s cotton")), 0.95)*25.4, 0.01)
	assert.InDelta(t, 2,
		yarn.DiametersPerMM(float(tex(t, "60 cotton")),
			0.95)/yarn.DiametersPerMM(float(tex(t, "15 cotton")), 0.95), 1e-12,
		"half the diameter for four times the weight")
}
