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
//	    plan a set of towels: stripes, blocks, drawings, yarn, warp
//	stripesong try [BRIEF] [flags]
//	    draw many rhythms on one sheet, to choose from
//	stripesong check [BRIEF] [flags]
//	    say what to put right before winding the warp
//	stripesong contrast [BRIEF] [flags]
//	    say which colours will show on this warp, and what would help
//	stripesong palette ACTION [FILE] [flags]
//	    choose colours: from a photo, a shelf, between two others
//	stripesong fit [BRIEF] [flags]
//	    say how many pieces a warp gives, and how long each can be
//	stripesong instead [BRIEF] [flags]
//	    compare the plan with one in which a yarn is replaced
//	stripesong midway [BRIEF PROGRESS] [flags]
//	    plan the rest of a set that is partly woven
//	stripesong calibrate [[BRIEF] MEASURED] [flags]
//	    work out draw-in, take-up and shrinkage from measurements
//	stripesong page [BRIEF] [flags]
//	    work on a brief in the browser, where every change shows at once
//	stripesong completion SHELL
//	    print a script with which a shell completes commands and flags
//	stripesong help [COMMAND]
//	    explain a command, or a topic: rhythms, trials, files, grades
//
// Start with "stripesong plan": without a brief it plans the one that comes
// with the program. Every command explains itself with --help.
//
// # Exit codes
//
//	0  all is well
//	1  the answer is no (check, fit, midway)
//	2  a mistake, nothing written
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
