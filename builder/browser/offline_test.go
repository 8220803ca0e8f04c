package browser

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/host"
)

// Once opened from a server, the manual works without it: pages never visited, search, calculators.
func TestWorksOfflineAfterOneVisit(t *testing.T) {
	t.Parallel()
	base, stop := serve(t, published(t))
	b := open(t, base, "this-edition.html")
	b.until(`document.querySelector(".offline").textContent.includes("kept")`)
	b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
	b.forgive = func(complaint string) bool { return strings.Contains(complaint, "/edition.json") } // the worker asks whether there is a newer one
	stop()
	b.do(chromedp.Navigate(base + "symptoms/foam.html")) // not visited before
	b.until(`document.querySelector("h1").textContent.includes("foam")`)
	b.keys("#find-words", "white spots")
	b.until(`document.querySelectorAll(".find-hit").length > 0`)
	b.do(chromedp.Navigate(base + "tanks/wash-2.html#at.sums"))
	b.change("#sum-dilution-volume", "25")
	b.until(`tankside.shown(document.querySelector("#sum-dilution .sum-value")).replace(/\s/g, " ") === "500 mL"`)
}

// A server that hands out a damaged file gives no offline edition: it is taken whole or not at all.
func TestADamagedEditionIsNotKept(t *testing.T) {
	t.Parallel()
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

// Two manuals of one server, each in a folder of its own, are both kept.
func TestManualsOfOneServerAreKeptSideBySide(t *testing.T) {
	t.Parallel()
	mux := http.NewServeMux()
	for _, name := range []string{"/pumps", "/valves"} {
		mux.Handle(name+"/", http.StripPrefix(name, host.New(published(t), host.Options{Loopback: true})))
	}
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	b := open(t, s.URL+"/", "pumps/this-edition.html")
	const kept = `document.querySelector(".offline").textContent.includes("kept on this device and")`
	b.until(kept)
	b.do(chromedp.Navigate(s.URL + "/valves/this-edition.html"))
	b.until(kept)
	b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
	s.Close()
	for _, name := range []string{"/valves/", "/pumps/", "/valves/"} {
		b.do(chromedp.Navigate(s.URL + name + "symptoms/foam.html"))
		b.until(`document.querySelector("h1")?.textContent.includes("foam")`)
	}
}

// An open page says that a newer edition is there, stays of one edition with all that it links to, and shows the newer at one touch; another
// page that is open then says so too.
func TestNewerEditionIsOffered(t *testing.T) {
	t.Parallel()
	folder, source := filepath.Join(t.TempDir(), "edition"), t.TempDir()
	if err := os.CopyFS(folder, os.DirFS(published(t))); err != nil {
		t.Fatal(err)
	}
	copyDemo(t, source, "", "", nil)
	base, _ := serve(t, folder)
	b := open(t, base, "soils/wax.html")
	b.until(`navigator.serviceWorker.controller !== null`)
	b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
	if shown := b.text(".newer"); shown != "" {
		t.Errorf("without a newer edition: %q", shown)
	}

	name := filepath.Join(source, "soils", "wax.md")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(source, "soils", "wax.es.md")); err != nil { // it would have to follow
		t.Fatal(err)
	}
	revised := regexp.MustCompile(`(?m)^revision: .*$`).ReplaceAll(text, []byte("revision: Next"))
	revised = regexp.MustCompile(`(?m)^approved: .*$`).ReplaceAll(revised, []byte("approved: not yet"))
	if err := os.WriteFile(name, append(revised, "\nThis stands in the newer edition.\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if r, err := builder.Publish(t.Context(), builder.Options{Manual: source, To: folder, Now: time.Date(2026, 12, 2, 0, 0, 0, 0, time.UTC)}); err != nil {
		t.Fatal(err, r.Findings)
	}
	b.do(chromedp.Navigate(base + "soils/index.html")) // the browser looks for a newer worker
	b.until(`document.querySelector(".newer button")`)
	b.do(chromedp.Navigate(base + "soils/wax.html"))
	b.until(`document.querySelector(".newer button")`)
	if ask[bool](b, `document.body.innerText.includes("This stands in the newer edition.")`) {
		t.Error("a page of the newer edition was shown among those of the old one")
	}
	b.press(".newer button")
	b.until(`document.body.innerText.includes("This stands in the newer edition.") && !document.querySelector(".newer button")`)

	// A page that only the edition before has is not shown any more, though that edition is still kept for pages that were open.
	if old := ask[int](b, `caches.keys().then(async names => {
		for (const name of names) if (!await (await caches.open(name)).match("withdrawn.html") && name !== names.at(-1)) await (await caches.open(name)).put(new URL("withdrawn.html", location.href), new Response("<h1>Withdrawn</h1>", { headers: { "Content-Type": "text/html" } }));
		return names.length;
	})`); old != 2 {
		t.Errorf("%d editions are kept", old)
	}
	b.forgive = func(string) bool { return true } // the server's answer is complained of
	b.do(chromedp.Navigate(base + "soils/withdrawn.html"))
	b.until(`document.querySelector("h1") !== null`)
	if title := b.text("h1"); title == "Withdrawn" {
		t.Error("a page of the edition before is shown under the newer one")
	}
}

// An address that was cut off in the middle of a letter, as mail programs do it, opens the page all the same.
func TestCutAddressesOpen(t *testing.T) {
	t.Parallel()
	base, _ := serve(t, published(t))
	b := open(t, base, "symptoms/foam.html#salpica-%C3")
	b.until(`document.querySelectorAll(".walk > section:not([hidden])").length === 1`)
	b.do(chromedp.Navigate(base + "what-is-seen.html#seen=%C3"))
	b.until(`document.querySelector(".seen-page")`)
}
