// Package carry puts an edition into one file to be carried, and reads it there without unpacking it.
//
// The file is a ZIP archive (ISO/IEC 21320-1): at its top the page [First], which people open and which leads on, below it, in [Folder], the files of the edition in
// the order of their paths. What only a server or this program can use, compressed neighbours and the content by which editions are compared, stays behind. One
// edition gives the same bytes everywhere: times are fixed, and the compressor is a module of ours and not the compiler's library.
//
// Whoever opens such a file may have it from anybody. [Open] reads its directory and the checksum list, and refuses with a sentence what an edition's file never
// has: see check.go. It never holds the file in memory, and no more of an entry than the list says that it has.
package carry
