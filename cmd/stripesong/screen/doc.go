// Package screen puts text on a terminal: how wide it is, what may be shown
// of it, and which colours can be had.
//
// Call [Visible] on every text that comes from outside before it is printed,
// [Width], [Pad], [Cut] and [Wrap] to lay it out, and [Detect] for the [Paint]
// of a stream.
//
// # What it promises
//
// Widths are those of a terminal's cells: wide characters take two, combining
// ones none. Nothing that [Visible] returns moves the cursor, colours, hides
// or turns the direction of what follows.
//
// # What it refuses
//
// To colour anything but a terminal, or one whose user set NO_COLOR.
package screen
