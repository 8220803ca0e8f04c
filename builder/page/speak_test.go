package page

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/themes"
)

// One edition's pages can be rendered in several languages: each site says its own words, in the frame, in the templates and in what code writes,
// and none changes what another says.
func TestSitesOfTwoLanguages(t *testing.T) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	written := map[string]bool{}
	s, err := newSite(Input{Manual: m, Theme: themes.New(nil), Mark: edition.Mark{Edition: 1, Date: "2026-09-14", Code: "234-567-89A"}, Day: "2026-09-14"}, func(path string, _ []byte) error {
		if written[path] {
			t.Errorf("%s is written twice", path)
		}
		written[path] = true
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	spanish, err := s.speak("es-MX")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		s    *site
		want []string
	}{
		{s, []string{`lang="en"`, "What is wrong with the part?", "The cleaning line"}},
		{spanish, []string{`lang="es-MX"`, "¿Qué le pasa a la pieza?", "La línea de limpieza"}},
		{s, []string{`lang="en"`, "What is wrong with the part?"}}, // still
	} {
		var page []byte
		home := c.s.page("index.html", "home", (*site).home)
		if err := home.render(func(_ string, data []byte) error { page = bytes.Clone(data); return nil }); err != nil {
			t.Fatal(err)
		}
		for _, w := range c.want {
			if !strings.Contains(string(page), w) {
				t.Errorf("the home page in %s lacks %s", c.s.language, w)
			}
		}
	}
	if s.sheet.Words["Yes"] == spanish.sheet.Words["Yes"] || s.parcels[s.parcelOf(admitTable)] == s.parcels[spanish.parcelOf(admitTable)] {
		t.Error("answers to “may it go in?” are in one language for both sites")
	}
	if _, err := s.speak("no such language"); err == nil {
		t.Error("a language without words is no error")
	}
}
