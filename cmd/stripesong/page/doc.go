// Package page serves one brief as a page in the browser on the weaver's own
// machine.
//
// Call [New] with an engine, then [Server.Listen] and [Server.Serve]. The page shows
// what package workbench worked out and sends back what the weaver does; it decides
// nothing, and draws the cloth itself from tables it is given.
//
// # Promises
//
// It answers on 127.0.0.1 only, to requests whose Host and Origin are its own and
// that come to an address with a secret in it, or with a cookie that a browser
// was given for a code which holds once. No text of a request becomes a
// path: what is written, and where, is decided by the [engine.Storage]. The page, its
// style sheet and its modules are inside the program; nothing comes from the
// network. A file of the plan that is looked at is kept apart from the page. Work on the bench
// survives a reload of the page. See package engine for what is asked and answered.
//
// # Refusals
//
// Bodies over [MaxBody] bytes, more requests than a hand can make, other
// methods, other origins, and files that changed on the disk since they were
// read.
package page
