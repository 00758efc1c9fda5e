// Package contrast answers the question a weaver gets wrong most often: which of
// my colours will show on this warp, and what would mend those that don't?
//
// Call [Make] with a brief, its plan and a [Question]. The [Report] holds every
// pair of ground and pattern colour that could meet on the warp, the plainest
// first; neighbouring warp stripes; the two sides of every piece; and for each
// combination of the plan that falls short the [Mend] that would help.
//
// # Units
//
// Lightness is L* 0..100, differences are CIEDE2000, widths are millimetres of
// finished cloth, distances metres. Numbers are rounded to four decimals once
// everything has been decided.
//
// # One difference, three places
//
// The back of the cloth shows the two mixtures of a combination exchanged. So
// the difference of pattern areas and ground areas is the same on the face and
// on the back, and the same again between face and back at one spot; only the
// sign turns. What differs from side to side is how much of each there is: see
// [Sides].
//
// # Promises
//
// Every [Option] has been tried: the changed brief was planned anew, and the
// plan gave the grade that is promised. No option is offered that leaves more
// combinations short than there were.
//
// # Refusals
//
// It compares combinations; it does not match colours on a screen, and does not
// know which colours a weaver likes together.
package contrast
