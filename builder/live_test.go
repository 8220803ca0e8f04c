package builder

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tankside/builder/logbook"
	"tankside/builder/record"
)

// The pages that a host makes of the readings that come in are those that an edition with these readings would have, to the byte; with another manual than the
// edition's there are none.
func TestLivePagesAreThoseOfAnEdition(t *testing.T) {
	src, to, shop := t.TempDir(), filepath.Join(t.TempDir(), "edition"), t.TempDir()
	if err := os.CopyFS(src, os.DirFS(smallManual)); err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	if _, err := publish(t, src, to, at); err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	_, list, err := ContentOfEdition(to)
	if err != nil {
		t.Fatal(err)
	}
	tanks, err := TanksOf(ctx, src, list)
	if err != nil || len(tanks) == 0 {
		t.Fatal(tanks, err)
	}
	book, err := logbook.Open(shop, tanks)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	live := NewLive(src, to, book, func() (time.Time, error) { return at, nil }, func(text string) { said = append(said, text) })
	own := "tanks/" + tanks[0] + ".html"
	if _, _, is := live.Page(ctx, own); is || len(said) > 0 {
		t.Errorf("a page that is as it was published is made again; %v", said)
	}

	rows := "when,temperature (°C),id\n"
	for _, row := range []string{"2026-11-20,60.5,a", "2026-11-21,61,b", "2026-11-22T06:10,61.5,c", "2026-11-23T06:10,60,d"} {
		rows += row + "\n"
	}
	batch, err := record.ReadBatch([]byte(rows), 10)
	if err != nil {
		t.Fatal(err)
	}
	if kept, _, err := book.Add(tanks[0], batch, at); err != nil || len(kept) != 4 {
		t.Fatal(kept, err)
	}
	pages := []string{own, "records/" + tanks[0] + ".html", "records/" + tanks[0] + "-month.html", "stations/wash.html"}
	made := map[string][]byte{}
	for _, page := range pages {
		data, sum, is := live.Page(ctx, page)
		if !is || len(sum) != 64 {
			t.Fatalf("%s is not made of the readings; %v", page, said)
		}
		made[page] = data
	}

	for _, asset := range regexp.MustCompile(`assets/record-[^"]*`).FindAllString(string(made[own]), -1) {
		if _, _, is := live.Page(ctx, asset); !is {
			t.Errorf("%s, which the page loads, is not there", asset)
		}
	}

	records := filepath.Join(src, "records")
	if err := os.CopyFS(records, os.DirFS(shop)); err != nil {
		t.Fatal(err)
	}
	if _, err := publish(t, src, to, at); err != nil {
		t.Fatal(err)
	}
	for _, page := range pages {
		want, err := os.ReadFile(filepath.Join(to, page))
		if err != nil || !bytes.Equal(made[page], want) {
			t.Errorf("%s is not the edition's (%v)", page, err)
		}
	}

	article := anyArticle(t, src)
	text, err := os.ReadFile(article)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(article, append(text, "\nOne more sentence.\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	// The edition in place is still the one of before; it is read again since its list has been written anew.
	if _, _, is := live.Page(ctx, own); is || len(said) != 1 || !strings.Contains(said[0], "not what this edition was made from") {
		t.Errorf("charts are made by a manual that nobody has published; %v", said)
	}
}

// anyArticle is a file with an article.
func anyArticle(t *testing.T, src string) string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(src, "*", "*.md"))
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	return names[0]
}
