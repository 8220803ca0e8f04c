package search_test

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"tankside/search"
)

// edition lays out a page with a search field as an edition has it: a strict
// policy, scripts beside it, the module and the index as parcels. It gives the
// page's file.
func edition(t testing.TB, index []byte, questions []search.Question) string {
	t.Helper()
	wasm, err := module()
	if err != nil {
		t.Fatal(err)
	}
	zipped, err := os.ReadFile(wasm)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	write := func(name, format string, a ...any) {
		if err := os.WriteFile(filepath.Join(folder, name), fmt.Appendf(nil, format, a...), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	copied := func(name, from string) {
		data, err := os.ReadFile(from)
		if err != nil {
			t.Fatal(err)
		}
		write(name, "%s", data)
	}
	asked, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	copied("parcel.js", "../themes/scripts/parcel.js")
	copied("module.js", "../themes/scripts/module.js")
	copied("find.js", "../themes/scripts/find.js")
	copied("find-worker.js", "../themes/scripts/find-worker.js")
	copied("check.js", "testdata/check.js")
	write("questions.js", "const questions = %s;", asked)
	write("search-wasm.js", "tankside.parcel(%q, %q);", "search-wasm", base64.StdEncoding.EncodeToString(zipped))
	write("search-segment.js", "tankside.parcel(%q, %q);", "search-segment", base64.StdEncoding.EncodeToString(zip(index)))
	write("find-index.js", "tankside.parcel(%q, %q);", "find-index", "../search-segment.js") // from the edition's root
	write("page.html", `<!doctype html><html lang="en" data-root="edition/"><meta charset="utf-8"><title>Page</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; worker-src blob:; connect-src 'self'; base-uri 'none'; form-action 'none'">
<link rel="icon" href="data:,">
<body data-say-lacking="This browser lacks {what}." data-say-file-missing="{file} is missing." data-say-file-damaged="{file} is damaged." data-say-unforeseen="{problem}">
<form class="find" role="search" data-find-wasm="search-wasm.js" data-find-index="find-index.js" data-find-worker="find-worker.js" data-index="a-z.html"
data-say-getting="Getting the search ready…" data-say-one="1 article" data-say-many="{n} articles" data-say-best="{n} articles, the best {m} here" data-say-none="Nothing found." data-say-nearest="Words in this manual that come near:" data-say-failed="The search does not work here." data-say-index="All words, A–Z" data-say-list="Articles found" data-say-recent="Searched before on this device" data-say-forget="Forget these" data-say-narrow="Show only">
<label for="find-words">Find</label><input type="search" id="find-words" name="q" autocomplete="off"><button type="submit">Find</button>
</form><p><a href="#ask">Ask</a></p>
<script src="parcel.js"></script><script src="module.js"></script><script src="find.js"></script><script src="questions.js"></script><script src="check.js"></script></html>`)
	return filepath.Join(folder, "page.html")
}

// browser is what the tests need of a browser.
type browser interface {
	open(t testing.TB, address string)
	run(t testing.TB, expression string) string // a JavaScript expression that gives a string
	keys(t testing.TB, keys string)             // typed into the field
}

// chromium drives Chromium by its own protocol.
type chromium struct{ context.Context }

func startChromium(t testing.TB) browser {
	if _, err := exec.LookPath("chromium"); err != nil {
		t.Skip("chromium is not installed")
	}
	ctx, stop := chromedp.NewExecAllocator(context.Background(), chromedp.ExecPath("chromium"), chromedp.Headless, chromedp.NoSandbox)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	return chromium{ctx}
}

func (c chromium) do(t testing.TB, action chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(c, action); err != nil {
		t.Fatal(err)
	}
}

func (c chromium) open(t testing.TB, address string) { t.Helper(); c.do(t, chromedp.Navigate(address)) }

func (c chromium) run(t testing.TB, expression string) string {
	t.Helper()
	result, err := chromedp.Run(c, chromedp.Evaluate[string](expression))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return result
}

func (c chromium) keys(t testing.TB, keys string) {
	t.Helper()
	c.do(t, chromedp.SendKeys(chromedp.CSS("#find-words"), keys))
}

var (
	down   = kb.ArrowDown
	enter  = kb.Enter
	escape = kb.Escape
)

// everywhere runs a test in each browser, from a folder and from a server.
func everywhere(t *testing.T, index []byte, questions []search.Question, test func(t *testing.T, b browser, page string)) {
	if testing.Short() {
		t.Skip("browsers take long to start")
	}
	file := edition(t, index, questions)
	server := httptest.NewServer(http.FileServer(http.Dir(filepath.Dir(file))))
	t.Cleanup(server.Close)
	for name, start := range map[string]func(testing.TB) browser{"chromium": startChromium, "firefox": startFirefox} {
		t.Run(name, func(t *testing.T) {
			b := start(t)
			for scheme, page := range map[string]string{"file": "file://" + file, "http": server.URL + "/page.html"} {
				t.Run(scheme, func(t *testing.T) { test(t, b, page) })
			}
		})
	}
}

// until waits for an expression to give the wanted string.
func until(t testing.TB, b browser, expression, want string) {
	t.Helper()
	got := ""
	for end := time.Now().Add(3 * time.Minute); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if got = b.run(t, expression); got == want {
			return
		}
	}
	t.Fatalf("%s is %q, not %q; violation of the policy: %q", expression, got, want,
		b.run(t, `document.documentElement.dataset.violation ?? ""`))
}

const (
	hitPaths = `[...document.querySelectorAll(".find-hit")].map(a => a.getAttribute("href")).join(" ")`
	chosen   = `document.querySelector(".find [aria-selected=true]")?.getAttribute("href") ?? ""`
	expanded = `document.querySelector("#find-words").getAttribute("aria-expanded")`
	said     = `document.querySelector(".find-say").textContent`
)

func TestFieldInBrowsers(t *testing.T) {
	t.Parallel()
	docs := append(slices.Clone(shelf), search.Document{Path: "soils/<b>.html", Title: "<img src=x onerror=alert(1)>",
		Text: "Markup in an article stays text: <script>alert(1)</script> paraffin."})
	index, err := search.Index(docs, sayings)
	if err != nil {
		t.Fatal(err)
	}
	f := open(t, docs, sayings)
	paths := func(words string) string {
		var all []string
		for _, h := range ask(t, f, search.Question{Words: words, Limit: 8}).Hits {
			all = append(all, "edition/"+h.Path)
		}
		return strings.Join(all, " ")
	}
	everywhere(t, index, nil, func(t *testing.T, b browser, page string) {
		b.open(t, page)
		b.run(t, `localStorage.clear(), ""`)
		if loaded := b.run(t, `String(performance.getEntriesByType("resource").filter(e => /search-|worker/.test(e.name)).length)`); loaded != "0" {
			t.Errorf("%s parcels were fetched before the field was touched", loaded)
		}
		b.keys(t, "bath")
		until(t, b, hitPaths, paths("bath"))
		until(t, b, expanded, "true")
		if left := b.run(t, `Object.keys(tankside.parcels).filter(name => name.startsWith("search-")).join(" ")`); left != "" {
			t.Errorf("still in the page's memory: %s", left)
		}
		if s := b.run(t, said); s != "2 articles" {
			t.Errorf("said %q", s)
		}
		if n := b.run(t, `String(document.querySelectorAll(".find-hit mark").length)`); n == "0" {
			t.Error("no word is marked")
		}
		// Arrows go through the list and out of it again.
		first := strings.Fields(paths("bath"))[0]
		b.keys(t, down)
		until(t, b, chosen, first)
		until(t, b, `document.getElementById(document.querySelector("#find-words").getAttribute("aria-activedescendant")).getAttribute("href")`, first)
		b.keys(t, strings.Repeat(down, len(strings.Fields(paths("bath")))))
		until(t, b, chosen, "")
		b.keys(t, escape)
		until(t, b, expanded, "false")
		// A filter narrows.
		b.keys(t, " ")
		until(t, b, expanded, "true")
		b.run(t, `[...document.querySelectorAll(".find-filter")].find(x => x.textContent.startsWith("soil")).click(), ""`)
		until(t, b, hitPaths, "edition/soils/wax.html#melting-it-off")
		// The filter stays for the next words, and can be let go of where it leaves nothing.
		b.run(t, `document.querySelector("#find-words").value = "", ""`)
		b.keys(t, "cavitation")
		until(t, b, hitPaths, "")
		b.run(t, `document.querySelector(".find-filter[aria-pressed=true]").click(), ""`)
		until(t, b, hitPaths, paths("cavitation"))
		// Nothing found offers words.
		b.run(t, `document.querySelector("#find-words").value = "", ""`)
		b.keys(t, "cuvutetion ")
		until(t, b, `document.querySelector(".find-near")?.textContent ?? ""`, "cavitation")
		b.run(t, `document.querySelector(".find-near").click(), ""`)
		until(t, b, hitPaths, paths("cavitation"))
		// Markup in articles stays text.
		b.run(t, `document.querySelector("#find-words").value = "", ""`)
		b.keys(t, "paraffin")
		until(t, b, `document.querySelector(".find-title")?.textContent ?? ""`, "<img src=x onerror=alert(1)>")
		// Enter opens the first hit and remembers the question.
		b.run(t, `document.querySelector("#find-words").value = "", ""`)
		b.keys(t, "white spots")
		until(t, b, hitPaths, paths("white spots"))
		b.run(t, `document.addEventListener("click", e => { if (e.target.closest("a")) { e.preventDefault(); document.title = e.target.closest("a").getAttribute("href"); } }), ""`)
		b.keys(t, enter)
		until(t, b, `document.title`, "edition/symptoms/spots.html")
		b.open(t, page)
		b.keys(t, down)
		until(t, b, `document.querySelector(".find-recent")?.textContent ?? ""`, "white spots")
		if v := b.run(t, `document.documentElement.dataset.violation ?? ""`); v != "" {
			t.Errorf("violation of the policy: %s", v)
		}
	})
}

// What is broken is said, with the way to the alphabetical index.
func TestBrokenIndexInBrowsers(t *testing.T) {
	t.Parallel()
	index, err := search.Index(shelf, sayings)
	if err != nil {
		t.Fatal(err)
	}
	index[len(index)/2] ^= 1
	everywhere(t, index, nil, func(t *testing.T, b browser, page string) {
		b.open(t, page)
		b.keys(t, "wax")
		until(t, b, said, "The search does not work here. edition/../search-segment.js is damaged. All words, A–Z")
		until(t, b, `document.querySelector(".find-say a").getAttribute("href")`, "a-z.html")
	})
}

// Browsers give the native answers to the last bit of each score, from a folder
// and from a server.
func TestBrowsersAnswerTheSame(t *testing.T) {
	t.Parallel()
	docs := invented(150)
	index, err := search.Index(docs, sayings)
	if err != nil {
		t.Fatal(err)
	}
	questions := manyQuestions(docs)
	f := open(t, docs, sayings)
	everywhere(t, index, questions, func(t *testing.T, b browser, page string) {
		reply := askBrowser(t, b, page)
		for i, q := range questions {
			want := asJSON(t, ask(t, f, q))
			if got := reply.Answers[i]; !reflect.DeepEqual(got, want) {
				t.Errorf("%.60q:\nbrowser %+v\nnative  %+v", q.Words, got, want)
			}
		}
	})
}

// askBrowser has the page ask all its questions.
func askBrowser(t testing.TB, b browser, page string) (reply struct {
	Answers []search.Answer `json:"answers"`
	Times   []float64       `json:"times"`
	Problem string          `json:"problem"`
}) {
	t.Helper()
	b.open(t, page)
	b.keys(t, "bath water")
	until(t, b, `String("first" in document.documentElement.dataset)`, "true")
	b.run(t, `location.hash = "ask"`)
	until(t, b, `String("answers" in document.documentElement.dataset)`, "true")
	if err := json.Unmarshal([]byte(b.run(t, `document.documentElement.dataset.answers`)), &reply); err != nil || reply.Problem != "" {
		t.Fatal(err, reply.Problem)
	}
	return reply
}

// BenchmarkPage measures what a reader waits for, in Chromium from a folder:
// from the first touch of the field to the first answer, then each question.
func BenchmarkPage(b *testing.B) {
	for _, n := range []int{150, 2000, 10000} {
		b.Run(fmt.Sprintf("%d-articles", n), func(b *testing.B) {
			docs := invented(n)
			index, err := search.Index(docs, sayings)
			if err != nil {
				b.Fatal(err)
			}
			questions := manyQuestions(docs)
			questions = questions[:len(questions)-len(hostile)]
			file := edition(b, index, questions)
			for b.Loop() {
				c := startChromium(b)
				reply := askBrowser(b, c, "file://"+file)
				var first float64
				if _, err := fmt.Sscan(c.run(b, `document.documentElement.dataset.first`), &first); err != nil {
					b.Fatal(err)
				}
				slices.Sort(reply.Times)
				b.ReportMetric(first, "first-answer-ms")
				b.ReportMetric(reply.Times[len(reply.Times)/2], "median-ms")
				b.ReportMetric(reply.Times[len(reply.Times)*95/100], "p95-ms")
				b.ReportMetric(float64(len(index)), "index-bytes")
				b.ReportMetric(float64(len(zip(index))), "index-gz-bytes")
			}
		})
	}
}
