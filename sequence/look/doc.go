// Package look says what the eye sees of three yarns woven together: the colour
// of a patch where the pattern weft lies on the face and of one where it lies
// behind, and how far two patches differ, for whose eyes and from how far away.
//
// Call [Of] with a brief, [Mixer.Patch] for the colours of a [Trio], and [See]
// for what is left of a difference at a distance. [Worst] asks all sights.
//
// # Promises
//
// Colours are named by their numbers in the brief. Light is linear sRGB,
// lightness is L* 0..100, differences are CIEDE2000, widths are millimetres of
// finished cloth, distances metres. Which of two differences is worse is decided
// on whole millionths, the same on every processor.
//
// # Refusals
//
// The model says which of two combinations contrasts more; it is not a colour
// match on a screen (see [palette.PatternAreas]).
package look
