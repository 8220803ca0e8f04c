// Package languageserver speaks the Language Server Protocol 3.17 (published specification, Microsoft, 2022) over JSON-RPC 2.0, so that
// whoever writes a manual in an editor that speaks it too sees findings while typing, is offered keys, words, names and headings, and can go
// from a name to what it names.
//
// [Serve] reads messages from a reader and writes them to a writer, one after the other, in one goroutine; a second one only reads. The clock,
// the waiting for a pause and the folders are handed in with [Options]. What is open in the editor lies over the folder ([overlay]), and the
// proof-reader reads both as it would read the folder after saving, each article again only where something that it asked for has changed:
//
//	manual.Reader    the articles, by their files
//	relate.Memo      which articles each speaks of
//	rules.Memo       what was found in each
//
// What comes in is not trusted: a message, an open text and the number of both are limited (limits.go), and positions that a text does not
// have are moved to the nearest that it has.
package languageserver
