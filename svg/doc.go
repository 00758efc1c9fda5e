// Package svg draws a plan: one sheet for the set, one for each piece, and
// pictures of the cloth itself. It reads a [plan.Plan] and decides nothing.
//
// # What to call
//
// [Set] writes plan.svg, [Piece] piece-NN.svg; [Picture] writes one side of the
// finished piece as it looks and [Crossings] the same a pixel to a crossing, both
// as PNG. Each takes a finished plan and a writer; pieces count from 0.
//
// # What is promised
//
// The same plan gives the same bytes on every processor: layout is reckoned in
// whole micrometres of paper. Cloth is drawn at one true scale a sheet, from
// the first pick up; the back is the cloth turned over sideways, with warp and
// weft on top exchanged. [Set] fills with the colours of the plan's mixes and
// shows the back where a corner is turned over. [Piece] draws threads as wide as
// they lie, in colours that average to the mix, where the thinnest is at least a
// twenty-fourth of an inch, four pixels of a screen; else it fills with the mix.
//
// The cloth is the only colour on a sheet, and every colour also goes by its
// name or its number in the legend, so a sheet may be printed in black. Names
// that don't fit end in an ellipsis, labels thin out, long lists end with how
// many more the plan holds: nothing overlaps.
//
// A drawing may say of itself that it is unchanged: [Sealed] adds the sum of its
// bytes in a comment, and [IsSealed] looks whether it still fits.
//
// Whatever a brief calls things, drawings are well-formed XML and hold no
// active content. User text stands in text bodies only, and control characters
// in it are shown as their pictures.
//
// # What is refused
//
// A plan that contradicts itself is an error and not a drawing: a colour that
// is not listed or is none, ends or picks that don't match the runs, a mixed
// colour that is missing. Errors of the writer are returned. What has been
// written until then is worth nothing, so write to memory or to a temporary
// file.
package svg
