// Package palette reckons with colour as a weaver meets it: what threads mix
// into when they can no longer be told apart, how far two such mixtures differ,
// for whose eyes, and from how far away.
//
// # Where to start
//
// [ParseHex] reads a colour of the shelf and [RGB.Linear] turns it into light,
// which is what mixes. [PatternAreas] says which share of a patch each yarn
// covers, [Mix] averages, [Linear.Lab] gives CIELAB and [DeltaE00] the
// difference of two. [Sight.See] shows a colour to other eyes, [Blur.Stripes]
// moves two colours away from the eye, [GradeOf] puts the result in a word.
//
//	spruce, err := palette.ParseHex("#24463c")
//	...
//	on := palette.Mix(palette.Part{Colour: spruce.Linear(), Area: 0.375}, ...)
//	palette.DeltaE00(on.Lab(), off.Lab())
//
// For palettes as a whole: [Spread] picks the most different, [Ramp] steps
// evenly between two, [Snap] finds the nearest on a shelf, [ReadPhoto] and
// [Clusters] take colours out of a picture, [Neighbours], [LightnessRanks] and
// [Merging] describe what there is.
//
// # Units
//
// Light is linear sRGB, 0..1. XYZ has Y = 1 for white. CIELAB has L* 0..100 and
// the white of sRGB (D65, x 0.3127 y 0.3290) exactly, so that greys have a* and
// b* of zero. OKLab has L 0..1. Widths are in millimetres, distances in metres,
// differences in units of CIEDE2000.
//
// # Promises
//
// Everything is a pure function of its arguments: no clock, no files, no chance
// that is not passed in, nothing that depends on the operating system. Greys stay grey to 1e-6
// through every step. Colours outside sRGB are mapped into it, never wrapped round. The last bit of
// a logarithm or an arc tangent may differ between processors, so [Linear.Lab]
// rounds to 1e-9 and everything here that sorts or chooses compares whole
// millionths ([MicroE]).
//
// # Refusals
//
// This is not colour management: yarn is neither flat nor lit by a screen, and
// the differences are good for "which pair contrasts more", not for matching a
// skein to a screen.
package palette
