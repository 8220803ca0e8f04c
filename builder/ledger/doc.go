// Package ledger holds the ledger of a manual's editions, the file ledger.txt, and the short code by which an edition is told from every other.
//
// The ledger is a text of one line an edition. Lines are only ever added, and their order says nothing: so two ledgers are joined line by line, as
// version control does with a union merge, and no entry is lost. Where two people have entered an edition of the same number on two branches, both
// entries stay: the number stands on paper that hangs already. Their codes tell them apart, the one of the later date counts as the newer (on one
// day the one with the greater digest), and the next edition has a number that neither has.
//
// The format is described in FORMAT.md of package manual.
package ledger
