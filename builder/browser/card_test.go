package browser

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// symbol is a QR code that was found in a picture.
type symbol struct{ Text, Level string }

// symbols reads the QR codes of a picture with ZXing, another program than drew them.
func symbols(t *testing.T, png []byte) []symbol {
	t.Helper()
	file := filepath.Join(t.TempDir(), "picture.png")
	if err := os.WriteFile(file, png, 0o644); err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", "-e", `const { prepareZXingModule, readBarcodes } = require("zxing-wasm/reader"), fs = require("fs");
		prepareZXingModule({ overrides: { wasmBinary: fs.readFileSync("node_modules/zxing-wasm/dist/reader/zxing_reader.wasm") } });
		readBarcodes(fs.readFileSync(process.argv[1]), { formats: ["QRCode"], maxNumberOfSymbols: 99 }).then(all => console.log(JSON.stringify(all.map(s => ({ text: s.text, level: s.ecLevel })))));`, file)
	node.Dir = "../../testdata/npm"
	out, err := node.CombinedOutput()
	if err != nil {
		t.Fatalf("ZXing does not run: %v: %.400s. make test installs it with npm.", err, out)
	}
	var found []symbol
	if err := json.Unmarshal(out, &found); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return found
}

// The QR code of every card, as the card is printed, leads to the page of its tank, rinse or dryer with the code that stands beside it (ISO/IEC 18004, read
// at the 100 dots an inch of a poor photograph), and can be read with a thumb's breadth of it spoilt. On a black page it is black on white all the same.
func TestCodesOnTheCardsAreRead(t *testing.T) {
	t.Parallel()
	const address = "https://manual.brackwater.example/"
	base := serveUnkept(t, publishedWith(t, "language: en", demoAddress+"\nlanguage: en"))
	for media, scheme := range map[string]string{"print": "light", "screen": "dark"} {
		b := open(t, base, "cards.html", command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media,
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}), size(794, 1123))
		b.mayAsk, b.forgive = address, func(complaint string) bool { return strings.Contains(complaint, "/current.svg") } // nobody serves the demo there
		b.until(`document.querySelectorAll(".card").length === 5`)
		want := map[string]bool{}
		for _, c := range ask[[]string](b, `[...document.querySelectorAll(".card")].map(c => "tanks/" + c.id + ".html#card-" + c.querySelector(".card-letters").textContent)`) {
			if !regexp.MustCompile(`#card-[2-9A-Y]{5}$`).MatchString(c) {
				t.Errorf("a card's code is %q", c)
			}
			want[address+c] = true
		}
		if len(want) != 5 {
			t.Fatalf("there are %d codes", len(want))
		}
		for _, spoilt := range []bool{false, true} {
			if spoilt { // 3 mm in every code
				ask[bool](b, `(() => { for (const s of document.querySelectorAll(".qr")) s.insertAdjacentHTML("beforeend", '<circle cx="50%" cy="55%" r="7%" fill="#777"/>'); return true; })()`)
			}
			found := symbols(t, b.whole())
			for _, s := range found {
				if !want[s.Text] {
					t.Errorf("%s, spoilt %v: a code reads %q", media, spoilt, s.Text)
				}
				if s.Level != "M" && s.Level != "Q" && s.Level != "H" {
					t.Errorf("%s: error correction of level %s", media, s.Level)
				}
			}
			if len(found) != len(want) {
				t.Errorf("%s, spoilt %v: %d of %d codes were read", media, spoilt, len(found), len(want))
			}
		}
		if media == "print" { // half a millimetre a module and four modules free around: version 4 has 33, version 5 has 37
			for _, w := range ask[[]float64](b, `[...document.querySelectorAll(".qr")].map(s => s.getBoundingClientRect().width * 25.4 / 96 / (s.viewBox.baseVal.width))`) {
				if w < 0.495 {
					t.Errorf("a module is printed %.2f mm wide", w)
				}
			}
		}
	}
}

// Without an address there is the code alone, and no word about it.
func TestCardsWithoutAnAddress(t *testing.T) {
	t.Parallel()
	b := open(t, serveUnkept(t, published(t)), "cards.html")
	if n := ask[int](b, `document.querySelectorAll(".qr").length`); n != 0 {
		t.Errorf("%d QR codes lead nowhere", n)
	}
	if n := ask[int](b, `[...document.querySelectorAll(".card-letters")].filter(e => e.checkVisibility()).length`); n != 5 {
		t.Errorf("%d cards have a code", n)
	}
	if text := b.text("main"); strings.Contains(text, "QR") {
		t.Errorf("the cards speak of QR codes")
	}
}

// whole is a picture of the whole page, however long.
func (b *tab) whole() []byte {
	b.t.Helper()
	var png []byte
	b.do(func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		beyond := true
		r, err := cdp.Call(ctx, t, page.CaptureScreenshot, page.CaptureScreenshotParams{CaptureBeyondViewport: &beyond})
		png = r.Data
		return chromedp.Void{}, err
	})
	return png
}
