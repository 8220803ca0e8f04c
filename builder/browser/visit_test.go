package browser

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// beforeScripts has a script run in the page before its own.
func beforeScripts(script string) step {
	return command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
}

const visitReady = `document.querySelector(".visit").dataset.ready`

// startVisit starts a visit at a tank, on the page of the visit report.
func (b *tab) startVisit(tank string) {
	b.t.Helper()
	b.until(visitReady)
	b.keys("#visit-tank", tank)
	b.press(".visit-start button")
	b.until(`document.querySelector(".visit-name").innerText.includes(` + quote(tank) + `)`)
}

// note writes an entry by hand.
func (b *tab) note(kind, text string) {
	b.t.Helper()
	ask[bool](b, `(document.querySelector("#visit-kind").value = `+quote(kind)+`, document.querySelector("#visit-kind").dispatchEvent(new Event("change", {bubbles: true})), true)`)
	b.keys("#visit-text", text)
	b.press(".visit-add button")
	b.until(`[...document.querySelectorAll(".visit-text")].some(p => p.innerText.includes(` + quote(text) + `))`)
}

func (b *tab) report() string {
	b.t.Helper()
	return ask[string](b, `JSON.stringify(document.querySelector(".visit").report().data)`)
}

// A technician starts a visit, walks a symptom, does a sum, ticks what is seen, measures and tries, leaves and comes back; the report is saved and read in
// on another device, where it is the same.
func TestVisitReport(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "visit.html", size(360, 780))
		b.startVisit("Wash 1")
		b.note("reading", "Bath 58 °C at mid-basket")
		b.note("tried", "Degassed for 15 min")

		b.do(chromedp.Navigate(base + "symptoms/spotty-parts.html"))
		b.press(`.walk > section:not([hidden]) .answers a`)
		b.until(shown + `.id === "is-the-last-rinse-too-salty"`)
		b.press(".walk-nav .note-it")
		b.until(`document.querySelector(".note-told")?.isConnected || location.pathname.endsWith("visit.html")`)
		b.do(chromedp.Navigate(base + "symptoms/spotty-parts.html"))
		ask[bool](b, `(document.querySelector(".sum .note-it").click(), true)`)
		b.until(`document.querySelector(".note-told")?.isConnected`)
		b.do(chromedp.Navigate(base + "what-is-seen.html#seen=white-spots-or-rings&not=white-film-or-haze"))
		b.until(`document.querySelector(".seen-page").dataset.ranking`)
		b.press(".seen-note")
		b.until(`document.querySelector(".note-told")?.isConnected`)

		// Leaving and coming back.
		b.do(chromedp.Navigate(base + "visit.html"))
		b.until(visitReady)
		text := b.text(".visit-now")
		for _, want := range []string{"Wash 1", "Bath 58 °C", "Degassed for 15 min", "not known yet", "Do the spots wipe off with a damp cloth? → Yes, the spot is gone", "Is the last rinse too salty?", "Dissolved solids: 410 mg/L", "Seen: white spots or rings.", "Not seen: white film or haze."} {
			if !strings.Contains(text, want) {
				t.Errorf("the report does not say %q:\n%s", want, text)
			}
		}
		if strings.HasPrefix(base, "http") {
			judgeAccess(b, "with what was noted")
			if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
				t.Errorf("the report is %d px too wide", wide)
			}
		}
		saved := b.report()
		validReport(t, saved)
		markdown := ask[string](b, `document.querySelector(".visit").report().markdown`)
		for _, want := range []string{"# Visit report: Wash 1", "- Tank: Wash 1", "1. Do the spots wipe off with a damp cloth? → **Yes, the spot is gone**", "Outcome: not known yet"} {
			if !strings.Contains(markdown, want) {
				t.Errorf("the markdown does not say %q:\n%s", want, markdown)
			}
		}

		// Another device, where nothing is kept.
		other := open(t, base, "visit.html")
		other.until(visitReady)
		ask[bool](other, `document.querySelector(".visit").readIn(`+quote(saved)+`).then(() => true)`)
		var want, got any
		if err := json.Unmarshal([]byte(saved), &want); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(other.report()), &got); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("read in it is\n%v\nsaved it was\n%v", got, want)
		}
		// Read in a second time nothing is doubled.
		ask[bool](other, `document.querySelector(".visit").readIn(`+quote(saved)+`).then(() => true)`)
		if n := ask[int](other, `document.querySelectorAll(".visit-entry").length`); n != 5 {
			t.Errorf("%d entries after reading it in twice", n)
		}
	})
}

// validReport checks a saved report with the schema that the edition publishes, by a validator of JSON Schema 2020-12 (Ajv, from npm).
func validReport(t *testing.T, report string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "report.json")
	if err := os.WriteFile(file, []byte(report), 0o644); err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", "-e", `const Ajv = require("ajv/dist/2020"), fs = require("fs"); const check = new Ajv({allErrors: true}).compile(JSON.parse(fs.readFileSync(process.argv[1])));
		if (!check(JSON.parse(fs.readFileSync(process.argv[2])))) { console.log(JSON.stringify(check.errors)); process.exit(1); }`,
		filepath.Join(published(t), "visit-schema.json"), file)
	node.Dir = "../../testdata/npm"
	if out, err := node.CombinedOutput(); err != nil {
		t.Errorf("the saved report is not what its schema says: %v\n%s\n%s", err, out, report)
	}
}

// What is no report is not read in, and the reason is given with its place.
func TestReadingInWhatIsNoReport(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "visit.html")
	b.until(visitReady)
	const good = `{"visit":1,"id":"12345678","started":"2026-12-01T08:00:00Z","tank":"Wash 1","entries":[{"id":"abcdefgh","at":"2026-12-01T08:01:00Z","kind":"remark","text":"x"}]}`
	for change, want := range map[[2]string]string{
		{`{"visit":1`, `{{"visit":1`}:            "It is no JSON text",
		{`"visit":1`, `"visit":2`}:               "report.visit: 1 expected",
		{`"tank":"Wash 1",`, ``}:                 "report: “tank” is missing",
		{`"tank":"Wash 1"`, `"tank":7`}:          "report.tank: string expected, not number",
		{`"remark"`, `"rumour"`}:                 "report.entries[0].kind: one of walk",
		{`08:01:00Z`, `8 o'clock`}:               "report.entries[0].at: “2026-12-01T8 o'clock” is not of the form",
		{`"text":"x"`, `"text":"x","colour":1`}:  "report.entries[0]: “colour” is not known",
		{`"text":"x"`, `"text":"x","page":"<"`}:  "report.entries[0].page",
		{`"id":"abcdefgh"`, `"id":"abc"`}:        "report.entries[0].id",
		{`"text":"x"`, `"text":"x","path":[{}]`}: "report.entries[0].path[0]: “step” is missing",
	} {
		ask[bool](b, `document.querySelector(".visit").readIn(`+quote(strings.Replace(good, change[0], change[1], 1))+`).then(() => true)`)
		if text := b.text(".visit-others"); !strings.Contains(text, want) || !strings.Contains(text, "This file was not read in; nothing was changed.") {
			t.Errorf("%s: want %q in\n%s", change[1], want, text)
		}
		if n := ask[int](b, `document.querySelectorAll(".visit-list li").length`); n != 0 {
			t.Errorf("%s: it was read in all the same", change[1])
		}
	}
	ask[bool](b, `document.querySelector(".visit").readIn(`+quote(good)+`).then(() => true)`)
	if n := ask[int](b, `document.querySelectorAll(".visit-entry").length`); n != 1 {
		t.Errorf("the report without fault was not read in: %s", b.text(".visit-others"))
	}
}

// Two windows write in one report at once: neither takes away what the other has written.
func TestTwoWindowsLoseNothing(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "visit.html")
	b.startVisit("Wash 2")
	b.note("remark", "first")
	got := ask[string](b, `(async () => {
		const other = window.open("visit.html", "other");
		const until = async (what, does) => { for (let i = 0; i < 3000; i++) { try { if (does()) return; } catch {} await new Promise(r => setTimeout(r, 20)); } throw new Error("in vain waited for " + what); };
		await until("the other window", () => other.document.querySelector(".visit").dataset.ready && other.document.querySelector(".visit-entry"));
		// Both change the same entry, having read the same version.
		const change = (w, text) => {
			w.document.querySelector(".visit-entry .visit-entry-tools button").click();
			w.document.querySelector(".visit-edit textarea").value = text;
			return () => w.document.querySelector(".visit-edit").requestSubmit();
		};
		const here = change(window, "changed here"), there = change(other, "changed there");
		here(); there();
		const texts = w => [...w.document.querySelectorAll(".visit-text")].map(p => p.textContent).sort().join("|");
		await until("both texts", () => texts(window) === "changed here|changed there" && texts(other) === "changed here|changed there");
		// A new entry there comes here by itself.
		other.document.querySelector("#visit-text").value = "second";
		other.document.querySelector(".visit-add").requestSubmit();
		await until("the other's entry", () => texts(window) === "changed here|changed there|second");
		const beside = document.querySelectorAll(".visit-beside").length;
		other.close();
		return texts(window) + " " + beside;
	})()`)
	if got != "changed here|changed there|second 1" {
		t.Errorf("got %s", got)
	}
}

// The device is full: nothing is lost silently. What was written stays, is said not to be kept, can be saved, and is kept once there is room.
func TestFullDevice(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "visit.html", beforeScripts(`
		window.full = false;
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...given) { if (window.full) throw new DOMException("the disk is full", "QuotaExceededError"); return put.apply(this, given); };`))
	b.forgive = func(c string) bool { return strings.Contains(c, "the disk is full") }
	b.startVisit("Wash 1")
	ask[bool](b, `window.full = true`)
	b.note("reading", "Foil 4 of 10")
	b.until(`document.querySelector(".visit-trouble").checkVisibility()`)
	if text := b.text(".visit-trouble"); !strings.Contains(text, "Not kept") {
		t.Errorf("it says %q", text)
	}
	if saved := b.report(); !strings.Contains(saved, "Foil 4 of 10") {
		t.Errorf("what is not kept cannot be saved: %s", saved)
	}
	ask[bool](b, `(window.full = false, true)`)
	b.press(".visit-again button")
	b.until(`!document.querySelector(".visit-trouble").checkVisibility()`)
	b.do(chromedp.Reload())
	b.until(visitReady)
	if text := b.text(".visit-now"); !strings.Contains(text, "Foil 4 of 10") {
		t.Errorf("after there was room again it was not kept:\n%s", text)
	}
}

// Without the database the simple storage takes over; without both the report lives in its window, says so, and takes notes from other pages.
func TestBrowsersThatKeepNothing(t *testing.T) {
	t.Parallel()
	const noDatabase = `Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("refused", "SecurityError"); } });`
	const noStorage = noDatabase + `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("refused", "SecurityError"); } });`
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "visit.html", beforeScripts(noDatabase))
		b.startVisit("Wash 1")
		b.note("remark", "kept simply")
		b.do(chromedp.Reload())
		b.until(visitReady)
		if text := b.text(".visit"); !strings.Contains(text, "kept simply") {
			t.Errorf("without a database it is lost:\n%s", text)
		}

		b = open(t, base, "visit.html", beforeScripts(noStorage))
		b.startVisit("Wash 1")
		if text := b.text(".visit-kept"); !strings.Contains(text, "in this window only") {
			t.Errorf("it says %q", text)
		}
		b.note("remark", "kept in the window")
		ask[bool](b, `(location.hash = "note=" + encodeURIComponent(JSON.stringify({kind: "walk", title: "Spots", text: "", path: [{step: "Wipes off?", answer: "Yes"}], page: "symptoms/spotty-parts.html"})), true)`)
		b.until(`document.querySelectorAll(".visit-entry").length === 2`)
		if leaving := ask[bool](b, `!dispatchEvent(new Event("beforeunload", {cancelable: true}))`); !leaving {
			t.Error("the window closes without a question and takes the report with it")
		}
		ask[bool](b, `(dispatchEvent(new Event("pagehide")), [...document.querySelectorAll(".visit-tools button")].find(x => x.value === "json").click(), true)`) // saved: it may be left
	})
}

// A walk that is noted while no visit is under way waits until one is started; a note that is none does no harm.
func TestNoteBeforeTheVisit(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "symptoms/foam.html")
		b.press(".walk-nav .note-it")
		b.until(`location.pathname.endsWith("visit.html") && ` + visitReady)
		if text := b.text(".visit-waiting"); !strings.Contains(text, "Does the foam go away when the bath is hot?") {
			t.Errorf("it waits as %q", text)
		}
		b.startVisit("Wash 2")
		b.until(`document.querySelectorAll(".visit-entry").length === 1`)
		if href := ask[string](b, `document.querySelector(".visit-waiting a").getAttribute("href")`); !strings.HasPrefix(href, "symptoms/foam.html") {
			t.Errorf("back leads to %s", href)
		}
		for _, hash := range []string{"note=%7B", "note=null", "note=%7B%22page%22%3A%22javascript%3Ax%22%2C%22title%22%3A%22t%22%7D"} {
			ask[bool](b, `(location.hash = `+quote(hash)+`, true)`)
		}
		b.until(`document.querySelectorAll(".visit-entry").length === 2`)
		if bad := ask[int](b, `document.querySelectorAll('a[href^="javascript"]').length`); bad != 0 {
			t.Error("a note has brought in a script")
		}
	})
}

// Taken out is not gone until one wants it so, and a report ends and is taken up again.
func TestTakingOutAndPuttingBack(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "visit.html")
	b.startVisit("Wash 1")
	b.note("remark", "a slip")
	ask[bool](b, `(document.querySelectorAll(".visit-entry-tools button")[1].click(), true)`)
	b.until(`document.querySelectorAll(".visit-entry").length === 0`)
	b.press(".visit-said button")
	b.until(`document.querySelectorAll(".visit-entry").length === 1`)
	b.press(`.visit-tools [value="end"]`)
	b.until(`document.querySelector(".visit-head").innerText.includes("Ended")`)
	b.press(`.visit-tools [value="resume"]`)
	b.until(`!document.querySelector(".visit-head").innerText.includes("Ended")`)
}

// What is damaged on the device is not shown and stays where it is, the page says so, and everything else goes on: dates that are none, texts that are none, a
// picture that is none, an address that leads out, and a record that no page of ours has written.
func TestDamagedVisitsBlockNothing(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "visit.html")
		b.startVisit("Wash 1")
		b.do(chromedp.Navigate(base + "index.html"))
		ask[bool](b, `new Promise((done, failed) => {
			const opening = indexedDB.open("tankside-visits");
			opening.onerror = () => failed(opening.error);
			opening.onsuccess = () => {
				const db = opening.result, t = db.transaction(["records", "summaries", "pictures"], "readwrite"), records = t.objectStore("records");
				records.getAll().onsuccess = got => {
					const visit = got.target.result[0], entry = { sort: "entry", version: 1, visit: visit.id, kind: "remark", at: "2026-12-01T10:00:00Z", text: "whole" };
					const damaged = [{ at: "yesterday" }, { at: 7 }, { text: { a: 1 } }, { page: "//127.0.0.2/x" }, { path: "none" }, { path: [null] }, { chart: { points: 1 } }, { title: 3 }];
					records.put({ ...entry, id: "whole-entry" });
					records.put({ ...entry, id: "pictured-entry", kind: "photo" });
					t.objectStore("pictures").put("//127.0.0.2/x.png", "pictured-entry");
					damaged.forEach((d, i) => records.put({ ...entry, ...d, id: "damaged-" + i }));
					[{ started: undefined }, { started: "soon" }, { ended: "never" }, { tank: ["Wash 2"] }].forEach((d, i) => {
						const v = { ...visit, ...d, id: "damaged-visit-" + i };
						records.put(v);
						t.objectStore("summaries").put({ ...v, words: "" });
					});
					records.put({ id: "alien", sort: "constructor" });
				};
				t.oncomplete = () => { db.close(); done(true); };
				t.onerror = () => failed(t.error);
			};
		})`)
		b.do(chromedp.Navigate(base + "visit.html"))
		b.until(visitReady)
		if said := b.text(".visit-trouble"); !strings.Contains(said, "is damaged and is not shown") {
			t.Errorf("the page says %q", said)
		}
		if n := ask[int](b, `document.querySelectorAll(".visit-entries .visit-entry").length`); n != 2 {
			t.Errorf("%d entries are shown", n)
		}
		if n := ask[int](b, `document.querySelectorAll(".visit-list button").length`); n != 1 {
			t.Errorf("%d visits are shown", n)
		}
		if ask[bool](b, `!!document.querySelector(".visit-photo")`) {
			t.Error("an address is shown as a picture")
		}
		if n := ask[int](b, `new Promise(done => { const o = indexedDB.open("tankside-visits"); o.onsuccess = () => { o.result.transaction("records").objectStore("records").count().onsuccess = e => done(e.target.result); }; })`); n != 16 {
			t.Errorf("of 16 records %d are left", n)
		}
	})
}
