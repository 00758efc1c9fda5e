package loomwork

// BundleEnds is how many ends are hemstitched together (common practice, no source).
const BundleEnds = 4

// BundlesOf tells in how many bundles some ends are hemstitched, and how many are in the
// last of them: what is over, but one end alone goes into the bundle before it.
func BundlesOf(ends int) (bundles, last int) {
	bundles, last = ends/BundleEnds, ends%BundleEnds
	switch {
	case last == 0:
		return bundles, BundleEnds
	case last == 1 && bundles > 0:
		return bundles, BundleEnds + 1
	}
	return bundles + 1, last
}
