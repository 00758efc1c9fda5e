// Package whole writes files and folders that appear whole or not at all, and
// takes nothing away that somebody else has written.
//
// Call [Folder] for a folder of files, [Create] for a file that must not be there
// yet, [Rewrite] for one that was read before, and [Replace] for one that is the
// caller's alone. [Within] and [Inside] compare places.
//
// # Promises
//
// Everything is written into a working folder beside the target, called
// .stripesong- and a number, and moved into place by one rename. A program that
// is killed, or a disk that fills, leaves the old or the new, never a mixture,
// and at worst a working folder, which the next call in the same place clears
// away. A lock of the operating system says whose program is still there; where
// no lock can be had it is taken as in use. Where the system can exchange two
// folders in one step it is asked to; elsewhere there is a moment with no folder
// at all, and the next call puts the old one back if it was cut short there.
//
// A folder holds a list of its files with their sums, .stripesong-files. What it
// does not list, or no longer as it lists it, is somebody else's: such a folder is
// not replaced, and what is saved into it while it is being replaced is kept: every
// file that is saved into it, new or over one of its own. What a program that held
// a file open all the while goes on writing into it may be lost with the old folder.
//
// # Refusals
//
// A link or a file where a folder is to stand, a folder with anything in it that
// is not its own, the folder the program was started in, and the ones above it; a
// place in a folder that it made; a file that was changed since it was read, that may
// not be written to, or that has other names. Nothing
// is flushed to the disk by force: it guards against being stopped, not against a
// power cut.
package whole
