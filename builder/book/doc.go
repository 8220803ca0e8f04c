// Package book makes of a manual the book, which is printed: pages of the edition, with its frame, policy and styles, so they open from a stick and without scripts;
// a browser prints them.
//
// The book is a page with title, directions and contents, and one file for each chapter, in the order in which a trainer teaches: lessons,
// the line, procedures, symptoms, parts, soils, chemistries, materials, tables, words, sources, sign-off. A chapter can be printed by
// itself. A file holds at most [FileSize] articles, a larger chapter takes several files. Each article begins on a sheet of its own, so that
// a revised one replaces the old in a binder, and each sheet has a running head: shop, edition, date, article, and the line
// with the article's station marked. A manual of more than [MostArticles] has no book, since nobody prints thousands of sheets; its pages
// print one by one.
//
// A section says what its page says, from the same content ([page.Parts.Print]), by a template for paper: headings one level lower, links
// followed by the number of the section that they lead to, calculators by their answers alone. The templates of the pages have no part in it.
package book
