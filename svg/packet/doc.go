// Package packet writes packet.html: a plan as the pages a weaver works from,
// printed on A4 or Letter or opened on a tablet beside the loom.
//
// [Write] is all there is. The page holds, in working order: shopping and
// shelf, winding, reed and loom, a sheet for each piece with its tape at true
// size, off the loom, and what to measure and write down.
//
// # Promises
//
// One file, complete in itself: no network, no fonts, no images from elsewhere;
// its only script keeps ticks and what is typed, and the page says all it has
// to say without it. The same plan gives the same bytes. Every number is the
// plan's or comes from package loomwork. Every colour also goes by its name
// and a letter.
//
// # Refusals
//
// Text of a brief never becomes markup, style or script; control characters in
// it are shown as their pictures. Errors of the writer, and of a plan that
// can't be drawn, are returned; what was written until then is worth nothing.
package packet
