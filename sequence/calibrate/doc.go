// Package calibrate turns what was measured on a woven set into the shares that
// explain it: draw-in, take-up, shrinkage both ways, and what each pick takes
// beyond the width in the reed.
//
// Call [Make] with a brief, its plan and measurements from
// [brief.ParseMeasured]; [Answer.Changes] puts the shares into a brief through
// [brief.Edit].
//
// # Promises
//
// Shares are exact until they are rounded. Each has bounds: the least and the
// most it can be if every length is off by the ruler's division in the worst
// way. A share that comes out below nothing, but could be nothing within those
// bounds, is nothing.
//
// # Refusals
//
// Measurements that contradict one another, as [brief.Problems] with the place
// in the file of measurements: cloth longer than its warp, wider at the fell
// than in the reed, grown in the wash, picks of less yarn than the cloth is
// wide. Measurements that give no share at all are an error too.
package calibrate
