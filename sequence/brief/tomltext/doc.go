// Package tomltext is the text of a TOML file and the place of everything in it:
// it finds values, and changes one without touching another byte.
//
// Call [Parse] for a [Document], [Node.Find] for a value by its path, and
// [Document.Set], [Document.Drop], [Document.Arrange], [Document.ArrangeItems] or
// [Document.SetTexts] for a changed document. [Quote] and [List] write values.
//
// # Paths
//
// A path is keys with points between them. A table of a list of tables has its
// number, from 0, in brackets: "piece[2].rhythm.kind". Keys that hold a point or
// a bracket themselves have no path.
//
// # Promises
//
// An edit keeps every byte but those of what it is about: comments, order, line
// ends (LF or CRLF), a byte order mark, a last line without an end. What is set
// reads back. Dropping what was set anew (the key, or the table that was made
// for it) gives the bytes from before; only a heading that was given to a table
// known from the tables inside it stays. A document never changes: each edit
// gives another one.
//
// # Refusals
//
// A text that is not UTF-8 or not TOML is an [Error] with its place. An edit that
// would leave no TOML, or one in which the path leads elsewhere, is an error and
// changes nothing.
package tomltext
