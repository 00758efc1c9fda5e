package plan

import (
	"math/big"

	"stripesong/sequence"
	"stripesong/sequence/exact"
)

// raddle is how the ends are grouped where a raddle has a space to each centimetre or
// inch (common practice, no source).
func (m *maker) raddle() {
	space := big.NewRat(10, 1)
	if m.b.Units == "in" {
		space = big.NewRat(254, 10)
	}
	m.plan.Loom.RaddleMM = exact.Rounded(space)
	m.plan.Loom.Raddle, _ = sley(m.b.Cloth.Sett.PerMM, new(big.Rat).Inv(space))
}

// maxDents is the longest repeat of a sleying that is looked for: longer ones
// are hard to keep count of (common practice, no source).
const maxDents = 4

// sley finds the repeating ends in each dent of a reed that come nearest to a
// sett, the shortest of equals, and the sett they give. Both are threads to a
// millimetre. Fewer ends come first, as in 1-2-2.
func sley(sett, reed *big.Rat) (dents []int, gives *big.Rat) {
	var least *big.Rat
	for n := 1; n <= maxDents; n++ {
		// the whole number of ends nearest to n dents' worth
		want := exact.Times(exact.Over(sett, reed), exact.Whole(n))
		ends := max(exact.HalfUp(want), 1)
		given := exact.Times(exact.Over(exact.Whole(ends), exact.Whole(n)), reed)
		miss := exact.Minus(given, sett)
		if miss.Abs(miss); least == nil || miss.Cmp(least) < 0 {
			least, gives, dents = miss, given, spreadEnds(ends, n)
		}
	}
	return dents, gives
}

// spreadEnds divides ends over dents as evenly as can be, the fuller ones last.
func spreadEnds(ends, dents int) []int {
	each := make([]int, dents)
	for i := range each {
		each[i] = ends / dents
		if i >= dents-ends%dents {
			each[i]++
		}
	}
	return each
}

// Sleyed is the sett nearest to one that a reed gives, as a brief has it, with at most
// three decimals; both are threads to a millimetre.
func Sleyed(sett, reed *big.Rat, units string) string {
	_, gives := sley(sett, reed)
	if units == "in" {
		return sequence.Decimal(exact.Times(gives, big.NewRat(254, 10)), 3) + "/in"
	}
	return sequence.Decimal(exact.Times(gives, exact.Whole(10)), 3) + "/cm"
}
