// Package bring makes an article of what a word processor saves: HTML, or markdown, which is first made HTML so that both go one way. Tables with merged cells,
// bullets that are no list, messages that begin with “WARNING:”, footnotes, pictures, degrees and decimal commas come out as the manual's format has them.
//
// [Article] says everything that it changed, took for something, left to be decided and dropped. It never guesses the unit of a number, nor which of two numbers is
// meant: that is left as it is, and said.
package bring
