// Package whole writes files and folders that appear whole or not at all.
//
// Call [Folder] for a folder of files, [Create] for a file that must not be
// there yet and [Replace] for one that may be.
//
// # What it promises
//
// Everything is written into a room of its own beside the target, a folder
// named .stripesong-PID-N, and moved into place by one rename. A program that
// is killed, or a disk that fills, leaves the old or the new, never a mixture,
// and at worst a room, which the next call in the same folder clears away.
// Where the system can exchange two folders in one step it is asked to;
// elsewhere there is a moment with no folder at all, and the next call puts
// the old one back if it was cut short there.
//
// # What it refuses
//
// A link or a file where a folder is to stand, a folder that the caller does
// not know for its own, the folder the program was started in, and the ones
// above it. Nothing is flushed to the disk by force: it guards against being
// stopped, not against a power cut.
package whole
