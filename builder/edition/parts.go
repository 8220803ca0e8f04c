package edition

import (
	"slices"
	"strings"
)

// Part is some of the files of an edition: those that are copied at one time to where people read them, by whatever copies one file after another. In
// the order of [Parts] no page is there before what it loads, and the list comes when all that it names is there.
type Part string

// The parts of an edition.
const (
	Assets Part = "assets" // named by their content: another edition's stay as they are
	Pages  Part = "pages"  // and what else is asked for anew each time
	Worker Part = "worker" // what tells devices and copies that there is a newer edition
	OfList Part = "list"   // by which they take it
	All    Part = "all"
)

// Parts are the parts in the order in which they are copied.
var Parts = []Part{Assets, Pages, Worker, OfList}

// PartOf is the part that a file of an edition belongs to.
func PartOf(path string) Part {
	switch {
	case path == ListName:
		return OfList
	case path == WorkerName || path == CurrentFile:
		return Worker
	case strings.HasPrefix(path, "assets/"):
		return Assets
	}
	return Pages
}

// PathsOf are the files of a part, by path, compressed neighbours left out; false where there is no such part.
func (l *List) PathsOf(p Part) ([]string, bool) {
	if p != All && !slices.Contains(Parts, p) {
		return nil, false
	}
	var paths []string
	for _, f := range l.Files {
		if p == All || PartOf(f.Path) == p {
			paths = append(paths, f.Path)
		}
	}
	if p == All || p == OfList {
		paths = append(paths, ListName)
	}
	return paths, true
}
