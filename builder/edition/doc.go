// Package edition writes a published manual whole or not at all, and checks one that was written.
//
// An edition is a folder of static files. [BeginIn] takes the folder's lock and makes a hidden folder beside it;
// [Writer.Add] puts files there, from as many goroutines as one likes; [Writer.Commit] adds the checksum list
// (edition.json) and the offline worker, has everything written to the disk and swaps the new folder with the old one.
// Until that swap the old edition stays as it is, whatever goes wrong: an error, a crash, a full disk.
// What a crash leaves beside the edition is removed by the next BeginIn; the lock keeps the names of the folders that are ours, and a file in each
// the names of what was written there. Anything else in them is somebody's work too, and is kept.
//
// Of what lies in the edition's folder nothing is ever removed or replaced but what its list names, and only as it was published. Everything
// else is somebody's work: it lies in the new edition's folder afterwards. Where the new edition has a file for its place, or where somebody
// has changed a file of the old one, Commit refuses, names it and changes nothing. A list that is not as it was written makes nothing ours.
//
// Text files get neighbours for servers that send them: pages compressed with gzip (page.html.gz), assets with gzip and with brotli.
//
// [Verify] compares a folder with its checksum list.
package edition
