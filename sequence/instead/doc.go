// Package instead puts another yarn in the place of one, of the same grist or of
// another, and works out sett, picks, yardage and weight anew.
//
// Call [Make] with a brief, its plan and a [Question]; the [Answer] has the changes that
// package brief writes, the plan with them, and both side by side.
//
// # Promises
//
// Yarns lie as close as before: the sett and the picks are those at which they fill the
// same part of their room, as round as they are (package yarn), to the nearest step of a
// density, or to what the reed gives. What is changed was planned.
//
// # Refusals
//
// A yarn that the brief does not have or weave with, and one that can't be planned.
package instead
