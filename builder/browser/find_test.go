package browser

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"tankside/builder/edition"
	"tankside/search"
)

// An operator types what is seen and opens the right article, with the keyboard alone.
func TestFindOpensTheRightArticle(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "soils/wax.html", size(360, 780))
		before := len(b.requests)
		b.press(".bar-find")
		b.keys("#find-words", "white spots")
		b.until(`document.querySelectorAll(".find-hit").length > 0`)
		first := b.text(".find-hit")
		if !strings.Contains(first, "Spots") || !strings.Contains(first, "symptom") {
			t.Errorf("the first hit shows neither title nor kind:\n%s", first)
		}
		if marked := ask[int](b, `document.querySelectorAll(".find-hit mark").length`); marked == 0 {
			t.Error("no matched word is marked")
		}
		if before == 0 {
			t.Error("the tab heard of no request; the watch over requests does not work")
		}
		b.keys("#find-words", kb.ArrowDown)
		b.keys("#find-words", kb.Enter)
		b.until(`location.pathname.endsWith("/symptoms/spotty-parts.html")`)
	})
}

// The page's list is the native one.
func TestFindGivesTheNativeList(t *testing.T) {
	t.Parallel()
	folder := published(t)
	list, err := edition.ReadList(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	segment, err := edition.Parcel(os.DirFS(folder), list, "search-segment")
	if err != nil {
		t.Fatal(err)
	}
	finder, err := search.Open(segment)
	if err != nil {
		t.Fatal(err)
	}
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "index.html")
		for _, words := range []string{"wont come clean", "suds", "alu turned black", "60 °C", "140F wax", "how much soap", "anodised 6061 pH", "trasducer", "citric"} {
			want, err := finder.Ask(context.Background(), search.Question{Words: words + " ", Limit: 8})
			if err != nil {
				t.Fatal(err)
			}
			ask[bool](b, `(document.querySelector("#find-words").value = "", true)`)
			b.keys("#find-words", words+" ")
			var paths []string
			for _, h := range want.Hits {
				paths = append(paths, h.Path)
			}
			expected := strings.Join(paths, " ")
			b.until(`[...document.querySelectorAll(".find-hit")].map(a => a.getAttribute("href")).join(" ") === ` + quote(expected))
		}
	})
}
