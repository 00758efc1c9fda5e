package yarn

import "math"

// DiameterMM is the diameter in millimetres of a round, uncompressed yarn of
// the tex given, with that many strands wound together as one. Its specific
// volume is taken as 1.1 cm3/g: d = 0.03568 sqrt(tex * 1.1 * strands).
//
// Source: F. T. Peirce, "The geometry of cloth structure", Journal of the Textile
// Institute 28(3), 1937 (from memory).
func DiameterMM(tex float64, strands int) float64 {
	return 0.03568 * math.Sqrt(tex*1.1*float64(strands))
}

// DiameterOfWrapsMM is the diameter in millimetres of a yarn that was wound
// side by side, so many wraps to a millimetre of one strand, with that many
// strands together as one: areas add, so diameters grow with the square root.
func DiameterOfWrapsMM(wrapsPerMM float64, strands int) float64 {
	return math.Sqrt(float64(strands)) / wrapsPerMM
}
