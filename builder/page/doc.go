// Package page turns a manual into the pages of an edition.
//
// [Render] first lays out what all pages share (a site: templates, hashed assets, the drawn line, who links to whom) and then renders the
// pages in parallel; each is a pure function of the site and one article, tank or list. Nothing is read from outside the
// manual and the theme, and nothing is written but through the function the caller gives.
//
// A site speaks one language: its words, templates and answers are those of a language, and everything else is shared with the sites of the
// edition's other languages (site.speak). A function that writes a page asks its own site for words, never the shop file.
//
// What the book prints of a page is filled by the function that fills the page, and shown by a template for paper ([Parts.Print]).
//
// Every link in a page is relative and names a file. No page holds an inline script or style, so that the strict policy
// in each page's head can forbid them.
package page
