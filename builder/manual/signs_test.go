package manual

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

const signsHead = `---
title: Spots
summary: Spots after drying.
station: dry
revision: A
approved: 2026-09-14, trainer
review-by: 2027-09-14
sources: [common practice, no source]
seen-on: part
---
## Remedy

`

func signsOf(t *testing.T, paragraph string) (*Signs, string) {
	t.Helper()
	m, list, err := Read(context.Background(), fstest.MapFS{
		ShopFile:            {Data: []byte("name: Invented shop\nroles: [trainer]\n")},
		"symptoms/spots.md": {Data: []byte(signsHead + paragraph)},
	})
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, f := range list {
		found = append(found, fmt.Sprintf("%d:%d %s", f.Line, f.Column, f.Rule))
	}
	a := m.At("symptoms/spots.md")
	return a.Sections[len(a.Sections)-1].Signs, strings.Join(found, " ")
}

func TestSigns(t *testing.T) {
	for paragraph, want := range map[string]string{
		"**Seen with.** Typical: white rings; pH 9.5 or more. Rare: a crust. As a cause: sometimes.":        "13:25 typical white rings|13:38 typical pH 9.5 or more|13:60 rare a crust|sometimes false",
		"**Seen with.**\nTypical: white\nrings;\n  a crust.\nAs a cause: rare, can hurt people.\n\nMore.\n": "14:10 typical white rings|16:3 typical a crust|rare true",
		"**Seen with.** typical: ring. AS A CAUSE: Typical":                                                 "13:25 typical ring|typical false",
		"__Seen with.__ Rare: x.":          "13:22 rare x| false",
		"**Seen *with.*** Rare: x.":        "13:24 rare x| false",
		"**Seen with.** As a cause: rare.": "rare false",
		"**Seen with.**":                   " false",
	} {
		s, found := signsOf(t, paragraph)
		if s == nil || found != "" {
			t.Errorf("%q: %v %s", paragraph, s, found)
			continue
		}
		var got []string
		for _, sign := range s.Seen {
			got = append(got, fmt.Sprintf("%d:%d %s %s", sign.Observation.At.Line, sign.Observation.At.Column, sign.Often, sign.Observation.Name))
		}
		if g := strings.Join(append(got, fmt.Sprintf("%s %v", s.Common, s.Hurts)), "|"); g != want {
			t.Errorf("%q:\n%s\nwant\n%s", paragraph, g, want)
		}
	}
	for paragraph, want := range map[string]string{
		"**Seen with.** Often: rings.":                             "13:16 unreadable-signs",
		"**Seen with.** White rings. As a cause: rare.":            "13:16 unreadable-signs",
		"**Seen with.** Typical: rings. As a cause: often.":        "13:32 unreadable-signs",
		"**Seen with.** As a cause: rare, may hurt.":               "13:16 unreadable-signs",
		"**Seen with.** Typcial: rings. As a cause: rare. Mind it": "13:16 unreadable-signs 13:50 unreadable-signs",
	} {
		if _, found := signsOf(t, paragraph); found != want {
			t.Errorf("%q: %s, want %s", paragraph, found, want)
		}
	}
	// Near misses: another lead, the middle of a paragraph, a list.
	for _, paragraph := range []string{"**Seen.** Often: rings.", "Mind **Seen with.** Often: rings.", "- **Seen with.** Often: rings."} {
		if s, found := signsOf(t, paragraph); s != nil || found != "" {
			t.Errorf("%q: %v %s", paragraph, s, found)
		}
	}
}

func FuzzSigns(f *testing.F) {
	f.Add("**Seen with.** Typical: rings; dots. As a cause: rare, can hurt people.")
	f.Add("**Seen with.****a** : ;;.. .")
	f.Add("**Seen *with*.** Typical: é;\n\u00a0 x")
	f.Add("**Seen with&#46;** x")
	f.Fuzz(func(t *testing.T, paragraph string) {
		_, _, err := Read(context.Background(), fstest.MapFS{
			ShopFile:            {Data: []byte("name: Invented shop\nroles: [trainer]\n")},
			"symptoms/spots.md": {Data: []byte(signsHead + paragraph)},
		})
		if err != nil {
			t.Fatal(err)
		}
	})
}
