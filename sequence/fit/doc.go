// Package fit turns the question of a plan round: not how much warp a set
// takes, but what set a warp gives.
//
// Call [Make] with a brief, its plan and a [Question]: how many pieces of the
// brief's size a warp holds, how long each could be if there were so many, what
// is left over, and whether that makes a short piece.
//
// # Promises
//
// How many pieces fit is decided on exact rationals, by the same arithmetic as
// the plan's wound length: take-up on all that is woven, fringes and waste
// besides. Lengths in the answer are millimetres, rounded to four decimals.
//
// The size of a piece is what the brief asks for, in whole weft units as the plan
// has it. Where only runs set the length it is that of the longest piece. Pieces
// whose runs give them another size come first, as they are. The warp of a plan
// gives the plan's pieces. Of a warp that is on the loom it is asked what the rest
// gives: pieces that are woven already are left out.
//
// # Refusals
//
// A warp that its waste, sample and fringes use up, as an error. A warp too
// short for one piece is no error: the answer is 0 pieces.
package fit
