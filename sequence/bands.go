package sequence

// Band is neighbouring units of one block and one colour. Blocks and colours
// are numbers from 0.
type Band struct {
	Block, Colour, Units int
}

// Stripes makes bands of stripes whose block changes with every stripe, in turn
// from the first. Where the stripes are mirrored the blocks turn with them.
func Stripes(units, colours []int, blocks int, mirrored bool) []Band {
	bands := make([]Band, len(units))
	for i, n := range units {
		at := i
		if mirrored {
			at = min(i, len(units)-1-i)
		}
		bands[i] = Band{Block: at % blocks, Colour: colours[i], Units: n}
	}
	return bands
}

// Overlay lays blocks and colours that were shared out apart over each other.
// Both must have the same sum. A new band begins where either changes;
// neighbours alike in both are one band.
func Overlay(stripeUnits, colours, blockUnits, blocks []int) []Band {
	var bands []Band
	s, b := 0, 0
	stripe, block := stripeUnits[0], blockUnits[0]
	for {
		n := min(stripe, block)
		bands = join(bands, Band{Block: blocks[b], Colour: colours[s], Units: n})
		if stripe -= n; stripe == 0 {
			if s++; s == len(stripeUnits) {
				return bands
			}
			stripe = stripeUnits[s]
		}
		if block -= n; block == 0 {
			b++
			block = blockUnits[b]
		}
	}
}

func join(bands []Band, next Band) []Band {
	if n := len(bands); n > 0 {
		last := &bands[n-1]
		if last.Block == next.Block && last.Colour == next.Colour {
			last.Units += next.Units
			return bands
		}
	}
	return append(bands, next)
}
