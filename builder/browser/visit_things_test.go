package browser

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// placed is a photograph as a phone takes it: with Exif that says the place and the camera, and a comment (CIPA DC-008; ITU-T T.81, annex B).
func placed(t *testing.T, width, height int) []byte {
	t.Helper()
	picture := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			picture.Set(x, y, color.RGBA{uint8(x * y >> 4), uint8(x), uint8(y * 3), 255})
		}
	}
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, picture, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	segment := func(marker byte, content []byte) []byte {
		return append(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(content)+2)), content...)
	}
	// TIFF of little end: a directory with the camera's name and the pointer to the directory of the place, in which the latitude is north.
	exif := []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00\x02\x00" +
		"\x0f\x01\x02\x00\x08\x00\x00\x00\x26\x00\x00\x00" + "\x25\x88\x04\x00\x01\x00\x00\x00\x2e\x00\x00\x00" + "\x00\x00\x00\x00" + "InvCam1\x00" +
		"\x01\x00" + "\x01\x00\x02\x00\x02\x00\x00\x00N\x00\x00\x00" + "\x00\x00\x00\x00" + "GPSLatitude 54.3")
	all := append([]byte{0xff, 0xd8}, segment(0xe1, exif)...)
	all = append(all, segment(0xfe, []byte("a comment with a name"))...)
	return append(all, plain.Bytes()[2:]...)
}

// give hands a file to a field for files.
func (b *tab) give(selector, name string, content []byte) {
	b.t.Helper()
	file := filepath.Join(b.t.TempDir(), name)
	if err := os.WriteFile(file, content, 0o644); err != nil {
		b.t.Fatal(err)
	}
	id := ask[int](b, `(() => { const f = document.querySelector(`+quote(selector)+`); f.id ||= "given"; return 1; })()`)
	if id != 1 {
		b.t.Fatal("there is no such field")
	}
	b.do(chromedp.SetUploadFiles(chromedp.CSS(selector), []string{file}))
}

// segmentsOf names the parts of a JPEG up to its data.
func segmentsOf(t *testing.T, b []byte) (markers []byte) {
	t.Helper()
	for i := 2; i+4 <= len(b) && b[i] == 0xff; i += 2 + int(binary.BigEndian.Uint16(b[i+2:])) {
		markers = append(markers, b[i+1])
		if b[i+1] == 0xda {
			return markers
		}
	}
	t.Fatalf("no JPEG: % x", b[:min(len(b), 40)])
	return nil
}

// A report takes a photograph along, made small and without its place, a chart of the bath, the serial number and a signature; all is saved, read in on another
// device where it is the same, and printed.
func TestVisitTakesThingsAlong(t *testing.T) {
	t.Parallel()
	taken := placed(t, 2000, 1500)
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "visit.html", size(360, 780))
		b.until(visitReady)
		b.set("#visit-customer", "Harbour Works")
		b.set("#visit-serial", "G-2041")
		b.startVisit("Wash 1")
		ask[bool](b, `(document.querySelector(".visit-things").open = true)`)
		b.give("#visit-photo", "photo.jpg", taken)
		b.until(`document.querySelector(".visit-photo")?.complete && document.querySelector(".visit-photo").naturalWidth === 1280`)
		b.set("#visit-chart-tank", "wash-1")
		b.set("#visit-chart-of", "strength")
		b.press(".visit-chart button")
		b.until(`document.querySelectorAll(".visit-entry .control-chart .dots").length === 1`)
		b.set("#visit-sign-name", "C. Berg")
		ask[bool](b, `(() => { const a = document.querySelector(".visit-sign svg"), r = a.getBoundingClientRect();
			const point = (kind, x, y) => a.dispatchEvent(new PointerEvent(kind, { pointerId: 1, isPrimary: true, pointerType: "touch", bubbles: true, clientX: r.left + x * r.width, clientY: r.top + y * r.height }));
			a.setPointerCapture = () => {}; // of a pointer that is made up
			point("pointerdown", .1, .5); for (let i = 1; i < 30; i++) point("pointermove", .1 + i / 40, .5 + Math.sin(i) / 3); point("pointerup", .9, .5);
			return true; })()`)
		b.press(".visit-sign button")
		b.until(`document.querySelector(".visit-signed").checkVisibility()`)
		if strings.HasPrefix(base, "http") {
			judgeAccess(b, "with photograph, chart and signature")
			if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
				t.Errorf("the report is %d px too wide", wide)
			}
		}
		saved := b.report()
		validReport(t, saved)
		var report struct {
			Serial, Customer string
			Signature        struct{ Name, Strokes string }
			Entries          []struct {
				Kind, Photo string
				Chart       struct{ Points []struct{ Value float64 } }
			}
		}
		if err := json.Unmarshal([]byte(saved), &report); err != nil {
			t.Fatal(err)
		}
		if report.Serial != "G-2041" || report.Customer != "Harbour Works" || report.Signature.Name != "C. Berg" || strings.Count(report.Signature.Strokes, "L") < 10 {
			t.Errorf("saved are %q, %q, %v", report.Serial, report.Customer, report.Signature)
		}
		if len(report.Entries) != 2 || len(report.Entries[1].Chart.Points) < 40 {
			t.Fatalf("saved are %d entries", len(report.Entries))
		}
		photo, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(report.Entries[0].Photo, "data:image/jpeg;base64,"))
		if err != nil {
			t.Fatal(err)
		}
		if made, err := jpeg.Decode(bytes.NewReader(photo)); err != nil || made.Bounds().Dx() != 1280 || made.Bounds().Dy() != 960 {
			t.Errorf("the photograph is kept as %v, %v", made.Bounds(), err)
		}
		if len(photo) > 500_000 {
			t.Errorf("it has %d bytes", len(photo))
		}
		if before := segmentsOf(t, taken); !bytes.Contains(before, []byte{0xe1}) || !bytes.Contains(before, []byte{0xfe}) {
			t.Fatal("the photograph that was taken has no place")
		}
		for _, marker := range segmentsOf(t, photo) {
			if marker > 0xe0 && marker <= 0xef || marker == 0xfe {
				t.Errorf("it carries a segment %#x", marker)
			}
		}
		for _, trace := range []string{"Exif", "GPS", "InvCam1", "a comment"} {
			if bytes.Contains(photo, []byte(trace)) {
				t.Errorf("%q is still in it", trace)
			}
		}
		text := strings.Join(b.sheets(8.27, 11.69), " ")
		for _, want := range []string{"G-2041", "HarbourWorks", "C.Berg", "Photograph", "Strength,Wash1"} {
			if !strings.Contains(text, want) {
				t.Errorf("what is printed lacks %q: %s", want, text)
			}
		}
		b.do(chromedp.Reload()) // it is on the device
		b.until(`document.querySelector(".visit-photo")?.naturalWidth === 1280 && document.querySelector(".visit-signed path").getAttribute("d").length > 40`)

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
			t.Error("read in on another device it is another report")
		}
		ask[bool](other, `document.querySelector(".visit").readIn(`+quote(saved)+`).then(() => true)`)
		if n := ask[int](other, `document.querySelectorAll(".visit-now .visit-entry").length`); n != 2 {
			t.Errorf("%d entries after reading it in twice", n)
		}
	})
}

// What a hostile file brings along is refused with its place, and nothing is changed: other addresses, pictures that are none or carry more, strokes that are no
// strokes, and files that are too large, which are not even read.
func TestHostileThingsAreRefused(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "visit.html")
	b.until(visitReady)
	var small bytes.Buffer
	if err := jpeg.Encode(&small, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		t.Fatal(err)
	}
	as := func(kind string, picture []byte) string {
		return `"data:image/` + kind + `;base64,` + base64.StdEncoding.EncodeToString(picture) + `"`
	}
	huge := bytes.Clone(small.Bytes())
	at := bytes.Index(huge, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(huge[at+5:], 60000)
	report := func(entry, visit string) string {
		return `{"visit":1,"id":"12345678","started":"2026-12-01T08:00:00Z","tank":"Wash 1"` + visit + `,"entries":[{"id":"abcdefgh","at":"2026-12-01T08:01:00Z","kind":"photo","text":""` + entry + `}]}`
	}
	for name, c := range map[string]struct{ entry, visit, want string }{
		"an address elsewhere":        {`,"photo":"https://evil.example/x.jpg"`, "", "entries[0].photo"},
		"a drawing with a script":     {`,"photo":"data:image/svg+xml;base64,PHN2Zz4="`, "", "entries[0].photo"},
		"a page":                      {`,"photo":"data:text/html;base64,PGI+"`, "", "entries[0].photo"},
		"no picture":                  {`,"photo":` + as("jpeg", []byte("no picture at all")), "", "no picture that can be taken"},
		"a picture with a page in it": {`,"photo":` + as("jpeg", append(bytes.Clone(small.Bytes()), "<script>"...)), "", "no picture that can be taken"},
		"a JPEG that says it is PNG":  {`,"photo":` + as("png", small.Bytes()), "", "no picture that can be taken"},
		"a place":                     {`,"photo":` + as("jpeg", placed(t, 8, 8)), "", "carries more than the picture"},
		"a bomb":                      {`,"photo":` + as("jpeg", huge), "", "more than 4096 pixels"},
		"a long address":              {`,"photo":"data:image/jpeg;base64,` + strings.Repeat("A", 800_000) + `"`, "", "longer than 700000 characters"},
		"strokes with a function":     {"", `,"signature":{"name":"x","at":"2026-12-01T08:00:00Z","strokes":"M1 1\"/><script>"}`, "report.signature.strokes"},
		"a chart of words":            {`,"chart":{"unit":"","points":[{"at":"2026-12-01","value":"1"}]}`, "", "number expected, not string"},
		"many photographs": {`,"photo":` + as("jpeg", small.Bytes()) + strings.Repeat(`},{"id":"abcdefgi","at":"2026-12-01T08:01:00Z","kind":"photo","text":"","photo":`+as("jpeg", small.Bytes()), 24), "",
			"A report may have 24 photographs"},
	} {
		ask[bool](b, `document.querySelector(".visit").readIn(`+quote(report(c.entry, c.visit))+`).then(() => true)`)
		if text := b.text(".visit-others"); !strings.Contains(text, c.want) || !strings.Contains(text, "nothing was changed") {
			t.Errorf("%s: want %q in\n%.600s", name, c.want, text)
		}
	}
	// A file of 100 MB: its text is not asked for.
	ask[bool](b, `(() => { const big = new File([new Uint8Array(100 * 2 ** 20)], "big.json"); big.text = () => { throw new Error("it was read"); };
		const f = document.querySelector("#visit-file"); Object.defineProperty(f, "files", { get: () => [big], configurable: true });
		f.dispatchEvent(new Event("change")); delete f.files; return true; })()`)
	if text := b.text(".visit-others"); !strings.Contains(text, "larger than 24 MB") {
		t.Errorf("of 100 MB it says\n%s", text)
	}
	if n := ask[int](b, `document.querySelectorAll(".visit-list li").length`); n != 0 {
		t.Errorf("%d reports were read in", n)
	}
	ask[bool](b, `document.querySelector(".visit").readIn(`+quote(report(`,"photo":`+as("jpeg", small.Bytes()), ""))+`).then(() => true)`)
	b.until(`document.querySelector(".visit-photo")?.naturalWidth === 8`)
	// What is no picture is not taken from a field either.
	b.press(".visit-list button")
	ask[bool](b, `(document.querySelector(".visit-things").open = true)`)
	b.give("#visit-photo", "words.jpg", []byte("only words"))
	b.until(`document.querySelector(".visit-photo-said").textContent.includes("no picture")`)
}

// The last visit to the same equipment stands beside this one; without a serial number, that of the same tank, customer and place.
func TestLastVisitBesideThisOne(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "visit.html")
		b.until(visitReady)
		visit := func(id, month, tank, more, text string) {
			ask[bool](b, `document.querySelector(".visit").readIn(`+quote(fmt.Sprintf(`{"visit":1,"id":"%s","started":"2026-%s-01T08:00:00Z","tank":"%s"%s,"entries":[{"id":"%s-entry","at":"2026-%s-01T08:10:00Z","kind":"reading","text":"%s"}]}`,
				id, month, tank, more, id, month, text))+`).then(() => true)`)
		}
		visit("visit-one", "03", "Wash 1", `,"serial":"G-2041"`, "Foil 61 marks")
		visit("visit-two", "05", "Wash 1", `,"serial":"G-7777"`, "another generator")
		visit("visit-three", "06", "Wash 1", `,"customer":"Harbour Works"`, "no serial")
		visit("visit-four", "09", "Tank by the door", `,"serial":"G-2041"`, "Foil 40 marks")
		if text := b.text(".visit-before"); !strings.Contains(text, "Foil 61 marks") || strings.Contains(text, "another") {
			t.Errorf("beside the visit to G-2041 stands\n%s", text)
		}
		now, before := ask[float64](b, `document.querySelector(".visit-now").getBoundingClientRect().right`), ask[float64](b, `document.querySelector(".visit-before").getBoundingClientRect().left`)
		if before < now {
			t.Error("on a desk's screen it does not stand beside this one")
		}
		visit("visit-five", "10", "Wash 1", `,"customer":"Harbour Works"`, "again")
		if text := b.text(".visit-before"); !strings.Contains(text, "no serial") {
			t.Errorf("beside the customer's second visit stands\n%s", text)
		}
		visit("visit-six", "10", "Wash 2", "", "first")
		if ask[bool](b, `document.querySelector(".visit-before").checkVisibility()`) {
			t.Error("beside the first visit to a tank stands another's")
		}
	})
}

// openOlder opens a page that does not open the database of visits, and makes that there as an older edition made it, with so many visits of ten entries, of which
// one is taken out, and a picture.
func openOlder(t *testing.T, base string, n int) *tab {
	t.Helper()
	b := open(t, base, "glossary.html")
	b.until(`document.readyState === "complete"`)
	ask[bool](b, fmt.Sprintf(`(async () => {
		const opening = indexedDB.open("tankside-visits", 2);
		opening.onupgradeneeded = () => { opening.result.createObjectStore("records", { keyPath: "id" }); opening.result.createObjectStore("pictures"); };
		const db = await new Promise((done, failed) => { opening.onsuccess = () => done(opening.result); opening.onerror = () => failed(opening.error); });
		const t = db.transaction(["records", "pictures"], "readwrite"), records = t.objectStore("records"), words = "foil power strength noise lid pump filter rust spots generator".split(" ");
		for (let i = 0; i < %d; i++) {
			const started = new Date(1.6e12 + i * 1e8).toISOString(), visit = "visit-" + i;
			records.put({ sort: "visit", id: visit, version: 1, started, ...(i %% 3 && { ended: started }), tank: "Wash " + i %% 7, customer: "Customer " + i %% 40, serial: "G-" + i %% 90 });
			for (let j = 0; j < 10; j++) records.put({ sort: "entry", id: visit + "-" + j, version: 1, visit, at: started, kind: "remark", text: words[(i + j) %% 10] + " looked at, as before, number " + i * j });
		}
		records.put({ sort: "entry", id: "visit-0-0", version: 2, visit: "visit-0", at: "2026-01-01T00:00:00Z", kind: "remark", text: "unheard of", gone: true });
		t.objectStore("pictures").put("data:image/jpeg;base64,", "visit-0-1");
		await new Promise((done, failed) => { t.oncomplete = done; t.onabort = () => failed(t.error); });
		db.onversionchange = () => { db.close(); window.left = true; }; // as the older page does
		window.older = db;
		return true;
	})()`, n))
	return b
}

// A thousand visits of ten entries, which an older edition has kept, are listed, searched and filtered. What that takes is set against a floor of the same run:
// reading a thousand small records from the same database, and looking through texts that are as long, with nothing drawn.
func TestThousandVisits(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := openOlder(t, base, 1000)
	b.do(chromedp.Navigate(base + "visit.html"))
	b.until(visitReady + ` && document.querySelectorAll(".visit-list li").length === 12`)
	if all := ask[[]int](b, `tankside.visits().then(async s => [(await s.all()).length, (await s.summaries()).length, (await s.entries("visit-0")).length])`); !slices.Equal(all, []int{10_999, 1000, 9}) {
		t.Fatalf("of what the older edition kept there are records, visits, entries of one: %v", all)
	}
	took := ask[struct{ Listed, Read, All, Searched, Again, Looked, Filtered float64 }](b, `(async () => {
		const median = list => list.sort((a, b) => a - b)[list.length >> 1];
		const page = document.querySelector(".visit"), filter = document.querySelector("#visit-filter"), of = document.querySelector("#visit-of-tank");
		const store = await tankside.visits(), listed = [], read = [], every = [], searched = [], looked = [], filtered = [];
		const every1000 = await store.summaries(), opening = indexedDB.open("tankside-small", 1);
		opening.onupgradeneeded = () => opening.result.createObjectStore("small", { keyPath: "id" });
		const db = await new Promise(done => { opening.onsuccess = () => done(opening.result); }), t = db.transaction("small", "readwrite");
		for (const { words, ...v } of every1000) t.objectStore("small").put({ ...v, words: "x".repeat(words.length) });
		await new Promise(done => { t.oncomplete = done; });
		const small = () => new Promise(done => { const r = db.transaction("small").objectStore("small").getAll(); r.onsuccess = () => done(r.result); });
		const type = (field, value) => { const from = performance.now(); field.value = value; field.dispatchEvent(new Event("input")); document.querySelector(".visit-list").getBoundingClientRect(); return performance.now() - from; };
		let again = 0;
		for (let i = 0; i < 7; i++) {
			let from = performance.now(); const texts = await small(); read.push(performance.now() - from);
			from = performance.now(); await store.all(); every.push(performance.now() - from);
			from = performance.now(); await page.again(); document.querySelector(".visit-list").getBoundingClientRect(); listed.push(performance.now() - from);
			searched.push(type(filter, "rust 99" + i)); again = Math.max(again, type(filter, "rust 98"));
			type(filter, ""); filtered.push(type(of, "Wash " + i % 7)); type(of, "");
			from = performance.now();
			let n = 0; for (const { tank, started, words } of texts) if ((tank + " " + started + " " + words).toLowerCase().includes("rust")) n++;
			looked.push(performance.now() - from);
		}
		return { listed: median(listed), read: median(read), all: median(every), searched: median(searched), again, looked: median(looked), filtered: median(filtered) };
	})()`)
	t.Logf("listed in %.0f ms (%.1f of reading 1,000 small records, %.0f ms; %.2f of reading everything, %.0f ms); searched in %.1f ms (%.1f of looking through the texts, %.1f ms), the next letters in %.1f ms; filtered in %.1f ms",
		took.Listed, took.Listed/took.Read, took.Read, took.Listed/took.All, took.All, took.Searched, took.Searched/took.Looked, took.Looked, took.Again, took.Filtered)
	// A tenth of reading everything is allowed for the drawing, 20 ms on a quiet machine: the floors have none, and a busy machine lengthens both alike.
	if drawn := took.All / 10; took.Listed > 5*took.Read+drawn || took.Searched > 20*took.Looked+drawn || took.Filtered > 20*took.Looked+drawn {
		t.Error("the list takes many times what reading and looking take")
	}
	b.set("#visit-filter", "unheard")
	b.until(`document.querySelector(".visit-fit").textContent.startsWith("0 of 1000")`) // it was taken out
	b.set("#visit-filter", "g-17 rust")
	b.until(`document.querySelector(".visit-fit").textContent.includes("of 1000 reports") && document.querySelectorAll(".visit-list li").length > 0`)
	if n := ask[int](b, `Number(document.querySelector(".visit-fit").textContent.match(/\d+/)[0])`); n < 1 || n > 24 {
		t.Errorf("%d reports have generator 17 and rust", n)
	}
	b.set("#visit-filter", "")
	ask[bool](b, `(document.querySelector("#visit-state").value = "open", document.querySelector("#visit-state").dispatchEvent(new Event("input")), true)`)
	b.until(`document.querySelector(".visit-fit").textContent.startsWith("334 of 1000")`)
}

// An older page that has the database open lets go of it; what it kept is there, and what is written, taken out and put back afterwards is found by its words. A
// window that never lets go keeps a newer one waiting, and nothing is lost.
func TestVisitsOfAnOlderEdition(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	older := openOlder(t, base, 3)
	ask[bool](older, `(window.other = window.open("visit.html", "other"), true)`) // a second page of the same device, while the first has the old database open
	older.until(`window.other?.document?.querySelector(".visit")?.dataset.ready && window.left`)
	if n := ask[int](older, `window.other.document.querySelectorAll(".visit-list li").length`); n != 3 {
		t.Errorf("beside the older page %d visits are listed", n)
	}
	ask[bool](older, `(window.other.close(), true)`)
	older.do(chromedp.Navigate(base + "visit.html"))
	older.until(visitReady + ` && document.querySelectorAll(".visit-list li").length === 3`)
	found := func(word string) []string {
		return ask[[]string](older, `tankside.visits().then(async s => (await s.summaries()).filter(v => v.words.includes(`+quote(word)+`)).map(v => v.id))`)
	}
	for _, step := range []struct {
		does, word string
		want       int
	}{
		{`s.put({ sort: "entry", id: "new-entry", visit: "visit-1", at: "2026-12-01T08:00:00Z", kind: "remark", text: "A Cracked horn" })`, "cracked", 1},
		{`s.get("new-entry").then(e => s.put({ ...e, text: "replaced" }))`, "cracked", 0},
		{`s.get("new-entry").then(e => s.put({ ...e, text: "replaced" }))`, "replaced", 1},
		{`s.get("new-entry").then(e => s.put({ ...e, gone: true }))`, "replaced", 0},
		{`s.get("visit-1").then(v => s.put({ ...v, gone: true }))`, "power", 2},
		{`s.picture("visit-0-1").then(p => { if (!p.startsWith("data:")) throw new Error("the picture is gone"); })`, "power", 2},
	} {
		ask[bool](older, `tankside.visits().then(s => `+step.does+`).then(() => true)`)
		if got := found(step.word); len(got) != step.want {
			t.Errorf("after %s %q is found in %v, want %d", step.does, step.word, got, step.want)
		}
	}
	// Another window has the database deleted or changed: this one lets go, and opens it anew when it needs it.
	ask[bool](older, `new Promise((done, failed) => { const d = indexedDB.deleteDatabase("tankside-visits"); d.onsuccess = () => done(true); d.onblocked = () => failed(new Error("it does not let go")); })`)
	ask[bool](older, `tankside.visits().then(s => s.put({ sort: "visit", id: "visit-again", started: "2026-12-01T08:00:00Z", tank: "Wash 1" })).then(() => true)`)
	if n := ask[int](older, `tankside.visits().then(async s => (await s.summaries()).length + s.unkept.size)`); n != 1 {
		t.Errorf("%d visits after the database was made anew", n)
	}
}

// A slow device takes its time to make the database of an older edition anew. The page waits for that; only another window makes it give up.
func TestVisitsOfAnOlderEditionOnASlowDevice(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := openOlder(t, base, 2)
	b.do(command(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `const put = IDBObjectStore.prototype.put;
			let busy = 5200; // longer than another window is waited for
			IDBObjectStore.prototype.put = function (...all) {
				for (const until = performance.now() + busy; performance.now() < until;);
				busy = 0;
				return put.apply(this, all);
			};`,
	}))
	b.do(chromedp.Navigate(base + "visit.html"))
	b.until(visitReady)
	if got := ask[string](b, `tankside.visits().then(async s => s.where + " " + (await s.summaries()).map(v => v.id).sort().join(" "))`); got != "database visit-0 visit-1" {
		t.Errorf("afterwards there is %s", got)
	}
}

// A window that holds an older database and never lets go keeps a new one from it: nothing in the database changes, and what is written meanwhile comes into it
// when it can.
func TestVisitsBesideAWindowThatHoldsOn(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := openOlder(t, base, 2)
	ask[bool](b, `(window.older.onversionchange = null, true)`)
	ask[bool](b, `(window.other = window.open("visit.html", "other"), true)`)
	b.until(`window.other.document.querySelector(".visit")?.dataset.ready`)
	ask[bool](b, `window.other.tankside.visits().then(async s => {
		await s.put({ sort: "visit", id: "visit-aside", started: "2026-12-01T08:00:00Z", tank: "Wash 9" });
		await s.keepPicture("aside-picture", "data:image/jpeg;base64,QQ==");
		if (s.where !== "simple" || s.unkept.size) throw new Error(s.where + ", not kept: " + s.unkept.size);
		return true;
	})`)
	if n := ask[int](b, `new Promise(done => { const r = window.older.transaction("records").objectStore("records").count(); r.onsuccess = () => done(r.result); })`); n != 22 {
		t.Errorf("%d records are in the database", n)
	}
	ask[bool](b, `(window.other.close(), window.older.close(), true)`)
	b.do(chromedp.Navigate(base + "visit.html"))
	b.until(visitReady)
	if got := ask[string](b, `tankside.visits().then(async s => s.where + " " + (await s.summaries()).map(v => v.id).sort().join(" "))`); got != "database visit-0 visit-1 visit-aside" {
		t.Errorf("afterwards there is %s", got)
	}
	if picture := ask[string](b, `tankside.visits().then(s => s.picture("aside-picture"))`); picture != "data:image/jpeg;base64,QQ==" {
		t.Errorf("the picture is %q", picture)
	}
}
