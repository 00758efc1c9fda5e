// Package measure reads and prints quantities that carry their unit: lengths,
// thread densities, shares and weights.
//
// # What to call first
//
// [ParseLength], [ParseDensity], [ParseShare], [ParseWeight] and, where a
// length or a weight will do, [ParseAmount].
//
// # Promises
//
// Values are exact rationals of what was typed: "1/3 yd" is a third of
// 914.4 mm, and no decision further on hangs on a floating-point tie (package
// exact rounds them). String gives back what was read. The Format functions are
// for people: rounded, in the units they asked for.
//
// # What is refused
//
// A number without a unit (the error offers both readings), an unknown unit,
// negative numbers, exponents, infinities, decimal commas and numbers of more
// than twelve digits. White space may be of any kind, no-break spaces too.
package measure
