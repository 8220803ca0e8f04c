package builder

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

var day = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

const smallShop = `name: Small Shop
note: An invented shop.
language: en
units: SI
water: {temperature: 12 °C}
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L, heater: 6 kW, ultrasonic-power: 1.2 kW, frequency: 40 kHz, temperature: 62 °C, strength: 4 % v/v}
roles: [process engineer]
`

const head = "---\ntitle: %T\nsummary: A summary.\nstation: wash\nrevision: A\napproved: 2026-09-14, process engineer\nreview-by: 2027-09-14\n" +
	"sources: [\"common practice, no source\"]\n---\n"

// folder writes a manual; %T in a file becomes its path.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(strings.ReplaceAll(text, "%T", name)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func files(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		got[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func publish(t *testing.T, src, to string, now time.Time) (Report, error) {
	t.Helper()
	return Publish(context.Background(), Options{Manual: src, To: to, Now: now})
}

// enterIt publishes and enters the edition in the manual's ledger.
func enterIt(t *testing.T, src, to string, now time.Time) (Report, error) {
	t.Helper()
	return Publish(context.Background(), Options{Manual: src, To: to, Now: now, Enter: &Entering{By: "a trainer"}})
}

// Two publishes of one manual give the same bytes: into two folders on one day, and into one folder on two days.
func TestSameManualSameBytes(t *testing.T) {
	t.Parallel()
	a, b := filepath.Join(t.TempDir(), "edition"), filepath.Join(t.TempDir(), "edition")
	for _, to := range []string{a, b} {
		if _, err := publish(t, "../content", to, day); err != nil {
			t.Fatal(err)
		}
	}
	first := files(t, a)
	if !maps.Equal(first, files(t, b)) {
		t.Error("two publishes differ")
	}
	before, err := listIn(a)
	if err != nil {
		t.Fatal(err)
	}
	later, err := publish(t, "../content", a, day.AddDate(0, 0, 1))
	if err != nil {
		t.Fatal(err)
	}
	if later.Mark != before.Mark {
		t.Errorf("a day later the same manual is %v, and it was %v", later.Mark, before.Mark)
	}
}

// A manual with findings is refused, and the edition in place stays as it is; a correction makes the next edition and says what changed.
func TestFindingsLeaveTheOldEdition(t *testing.T) {
	t.Parallel()
	src := folder(t, map[string]string{
		"shop.yaml": smallShop, "procedures/fill.md": head + "## Fill\n\nSee [heat](heat.md).\n", "procedures/heat.md": head + "## Heat\n\nSee [fill](fill.md).\n",
	})
	to := filepath.Join(t.TempDir(), "edition")
	r, err := enterIt(t, src, to, day)
	if err != nil {
		t.Fatal(err, r.Findings)
	}
	before := files(t, to)
	article := filepath.Join(src, "procedures", "fill.md")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(article, []byte(strings.ReplaceAll(text, "%T", "procedures/fill.md")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(head + "## Fill\n\nSee [heat](haet.md).\n")
	r, err = publish(t, src, to, day)
	if !errors.Is(err, ErrStopped) || len(r.Findings) == 0 {
		t.Fatalf("a broken link was published: %v", err)
	}
	link := slices.IndexFunc(r.Findings, func(f finding.Finding) bool { return f.Rule == "broken-link" })
	if link < 0 {
		t.Fatalf("the link is not found: %v", r.Findings)
	}
	if f := r.Findings[link]; f.File != "procedures/fill.md" || f.Line != 12 || f.Column == 0 || f.Remedy == "" {
		t.Errorf("the finding lacks its place or remedy: %+v", f)
	}
	if !maps.Equal(before, files(t, to)) {
		t.Error("a refused manual changed the edition")
	}
	write(strings.Replace(head, "revision: A", "revision: B", 1) + "## Fill\n\nSee [heating](heat.md).\n")
	r, err = enterIt(t, src, to, day)
	if err != nil || r.Mark.Edition != 2 {
		t.Fatalf("%v, %v", r.Mark, err)
	}
	if home := files(t, to)["index.html"]; !strings.Contains(home, "procedures/fill.html") || !strings.Contains(home, "revised") {
		t.Error("the home page does not say what was revised")
	}
}

// What a hostile article holds is reported, and where a page is made of it all the same it is inert.
func TestHostileTextIsInert(t *testing.T) {
	t.Parallel()
	text := head + "## Look\n\n<script>alert(1)</script>\n\n<img src=x onerror=alert(2)> [run](javascript:alert(3)) [data](data:text/html;base64,PHNjcmlwdD4=) " +
		"[out](../../../etc/passwd) ![pic](https://example.invalid/x.png)\n\n| a |\n| - |\n| <b onclick=alert(4)>x</b> |\n"
	src := folder(t, map[string]string{"shop.yaml": smallShop, "procedures/bad.md": text})
	to := filepath.Join(t.TempDir(), "edition")
	r, err := publish(t, src, to, day)
	if !errors.Is(err, ErrStopped) {
		t.Fatalf("a hostile article was published: %v", err)
	}
	rules := map[string]bool{}
	for _, f := range r.Findings {
		rules[string(f.Rule)] = true
	}
	if len(rules) < 3 {
		t.Errorf("only %v were reported", rules)
	}
	if _, err := os.Stat(to); err == nil {
		t.Error("an edition was written")
	}
}

func TestUnusableFoldersGetASentence(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for name, dir := range map[string]string{"missing": filepath.Join(t.TempDir(), "none"), "empty": t.TempDir(), "a file": file} {
		_, err := publish(t, dir, filepath.Join(t.TempDir(), "edition"), day)
		var unusable *manual.UnusableError
		if !errors.As(err, &unusable) || unusable.Remedy == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A theme file of the shop's own replaces the built-in one; one with a mistake is named with its line, and the old edition stays.
func TestOwnThemeFiles(t *testing.T) {
	t.Parallel()
	src := folder(t, map[string]string{
		"shop.yaml": smallShop, "procedures/fill.md": head + "## Fill\n\nWords.\n", "theme/styles/99-own.css": "main { border: 1px solid; }",
	})
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	before := files(t, to)
	found := false
	for name, data := range before {
		found = found || strings.HasSuffix(name, ".css") && strings.Contains(data, "main { border: 1px solid; }")
	}
	if !found {
		t.Error("the shop's own style is in no style sheet")
	}
	own := filepath.Join(src, "theme", "templates", "home.html")
	if err := os.MkdirAll(filepath.Dir(own), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, mistake := range []string{"{{define \"content\"}}\n{{if}}{{end}}", "{{define \"content\"}}\n{{.NoSuchThing}}{{end}}"} {
		if err := os.WriteFile(own, []byte(mistake), 0o644); err != nil {
			t.Fatal(err)
		}
		r, err := publish(t, src, to, day)
		if err == nil || !slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Place.String() == "theme/templates/home.html:2:1" }) {
			t.Errorf("the finding does not name file and line: %v, %v", r.Findings, err)
		}
		if !maps.Equal(before, files(t, to)) {
			t.Error("a theme with a mistake changed the edition")
		}
	}
}
