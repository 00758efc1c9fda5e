// Package loomwork turns a plan into work to be done: bouts to wind, dents to
// sley, units to thread, treadles to tie, picks to weave with what has been
// woven so far, marks on a tape, weights to hold against a scale.
//
// # What to call
//
// Each question has one function of a finished [plan.Plan]: [Bouts],
// [RaddleOf], [SleyingOf], [ThreadingOf], [TieUpOf], [StepsOf] and [TapeOf] of a
// piece, [WeightsOf], [LettersOf]. [TapeLength], [YarnLength], [YarnWeight] and [Folds]
// print figures as tapes and scales show them. Pieces count from 0 in arguments; ends,
// dents, shafts and treadles from 1 in answers, as a weaver counts them.
//
// # Promises
//
// Nothing is reckoned anew: every count is the plan's, or a sum of the plan's,
// and running counts end on the plan's totals exactly. Lengths are in
// millimetres and woven (on the loom, under tension) unless their name says
// otherwise. The same plan gives the same answers on every processor.
//
// # Refusals
//
// None: a plan that was made is work that can be listed. Where the plan says
// nothing, of a reed for instance, the answer is empty.
package loomwork
