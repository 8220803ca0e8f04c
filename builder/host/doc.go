// Package host serves an edition over HTTP, on this machine unless another address is named.
//
// A [Handler] answers with exactly the files that the edition's checksum list names, and with nothing else of the folder: no
// listings, no hidden files, no files that somebody put there later. Each request opens the folder anew and has closed it before it
// answers, so a new edition that is swapped in is served at once, and a request sees one edition or the other, never a mixture. A file is sent from
// the disk; on Windows, which moves no folder with open files, it is read before, and readers of the same file share a copy.
//
// Checksums of the list are the entity tags; compressed neighbours are sent to whoever takes them. The policy that stands in each
// page is sent as a header too, with what only a header can say.
//
// With [Options.Changes] the pages follow the manual while it is written: a script is added to them as they are sent, the edition on
// disk is not touched, and [Changes.Tell] has every open page look whether it is still the newest.
package host
