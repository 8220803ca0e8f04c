// Package understood holds the record of who has read and understood which edition of a manual, the file understood.txt, and works out what everybody has to read
// since the edition that they signed.
//
// The record is a text of one line a signature. As in the ledger, lines are only ever added and their order says nothing, so version control joins two of them with a union
// merge. It is no part of an edition: a manual that one more person has read is still the same manual.
package understood
