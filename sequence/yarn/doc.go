// Package yarn turns what a label says into numbers: yarn counts and runs
// into tex, tex and wraps into diameters, lengths into weights and packages.
//
// # What to call first
//
// [Tex] for a count such as "8/2 cotton", [TexOfRun] for a run such as
// "6770 m/kg"; then [Grams], [Metres] and [Packages].
//
// # Promises
//
// Tex (grams in a kilometre) is an exact rational, reckoned with the exact
// yard and pound, and so are grams and metres, because a number of packages is
// decided on them. Diameters are models and come as floating point; they are
// made of products and square roots only, so they are the same on every
// processor.
//
// # What is refused
//
// Counts that labels do not agree on, such as "22/2 cottolin" or plain "wool":
// the error asks for the run instead, which always wins.
package yarn
