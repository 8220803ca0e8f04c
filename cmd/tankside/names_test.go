package main

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"testing"

	"tankside/builder"
	"tankside/builder/manual"
	"tankside/calculators"
)

var translated = regexp.MustCompile(`^(.*)\.[a-z]{2}\.html$`)

// Every name that people meet stands in the review of names in NAMES.md, which says where it comes from.
func TestEveryNameIsReviewed(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../NAMES.md")
	if err != nil {
		t.Fatal(err)
	}
	reviewed := map[string]bool{}
	for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(string(text), -1) {
		reviewed[m[1]] = true
	}
	check := func(what, name string) {
		if !reviewed[name] {
			t.Errorf("%s %s is not in the review of names in NAMES.md: add it, and where it comes from", what, name)
		}
	}
	for _, cmd := range commands {
		check("the command", cmd.name)
		var o options
		cmd.setUp(&o)
		for _, opt := range o.list {
			check("the option", "--"+opt.name)
		}
	}
	var keys func([]manual.Key)
	keys = func(list []manual.Key) {
		for _, k := range list {
			check("the key", k.Name)
			keys(k.Under)
		}
	}
	keys(manual.HeadKeys())
	for _, name := range manual.Findable() {
		check("what can be found, the", name)
	}
	for _, k := range manual.Kinds {
		check("the folder", k.Folder())
		keys(manual.Keys(k))
		keys(manual.TranslationKindKeys(k))
	}
	keys(manual.TranslationKeys())
	keys(manual.ShopKeys())
	keys(manual.GlossaryKeys())
	for _, c := range calculators.All() {
		check("the calculator", c.Name)
	}
	for _, s := range manual.Stations {
		check("the station", string(s))
	}
	for _, w := range []string{"DANGER", "WARNING", "CAUTION", "NOTICE"} {
		check("the signal word", w)
	}

	to := path.Join(t.TempDir(), "edition")
	if _, err := builder.Publish(t.Context(), builder.Options{Manual: "../../content", To: to}); err != nil {
		t.Fatal(err)
	}
	pages, err := fs.Glob(os.DirFS(to), "*.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		if m := translated.FindStringSubmatch(p); m != nil {
			p = m[1] + ".html" // a page in another language has the name of the manual's own
		}
		check("the page", p)
	}
}
