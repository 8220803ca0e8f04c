// Package logbook takes readings of the baths from devices of the shop and keeps them: a folder with a record for each tank, records/TANK.csv as package
// record reads it, to which rows are added and in which nothing else is written.
//
// A row is answered as kept only when it is on the disk. Before the record is touched, the rows that are to be added lie, with a checksum and the place
// where they belong, in a file of their own beside it and have been written out (fsync); so what a crash has left half done is put right from there: the
// half of a row that was not answered yet is taken off, and the rows are added whole. What somebody else has written into a record, a last line without
// an end among it, is never taken for such a half and never changed.
//
// A row has an id: one that is there already is answered as kept and not added again. Devices are paired by a code that is shown on the host's own screen;
// of their keys the folder keeps digests.
package logbook
