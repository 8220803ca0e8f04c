package browser

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/storage"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/host"
	"tankside/cmd/tankside/starter"
)

// The editions of a small manual, each published once for all tests of what a device keeps. Each has a sentence and a word of its own.
var small struct {
	sync.Mutex
	folders map[int]string
}

// smallEdition gives the folder of an edition of the small manual.
func smallEdition(t testing.TB, n int) string {
	t.Helper()
	demo.Lock()
	makeParent(t)
	demo.Unlock()
	small.Lock()
	defer small.Unlock()
	if folder := small.folders[n]; folder != "" {
		return folder
	}
	shop := starter.Shop{Name: "Mill Road", Altitude: "0 m", Tanks: []starter.Tank{{Name: "Wash 1", Volume: "120 L", Heater: "6 kW", Power: "1.2 kW", Frequency: "40 kHz"}}}
	files, err := shop.Files(time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	files["soils/cutting-oil.md"] = fmt.Appendf(files["soils/cutting-oil.md"], "\nThis stands in edition %d, beside the %s.\n", n, wordOf(n))
	source, folder := filepath.Join(demo.parent, fmt.Sprint("small-", n)), filepath.Join(demo.parent, fmt.Sprint("small-edition-", n))
	for name, data := range files {
		at := filepath.Join(source, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if r, err := builder.Publish(context.Background(), builder.Options{Manual: source, To: folder, Now: time.Date(2026, 12, n, 0, 0, 0, 0, time.UTC)}); err != nil {
		t.Fatal(err, r.Findings)
	}
	if small.folders == nil {
		small.folders = map[int]string{}
	}
	small.folders[n] = folder
	return folder
}

func wordOf(n int) string { return []string{"", "marmalade", "trombone", "walrus"}[n] }

// line is a server that has one edition after another, and faults.
type line struct {
	t     *testing.T
	base  string
	stop  func()
	now   atomic.Pointer[http.Handler]
	fault atomic.Pointer[func(w http.ResponseWriter, r *http.Request) bool] // tells whether it has answered
}

func newLine(t *testing.T, n int) *line {
	l := &line{t: t}
	l.has(n)
	l.base, l.stop = serving(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if fault := l.fault.Load(); fault != nil && (*fault)(w, r) {
			return
		}
		(*l.now.Load()).ServeHTTP(w, r)
	}))
	return l
}

// has has the server serve an edition from now on.
func (l *line) has(n int) {
	var h http.Handler = host.New(smallEdition(l.t, n), host.Options{Loopback: true})
	l.now.Store(&h)
}

func (l *line) faulty(fault func(w http.ResponseWriter, r *http.Request) bool) { l.fault.Store(&fault) }

func (l *line) sound() { l.fault.Store(nil) }

// list gives an edition's list as scripts take it: paths with checksums, and the code.
func listOf(t *testing.T, n int) (files map[string]string, code string) {
	t.Helper()
	list, err := edition.ReadList(os.DirFS(smallEdition(t, n)))
	if err != nil {
		t.Fatal(err)
	}
	files = map[string]string{}
	for _, f := range list.Files {
		if f.Path != edition.WorkerName && !strings.HasPrefix(f.Path, edition.ContentFolder) {
			files[f.Path] = f.SHA256
		}
	}
	if len(files) < 100 {
		t.Fatalf("the edition has %d files", len(files))
	}
	return files, list.Code
}

// keeps waits until the edition is kept and answers.
func keeps(r reader, base string) {
	r.Open(base + "this-edition.html")
	r.Until(`navigator.serviceWorker.controller !== null && document.querySelector(".offline").textContent.includes("kept on this device and")`)
}

// serves fails unless everything that the reader gets is of one edition, whole: each file of its list, a page, the search and a sum.
func serves(t *testing.T, r reader, base string, n int) {
	t.Helper()
	files, code := listOf(t, n)
	r.Open(base + "soils/cutting-oil.html")
	r.Until(`document.querySelector("h1")`)
	var bad []string
	r.Ask(`(async () => {
		const bad = [];
		for (const [path, sum] of Object.entries(`+jsonOf(files)+`)) {
			const address = new URL("../" + path.split("/").map(encodeURIComponent).join("/"), location.href);
			try {
				const data = await (await fetch(address)).arrayBuffer();
				const own = [...new Uint8Array(await crypto.subtle.digest("SHA-256", data))].map(b => b.toString(16).padStart(2, "0")).join("");
				if (own !== sum) bad.push(path);
			} catch (problem) { bad.push(path + ": " + problem); }
		}
		return bad;
	})()`, &bad)
	if len(bad) > 0 {
		t.Errorf("of edition %d %d files of %d are not served, such as %s", n, len(bad), len(files), bad[0])
	}
	mark(t, r, n)
	finds(t, r, n)
	r.Open(base + "tanks/wash-1.html#at.sums")
	r.Until(`document.querySelector("#sum-dilution-volume")`)
	var shown string
	r.Ask(`document.querySelector(".newer").dataset.edition`, &shown)
	if shown != code {
		t.Errorf("the page of the tank is of edition %s, not %s", shown, code)
	}
	r.Ask(`(document.querySelector("#sum-dilution-volume").value = document.querySelector("#sum-dilution-strength").value = "", true)`, nil)
	r.Type("#sum-dilution-volume", "25")
	r.Type("#sum-dilution-strength", "2")
	r.Until(`document.querySelector("#sum-dilution .sum-value") && tankside.shown(document.querySelector("#sum-dilution .sum-value")).replace(/\s/g, " ") === "500 mL"`)
}

// mark fails unless the page of the cutting oil that is open is of an edition.
func mark(t *testing.T, r reader, n int) {
	t.Helper()
	r.Until(`document.readyState === "complete"`)
	var text string
	r.Ask(`document.body.innerText`, &text)
	if !strings.Contains(text, fmt.Sprintf("This stands in edition %d,", n)) {
		_, text, _ = strings.Cut(text, "This stands in edition")
		t.Errorf("the page is of edition%.3s and not of %d", text, n)
	}
}

// finds fails unless the search of the open page finds the word of its edition and not those of others.
func finds(t *testing.T, r reader, n int) {
	t.Helper()
	for other := 1; other <= 3; other++ {
		r.Ask(`(document.querySelector("#find-words").value = "", true)`, nil)
		r.Type("#find-words", wordOf(other))
		if other == n {
			r.Until(`[...document.querySelectorAll(".find-hit")].some(a => a.getAttribute("href").includes("cutting-oil"))`)
		} else {
			r.Until(`document.querySelector(".find-say").textContent.startsWith("Nothing found")`)
		}
	}
}

const (
	offered = `document.querySelector(".newer button") && document.querySelector(".newer").textContent.includes("A newer edition of this manual is here.")`
	settled = `navigator.serviceWorker.getRegistration().then(r => !!r.active && r.active.state === "activated" && !r.installing && !r.waiting)`
)

// takes waits until the newer edition is offered on the open page and takes it.
func takes(t *testing.T, r reader, base string, n int) {
	t.Helper()
	r.Open(base + "soils/cutting-oil.html")
	r.Until(offered)
	r.Press(".newer button")
	r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button") && document.querySelector(".newer").dataset.edition === ` + quote(codeOf(t, n)))
}

// Whatever happens on the way of a newer edition, the one before is served whole, the reader is told, and the newer is served whole once it is taken.
func TestOneWholeEditionIsServed(t *testing.T) {
	t.Parallel()
	faults := map[string]func() func(w http.ResponseWriter, r *http.Request) bool{
		"half fetched": func() func(http.ResponseWriter, *http.Request) bool {
			var asked atomic.Int64
			return func(_ http.ResponseWriter, r *http.Request) bool {
				if strings.HasSuffix(r.URL.Path, "/offline.js") || strings.HasSuffix(r.URL.Path, "/edition.json") {
					asked.Store(0)
				}
				if asked.Add(1) > 40 {
					panic(http.ErrAbortHandler) // the line breaks
				}
				return false
			}
		},
		"missing": func() func(http.ResponseWriter, *http.Request) bool {
			return func(w http.ResponseWriter, r *http.Request) bool {
				if !strings.HasSuffix(r.URL.Path, "/find-index.js") {
					return false
				}
				http.Error(w, "gone", http.StatusNotFound)
				return true
			}
		},
		"damaged": func() func(http.ResponseWriter, *http.Request) bool {
			return func(w http.ResponseWriter, r *http.Request) bool {
				if !strings.HasSuffix(r.URL.Path, "/soils/cutting-oil.html") {
					return false
				}
				w.Header().Set("Content-Type", "text/html; charset=utf-8")
				fmt.Fprint(w, "<!doctype html><title>Ol</title><h1>Cutting ol</h1>")
				return true
			}
		},
		"list shortened": func() func(http.ResponseWriter, *http.Request) bool {
			data, err := os.ReadFile(filepath.Join(smallEdition(t, 2), edition.ListName))
			if err != nil {
				t.Fatal(err)
			}
			at := bytes.Index(data, []byte(`  {
   "path": "soils/cutting-oil.html",
   "bytes"`))
			end := bytes.Index(data[at:], []byte("},\n")) + at + 3
			if at < 0 || end < at+3 {
				t.Fatal("the list has another form")
			}
			short := bytes.Join([][]byte{data[:at], data[end:]}, nil)
			return func(w http.ResponseWriter, r *http.Request) bool {
				if !strings.HasSuffix(r.URL.Path, "/edition.json") {
					return false
				}
				w.Header().Set("Content-Type", "application/json")
				w.Write(short)
				return true
			}
		},
		"login page": func() func(http.ResponseWriter, *http.Request) bool {
			return func(w http.ResponseWriter, r *http.Request) bool {
				if strings.HasSuffix(r.URL.Path, "/offline.js") {
					return false
				}
				w.Header().Set("Content-Type", "text/html; charset=utf-8")
				fmt.Fprint(w, "<!doctype html><title>Log in</title><h1>Log in to the network</h1>")
				return true
			}
		},
	}
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		for name, fault := range faults {
			t.Run(name, func(t *testing.T) {
				l := newLine(t, 1)
				r := start(t, l.base)
				keeps(r, l.base)
				serves(t, r, l.base, 1)
				l.has(2)
				l.faulty(fault())
				r.Open(l.base + "soils/cutting-oil.html")
				if name == "list shortened" || name == "login page" { // the worker knows that there is no edition to fetch
					r.Ask(`navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true, () => true)`, nil)
					r.Until(settled)
				} else {
					r.Until(`document.querySelector(".newer").textContent.includes("has not arrived whole")`)
				}
				serves(t, r, l.base, 1)
				l.sound()
				takes(t, r, l.base, 2)
				serves(t, r, l.base, 2)
				l.stop()
				serves(t, r, l.base, 2)
			})
		}
	})
}

// A server whose clock is decades away, before or behind, changes nothing: neither what is kept nor when the newer edition is offered.
func TestWrongClocksKeepEditionsWhole(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		for _, year := range []int{1970, 2099} {
			t.Run(fmt.Sprint(year), func(t *testing.T) {
				l := newLine(t, 1)
				l.faulty(func(w http.ResponseWriter, _ *http.Request) bool {
					w.Header().Set("Date", time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC).Format(http.TimeFormat))
					return false
				})
				r := start(t, l.base)
				keeps(r, l.base)
				l.has(2)
				takes(t, r, l.base, 2)
				serves(t, r, l.base, 2)
				l.stop()
				serves(t, r, l.base, 2)
			})
		}
	})
	worker, err := os.ReadFile("../../themes/scripts/offline.js")
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(worker, []byte("Date")) || bytes.Contains(worker, []byte("performance.")) {
		t.Error("the worker asks a clock")
	}
}

// Two tabs: each is told, one takes the newer edition, the other stays of the one before with all that it asks for, also without the server, until it
// takes the newer too. What an attempt left that broke off is cleared away, and what another manual keeps is not.
func TestAnOpenPageStaysOfItsEdition(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		l := newLine(t, 1)
		r := start(t, l.base)
		keeps(r, l.base)
		r.Ask(`caches.open("tankside-edition " + location.href.replace(/[^/]*$/, "") + " half").then(c => c.put("index.html", new Response("half"))).then(() => true)`, nil)
		r.Ask(`caches.open("tankside-edition " + location.origin + "/valves/ other").then(c => c.put("valves/index.html", new Response("other"))).then(() => true)`, nil)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Tab(1)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Until(`document.querySelector("h1")`)
		mark(t, r, 1)
		l.has(2)
		r.Tab(0)
		takes(t, r, l.base, 2)
		r.Until(settled)
		mark(t, r, 2)
		r.Tab(1)
		r.Until(offered)
		mark(t, r, 1)
		l.stop()
		finds(t, r, 1) // nothing of the search was loaded before
		mark(t, r, 1)
		r.Press(".newer button")
		r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button")`)
		serves(t, r, l.base, 2)
		var names []string
		r.Ask(`caches.keys()`, &names)
		if len(names) != 3 || strings.Contains(strings.Join(names, "\n"), " half") || !strings.Contains(strings.Join(names, "\n"), "/valves/ other") {
			t.Errorf("kept are %q", names)
		}
	})
}

// A page whose registering takes its time, as on a busy device, has heard of the newer edition from the server before it knows what is kept here: one
// press shows the newer all the same.
func TestALatePageShowsTheNewerAtOnePress(t *testing.T) {
	t.Parallel()
	l := newLine(t, 1)
	r := startChromium(t, l.base)
	keeps(r, l.base)
	r.now().do(command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `const register = ServiceWorkerContainer.prototype.register;
			ServiceWorkerContainer.prototype.register = function (...all) { return new Promise(done => setTimeout(done, 6000)).then(() => register.apply(this, all)); };`,
	}))
	l.has(2)
	takes(t, r, l.base, 2)
	serves(t, r, l.base, 2)
}

// The server goes back to an edition that is still kept.
func TestAnEditionThatComesBack(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		l := newLine(t, 1)
		r := start(t, l.base)
		keeps(r, l.base)
		for _, n := range []int{2, 1, 3} {
			l.has(n)
			takes(t, r, l.base, n)
			r.Until(settled)
			serves(t, r, l.base, n)
		}
		l.stop()
		serves(t, r, l.base, 3)
	})
}

// A page that came before the worker, while the server went on to the next edition, says that there is a newer one.
func TestTheFirstPageIsComparedWithWhatIsKept(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		l := newLine(t, 1)
		l.faulty(func(_ http.ResponseWriter, r *http.Request) bool {
			if r.URL.Path == "/offline.js" {
				l.has(2)
			}
			return false
		})
		r := start(t, l.base)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Until(offered)
		mark(t, r, 1)
		r.Press(".newer button")
		r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button")`)
		serves(t, r, l.base, 2)
	})
}

// Without a worker, as in a private window: a page finds nothing in the index of another edition, and says why.
func TestAPageWithoutAWorkerDoesNotMix(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		l := newLine(t, 1)
		l.faulty(func(w http.ResponseWriter, r *http.Request) bool {
			if r.URL.Path != "/offline.js" {
				return false
			}
			http.Error(w, "none", http.StatusForbidden)
			return true
		})
		r := start(t, l.base)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Until(`document.querySelector("h1")`)
		l.has(2)
		r.Type("#find-words", wordOf(2))
		r.Until(`document.querySelector(".find-say").textContent.includes("of another edition than this page")`)
		var hits int
		r.Ask(`document.querySelectorAll(".find-hit").length`, &hits)
		if hits > 0 {
			t.Errorf("a page of edition 1 shows %d hits of edition 2", hits)
		}
		r.Until(offered)
		r.Press(".newer button")
		r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button")`)
		mark(t, r, 2)
		finds(t, r, 2)
	})
}

const noRoom = `document.querySelector(".newer button") && document.querySelector(".newer").textContent.includes("no room to keep both")`

// A device with room for one edition goes on with the one before, says so, and takes the newer in its place.
func TestADeviceWithRoomForOne(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		l := newLine(t, 1)
		l.faulty(func(w http.ResponseWriter, r *http.Request) bool { // the worker has a disk that is full while two are kept
			if r.URL.Path != "/offline.js" {
				return false
			}
			w.Header().Set("Content-Type", "text/javascript")
			answer := httptest.NewRecorder()
			(*l.now.Load()).ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "http://127.0.0.1/offline.js", nil))
			fmt.Fprintf(w, "%s\n{ const put = Cache.prototype.put; Cache.prototype.put = async function (file, data) {\n"+
				"  for (const name of await caches.keys()) if (name !== kept && await there(name, listName)) throw new DOMException(\"full\", \"QuotaExceededError\");\n"+
				"  return put.call(this, file, data); }; }\n", answer.Body)
			return true
		})
		r := start(t, l.base)
		keeps(r, l.base)
		l.has(2)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Until(noRoom)
		serves(t, r, l.base, 1)
		r.Open(l.base + "soils/cutting-oil.html")
		r.Until(noRoom)
		r.Press(".newer button")
		r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button") && document.querySelector(".newer").dataset.edition === ` + quote(codeOf(t, 2)))
		keeps(r, l.base)
		l.stop()
		serves(t, r, l.base, 2)
	})
}

// A full disk, as Chromium has it: one edition is served whole, also when the newer has been asked for and there is no room for it yet.
func TestAFullDisk(t *testing.T) {
	t.Parallel()
	l := newLine(t, 1)
	r := startChromium(t, l.base)
	keeps(r, l.base)
	r.now().do(command(storage.OverrideQuotaForOrigin, storage.OverrideQuotaForOriginParams{Origin: l.base, QuotaSize: new(float64(8 << 20))}))
	l.has(2)
	r.Open(l.base + "soils/cutting-oil.html")
	r.Until(noRoom)
	serves(t, r, l.base, 1)
	r.Open(l.base + "soils/cutting-oil.html")
	r.Until(noRoom)
	r.Press(".newer button")
	r.Until(`document.querySelector(".newer") && !document.querySelector(".newer button") && document.querySelector(".newer").dataset.edition === ` + quote(codeOf(t, 2)))
	serves(t, r, l.base, 2)
}

func codeOf(t *testing.T, n int) string {
	_, code := listOf(t, n)
	return code
}

// What is kept and comes to harm on the device is fetched anew where the server still has it; where the server has another edition that one is served,
// whole; without a server it is said, and the other pages stay.
func TestDamageOnTheDevice(t *testing.T) {
	t.Parallel()
	const harm = `(async () => {
		const name = (await caches.keys()).find(name => name.startsWith("tankside-edition"));
		const cache = await caches.open(name);
		await cache.put("soils/cutting-oil.html", new Response("<h1>Wrong</h1>", { headers: { "Content-Type": "text/html" } }));
		const find = (await cache.keys()).find(r => r.url.includes("search-segment"));
		return await cache.delete(find) && await cache.delete("soils/index.html");
	})()`
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		harmed := func(t *testing.T) (*line, reader) {
			l := newLine(t, 1)
			r := start(t, l.base)
			keeps(r, l.base)
			r.Until(settled)
			var done bool
			if r.Ask(harm, &done); !done {
				t.Fatal("nothing was harmed")
			}
			return l, r
		}
		t.Run("mended", func(t *testing.T) {
			l, r := harmed(t)
			serves(t, r, l.base, 1)
			r.Open(l.base + "this-edition.html")
			r.Until(`document.querySelector(".offline").textContent.includes("kept on this device and")`)
			l.stop()
			serves(t, r, l.base, 1)
		})
		t.Run("another edition on the server", func(t *testing.T) {
			l, r := harmed(t)
			l.has(2)
			r.Open(l.base + "soils/cutting-oil.html")
			r.Until(`document.querySelector("h1")`)
			mark(t, r, 2)
			keeps(r, l.base)
			serves(t, r, l.base, 2)
		})
		t.Run("without a server", func(t *testing.T) {
			l, r := harmed(t)
			l.stop()
			r.Open(l.base + "materials/index.html")
			r.Until(`document.querySelector("h1")`)
			r.Open(l.base + "soils/cutting-oil.html")
			r.Until(`document.body.innerText.includes("as this device keeps it, is damaged")`)
			r.Open(l.base + "this-edition.html")
			r.Until(`document.querySelector(".offline").textContent.includes("not kept")`)
		})
		t.Run("emptied", func(t *testing.T) {
			l, r := harmed(t)
			r.Ask(`caches.keys().then(names => Promise.all(names.map(name => caches.delete(name)))).then(() => true)`, nil)
			l.has(2)
			r.Open(l.base + "soils/cutting-oil.html")
			r.Until(`document.querySelector("h1")`)
			mark(t, r, 2)
			keeps(r, l.base)
			l.stop()
			serves(t, r, l.base, 2)
		})
	})
}

// Several manuals of one server, one of them in the folder of another, are each kept, opened without the server, and brought up to date alone.
func TestManualsInFoldersOfEachOther(t *testing.T) {
	t.Parallel()
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		lines := map[string]*atomic.Pointer[host.Handler]{}
		mux := http.NewServeMux()
		places := []string{"", "valves/", "valves/old/", "pumps é/"}
		for i, place := range places {
			p := &atomic.Pointer[host.Handler]{}
			p.Store(host.New(smallEdition(t, i%2+1), host.Options{Loopback: true}))
			lines[place] = p
			prefix := "/" + strings.TrimSuffix(place, "/")
			handler := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { p.Load().ServeHTTP(w, r) })
			if place == "" {
				mux.Handle("/", handler)
			} else {
				mux.Handle(strings.ReplaceAll(prefix, " ", "%20")+"/", http.StripPrefix(prefix, handler))
			}
		}
		base, stop := serving(t, mux)
		r := start(t, base)
		at := func(place string) string { return base + strings.ReplaceAll(place, "pumps é/", "pumps%20%C3%A9/") }
		for _, place := range places {
			keeps(r, at(place))
			r.Until(settled)
		}
		lines["valves/"].Store(host.New(smallEdition(t, 3), host.Options{Loopback: true}))
		takes(t, r, at("valves/"), 3)
		r.Until(settled)
		stop()
		for i, place := range places {
			n := i%2 + 1
			if place == "valves/" {
				n = 3
			}
			serves(t, r, at(place), n)
		}
	})
}
