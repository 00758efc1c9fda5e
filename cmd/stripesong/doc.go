// Stripesong plans sets of handwoven towels. A weaver has one warp, a shelf of
// colours and a set of towels to make; the program turns a palette and a few
// rhythm rules into warp stripes and weft blocks in whole threading units,
// draws both faces of the cloth, says whether the pattern will be seen, and
// reckons the yarn by colour and the length of warp.
//
// # Commands
//
//	stripesong new FILE [flags]
//	    write a commented brief to start from
//	stripesong plan [BRIEF] [flags]
//	    work out a set of towels: stripes, drawings, yarn, warp
//	stripesong try [BRIEF] [flags]
//	    many rhythms on one sheet, to look at before choosing
//	stripesong check [BRIEF] [flags]
//	    say what to put right before winding the warp
//	stripesong contrast [BRIEF] [flags]
//	    say which colours will show on this warp, and what would help
//	stripesong palette ACTION [FILE] [flags]
//	    build or mend a palette: from a photo, the shelf, two colours
//	stripesong fit [BRIEF] [flags]
//	    say how many pieces a warp gives, and how long each could be
//	stripesong instead [BRIEF] [flags]
//	    another yarn in the place of one, both plans side by side
//	stripesong midway [BRIEF PROGRESS] [flags]
//	    at the loom: what the rest gives, and how to go on
//	stripesong calibrate [[BRIEF] MEASURED] [flags]
//	    learn draw-in, take-up, shrinkage and weft from what was measured
//	stripesong page [BRIEF] [flags]
//	    work on a brief in the browser, every change seen at once
//	stripesong completion SHELL
//	    print what lets a shell complete commands and flags
//	stripesong help [COMMAND]
//	    all about a command, or about rhythms, trials, files or grades
//
// Start with "stripesong plan": without a brief it plans the one that comes
// with the program. Every command explains itself with --help.
//
// # Exit codes
//
//	0  all is well
//	1  the answer is no (check, fit, midway)
//	2  a mistake; nothing is written
//
// Answers go to stdout. Mistakes go to stderr, as "stripesong: error: ..." and
// "stripesong: hint: ...", in a brief with file, line, column, and a caret.
//
// # How it is laid out
//
// Nothing is computed here: package brief reads, package plan reckons, package
// svg draws, and this one parses flags ([command] is the table of them), writes
// files (package whole) and prints (package screen). The same arguments and
// brief give the same bytes on every machine. Output is written whole or not
// at all, and nothing that is not the program's own is ever overwritten.
package main
