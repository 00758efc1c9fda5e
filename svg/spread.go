package svg

// spread moves labels that want to stand at rising places apart to at least a
// pitch, each group of crowded ones about its own middle, all between lo and
// hi. There must be room: see [thin].
func spread(want []um, pitch, lo, hi um) []um {
	type cluster struct{ first, count, sum int } // sum of the wanted places of the first label
	var clusters []cluster
	place := func(c cluster) um {
		at := um(divide(c.sum, c.count))
		return max(lo, min(at, hi-um(c.count-1)*pitch))
	}
	for i, w := range want {
		clusters = append(clusters, cluster{i, 1, int(w)})
		for n := len(clusters); n > 1; n = len(clusters) {
			a, b := clusters[n-2], clusters[n-1]
			if place(a)+um(a.count)*pitch <= place(b) {
				break
			}
			b.sum -= b.count * a.count * int(pitch)
			clusters = append(clusters[:n-2], cluster{a.first, a.count + b.count, a.sum + b.sum})
		}
	}
	places := make([]um, len(want))
	for _, c := range clusters {
		for i := range c.count {
			places[c.first+i] = place(c) + um(i)*pitch
		}
	}
	return places
}

// thin is every which label can be shown where n want a pitch each; an odd
// number, so that blocks taking turns are all named.
func thin(n int, pitch, room um) int {
	fit := int(room/pitch) + 1
	if n <= fit || fit < 1 {
		return 1
	}
	return (n+fit-1)/fit | 1
}
