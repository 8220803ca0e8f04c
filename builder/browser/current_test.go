package browser

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/host"
)

// shop is a shop with a server: the address in the shop file is the server's, which serves some edition, or nothing.
type shop struct {
	t       *testing.T
	source  string
	address string
	served  atomic.Pointer[http.Handler]
	asked   atomic.Int32 // how often the picture was asked for
}

func newShop(t *testing.T) *shop {
	t.Helper()
	s := &shop{t: t, source: filepath.Join(t.TempDir(), "manual")}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/"+edition.CurrentFile) {
			s.asked.Add(1)
		}
		if h := s.served.Load(); h != nil {
			(*h).ServeHTTP(w, r)
			return
		}
		panic(http.ErrAbortHandler) // as if there were no network
	}))
	t.Cleanup(server.Close)
	s.address = server.URL + "/wash/"
	copyDemo(t, s.source, "language: en", "address: "+s.address+"\nlanguage: en", nil)
	return s
}

// serves has the server serve the edition in a folder by a handler.
func (s *shop) serves(h http.Handler) {
	h = http.StripPrefix("/wash", h)
	s.served.Store(&h)
}

// enters publishes the manual as it is, enters it, and gives the folder of the edition.
func (s *shop) enters(day int) string {
	s.t.Helper()
	folder := filepath.Join(s.t.TempDir(), "edition")
	r, err := builder.Publish(s.t.Context(), builder.Options{Manual: s.source, To: folder, Now: time.Date(2026, 12, day, 9, 0, 0, 0, time.UTC), Enter: &builder.Entering{}})
	if err != nil {
		s.t.Fatal(err, r.Findings)
	}
	return folder
}

// change replaces a text in a file of the manual.
func (s *shop) change(name, old, new string) {
	s.t.Helper()
	file := filepath.Join(s.source, name)
	text, err := os.ReadFile(file)
	if err != nil || strings.Count(string(text), old) != 1 {
		s.t.Fatalf("%s does not have %q once (%v)", name, old, err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(text), old, new, 1)), 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// static serves files as servers do that know nothing of editions: no header of ours, none about other origins.
func static(folder string) http.Handler { return http.FileServer(http.Dir(folder)) }

// lets lets a tab ask the shop's server, and complain that it cannot.
func (s *shop) lets(b *tab) {
	b.forgive = func(c string) bool {
		return strings.Contains(c, s.address+edition.CurrentFile) || strings.Contains(c, "ERR_")
	}
	b.mayAsk = s.address + edition.CurrentFile + "?"
}

// A copy on a stick, and one that another server serves, find out whether they are still the current edition: by a server that only knows files, and by our own. What
// they say holds on without a network, and they say since when they could not ask. The card's code is judged by a page that knows that it is current, and by no other.
func TestCopiesAskWhetherTheyAreCurrent(t *testing.T) {
	t.Parallel()
	s := newShop(t)
	first := s.enters(1)
	s.change("shop.yaml", "    temperature: 62 °C\n", "    temperature: 61 °C\n")
	second := s.enters(2)
	card := func(folder, id string) string {
		text, err := os.ReadFile(filepath.Join(folder, "cards.html"))
		if err != nil {
			t.Fatal(err)
		}
		_, rest, _ := strings.Cut(string(text), `id="`+id+`"`)
		_, rest, _ = strings.Cut(rest, `class="card-letters">`)
		code, _, _ := strings.Cut(rest, "<")
		return code
	}
	oldCard, newCard := card(first, "wash-1"), card(second, "wash-1")
	if oldCard == newCard || card(first, "wash-2") != card(second, "wash-2") {
		t.Fatalf("the cards of Wash 1 are %s and %s, of Wash 2 %s and %s", oldCard, newCard, card(first, "wash-2"), card(second, "wash-2"))
	}
	for name, base := range map[string]string{"stick": "file://" + filepath.ToSlash(first) + "/", "another server": serveUnkept(t, first)} {
		for server, handler := range map[string]func(string) http.Handler{
			"files alone": static,
			"ours":        func(folder string) http.Handler { return host.New(folder, host.Options{}) },
		} {
			t.Run(name+", "+server, func(t *testing.T) {
				s.served.Store(nil)
				b := open(t, base, "tanks/wash-1.html#card-"+oldCard, beforeScripts(`const begun = Date.parse("2027-01-15T12:00"); Date.now = () => begun + performance.now();`))
				s.lets(b)
				told := func(words ...string) {
					t.Helper()
					b.until(`window.tankside.current && window.tankside.current.is !== "asking"`)
					foot := b.text(".current")
					for _, w := range words {
						if !strings.Contains(foot, w) {
							t.Errorf("the foot does not say %q: %s", w, foot)
						}
					}
				}
				says := func(words ...string) {
					t.Helper()
					text := b.text(".card-current")
					for _, w := range words {
						if !strings.Contains(text, w) {
							t.Errorf("of the card is not said %q: %s", w, text)
						}
					}
				}
				told("This edition is 45 days old.", "never answered on this device")
				says("that of the edition on this device")

				s.serves(handler(first))
				b.do(chromedp.Reload())
				told("is the edition that is served now")
				says("✓ This card is current.")
				asked := s.asked.Load()
				b.turn("soils/wax.html")
				told("is the edition that is served now")
				if s.asked.Load() != asked {
					t.Error("it was asked again within a minute")
				}
				b.turn("tanks/wash-1.html#card-" + newCard) // of another edition: this page thinks that it is the current one
				told()
				says("✕ Destroy this card, print this one:", oldCard)

				hours := func(n int) { // that have passed since the answer
					ask[bool](b, fmt.Sprintf(`(() => { for (const k of Object.keys(localStorage)) if (k.startsWith("tankside.current ")) { const v = JSON.parse(localStorage[k]); v.at -= %d * 3600e3; localStorage[k] = JSON.stringify(v); } return true; })()`, n))
				}
				hours(50)
				s.served.Store(nil)
				b.turn("tanks/wash-1.html#card-" + oldCard)
				told("45 days old", "could not be asked since 2027-01-13 10:00", "(2 days)")
				says("✓ This card is that of the edition on this device.", "could not be asked since")
				b.turn("tanks/wash-1.html#card-" + newCard)
				told()
				says("? This card is not that of the edition on this device.", "destroy neither")

				s.serves(handler(second))
				b.turn("tanks/wash-1.html#card-" + newCard)
				told("that is edition 2, this copy is edition 1", "Open the current edition")
				says("? This copy is old and cannot tell", "Open the current edition")
				if to := ask[string](b, `document.querySelector(".newer a").href`); to != s.address+"tanks/wash-1.html#card-"+newCard {
					t.Errorf("the current edition is said to be at %s", to)
				}
				s.served.Store(nil) // what it has learned it still knows
				hours(1)
				b.turn("tanks/wash-1.es.html#card-" + oldCard)
				told("esa es la edición 2, esta copia es la edición 1")
				says("Esta copia es vieja")
			})
		}
	}

	// Where the card leads, the newer edition is served: it says what is to be done with both.
	for _, handler := range []http.Handler{static(second), host.New(second, host.Options{})} {
		s.serves(handler)
		b := open(t, s.address, "tanks/wash-1.html#card-"+oldCard)
		b.until(`document.querySelector(".card-says").textContent.startsWith("✕")`)
		if text := b.text(".card-current"); !strings.Contains(text, "Destroy this card, print this one:") || !strings.Contains(text, newCard) {
			t.Error(text)
		}
		if to := ask[string](b, `document.querySelector(".card-print a").href`); to != s.address+"cards.html#wash-1" {
			t.Errorf("the new card is said to be at %s", to)
		}
		if high := ask[float64](b, `parseFloat(getComputedStyle(document.querySelector(".card-says")).fontSize)`); high < 32 {
			t.Errorf("it is said in letters of %g px", high)
		}
		for fragment, want := range map[string]string{
			"card-" + newCard:                  "✓ Esta tarjeta está vigente.",
			"card-" + strings.ToLower(newCard): "✓ Esta tarjeta está vigente.",
			"card-" + oldCard:                  "✕ Destruya esta tarjeta e imprima esta otra:",
			"card-ZZZZZ":                       "? Este código no es de ninguna tarjeta de este tanque.",
			"card-":                            "? Este código no es de ninguna tarjeta de este tanque.",
			"card-%C3":                         "? Este código no es de ninguna tarjeta de este tanque.",
			"card-<b>x":                        "? Este código no es de ninguna tarjeta de este tanque.",
			"card-" + newCard[:4]:              "? Este código no es de ninguna tarjeta de este tanque.",
		} {
			b.turn("tanks/wash-1.es.html#" + fragment)
			b.until(`window.tankside.current && window.tankside.current.is === "current"`)
			if got := b.text(".card-says"); got != want {
				t.Errorf("#%s: %q, not %q", fragment, got, want)
			}
		}
		b.turn("tanks/wash-1.html#card-" + oldCard)
		b.press(`.languages a[hreflang="es"]`)
		b.until(`document.documentElement.lang === "es" && document.querySelector(".card-says").textContent.startsWith("✕ Destruya")`)
		b.turn("tanks/rinse-1.html#card-" + newCard) // another place's code, by one chance in 23
		b.until(`!document.querySelector(".card-current").hidden`)
		b.turn("tanks/wash-1.html#at.sums")
		b.until(`document.querySelector(".card-current").hidden`)
	}
}
