package svg

import "stripesong/palette"

const paletteSize = 256

// quantise finds a palette for colours and which of it each becomes. As long as
// there is place, the colours are parted that reach farthest, the more so the more
// they are used. Colours left together become their mean, so that what is gained
// here is lost there and areas keep their average.
func quantise(colours []tint) (inks []palette.RGB, of []uint8) {
	all := make([]levelled, len(colours))
	for i, c := range colours {
		rgb := c.light.RGB()
		all[i] = levelled{[3]uint8{rgb.R, rgb.G, rgb.B}, int32(i), int32(c.uses)}
	}
	groups := append(make([]group, 0, paletteSize), groupOf(all))
	for len(groups) < paletteSize {
		next := 0
		for i := range groups {
			if groups[i].reach > groups[next].reach {
				next = i
			}
		}
		if groups[next].reach == 0 {
			break
		}
		low, high := groups[next].parted()
		groups[next] = low
		groups = append(groups, high)
	}
	of = make([]uint8, len(colours))
	for i, g := range groups {
		inks = append(inks, g.mean(colours))
		for _, c := range g.colours {
			of[c.number] = uint8(i)
		}
	}
	return inks, of
}

// levelled is a colour in whole levels, its number and how often it is used.
type levelled struct {
	levels       [3]uint8
	number, uses int32
}

// group is colours that share one of a palette.
type group struct {
	colours []levelled
	channel int     // in which they reach farthest,
	middle  uint8   // and the middle of that
	reach   float64 // how far, squared, times their uses
}

func groupOf(colours []levelled) group {
	low, high := colours[0].levels, colours[0].levels
	uses := 0
	for _, c := range colours {
		uses += int(c.uses)
		for ch, v := range c.levels {
			low[ch], high[ch] = min(low[ch], v), max(high[ch], v)
		}
	}
	g, far := group{colours: colours}, 0
	for ch := range low {
		if d := int(high[ch] - low[ch]); d > far {
			far = d
			g.channel, g.middle = ch, low[ch]+uint8(d/2)
		}
	}
	g.reach = float64(far*far) * float64(uses)
	return g
}

// parted is the two halves of a group that reaches anywhere.
func (g group) parted() (low, high group) {
	n := 0
	for i, c := range g.colours {
		if c.levels[g.channel] <= g.middle {
			g.colours[i], g.colours[n] = g.colours[n], c
			n++
		}
	}
	return groupOf(g.colours[:n]), groupOf(g.colours[n:])
}

// mean is the mean light of a group.
func (g group) mean(colours []tint) palette.RGB {
	var sum palette.Linear
	uses := 0
	for _, c := range g.colours {
		sum = plusLight(sum, float64(c.uses), colours[c.number].light)
		uses += int(c.uses)
	}
	for ch := range sum {
		sum[ch] /= float64(uses)
	}
	return sum.RGB()
}
