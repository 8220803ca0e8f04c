package browser

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tankside/builder/edition"
)

// What somebody brings in from outside: a report of a visit, a file of readings, rows that a host hands on, a link. And the other browser, and pages that are
// opened as files.

// hostileRows are readings whose every text tries something.
func hostileRows(from string) string {
	text := "when,temperature (°C),by,note,id\n"
	for i, p := range payloads {
		quoted := `"` + strings.ReplaceAll(p, `"`, `""`) + `"`
		text += fmt.Sprintf("2026-11-%02dT06:10,60.%d,%s,%s,%s-%d\n", 1+i, i%10, quoted, quoted, from, i)
	}
	return text
}

// hostileReport is a report of a visit that the schema lets in.
func hostileReport() string {
	report := map[string]any{"visit": 1, "id": "12345678-hostile", "started": "2026-12-01T08:00:00Z", "tank": payloads[0], "customer": payloads[1], "serial": payloads[2], "place": payloads[3],
		"by": payloads[4], "manual": payloads[5], "signature": map[string]any{"name": payloads[6], "at": "2026-12-01T09:00:00Z", "strokes": "M1 1L2 2"}}
	var entries []map[string]any
	for i, kind := range []string{"walk", "seen", "reading", "sum", "tried", "remark", "chart"} {
		e := map[string]any{"id": fmt.Sprint("hostile-entry-", i), "at": "2026-12-01T08:01:00Z", "kind": kind, "title": payloads[i], "text": payloads[i+1], "page": "soils/a.html#img=x&onerror=A", "outcome": "helped",
			"path": []map[string]any{{"step": payloads[i+2], "answer": payloads[i+3]}}}
		if kind == "chart" {
			e["chart"] = map[string]any{"unit": payloads[0], "low": 1, "high": 2, "points": []map[string]any{{"at": "2026-11-01" + payloads[1][:20], "value": 1.5}, {"at": "2026-11-02", "value": 1.7}}}
		}
		entries = append(entries, e)
	}
	report["entries"] = entries
	return jsonOf(report)
}

// chooses hands a file to a field, as somebody does who chooses it.
func chooses(field, name, text string) string {
	return `(() => {
		const given = new DataTransfer(), field = document.querySelector(` + quote(field) + `);
		given.items.add(new File([` + jsonOf(text) + `], ` + quote(name) + `, { type: "text/plain" }));
		field.files = given.files;
		field.dispatchEvent(new Event("change", { bubbles: true }));
		return true;
	})()`
}

// leaving are the addresses that a page has asked, or has tried to, outside of a place.
func leaving(base string) string {
	return `performance.getEntriesByType("resource").map(e => e.name).filter(a => !a.startsWith(` + quote(base) + `) && !/^(data|blob):/.test(a) && !a.includes("` + edition.CurrentFile + `?"))`
}

// oneOfEach are pages that show every template: those of the top folder, and of each other folder one, the hostile one where there is one.
func oneOfEach(t *testing.T, folder string) (pages []string) {
	t.Helper()
	at := map[string]int{}
	for _, p := range samplePages(t, folder) {
		dir := filepath.Dir(p)
		if dir == "es" || strings.HasPrefix(dir, "es/") || strings.HasSuffix(p, ".es.html") {
			continue
		}
		if i, there := at[dir]; dir == "." || !there {
			at[dir] = len(pages)
			pages = append(pages, p)
		} else if strings.Contains(p, "hostile-picture") {
			pages[i] = p
		}
	}
	return pages
}

// importing finds a page on which files of readings are read in.
func importing(t *testing.T, folder string) string {
	t.Helper()
	for _, page := range pagesOf(t, folder) {
		text, err := os.ReadFile(filepath.Join(folder, page))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), `class="write-file"`) {
			return page
		}
	}
	t.Fatal("no page reads in a file of readings")
	return ""
}

// Nothing that comes from outside runs or loads anything, in both browsers, from a server and from a folder. Before that, the alarm rings in each of them for a
// page that nothing escapes.
func TestNothingGetsInElsewhere(t *testing.T) {
	t.Parallel()
	h := hostile(t)
	names, keys := brought(t)
	pages := oneOfEach(t, h.folder)
	readingsPage := importing(t, h.folder)
	loose := filepath.Join(h.folder, unescapedPage)
	if err := os.WriteFile(loose, unescaped(t, h.folder), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := os.Remove(loose); err != nil {
			t.Error(err)
		}
	})
	inBothBrowsers(t, func(t *testing.T, start func(*testing.T, string) reader) {
		w := watch(t, h.folder)
		w.records = true
		for _, base := range []string{w.base, "file://" + filepath.ToSlash(h.folder) + "/"} {
			r := start(t, base)
			chromium, isChromium := r.(*chromiumReader)
			heard := func() []string {
				var bad, away []string
				r.Until(`document.readyState === "complete"`)
				r.Ask(suspicious, &bad)
				r.Ask(leaving(base), &away)
				return append(append(bad, away...), w.take()...)
			}
			r.Open(base + unescapedPage)
			rings := heard()
			for deadline := time.Now().Add(5 * time.Second); len(rings) < len(payloads) && time.Now().Before(deadline); time.Sleep(200 * time.Millisecond) {
				rings = heard()
			}
			if len(rings) < len(payloads)/2 || !strings.Contains(fmt.Sprint(rings), "127.0.0.2") || !strings.Contains(fmt.Sprint(rings), "onerror") {
				t.Fatalf("%s: of %d payloads that nothing escapes %d ring: %q", base, len(payloads), len(rings), rings)
			}
			w.take()
			if isChromium {
				chromium.now().mu.Lock()
				chromium.now().requests = nil
				chromium.now().mayAsk = strings.TrimPrefix(demoAddress, "address: ") + edition.CurrentFile + "?"
				chromium.now().mu.Unlock()
			}
			opened, at := 0, ""
			t.Cleanup(func() {
				if t.Failed() {
					t.Logf("the last page was %s", at)
				}
			})
			judge := func(what string) {
				opened++
				if bad := heard(); len(bad) > 0 {
					t.Errorf("%s: %q", what, bad)
				}
			}
			r.Open(base + "visit.html")
			r.Until(`document.querySelector("[data-ready]")`)
			r.Ask(chooses("#visit-file", payloads[0]+".json", hostileReport()), nil)
			r.Until(`document.querySelector(".visit-read-said").textContent !== ""`)
			var wrong string
			if r.Ask(`document.querySelector(".visit-wrong").textContent`, &wrong); wrong != "" {
				t.Errorf("the report of a visit is not let in, which shows nothing: %s", wrong)
			}
			judge("visit.html with a report")
			r.Open(base + readingsPage)
			r.Until(`document.querySelector(".write-file").closest("[data-ready]")`)
			r.Ask(chooses(".write-file input", payloads[0]+".csv", hostileRows("file")), nil)
			r.Until(`document.body.textContent.includes("onfocus=A() autofocus")`)
			judge(readingsPage + " with a file")
			r.Open(base + "index.html")
			var unkept string
			r.Ask(stores(keys), &unkept)
			if unkept != "" {
				t.Errorf("the device keeps nothing hostile: %s", unkept)
			}
			for _, page := range pages {
				at = base + page
				r.Open(at)
				judge(page)
			}
			for _, page := range []string{"index.html", readingsPage} {
				for _, address := range addresses(page, names)[:3] {
					r.Open(blank)
					r.Open(base + address)
					judge(address)
				}
			}
			r.Open(base + "index.html#" + url.PathEscape(payloads[0]))
			judge("index.html after all that")
			t.Logf("%s: %d rings of the alarm, then %d pages and addresses", base, len(rings), opened)
		}
	})
}
