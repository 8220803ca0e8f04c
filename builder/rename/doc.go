// Package rename gives an article, a heading or a tank another name: in its file, and in every link, header, translation, answer of a tree, calculator,
// glossary and shop file that says the old one. What else stands in those files stays as it is, to the byte: comments, line ends, quotation marks.
//
// [For] works out the edits and changes nothing; an editor can show them. [Split] does so for a section that becomes an article of its own. Both give
// a [Refusal], with places, where an edit would be
// unsafe. [Plan.Write] brings the edits into the folder: it is done whole, or, after a crash, brought to its end by [Finish].
//
// The old address is kept in the manual's file of old addresses (manual.MovedFile), from which an edition makes a page that leads on. Renaming back
// takes that line out again, so that a manual renamed there and back has the same bytes.
package rename
