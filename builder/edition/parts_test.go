package edition

import (
	"slices"
	"testing"
)

// Every file is in one part, and all of them together are the edition.
func TestParts(t *testing.T) {
	list := &List{Files: []File{{Path: "assets/look.aaaaaaaaaa.css"}, {Path: "content/part-1.bbbbbbbbb.zst"}, {Path: CurrentFile}, {Path: "index.html"}, {Path: "soils/assets/x.html"}, {Path: WorkerName}}}
	var joined []string
	for i, want := range [][]string{{"assets/look.aaaaaaaaaa.css"}, {"content/part-1.bbbbbbbbb.zst", "index.html", "soils/assets/x.html"}, {CurrentFile, WorkerName}, {ListName}} {
		got, is := list.PathsOf(Parts[i])
		if !is || !slices.Equal(got, want) {
			t.Errorf("%s: %q", Parts[i], got)
		}
		joined = append(joined, got...)
	}
	all, is := list.PathsOf(All)
	slices.Sort(joined)
	slices.Sort(all)
	if !is || !slices.Equal(all, joined) {
		t.Errorf("all: %q, the parts: %q", all, joined)
	}
	if got, is := list.PathsOf("asset"); is {
		t.Errorf("a part of no name: %q", got)
	}
}
