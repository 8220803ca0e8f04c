package browser

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"tankside/builder/browser/drive"
	"tankside/builder/record"
)

const writeReady = `document.querySelector(".write").dataset.ready`

// writes opens the page of a bath, ready to write readings down.
func writes(t *testing.T, base, page string, before ...step) *tab {
	t.Helper()
	b := open(t, base, page, before...)
	b.until(writeReady)
	return b
}

// pad taps a quantity's key and the number's keys, and keeps it.
func (b *tab) pad(quantity, number string) {
	b.t.Helper()
	b.press(`.write [data-quantity="` + quantity + `"]`)
	for _, key := range number {
		b.press(`.pad-keys [value="` + string(key) + `"]`)
	}
	b.press(".pad-keep")
}

// onDevice waits until so many readings are shown that are not in the edition.
func (b *tab) onDevice(n int) {
	b.t.Helper()
	b.until(fmt.Sprintf(`document.querySelector(".write").dataset.shown === "%d"`, n))
}

// rowsOf gives the rows of a tank that are on the device, by the interface for other scripts.
func (b *tab) rowsOf(tank string) []record.Cells {
	b.t.Helper()
	return ask[[]record.Cells](b, `tankside.readings.all(`+quote(tank)+`)`)
}

// numbersIn are the cells of a column, in the order of the alphabet: what is written within a second has no other.
func numbersIn(rows []record.Cells, head string) string {
	var list []string
	for _, r := range rows {
		if r[head] != "" {
			list = append(list, r[head])
		}
	}
	slices.Sort(list)
	return strings.Join(list, " ")
}

// A reading is two taps and a number; it is on the device at once, shown as such, and still there when the page is opened again, without a server and from
// a folder. The table that is saved is read by the package that reads a manual's records, without a finding.
func TestReadingIsTwoTapsAndANumber(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := writes(t, base, "tanks/wash-1.html", size(360, 780))
		if small := ask[[]string](b, `[...document.querySelectorAll(".write :is(button, summary)")].filter(e => e.checkVisibility() && (e.getBoundingClientRect().height < 48 || e.getBoundingClientRect().width < 48)).map(e => e.textContent)`); len(small) > 0 {
			t.Errorf("smaller than 48 px: %q", small)
		}
		b.press(`.write [data-quantity="strength"]`)
		if small := ask[[]string](b, `[...document.querySelectorAll(".pad :is(button, summary, input, select)")].filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 48).map(e => e.outerHTML)`); len(small) > 0 {
			t.Errorf("smaller than 48 px on the pad: %q", small)
		}
		if out := ask[float64](b, `document.querySelector(".pad-keep").getBoundingClientRect().bottom - innerHeight`); out > 0 {
			t.Errorf("the key that keeps it is %g px below a phone's screen", out)
		}
		b.press(".pad-close")
		b.pad("strength", "3.4")
		b.onDevice(1)
		if text := b.text(".write-said"); !strings.Contains(text, "Kept on this device: Strength 3.4 % v/v") {
			t.Errorf("it says %q", text)
		}
		if text := b.text(".write-here"); !strings.Contains(text, "1 reading is on this device and not in the edition yet.") {
			t.Errorf("it is shown as\n%s", text)
		}
		if n := ask[int](b, `document.querySelectorAll(".write-charts svg .here").length`); n != 1 {
			t.Error("it is not in a chart beside those of the edition")
		}
		b.press(`.write [data-quantity="temperature"]`)
		b.press(".pad-same") // as last time
		b.onDevice(2)
		b.do(chromedp.Reload())
		b.onDevice(2)
		rows := b.rowsOf("wash-1")
		if len(rows) != 2 || numbersIn(rows, "strength (% v/v)") != "3.4" || numbersIn(rows, "temperature (°C)") != "61.3" {
			t.Errorf("kept are %v", rows)
		}
		saved := ask[string](b, `document.querySelector(".write").table()`)
		again, refused, found, ok := record.Rows("wash-1.csv", []byte(saved))
		if !ok || len(found) > 0 || len(refused) > 0 || !reflect.DeepEqual(again, rows) {
			t.Errorf("the saved table is read as %v\nfound %v, refused %v\n%s", again, found, refused, saved)
		}
		if strings.HasPrefix(base, "http") {
			judgeAccess(b, "with readings on the device")
			if wide := ask[int](b, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
				t.Errorf("the page is %d px wider than a phone", wide)
			}
			b.press(`.write [data-quantity="level"]`)
			judgeAccess(b, "with the pad open")
		}
	})
}

// A number that is not usual here is asked about once more and kept as it was written; one that cannot be is refused with a sentence; what is no number, or can be
// read in two ways, is asked for again. Units that a reader chose go with the number.
func TestNumbersThatAreAskedAboutAgain(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := writes(t, base, "tanks/wash-1.html")
	says := func(quantity, typed, want string) {
		t.Helper()
		b.press(`.write [data-quantity="` + quantity + `"]`)
		b.set(".pad-number input", typed)
		b.press(".pad-keep")
		if got := strings.ReplaceAll(b.text(".pad-says"), "−", "-"); !strings.Contains(got, want) {
			t.Errorf("%s %s: it says %q, want %q", quantity, typed, got, want)
		}
		if got := ask[string](b, `document.querySelector(".pad-number input").value`); got != typed {
			t.Errorf("%s: what was typed as %s is now %s", quantity, typed, got)
		}
	}
	says("ph", "15", "15 cannot be: pH goes from 0 to 14")
	b.press(".pad-close")
	says("strength", "1,234", "That is no number")
	b.press(".pad-close")
	says("foil", "4.5", "write a whole number")
	b.press(".pad-close")
	says("strength", "", "That is no number")
	b.press(".pad-close")
	if n := len(b.rowsOf("wash-1")); n != 0 {
		t.Fatalf("%d rows were kept", n)
	}
	says("strength", "35", "35 % v/v is outside of what is usual here")
	b.press(".pad-keep")
	b.onDevice(1)
	says("strength", "0.35", "outside of what is usual")
	b.set(".pad-number input", "0.4") // another number is asked about anew
	b.press(".pad-keep")
	if got := b.text(".pad-keep"); !strings.Contains(got, "Yes, keep 0.4 % v/v") {
		t.Errorf("the key says %q", got)
	}
	b.press(".pad-keep")
	b.onDevice(2)
	ask[bool](b, `(document.querySelector('.units [value="US"]').click(), true)`)
	b.press(`.write [data-quantity="temperature"]`)
	if unit := ask[string](b, `document.querySelector(".pad-number select").value`); unit != "°F" {
		t.Errorf("in US units the pad asks in %s", unit)
	}
	b.set(".pad-number input", "143")
	b.press(".pad-keep")
	b.onDevice(3)
	rows := b.rowsOf("wash-1")
	if s, c := numbersIn(rows, "strength (% v/v)"), numbersIn(rows, "temperature (°C)"); s != "0.4 35" || c != "143 °F" {
		t.Errorf("kept are %s and %s", s, c)
	}
}

// A correction is a row more, names the one that it replaces, and keeps its time; it is corrected in turn, and taken back.
func TestCorrectionsAreAdded(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := writes(t, base, "tanks/wash-1.html")
		b.pad("strength", "4.5")
		b.onDevice(1)
		for i, number := range []string{"5.4", "4.4"} {
			b.press(".write-list button")
			b.set(".pad-number input", number)
			b.press(".pad-keep")
			b.until(fmt.Sprintf(`tankside.readings.all("wash-1").then(all => all.length === %d)`, i+2))
			b.until(`document.querySelector(".write-list").textContent.includes(` + quote(number) + `) && document.querySelectorAll(".write-list li").length === 1`)
		}
		rows := b.rowsOf("wash-1")
		stand := record.Standing(rows)
		if len(rows) != 3 || len(stand) != 1 || stand[0]["strength (% v/v)"] != "4.4" || rows[0]["when"] != rows[1]["when"] || rows[1]["when"] != rows[2]["when"] {
			t.Errorf("kept are %v, %v hold", rows, stand)
		}
		b.press(".write-list button")
		b.press(".pad-back")
		b.onDevice(0)
		if rows := b.rowsOf("wash-1"); len(rows) != 4 || len(record.Standing(rows)) != 0 {
			t.Errorf("taken back, %v hold of %v", record.Standing(rows), rows)
		}
	})
}

// A reading that came with the edition is corrected at the bath: by a row that names it, keeps its time and its other numbers, and holds in its place when the
// device's file is put into the record. It is not offered again, its correction is; and it can be taken back.
func TestPublishedReadingsAreCorrected(t *testing.T) {
	t.Parallel()
	file, err := os.ReadFile("../../content/records/wash-1.csv")
	if err != nil {
		t.Fatal(err)
	}
	old, _, _, ok := record.Rows("records/wash-1.csv", file)
	if !ok {
		t.Fatal("the demo's record cannot be read")
	}
	newest, before := old[len(old)-1], old[len(old)-2]
	bothSchemes(t, func(t *testing.T, base string) {
		b := writes(t, base, "tanks/wash-1.html", size(360, 740))
		b.press(".write-published summary")
		b.until(fmt.Sprintf(`document.querySelector(".write-published").dataset.shown === "%d"`, len(old)))
		if text := b.text(".write-published li"); !strings.Contains(text, "2.46") || !strings.Contains(text, "9.81") || !strings.Contains(text, "2026-11-27") {
			t.Errorf("first is\n%s", text)
		}
		if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
			t.Errorf("the page is %d px too wide", wide)
		}
		if low := ask[float64](b, `Math.min(...[...document.querySelectorAll(".write-published button")].map(e => e.getBoundingClientRect().height))`); low < 48 {
			t.Errorf("a button is %g px high", low)
		}
		b.press(`.write-published li button[aria-label*="9.81"]`)
		b.set(".pad-number input", "9.18")
		b.press(".pad-keep")
		if b.until(`!document.querySelector(".pad").open || document.querySelector(".pad-says").textContent`); ask[bool](b, `document.querySelector(".pad").open`) {
			b.press(".pad-keep") // it is not usual here, and was read so
		}
		b.onDevice(1)
		b.until(fmt.Sprintf(`document.querySelector(".write-published").dataset.shown === "%d"`, len(old)-1))
		rows := b.rowsOf("wash-1")
		if len(rows) != 1 || rows[0]["replaces"] != newest["id"] || rows[0]["id"] == newest["id"] || rows[0]["ph"] != "9.18" || rows[0]["strength (% v/v)"] != newest["strength (% v/v)"] ||
			rows[0]["loads"] != newest["loads"] || !strings.HasPrefix(rows[0]["when"], newest["when"]) {
			t.Fatalf("of %v\nthe correction is %v", newest, rows)
		}
		b.press(`.write-published li button`) // of the one before
		b.press(".pad-back")
		b.until(fmt.Sprintf(`document.querySelector(".write-published").dataset.shown === "%d"`, len(old)-2))
		saved := ask[string](b, `document.querySelector(".write").table()`)
		joined, _, err := record.Join("records/wash-1.csv", file, "wash-1.csv", []byte(saved))
		if err != nil {
			t.Fatal(err)
		}
		r, found := record.Parse("records/wash-1.csv", joined.Text)
		if len(found) > 0 || len(r.Rows) != len(old)-1 || len(r.Replaced) != 3 {
			t.Fatalf("%d rows hold, %d do not; %v", len(r.Rows), len(r.Replaced), found)
		}
		last := r.Rows[len(r.Rows)-1]
		if ph := r.Column("ph"); last.Replaces != newest["id"] || last.Values[ph].SI != 9.18 {
			t.Errorf("in the record holds %+v", last)
		}
		for _, row := range r.Rows {
			if row.ID == before["id"] {
				t.Error("what was taken back holds")
			}
		}
		b.do(chromedp.Reload()) // it stays so
		b.until(writeReady)
		ask[bool](b, `(document.querySelector(".write-published summary").click(), true)`) // on a busy machine the page moves under a finger while it is drawn
		b.until(fmt.Sprintf(`document.querySelector(".write-published").dataset.shown === "%d"`, len(old)-2))
	})
}

// A step of a walk that asks for a number, and a titration, become readings of a bath; what was found at a tank, too. From a folder as well, and the way to the bath
// takes the reading along where a browser gives each page a memory of its own.
func TestReadingsFromWalkAndSums(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "symptoms/spotty-parts.html#is-the-last-rinse-too-salty")
		const step = `.walk > section:not([hidden]) `
		b.until(`document.querySelector("` + step + `.write-it")`)
		b.set(step+".reading input", "42")
		b.press(step + ".write-it")
		b.set(".write-down select", "rinse-2")
		b.press(".write-down button")
		b.until(`document.querySelector(".write-said a")`)
		href := ask[string](b, `document.querySelector(".write-said a").href`)
		if rows := b.rowsOf("rinse-2"); len(rows) != 1 || rows[0]["conductivity (µS/cm)"] != "42" {
			t.Errorf("of the walk are kept %v", rows)
		}
		other := open(t, base, strings.TrimPrefix(href, base)) // a browser in which nothing is kept yet
		other.onDevice(1)
		b.do(chromedp.Navigate(href)) // the row is there already
		b.onDevice(1)

		b.do(chromedp.Navigate(base + "calculators/titration.html#sum-titration?sample=10+mL&titrant-used=8+mL&titrant-normality=0.1+N&factor=0.4"))
		b.until(`!document.querySelector(".sum .write-it").hidden`)
		b.press(".sum .write-it")
		b.set(".write-down select", "wash-1")
		b.press(".write-down button")
		b.until(`document.querySelector(".write-said a")`)
		if rows := b.rowsOf("wash-1"); len(rows) != 1 || rows[0]["strength (% v/v)"] != "3.2" || rows[0]["titrant (mL)"] != "8" {
			t.Errorf("of the titration are kept %v", rows)
		}
		b.do(chromedp.Navigate(base + "tanks/wash-1.html"))
		b.onDevice(1)
		b.set("#sum-top-up-strength-now", "3.3")
		b.set("#sum-top-up-below-mark", "18")
		b.until(`!document.querySelector("#sum-top-up .write-it").hidden && document.querySelector(".pour li")`)
		b.press("#sum-top-up .write-it")
		b.press(".write-down button")
		b.onDevice(2)
		rows := b.rowsOf("wash-1")
		if numbersIn(rows, "strength (% v/v)") != "3.2 3.3" || numbersIn(rows, "level (mm)") != "-18" {
			t.Errorf("of what was found is kept %v", rows)
		}
		saved := ask[string](b, `document.querySelector(".write").table()`)
		if again, _, found, ok := record.Rows("wash-1.csv", []byte(saved)); !ok || len(found) > 0 || len(again) != 2 {
			t.Errorf("%v\n%s", found, saved)
		}
	})
}

// Pages of one edition share their memory in Chromium, from a server and from a folder; without a database the simple storage has it, and where nothing can
// be kept it is said. Firefox gives each file one of its own: see TestReadingsInFirefox.
func TestWhereReadingsAreKept(t *testing.T) {
	t.Parallel()
	const noDatabase = `Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("refused", "SecurityError"); } });`
	const noStorage = noDatabase + `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("refused", "SecurityError"); } });`
	bothSchemes(t, func(t *testing.T, base string) {
		for keeps, script := range map[string]string{"database": "", "simple": noDatabase} {
			b := writes(t, base, "tanks/wash-2.html", beforeScripts(script))
			b.pad("strength", "2.5")
			b.onDevice(1)
			b.do(chromedp.Navigate(base + "tanks/wash-1.html"))
			b.until(writeReady)
			if rows, where := b.rowsOf("wash-2"), ask[string](b, `tankside.readings.keeps()`); len(rows) != 1 || where != keeps {
				t.Errorf("another page, kept in the %s, has %v", where, rows)
			}
		}
		b := writes(t, base, "tanks/wash-2.html", beforeScripts(noStorage))
		b.pad("strength", "2.5")
		b.onDevice(1)
		if text := b.text(".write-where"); !strings.Contains(text, "in this window only") {
			t.Errorf("it says %q", text)
		}
	})
}

// The device is full: it is said, nothing is lost, what was written can be saved, and is kept once there is room.
func TestReadingsOnAFullDevice(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := writes(t, base, "tanks/wash-1.html", beforeScripts(`
		window.full = false;
		const put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = function (...given) { if (window.full) throw new DOMException("the disk is full", "QuotaExceededError"); return put.apply(this, given); };`))
	b.forgive = func(c string) bool { return strings.Contains(c, "the disk is full") }
	b.pad("strength", "4.1")
	b.onDevice(1)
	ask[bool](b, `window.full = true`)
	b.pad("strength", "3.4")
	b.until(`document.querySelector(".write-trouble").checkVisibility()`)
	if text := b.text(".write-trouble"); !strings.Contains(text, "Not kept") || !strings.Contains(text, "Save it as a file") {
		t.Errorf("it says %q", text)
	}
	if saved := ask[string](b, `document.querySelector(".write").table()`); !strings.Contains(saved, "3.4") || !strings.Contains(saved, "4.1") {
		t.Errorf("what is not kept cannot be saved:\n%s", saved)
	}
	if leaving := ask[bool](b, `!dispatchEvent(new Event("beforeunload", {cancelable: true}))`); !leaving {
		t.Error("the window closes without a question and takes the reading with it")
	}
	ask[bool](b, `(window.full = false, true)`)
	b.press(".write-again button")
	b.until(`!document.querySelector(".write-trouble").checkVisibility()`)
	b.do(chromedp.Reload())
	b.onDevice(2)
}

// Devices exchange files: what comes twice is there once, and what is no table is refused with its line.
func TestReadingsOfAnotherDevice(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		a, b := writes(t, base, "tanks/wash-1.html"), writes(t, base, "tanks/wash-1.html")
		a.pad("strength", "4.2")
		a.onDevice(1)
		b.pad("ph", "9.7")
		b.onDevice(1)
		for range 2 {
			for from, to := range map[*tab]*tab{a: b, b: a} {
				saved := ask[string](from, `document.querySelector(".write").table()`)
				ask[bool](to, `document.querySelector(".write").readIn(`+quote(saved)+`).then(() => true)`)
			}
		}
		if x, y := a.rowsOf("wash-1"), b.rowsOf("wash-1"); len(x) != 2 || !reflect.DeepEqual(x, y) {
			t.Errorf("one device has %v, the other %v", x, y)
		}
		ask[bool](a, `(document.querySelector(".write-other").open = true)`)
		for text, want := range map[string]string{
			"when,ph\n2026-11-27,9\nyesterday,8\n":              "Line 3: “yesterday” is no time",
			"when,conductivity (µS/cm)\n2026-11-27,\"1,240\"\n": "with a decimal point and with a decimal comma",
			"when,strength\n2026-11-27,3\n":                     "has no unit",
		} {
			ask[bool](a, `document.querySelector(".write").readIn(`+quote(text)+`).then(() => true)`)
			if says := a.text(".write-read"); !strings.Contains(says, "nothing was changed") || !strings.Contains(says, want) {
				t.Errorf("it says %q, want %q", says, want)
			}
		}
		if rows := a.rowsOf("wash-1"); len(rows) != 2 {
			t.Errorf("%d rows after files that were refused", len(rows))
		}
	})
}

// What the edition has is not shown as new, and what was sent to a host is not sent again; what comes from elsewhere with another text under the same id is to be sent.
func TestReadingsThatAreElsewhere(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := writes(t, base, "tanks/wash-1.html")
	got := ask[[]int](b, `(async () => {
		const r = tankside.readings;
		await r.merge("wash-1", [{when: "2026-09-07T06:09", ph: "9.8", id: "w1-001"}], true);
		const a = await r.add("wash-1", {ph: "9.7"}), c = await r.add("rinse-2", {ph: "7"});
		const first = (await r.unsent()).length;
		await r.markSent("wash-1", [a.row.id]);
		const second = (await r.unsent()).length, of = (await r.unsent("rinse-2")).length;
		await r.merge("wash-1", [a.row, {...a.row, ph: "9.6"}], true);
		return [first, second, of, (await r.unsent()).length, (await r.all("wash-1")).length, (await r.standing("wash-1")).length, (await r.tanks()).length];
	})()`)
	if want := []int{2, 1, 1, 2, 3, 2, 2}; !slices.Equal(got, want) {
		t.Errorf("counted %v, want %v", got, want)
	}
	b.do(chromedp.Reload())
	b.onDevice(1)
}

// The page and the command put devices together alike: the same cases, and rows at random that are corrected, doubled and out of order.
func TestPageMergesAsTheCommandDoes(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := writes(t, base, "tanks/wash-1.html")
	data, err := os.ReadFile("../record/testdata/merge.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases struct {
		Merge []struct {
			What     string
			Lists    [][]record.Cells
			Merged   []record.Cells
			Standing []string
		}
		Read []struct {
			What, Text, Problem string
			Rows                []record.Cells
		}
	}
	if err := json.Unmarshal(data, &cases); err != nil {
		t.Fatal(err)
	}
	type outcome struct {
		Merged   []record.Cells `json:"merged"`
		Standing []string       `json:"standing"`
	}
	merge := func(lists [][]record.Cells) outcome {
		given, err := json.Marshal(lists)
		if err != nil {
			t.Fatal(err)
		}
		return ask[outcome](b, `(() => { const merged = tankside.rows.merge(...`+string(given)+`); return { merged, standing: tankside.rows.standing(merged).map(r => r.id) }; })()`)
	}
	for _, c := range cases.Merge {
		if got := merge(c.Lists); !reflect.DeepEqual(got.Merged, c.Merged) || !slices.Equal(got.Standing, c.Standing) {
			t.Errorf("%s: merged to %v", c.What, got)
		}
	}
	for _, c := range cases.Read {
		got := ask[struct {
			Problem string
			Rows    []record.Cells
		}](b, `tankside.rows.read(`+quote(c.Text)+`)`)
		if got.Problem != c.Problem || c.Problem == "" && !reflect.DeepEqual(got.Rows, c.Rows) {
			t.Errorf("%s: read as %v", c.What, got)
		}
	}
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 19))
		lists := make([][]record.Cells, 3)
		ids := []string{}
		for range 20 {
			row := record.Cells{"when": fmt.Sprintf("20%02d-11-%02dT06:10", 20+r.IntN(9), 1+r.IntN(28)), "ph": fmt.Sprintf("%d.%d0", 7+r.IntN(3), r.IntN(3))}
			if len(ids) > 0 && r.IntN(2) == 0 {
				row["replaces"] = ids[r.IntN(len(ids))]
			}
			if len(ids) > 0 && r.IntN(4) == 0 {
				row["id"] = ids[r.IntN(len(ids))]
			} else if r.IntN(5) > 0 {
				row["id"] = fmt.Sprint(r.Uint32())
				ids = append(ids, row["id"])
			}
			if r.IntN(5) == 0 {
				row["note"], row["ph"] = "µ 😀 ﬁ", ""
				delete(row, "ph")
			}
			at := r.IntN(len(lists))
			lists[at] = append(lists[at], row)
		}
		want := record.Merge(lists...)
		standing := []string{}
		for _, row := range record.Standing(want) {
			standing = append(standing, row["id"])
		}
		r.Shuffle(len(lists), func(i, j int) { lists[i], lists[j] = lists[j], lists[i] })
		if got := merge(lists); !reflect.DeepEqual(got.Merged, want) || !slices.Equal(got.Standing, standing) {
			t.Fatalf("seed %d: the page merges to\n%v\nthe command to\n%v", seed, got, want)
		}
	}
}

// A file of a hundred thousand rows is read in, shown and added to. What that takes is set against a floor of the same run: parting the same text into cells
// and writing as many bare records into a database of the same kind.
func TestHundredThousandReadings(t *testing.T) {
	t.Parallel()
	base := "file://" + published(t) + "/"
	b := writes(t, base, "tanks/wash-1.html")
	took := ask[struct{ Opened, Read, Floor float64 }](b, `(async () => {
		const lines = ["when,strength (% v/v),ph,by"];
		for (let i = 0; i < 100000; i++) lines.push([new Date(1.6e12 + i * 6e5).toISOString().slice(0, 16), (3 + i % 200 / 100).toFixed(2), (9 + i % 80 / 100).toFixed(2), "R. Vale"].join(","));
		const text = lines.join("\r\n") + "\r\n";
		let from = performance.now();
		const opening = indexedDB.open("tankside-floor", 1);
		opening.onupgradeneeded = () => opening.result.createObjectStore("rows", { keyPath: "key" }).createIndex("unsent", "unsent");
		const db = await new Promise(done => { opening.onsuccess = () => done(opening.result); }), t = db.transaction("rows", "readwrite", { durability: "strict" }), store = t.objectStore("rows");
		for (const [i, line] of text.split("\r\n").entries()) { const [when, strength, ph, by] = line.split(","); store.put({ key: "wash-1" + i, tank: "wash-1", row: { when, strength, ph, by, id: "row-" + i }, unsent: 1 }); }
		await new Promise((done, failed) => { t.oncomplete = done; t.onabort = () => failed(t.error); });
		const floor = performance.now() - from;
		db.close();
		indexedDB.deleteDatabase("tankside-floor");
		from = performance.now();
		if (tankside.rows.read(text).rows.length !== 100000) throw new Error("they were not read");
		const read = performance.now() - from;
		from = performance.now();
		await document.querySelector(".write").readIn(text);
		return { opened: performance.now() - from, read, floor };
	})()`)
	b.onDevice(100_000)
	t.Logf("a file of 100,000 rows was opened in %.1f s, %.1f of writing as many bare records, %.1f s; %.1f s of it reading the text", took.Opened/1000, took.Opened/took.Floor, took.Floor/1000, took.Read/1000)
	if took.Opened > 4*took.Floor+2000 {
		t.Error("opening the file takes many times what writing its rows takes")
	}
	ask[bool](b, `(window.begun = performance.now(), true)`)
	b.pad("strength", "3.4")
	b.onDevice(100_001)
	added := ask[float64](b, `performance.now() - window.begun`)
	b.do(chromedp.Reload())
	b.onDevice(100_001)
	t.Logf("one more was shown after %.1f s", added/1000)
}

// The main path in Firefox, from a server and from a folder. From a folder each page has a memory of its own; the page of a bath keeps its own readings,
// and what is written elsewhere comes along by the link that is offered.
func TestReadingsInFirefox(t *testing.T) {
	t.Parallel()
	f := drive.StartFirefox(t)
	inTurn(t, published(t), func(t *testing.T, base string) {
		f.Open(base + "tanks/wash-1.html")
		f.Until(writeReady)
		f.Press(`.write [data-quantity="strength"]`)
		for _, key := range []string{"3", ".", "4"} {
			f.Press(`.pad-keys [value="` + key + `"]`)
		}
		f.Press(".pad-keep")
		f.Until(`document.querySelector(".write").dataset.shown === "1"`)
		f.Open(base + "tanks/wash-1.html")
		f.Until(`document.querySelector(".write").dataset.shown === "1"`)

		f.Open(base + "symptoms/spotty-parts.html#is-the-last-rinse-too-salty")
		f.Until(`document.querySelector(".walk > section:not([hidden]) .write-it")`)
		f.Ask(`(() => { const i = document.querySelector(".walk > section:not([hidden]) .reading input"); i.value = "42"; i.dispatchEvent(new Event("input")); return true; })()`, nil)
		f.Press(".walk > section:not([hidden]) .write-it")
		f.Ask(`(document.querySelector(".write-down select").value = "wash-1", document.querySelector(".write-down button").click(), true)`, nil)
		f.Until(`document.querySelector(".write-said a")`)
		var href string
		f.Ask(`document.querySelector(".write-said a").href`, &href)
		f.Open(href)
		f.Until(`document.querySelector(".write").dataset.shown === "2"`)
	})
}
