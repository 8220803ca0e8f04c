package browser

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"tankside/builder/edition"
)

// Once opened from a server, the manual works without it: pages never visited, search, calculators.
func TestWorksOfflineAfterOneVisit(t *testing.T) {
	base, stop := serve(t, published(t))
	b := open(t, base, "this-edition.html")
	b.until(`document.querySelector(".offline").textContent.includes("kept")`)
	b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
	stop()
	b.do(chromedp.Navigate(base + "symptoms/foam.html")) // not visited before
	b.until(`document.querySelector("h1").textContent.includes("foam")`)
	b.keys("#find-words", "white spots")
	b.until(`document.querySelectorAll(".find-hit").length > 0`)
	b.do(chromedp.Navigate(base + "tanks/wash-2.html"))
	b.change("#sum-dilution-volume", "30")
	b.until(`document.querySelector("#sum-dilution .sum-value").textContent.replace(/\s/g, " ") === "600 mL"`)
}

// A server that hands out a damaged file gives no offline edition: it is taken whole or not at all.
func TestADamagedEditionIsNotKept(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "edition")
	if err := os.CopyFS(folder, os.DirFS(published(t))); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"soils/wax.html", "soils/wax.html.gz"} {
		if err := os.Remove(filepath.Join(folder, name)); err != nil {
			t.Fatal(err)
		}
	}
	list, err := edition.ReadList(os.DirFS(folder))
	if err != nil || len(list.Files) < 100 {
		t.Fatal(err)
	}
	base, _ := serve(t, folder)
	b := open(t, base, "this-edition.html")
	b.forgive = func(string) bool { return true } // the missing file is complained of
	b.until(`document.querySelector(".offline").textContent.includes("not kept")`)
	if kept := ask[int](b, `caches.keys().then(names => names.length)`); kept != 0 {
		t.Errorf("%d incomplete editions were kept", kept)
	}
}
