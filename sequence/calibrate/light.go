package calibrate

import (
	"fmt"

	"stripesong/palette"
	"stripesong/sequence/brief"
)

// What is refused of a photo (judgements).
const (
	mostBlown  = 0.01 // share of pixels as bright as can be: their true light is not known
	mostUneven = 0.25 // between the ninths of a crop, over its mean
	mostOff    = 8.0  // dE00 of a wrapped yarn, once the light is set, from its colour
)

// areas are the two areas of a sample in the light by which the brief's colours
// are what they are.
type areas struct{ pattern, ground palette.Linear }

// photo sets the light of the sample's crops by the yarns beside it.
func (c *calibration) photo() (areas, error) {
	for _, p := range c.m.Photos() {
		if err := c.fair(p); err != nil {
			return areas{}, err
		}
	}
	gain, err := c.gain()
	if err != nil {
		return areas{}, err
	}
	set := func(key string) palette.Linear { return relit(c.photos[key].Light, gain) }
	return areas{set("sample.pattern_area"), set("sample.ground_area")}, nil
}

// relit is light as it would be without the gain of a photo.
func relit(light, gain palette.Linear) palette.Linear {
	for i := range light {
		light[i] /= gain[i]
	}
	return light
}

// fair refuses a crop that can't be measured.
func (c *calibration) fair(p brief.Photo) error {
	crop, ok := c.photos[p.Key]
	switch {
	case !ok:
		return c.m.Wrong(p.Key, fmt.Sprintf("picture %q was not read", p.File),
			"give the measurements as a file, with the pictures beside it")
	case crop.Blown > mostBlown:
		return c.m.Wrong(p.Key,
			fmt.Sprintf("%q is overexposed: %.0f %% of it is as bright as a picture can be",
				p.File, 100*crop.Blown),
			"take the photo again, darker: at least one stop less light")
	case crop.Uneven > mostUneven:
		return c.m.Wrong(p.Key,
			fmt.Sprintf("the light on %q is uneven: its parts differ by %.0f %%", p.File,
				100*crop.Uneven),
			"photograph in the shade or under two lamps, and crop one kind of cloth or yarn "+
				"alone, several units of it")
	}
	return nil
}

// gain is how much of each channel's light the photo has, by least squares over
// the yarns: sum(seen known) / sum(known known).
func (c *calibration) gain() (gain palette.Linear, err error) {
	var seen, known palette.Linear
	for _, w := range c.m.Sample.Wraps {
		i := c.b.ColourNamed(w.Colour)
		if i == unknown {
			return gain, c.noColour(brief.WrapKey(w.Colour), w.Colour)
		}
		crop, colour := c.photos[brief.WrapKey(w.Colour)].Light, c.b.Colours[i].RGB.Linear()
		for k := range gain {
			seen[k] += float64(crop[k] * colour[k])
			known[k] += float64(colour[k] * colour[k])
		}
	}
	for k := range gain {
		if known[k] == 0 || seen[k] == 0 {
			return gain, c.m.Wrong("sample.wraps",
				"these yarns are too dark to tell what light there was",
				"wrap a light yarn of the brief beside them")
		}
		gain[k] = seen[k] / known[k]
	}
	return gain, c.alike(gain)
}

// alike refuses wraps of which one is not, in the light they are said to be in,
// what its colour is; the worst is told.
func (c *calibration) alike(gain palette.Linear) error {
	worst, off := brief.WrapPhoto{}, mostOff
	for _, w := range c.m.Sample.Wraps {
		is := relit(c.photos[brief.WrapKey(w.Colour)].Light, gain).Lab()
		if d := palette.DeltaE00(is,
			c.b.Colours[c.b.ColourNamed(w.Colour)].RGB.Linear().Lab()); d > off {
			worst, off = w, d
		}
	}
	if worst.File == "" {
		return nil
	}
	return c.m.Wrong(brief.WrapKey(worst.Colour),
		fmt.Sprintf("%q is dE00 %.1f from %s once the light is set by all the yarns", worst.File,
			off, worst.Colour),
		"is it that yarn, in the same photo and the same light, and is its hex in the brief right?")
}
