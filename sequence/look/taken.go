package look

import "stripesong/palette"

// Takedown is the light of three yarns by [Yarn], as they are drawn thread by
// thread: each channel brought down by as much as light is lost between yarns,
// so that their average over the shares is the mixed light. Where the average is
// 0 nothing is changed; channels stay within 0..1.
func (s Shares) Takedown(yarns [3]palette.Linear, mixed palette.Linear) [3]palette.Linear {
	areas := [3]float64{s.Pattern, s.Warp, s.Ground}
	for c := range mixed {
		var plain float64
		for y := range yarns {
			plain += float64(areas[y] * yarns[y][c])
		}
		if !(plain > 0) {
			continue
		}
		for y := range yarns {
			yarns[y][c] = min(1, max(0, yarns[y][c]*mixed[c]/plain))
		}
	}
	return yarns
}
