package browser

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tankside/builder/edition"
	"tankside/builder/host"
)

// Alarms are rung by what no page of ours has, by whatever asks for another place, and by whatever the security policy stops and the browser reports.

// suspicious finds in the page what no page of ours has, whether it has run or not.
const suspicious = `(() => {
	const bad = [];
	for (const e of document.querySelectorAll("*")) {
		for (const a of e.attributes) {
			if (/^on/i.test(a.name)) bad.push(e.tagName + " " + a.name);
			if (/^(href|src|action|formaction|data|poster|background|srcset|xlink:href)$/i.test(a.name) && /^\s*(javascript|vbscript):/i.test(a.value)) bad.push(a.value);
			if (/^(src|data|poster|background|srcset)$/i.test(a.name) && /127\.0\.0\.2|^\/\/|^x$/.test(a.value)) bad.push(a.name + "=" + a.value);
		}
		if (/^(iframe|frame|object|embed|base|applet|form:not\(\.find\))$/i.test(e.tagName)) bad.push(e.tagName);
		if (e.tagName === "SCRIPT" && !e.src) bad.push("script: " + e.textContent.slice(0, 80));
		if (e.tagName === "LINK" && !/^(icon|stylesheet|alternate|manifest)$/.test(e.rel) || e.tagName === "LINK" && /127\.0\.0\.2/.test(e.href)) bad.push("link " + e.rel);
	}
	return bad;
})()`

// watched is a server whose visitors cannot do anything unnoticed.
type watched struct {
	base string

	records bool // it answers as a host that takes readings, with hostile ones

	mu    sync.Mutex
	heard []string // violations of the policy, as browsers report them, and addresses that the edition does not have
}

func watch(t *testing.T, folder string) *watched {
	t.Helper()
	w := &watched{}
	list, err := edition.ReadList(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{"edition.json": true, "": true, "favicon.ico": true}
	for _, f := range list.Files {
		known[f.Path] = true
	}
	h := host.New(folder, host.Options{Loopback: true})
	w.base, _ = serving(t, http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		switch {
		case name == "heard":
			body := make([]byte, 2000)
			n, _ := r.Body.Read(body)
			w.hear("the policy stopped something: " + string(body[:n]))
			return
		case w.records && !known[name] && (strings.HasPrefix(name, "records/") || strings.HasPrefix(name, "-/live/")):
			w.asHost(out, r, name)
			return
		case name == "offline.js" || name == "edition.json": // nothing is kept beside the test
			if w.records {
				out.Header().Set("Tankside-Records", "yes")
			}
			http.NotFound(out, r)
			return
		case name == unescapedPage:
			out.Header().Set("Content-Type", "text/html; charset=utf-8")
			out.Header().Set("Content-Security-Policy", "default-src 'self'; report-uri /heard")
			out.Write(unescaped(t, folder))
			return
		case !known[name]:
			w.hear("asked for " + r.URL.Path)
		}
		h.ServeHTTP(reporting{out}, r)
	}))
	return w
}

// unescaped is a page into which the payloads have come as they are.
func unescaped(t *testing.T, folder string) []byte {
	t.Helper()
	page, err := os.ReadFile(filepath.Join(folder, "a-z.html"))
	if err != nil {
		t.Error(err)
	}
	return []byte(strings.Replace(string(page), "</main>", strings.Join(payloads, "\n")+"</main>", 1))
}

// asHost answers as a host does that takes readings, and that somebody has got hold of.
func (w *watched) asHost(out http.ResponseWriter, r *http.Request, name string) {
	switch {
	case name == "records/pair":
		out.Header().Set("Content-Type", "application/json")
		out.Write([]byte(`{"key":` + jsonOf(payloads[0]) + `}`))
	case strings.HasPrefix(name, "-/live/"):
		out.WriteHeader(http.StatusNoContent)
	case r.Method == http.MethodPost:
		out.Header().Set("Content-Type", "application/json")
		out.Write([]byte(`{"kept":[],"refused":[{"id":` + jsonOf(payloads[1]) + `,"why":` + jsonOf(payloads[0]) + `}]}`))
	default:
		out.Header().Set("Content-Type", "text/csv; charset=utf-8")
		out.Header().Set("ETag", `"1"`)
		out.Write([]byte(hostileRows("host")))
	}
}

func (w *watched) hear(what string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.heard = append(w.heard, what)
}

func (w *watched) take() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	heard := w.heard
	w.heard = nil
	return heard
}

// reporting has browsers report what the policy stops.
type reporting struct{ http.ResponseWriter }

func (r reporting) WriteHeader(status int) {
	if p := r.Header().Get("Content-Security-Policy"); p != "" && !strings.Contains(p, "report-uri") {
		r.Header().Set("Content-Security-Policy", p+"; report-uri /heard")
	}
	r.ResponseWriter.WriteHeader(status)
}

const unescapedPage = "unescaped.html"

// pagesOf are all pages of an edition.
func pagesOf(t *testing.T, folder string) (pages []string) {
	t.Helper()
	list, err := edition.ReadList(os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Files {
		if filepath.Ext(f.Path) == ".html" {
			pages = append(pages, f.Path)
		}
	}
	return pages
}

// samplePages are the pages that are no articles and some of each kind, those with most that is hostile among them.
func samplePages(t *testing.T, folder string) []string {
	t.Helper()
	var pages []string
	count := map[string]int{}
	for _, page := range pagesOf(t, folder) {
		dir := filepath.Dir(page)
		most := 3
		if dir == "." || dir == "es" {
			most = 100
		}
		if count[dir]++; count[dir] <= most || strings.Contains(page, "hostile") {
			pages = append(pages, page)
		}
	}
	return pages
}

var (
	asksFor  = regexp.MustCompile(`(?:get|has|getAll|append|set)\("([a-z][a-z-]*)"|#([a-z]+)=`)
	storedAs = regexp.MustCompile(`"(tankside[.-][a-z.-]+)"`)
)

// brought are what readers, links and what is stored on the device can bring: the names of fragments, queries and storage keys as the scripts have them.
func brought(t *testing.T) (names, keys []string) {
	t.Helper()
	scripts, err := filepath.Glob("../../themes/scripts/*.js")
	if err != nil || len(scripts) < 15 {
		t.Fatal(len(scripts), err)
	}
	for _, s := range scripts {
		text, err := os.ReadFile(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range asksFor.FindAllStringSubmatch(string(text), -1) {
			names = append(names, m[1]+m[2])
		}
		for _, m := range storedAs.FindAllStringSubmatch(string(text), -1) {
			keys = append(keys, m[1])
		}
	}
	for _, list := range []*[]string{&names, &keys} {
		slices.Sort(*list)
		*list = slices.Compact(*list)
	}
	if len(names) < 5 || len(keys) < 3 {
		t.Fatalf("too few names are found in the scripts: %v, %v", names, keys)
	}
	return names, keys
}

// addresses give a page with each name asked for in its query and its fragment, hostile.
func addresses(page string, names []string) (list []string) {
	for i := range 2 {
		all := url.Values{}
		for j, name := range names {
			all.Set(name, payloads[(i*5+j)%len(payloads)])
		}
		list = append(list, page+"?"+all.Encode()+"#"+all.Encode(), page+"#"+url.PathEscape(payloads[i])+"?"+all.Encode())
	}
	return append(list, page+`#note=`+url.QueryEscape(`{"kind":"walk","title":"<img src=x onerror=A()>","text":"<script>A()</script>","path":[{"step":"<img src=x onerror=A()>","answer":"\"><svg onload=A()>"}],"at":"2026-12-01T10:00:00Z","page":"javascript:A()"}`))
}

// stores puts hostile things where scripts keep theirs: as plain text, and as the JSON that they may expect.
func stores(keys []string) string {
	return `(async () => {
		const bad = ` + jsonOf(payloads) + `, keys = ` + jsonOf(keys) + `;
		const record = i => ({ sort: i % 2 ? "entry" : "visit", id: "hostile-0" + i, visit: "hostile-00", version: 1, kind: i % 3 ? "walk" : "<img src=x onerror=A()>", outcome: bad[i % bad.length],
			title: bad[i % bad.length], text: bad[(i + 1) % bad.length], tank: bad[i % bad.length], place: bad[(i + 2) % bad.length], by: bad[(i + 3) % bad.length], manual: bad[0],
			started: i < 9 ? "2026-12-0" + (9 - i) + "T10:00:00Z" : bad[(i + 4) % bad.length], ...(i > 9 && { ended: bad[i % bad.length] }), at: i < 9 ? "2026-12-01T10:00:00Z" : bad[1],
			page: i < 9 ? "symptoms/foam.html#a=onerror" : i % 2 ? "javascript:A()" : "//127.0.0.2:9/x", path: [{ step: bad[0], answer: bad[1] }] }); // the last three are not even what they are to be
		for (const [i, key] of keys.entries()) localStorage.setItem(key, i % 2 ? JSON.stringify(bad) : JSON.stringify(bad[i % bad.length]));
		if (keys.includes("tankside.find.recent")) localStorage.setItem("tankside.find.recent", JSON.stringify(bad));
		const opening = indexedDB.open("tankside-visits");
		opening.onupgradeneeded = () => opening.result.createObjectStore("records", { keyPath: "id" });
		const db = await new Promise((done, failed) => { opening.onsuccess = () => done(opening.result); opening.onerror = () => failed(opening.error); });
		await new Promise((done, failed) => {
			const t = db.transaction("records", "readwrite");
			for (let i = 0; i < 12; i++) t.objectStore("records").put(record(i));
			t.oncomplete = done; t.onerror = failed;
		});
		if (db.objectStoreNames.contains("summaries")) db.transaction("summaries", "readwrite").objectStore("summaries").put({ id: "hostile-10", sort: "visit", started: bad[0], words: bad[1] });
		db.close();
		return "";
	})().catch(problem => String(problem))`
}

// reads opens pages of an edition and fails for each alarm. It opens the unescaped page first, which has to ring.
func reads(t *testing.T, r *chromiumReader, w *watched, pages, names, keys []string) {
	t.Helper()
	base := w.base
	heard := func() []string {
		var bad []string
		r.Until(`document.readyState === "complete" && (!document.querySelector(".visit") || document.querySelector(".visit").dataset.ready)`)
		r.Ask(suspicious, &bad)
		return append(bad, w.take()...)
	}
	r.Open(base + unescapedPage)
	all := heard()
	for deadline := time.Now().Add(20 * time.Second); len(all) < 2*len(payloads) && time.Now().Before(deadline); time.Sleep(200 * time.Millisecond) {
		all = append(all, w.take()...) // reports come when the browser pleases
	}
	if len(all) < len(payloads)/2 {
		t.Fatalf("of %d payloads that nothing escapes %d ring: %q", len(payloads), len(all), all)
	}
	r.now().mu.Lock()
	r.now().requests = nil // from now on one that leaves the edition fails the test
	r.now().mu.Unlock()
	if !slices.ContainsFunc(all, func(heard string) bool { return strings.HasPrefix(heard, "the policy stopped") }) {
		t.Errorf("the browser does not report what the policy stops: %q", all)
	}
	alarms, opened := 0, 0
	judge := func(page string) {
		opened++
		if bad := heard(); len(bad) > 0 {
			alarms++
			if alarms < 20 {
				t.Errorf("%s: %q", page, bad)
			}
		}
	}
	r.Open(base + "index.html")
	var unkept string
	if r.Ask(stores(keys), &unkept); unkept != "" {
		t.Errorf("the device keeps nothing hostile: %s", unkept)
	}
	for _, page := range pages {
		r.Open(base + page)
		judge(page)
	}
	for _, page := range pages {
		if strings.Contains(page, "/") && !strings.HasSuffix(page, "foam.html") && !strings.HasSuffix(page, "wash-2.html") && !strings.Contains(page, "hostile") {
			continue
		}
		for _, address := range addresses(page, names) {
			r.Open(blank)
			r.Open(base + address)
			judge(address)
		}
	}
	r.Open(base + "index.html")
	r.Type("#find-words", `<img src=x onerror=A()>`)
	r.Until(`document.querySelector(".find-results") && !document.querySelector(".find-results").hidden && document.querySelector(".find-say").textContent !== ""`)
	judge("index.html, asked")
	t.Logf("%d pages and addresses opened, %d alarms", opened, alarms)
}

// Nothing that an author, a reader, a link or the device brings runs or loads anything.
func TestNothingGetsIn(t *testing.T) {
	t.Parallel()
	h := hostile(t)
	names, keys := brought(t)
	w := watch(t, h.folder)
	r := startChromium(t, w.base)
	r.now().mayAsk = strings.TrimPrefix(demoAddress, "address: ") + edition.CurrentFile + "?" // the one picture of the shop's own address
	reads(t, r, w, samplePages(t, h.folder), names, keys)
}
