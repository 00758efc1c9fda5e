// Package brief reads a weaver's brief: a TOML text that says what she wants
// woven, on what, and from which yarns.
//
// Call [Parse] for a checked [Brief], [Default] for the commented brief that
// comes with the program, and [Edit] to change a value and leave every other
// byte alone.
//
// # Promises
//
// Quantities are exact rationals from the text, so that no decision hangs on
// how a fraction was rounded. Nothing is read from disk: a shelf file comes
// through a function of the caller's. Work is bounded before it is begun.
//
// # Refusals
//
// All problems found are returned together as [Problems], each with its file,
// line and column, the dotted key and a hint. A key that is not known is a
// problem that names the nearest one.
package brief
