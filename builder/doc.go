// Package builder turns a manual's folder into an edition's folder. Data flows one way, and each arrow is one call:
//
//	folder ──manual.Read──▶ Manual ──rules.Proof──▶ findings
//	                          │
//	                          ├─page.Render──▶ pages ┐ (book's sheets among them)
//	                          └─search.Index─▶ index ┴─edition.Writer──▶ edition folder
//
// Editions that follow each other while somebody writes are a [Sitting]: the same pipeline with remembered results. Articles, findings and pages are
// shared where the manual answers all that was asked for them as before, and files that stay are not written again.
//
// The Manual is immutable once read, and everything after it is a pure function of it; so pages render in parallel.
// Nothing in here prints, exits or reads the clock or the environment: time, folders and progress come in as [Options].
//
//	manual/   reads shop file and articles into one typed model, with positions
//	finding/  what the proof-reader reports
//	rules/    the proof-reader: each rule one small function over the model
//	tree/     symptom trees: headings and answers made a graph, and checked
//	page/     the model made pages
//	handout/  cards, process sheets, logs and forms, as blocks of text
//	book/     the pages made the printed manual
//	edition/  the edition's folder, written whole or not at all; its checksum list
//	watch/    what has changed in the manual's folder, and publish again
package builder
