// Package exact works with numbers that are not rounded, and rounds them once a
// whole number or a figure to print is wanted.
//
// # What to call first
//
// [Times], [Over], [Plus] and [Minus] give a new number and leave theirs as they
// are. [HalfUp], [NearestEven], [Floor] and [Ceil] make whole numbers of threads,
// picks or cones, [Rounded] the numbers of a plan.
//
// # Promises
//
// No decision hangs on a floating-point tie. Numbers are of any size.
//
// # Refusals
//
// None: to divide by nothing is a mistake of the program and panics.
package exact

import "math/big"

// Times is the product of two numbers.
func Times(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

// Over is the first divided by the second.
func Over(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

// Plus is the sum of two numbers.
func Plus(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }

// Minus is the first less the second.
func Minus(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }

// Whole is a whole number.
func Whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

// Remains is what is left of one after a share is lost: 1 - share.
func Remains(share *big.Rat) *big.Rat { return Minus(Whole(1), share) }

// More is one and a share on top: 1 + share.
func More(share *big.Rat) *big.Rat { return Plus(Whole(1), share) }
