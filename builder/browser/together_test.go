package browser

import (
	"io"
	"net/http"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/host"
	"tankside/builder/logbook"
)

// together serves the demo manual from a host that takes readings, on a line that can be cut. code is the one on its screen.
func together(t *testing.T, kept bool) (base string, book *logbook.Book, code *atomic.Value, cut *atomic.Bool) {
	t.Helper()
	folder := published(t)
	_, list, err := builder.ContentOfEdition(folder)
	if err != nil {
		t.Fatal(err)
	}
	tanks, err := builder.TanksOf(t.Context(), filepath.Join(filepath.Dir(folder), "manual"), list)
	if err != nil {
		t.Fatal(err)
	}
	if book, err = logbook.Open(t.TempDir(), tanks); err != nil {
		t.Fatal(err)
	}
	code, cut = new(atomic.Value), new(atomic.Bool)
	today := time.Now
	pairing := logbook.NewPairing(book, time.Now, func(_, _, shown string, _ time.Duration) { code.Store(shown) })
	live := builder.NewLive(filepath.Join(filepath.Dir(folder), "manual"), folder, book, func() (time.Time, error) { return today(), nil }, func(text string) { t.Log(text) })
	h := host.New(folder, host.Options{Loopback: true, Records: host.NewRecords(book, pairing, live, time.Now, today)})
	base, _ = serving(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case cut.Load():
			panic(http.ErrAbortHandler)
		case r.URL.Path == "/edition.json" && r.Method == http.MethodGet && !kept: // see serveUnkept
			<-r.Context().Done()
		default:
			h.ServeHTTP(w, r)
		}
	}))
	return base, book, code, cut
}

// pair pairs the device of a page, by the code on the host's screen.
func (b *tab) pair(name string, code *atomic.Value) {
	b.t.Helper()
	b.until(`!document.querySelector(".together").hidden && !document.querySelector(".together-pair").hidden`)
	if small := ask[[]string](b, `[...document.querySelectorAll(".together :is(button, input)")].filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 48).map(e => e.outerHTML)`); len(small) > 0 {
		b.t.Errorf("smaller than 48 px: %q", small)
	}
	b.set("#together-name", name)
	b.press(".together-tools button")
	b.until(`document.querySelector("#together-code").checkVisibility()`)
	b.set("#together-code", code.Load().(string))
	b.press(".together-tools button")
	b.until(`document.querySelector(".together-says").textContent.includes("every reading") && document.querySelector(".together-pair").hidden`)
}

// What is written down on one device stands in the record of the host, and everybody is shown the same chart of it; what was written down offline follows, and a
// device that was revoked is told so.
func TestReadingsOfSeveralDevices(t *testing.T) {
	t.Parallel()
	base, book, code, cut := together(t, false)
	read := func() string {
		f, _, err := book.Read("wash-1")
		if err != nil || f == nil {
			return ""
		}
		defer f.Close()
		text, err := io.ReadAll(f)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	one := open(t, base, "tanks/wash-1.html", size(360, 780))
	one.until(writeReady)
	one.pair("Tablet", code)
	judgeAccess(one, "with a paired device")
	one.pad("temperature", "62.5")
	one.until(`document.querySelector(".checked")?.innerText.includes("62.5")`)
	if text := read(); strings.Count(text, "62.5") != 1 {
		t.Fatalf("the host has\n%s", text)
	}

	two := open(t, base, "records/wash-1.html", size(1280, 900))
	two.until(`document.querySelector(".record-page").innerText.includes("62.5")`)
	one.turn("records/wash-1.html", size(1280, 900))
	one.until(`document.querySelector(".together-says").textContent.includes("every reading")`)
	charts := `[...document.querySelectorAll(".record-page .chart, .record-page .record-table")].map(e => e.outerHTML).join("\n")`
	if a, b := ask[string](one, charts), ask[string](two, charts); a != b || !strings.Contains(a, "62.5") {
		t.Errorf("two readers see two charts:\n%s\n%s", a, b)
	}

	one.turn("tanks/wash-1.html", size(360, 780))
	one.until(writeReady)
	one.until(`document.querySelector(".together-says").textContent.includes("every reading")`)
	one.forgive = func(string) bool { return true } // that the line is cut, and that a device is not known any more, the browser complains of
	cut.Store(true)
	one.pad("temperature", "63.5")
	one.until(`document.querySelector(".together-says").textContent === "1 reading waits for the host. The host cannot be reached now."`)
	cut.Store(false)
	ask[bool](one, `tankside.together.sync().then(() => true)`)
	one.until(`document.querySelector(".together-says").textContent === "The host has every reading of this device."`)
	if text := read(); strings.Count(text, "63.5") != 1 || strings.Count(text, "62.5") != 1 {
		t.Errorf("the host has\n%s", text)
	}
	ask[bool](two, `tankside.together.sync().then(() => true)`)

	if err := book.Revoke("Tablet", time.Now()); err != nil {
		t.Fatal(err)
	}
	one.pad("temperature", "64.5")
	one.until(`document.querySelector(".together-says").textContent.includes("1 reading waits for the host. The host does not know this device any more.") && !document.querySelector(".together-pair").hidden`)
	if strings.Contains(read(), "64.5") {
		t.Error("a revoked device has added a reading")
	}
	one.pair("Tablet", code)
	if text := read(); strings.Count(text, "64.5") != 1 {
		t.Errorf("after it was paired anew the host has\n%s", text)
	}
}

// Where the offline worker answers with the edition's own page, what has come in since is put into it.
func TestReadingsComeIntoAKeptPage(t *testing.T) {
	t.Parallel()
	base, _, code, _ := together(t, true)
	b := open(t, base, "this-edition.html")
	b.until(`document.querySelector(".offline").textContent.includes("kept")`)
	b.until(`navigator.serviceWorker.ready.then(r => r.active.state === "activated")`)
	b.turn("tanks/wash-1.html")
	b.until(writeReady)
	b.pair("Tablet", code)
	b.pad("temperature", "62.5")
	b.until(`document.querySelector(".checked")?.innerText.includes("62.5")`)
	b.turn("records/wash-1.html")
	b.until(`document.querySelector(".record-page").innerText.includes("62.5")`)
}

// From a host that takes no readings, and from a folder, nothing of all this is shown.
func TestNothingIsSentElsewhere(t *testing.T) {
	t.Parallel()
	address, _ := serve(t, published(t))
	for _, base := range []string{address, "file://" + published(t) + "/"} {
		b := open(t, base, "tanks/wash-1.html")
		b.until(writeReady)
		b.pad("temperature", "62.5")
		b.onDevice(1)
		time.Sleep(time.Second)
		if !ask[bool](b, `document.querySelector(".together").hidden`) {
			t.Errorf("%s: %s", base, b.text(".together"))
		}
	}
}
