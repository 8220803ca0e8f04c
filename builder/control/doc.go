// Package control keeps a manual as a controlled document: it raises revisions and enters approvals in the headers of articles, and lists what has
// to be looked at again and when.
//
// A header is changed where it stands: one line, and nothing else of the file, down to its line ends. What cannot be changed so for certain is
// refused with a sentence that says what to do by hand.
package control
