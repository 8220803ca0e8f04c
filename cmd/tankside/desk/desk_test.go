package desk

import (
	"errors"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
)

// served is a desk with a browser at it.
type served struct {
	t       *testing.T
	d       *Desk
	url     string
	browser *http.Client
	opened  []string
	stopped bool
}

func serve(t *testing.T, folder string) *served {
	t.Helper()
	s := &served{t: t}
	server := httptest.NewUnstartedServer(nil)
	s.d = New(Options{
		Manual: filepath.Join(folder, "content"), Edition: filepath.Join(folder, "edition"), Host: server.Listener.Addr().String(),
		Now:    func() (time.Time, error) { return time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC), nil },
		Open:   func(file string) error { s.opened = append(s.opened, file); return nil },
		Finish: func(string) error { return nil },
		Begin: func(folder string, files map[string][]byte) error {
			for name, data := range files {
				at := filepath.Join(folder, filepath.FromSlash(name))
				if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o755), os.WriteFile(at, data, 0o600)); err != nil {
					return err
				}
			}
			return nil
		},
		Stop: func() { s.stopped = true },
	})
	server.Config.Handler = s.d.Handler()
	server.Start()
	t.Cleanup(server.Close)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	s.url, s.browser = server.URL, &http.Client{Jar: jar}
	return s
}

// get gives a page, and its status.
func (s *served) get(at string, change func(*http.Request)) (int, string) {
	s.t.Helper()
	return s.send(http.MethodGet, at, nil, change)
}

func (s *served) post(at string, form url.Values) (int, string) {
	s.t.Helper()
	return s.send(http.MethodPost, at, form, func(r *http.Request) { r.Header.Set("Origin", s.url) })
}

func (s *served) send(method, at string, form url.Values, change func(*http.Request)) (int, string) {
	s.t.Helper()
	r, err := http.NewRequestWithContext(s.t.Context(), method, s.url+at, strings.NewReader(form.Encode()))
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	if change != nil {
		change(r)
	}
	answer, err := s.browser.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return answer.StatusCode, string(body)
}

// The key counts once; without it, from another site, under another name or with another method nobody is let in.
func TestNobodyElseIsLetIn(t *testing.T) {
	t.Parallel()
	s := serve(t, t.TempDir())
	for _, at := range []string{"/", "/?key=", "/?key=x", "/begin", "/desk.css"} {
		if code, _ := s.get(at, nil); code != http.StatusForbidden {
			t.Errorf("%s without the key: %d", at, code)
		}
	}
	key := strings.TrimPrefix(s.d.Address(), s.url)
	if code, _ := s.get(key, func(r *http.Request) { r.Host = "example.org" }); code != http.StatusForbidden {
		t.Errorf("another name: %d", code)
	}
	if code, body := s.get(key, nil); code != http.StatusOK || !strings.Contains(body, "There is no manual yet") {
		t.Fatalf("with the key: %d %s", code, body)
	}
	u, err := url.Parse(s.url)
	if err != nil {
		t.Fatal(err)
	}
	if c := s.browser.Jar.Cookies(u); len(c) != 1 || len(c[0].Value) < 40 {
		t.Errorf("%v", c)
	}
	other := *s
	other.browser = &http.Client{}
	if code, _ := other.get(key, nil); code != http.StatusForbidden {
		t.Errorf("the key a second time: %d", code)
	}
	for name, change := range map[string]func(*http.Request){
		"no origin":      func(*http.Request) {},
		"another origin": func(r *http.Request) { r.Header.Set("Origin", "https://example.org") },
		"origin null":    func(r *http.Request) { r.Header.Set("Origin", "null") },
		"another name":   func(r *http.Request) { r.Header.Set("Origin", s.url); r.Host = "localhost" },
	} {
		if code, _ := s.send(http.MethodPost, "/close", nil, change); code != http.StatusForbidden || s.stopped {
			t.Errorf("%s: %d", name, code)
		}
	}
	if code, _ := s.send(http.MethodPut, "/", nil, nil); code != http.StatusForbidden {
		t.Errorf("another method: %d", code)
	}
}

// The cookie goes to no script and no other site, and no page of another site shows the desk in itself.
func TestHeaders(t *testing.T) {
	t.Parallel()
	s := serve(t, t.TempDir())
	s.browser.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	answer, err := s.browser.Get(s.d.Address())
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	c := answer.Cookies()
	if len(c) != 1 || !c[0].HttpOnly || c[0].SameSite != http.SameSiteStrictMode || answer.Header.Get("Location") != "/" {
		t.Errorf("%+v %v", c, answer.Header)
	}
	if policy := answer.Header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") || !strings.Contains(policy, "frame-ancestors 'none'") || answer.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("%v", answer.Header)
	}
}

var given = regexp.MustCompile(`name="given" value="([^"]*)"`)

// A manual is begun by the questions of tankside start, with a step back; then it is proof-read, published and looked at; and only texts of the manual are opened.
func TestFromNothingToAnEdition(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	s := serve(t, folder)
	s.get(strings.TrimPrefix(s.d.Address(), s.url), nil)
	_, body := s.get("/begin", nil)
	answers := []string{"Invented <b>Shop</b>", "", "240 m", "", "", "", "", "", "120 L", "6 kW", "1.2 kW", "37-45 kHz", "no", "no", "no"}
	answer := func(do, text string) {
		form := url.Values{"answer": {text}, "do": {do}}
		for _, m := range given.FindAllStringSubmatch(body, -1) {
			form.Add("given", strings.NewReplacer("&lt;", "<", "&gt;", ">", "&#43;", "+", "&amp;", "&").Replace(m[1]))
		}
		_, body = s.post("/begin", form)
	}
	answer("next", "")
	if !strings.Contains(body, "this is needed") {
		t.Errorf("an empty name:\n%s", body)
	}
	for n, text := range answers {
		if n == 3 {
			answer("back", "")
			if !strings.Contains(body, `value="240 m"`) {
				t.Errorf("going back loses the answer:\n%s", body)
			}
			answer("next", "240 m")
		}
		answer("next", text)
	}
	if !strings.Contains(body, "nobody has approved it") || !strings.Contains(body, "37-45 kHz") || strings.Contains(body, "<b>Shop") {
		t.Fatalf("what is written:\n%s", body)
	}
	if _, err := os.Stat(s.d.Manual); err == nil {
		t.Error("something was written before anybody said so")
	}
	answer("write", "")
	if !strings.Contains(body, "The manual is begun") || !strings.Contains(body, "not-approved") && !strings.Contains(body, "Nobody has approved this") {
		t.Fatalf("begun:\n%s", body)
	}
	if _, body = s.post("/publish", nil); !strings.Contains(body, "Published:") || !strings.Contains(body, "Print the cards") {
		t.Fatalf("published:\n%s", body)
	}
	for page, file := range looks {
		s.post("/look", url.Values{"page": {page}})
		if last := s.opened[len(s.opened)-1]; last != filepath.Join(folder, "edition", file) {
			t.Errorf("%s opens %s", page, last)
		}
	}
	s.post("/open", url.Values{"file": {"soils/cutting-oil.md"}})
	if last := s.opened[len(s.opened)-1]; last != filepath.Join(folder, "content", "soils", "cutting-oil.md") {
		t.Errorf("%s was opened", last)
	}
	if err := os.Symlink("/etc/hosts", filepath.Join(folder, "content", "soils", "link.md")); err != nil {
		t.Fatal(err)
	}
	before := len(s.opened)
	for _, file := range []string{"", ".", "../edition/index.html", "/etc/passwd", "soils", "soils/link.md", "soils/none.md", "theme/x.js", "soils/../shop.yaml", ".git/x.md", `soils\cutting-oil.md`, "-h", "soils/cutting-oil.md\x00"} {
		if code, body := s.post("/open", url.Values{"file": {file}}); len(s.opened) != before || !strings.Contains(body, "no text of the manual") {
			t.Errorf("%q: %d, opened %v", file, code, s.opened[before:])
		}
	}
	if code, _ := s.post("/look", url.Values{"page": {"../../x"}}); code != http.StatusForbidden {
		t.Errorf("%d", code)
	}
	if code, _ := s.post("/carry", nil); code != http.StatusForbidden {
		t.Errorf("an archive that nobody makes: %d", code)
	}
	if err := os.WriteFile(filepath.Join(folder, "content", "soils", "bad.md"), []byte("---\ntitle: [\n---\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, body = s.post("/publish", nil); !strings.Contains(body, "findings stop it") || !strings.Contains(body, "soils/bad.md:") {
		t.Errorf("with a broken article:\n%s", body)
	}
	if _, body = s.post("/close", nil); !s.stopped || !strings.Contains(body, "closed") {
		t.Errorf("closed: %v\n%s", s.stopped, body)
	}
}

var (
	saidInPage = regexp.MustCompile(`say "([^"]+)"`)
	saidInCode = regexp.MustCompile(`\.say\("([^"]+)"\)`)
)

// Everything that the desk says is there in every language that it has, and nothing else is.
func TestWordsAreComplete(t *testing.T) {
	t.Parallel()
	code, err := os.ReadFile("desk.go")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, m := range append(saidInPage.FindAllStringSubmatch(page, -1), saidInCode.FindAllStringSubmatch(string(code), -1)...) {
		for _, text := range m[1:] {
			if text != "" {
				said[text] = true
			}
		}
	}
	for _, s := range finding.Severities {
		said[s.Heading()] = true
	}
	if len(said) < 30 {
		t.Fatalf("only %d phrases", len(said))
	}
	for _, language := range []string{"de", "es"} {
		data, err := wordFiles.ReadFile("words/" + language + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		phrases := map[string]string{}
		if err := yaml.Unmarshal(data, &phrases); err != nil {
			t.Fatal(err)
		}
		for text := range said {
			if phrases[text] == "" {
				t.Errorf("“%s” is not said in %s", text, language)
			}
		}
		for text := range phrases {
			if !said[text] {
				t.Errorf("%s: nobody says “%s”", language, text)
			}
		}
	}
	if wordsIn("es").say("Publish") != "Publicar" || wordsIn("de").say("Publish") != "Veröffentlichen" || wordsIn("xx").say("Publish") != "Publish" {
		t.Error("the words are not said")
	}
}
