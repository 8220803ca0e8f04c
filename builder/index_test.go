package builder

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/edition"
	"tankside/search"
)

// The search index of a large manual comes in pieces: in a sitting, a change of one article makes one of them anew, the edition is to the byte that
// of publishing once, and all pieces together answer.
func TestIndexInPieces(t *testing.T) {
	t.Parallel()
	articles := map[string]string{"shop.yaml": smallShop}
	for i := range 1001 {
		articles[fmt.Sprintf("procedures/p-%d.md", i)] = head + fmt.Sprintf("## Fill %d\n\nUse bucket %d. See [the next](p-%d.md).\n", i, i*i, (i+1)%1001)
	}
	src := folder(t, articles)
	to := filepath.Join(t.TempDir(), "edition")
	s := NewSitting()
	defer s.Close()
	sit := func(changed ...string) edition.List {
		t.Helper()
		if r, err := Publish(context.Background(), Options{Manual: src, To: to, Now: day, Sitting: s, Changed: changed}); err != nil {
			t.Fatal(err, r.Findings)
		}
		l, err := edition.ReadList(os.DirFS(to))
		if err != nil {
			t.Fatal(err)
		}
		return *l
	}
	pieces := func(l edition.List) map[string]string {
		all := map[string]string{}
		for name, file := range l.Parcels {
			if strings.HasPrefix(name, "search-segment") {
				all[name] = file
			}
		}
		return all
	}
	before := pieces(sit())
	if len(before) != 3 { // of words, and two of documents
		t.Fatalf("the pieces are %v", before)
	}
	name := "procedures/p-77.md"
	if err := os.WriteFile(filepath.Join(src, filepath.FromSlash(name)), []byte(strings.ReplaceAll(head, "%T", name)+"## Fill 77\n\nUse a zinc pail. See [the next](p-78.md).\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	list := sit(name)
	changed := 0
	for name, file := range pieces(list) {
		if before[name] != file {
			changed++
		}
	}
	if changed != 1 {
		t.Errorf("%d pieces changed", changed)
	}
	fresh := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, fresh, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	compare(t, "one article", files(t, to), files(t, fresh))

	var blobs [][]byte
	for name := range pieces(list) {
		blob, err := edition.Parcel(os.DirFS(to), &list, name)
		if err != nil {
			t.Fatal(err)
		}
		blobs = append(blobs, blob)
	}
	f, err := search.Open(blobs...)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for words, want := range map[string]string{"zinc pail": "procedures/p-77.html#fill-77", "bucket 6084": "procedures/p-78.html#fill-78"} {
		a, err := f.Ask(context.Background(), search.Question{Words: words})
		if err != nil || len(a.Hits) == 0 || a.Hits[0].Path != want {
			t.Errorf("%q: %+v, %v", words, a.Hits, err)
		}
	}
}
