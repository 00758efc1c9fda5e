package yarn

import "math"

// Ashenhurst's factors: how firm a yarn is.
const (
	FirmYarn = 0.90
	SoftYarn = 0.84
)

// DiametersPerMM is how many threads of a yarn lie side by side in a
// millimetre: firmness times the square root of the yards in a pound, to an
// inch. Firmness is [FirmYarn], [SoftYarn] or a value between.
//
// Source: T. R. Ashenhurst, "A Treatise on Textile Calculations and the Structure of
// Fabrics", 1884, as later users print it (from memory).
func DiametersPerMM(tex, firmness float64) float64 {
	const texTimesYards = 45359237.0 / 91.44 // of a yarn of one yard to the pound
	return firmness * math.Sqrt(texTimesYards/tex) / 25.4
}

// ClosestSett is the most ends that can lie in a millimetre: in a repeat of so
// many ends the weft passes through so many intersections, each as wide as a
// thread. Plain weave has 2 and 2, a 2/2 twill 4 and 2. A working sett is about
// three quarters of it (common practice, no source).
//
// Source: as [DiametersPerMM].
func ClosestSett(diametersPerMM float64, ends, intersections int) float64 {
	return diametersPerMM * float64(ends) / float64(ends+intersections)
}
