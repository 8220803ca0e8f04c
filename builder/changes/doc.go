// Package changes says what differs between two contents of a manual: file by file and heading by heading, with the words that have changed, what has to
// be replaced on the floor and who has to read what again.
//
// [Between] leaves nothing out: [Apply] makes the newer content of the older one and the list.
package changes
