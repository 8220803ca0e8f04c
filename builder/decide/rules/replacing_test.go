package rules

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
	"tankside/builder/layer"
	"tankside/builder/manual"
)

// overBase are the rules that hold a shop's manual against the base that it lies over.
var overBase = []finding.RuleName{replacesNothing.Name, unsaidReplacement.Name, baseMovedOn.Name, messageLostByReplacing.Name, notOfAShop.Name}

// proofreadOver gives what is found in a shop that has the shop file and every file that is not as in the base.
func proofreadOver(t testing.TB, files, base fstest.MapFS) []finding.Finding {
	t.Helper()
	shop := fstest.MapFS{}
	for name, f := range files {
		if was := base[name]; name == manual.ShopFile || strings.HasPrefix(name, "records/") || was == nil || !bytes.Equal(was.Data, f.Data) {
			shop[name] = f
		}
	}
	return withoutApprovals(readOver(t, shop, base), ofNoFile)
}

// readOver gives everything that is found in a shop over a base.
func readOver(t testing.TB, shop, base fstest.MapFS) []finding.Finding {
	t.Helper()
	var r manual.Reader
	b, _, err := r.Read(context.Background(), base, nil)
	if err != nil {
		t.Fatal(err)
	}
	trees := [2]*layer.Tree{}
	for i, files := range []fstest.MapFS{shop, base} {
		if trees[i], err = layer.Read(files); err != nil {
			t.Fatal(err)
		}
	}
	both, own, apart := trees[0].Over(trees[1])
	m, list, err := r.ReadOver(context.Background(), both, &manual.Layer{Base: b, Own: own, Apart: apart})
	if err != nil {
		t.Fatal(err)
	}
	return withProof(m, list)
}

// A shop without anything of its own but the shop file is its base, and nothing more is found in it.
func TestShopOfNothing(t *testing.T) {
	base := folder(t, small)
	if list := proofreadOver(t, base, base); len(list) > 0 {
		t.Errorf("%s", show(list))
	}
}

// However a shop takes the place of an article that warns, the warning is missed where it is gone, and by a finding that stops publication.
func TestMessagesSurviveReplacing(t *testing.T) {
	base := folder(t, small)
	const path = "procedures/fill.md"
	text := string(base[path].Data)
	was := readArticle(t, base, path)
	says := fmt.Sprintf("replaces: %s\n", was.Replaceable())
	if len(was.Signals) == 0 {
		t.Fatal("the base's article has no message")
	}
	own := strings.Replace(text, "revision: ", says+"revision: ", 1)
	message := "> **" + was.Signals[0].Word + "**"
	if !strings.Contains(own, message) {
		t.Fatalf("%s has no %s", path, message)
	}
	first, rest, _ := strings.Cut(own[strings.Index(own, message):], "\n\n")
	for name, c := range map[string]struct {
		text string
		lost bool
	}{
		"as it was":          {own, false},
		"graver":             {strings.Replace(own, message, "> **DANGER**", 1), false},
		"weaker":             {strings.Replace(own, message, "> **NOTICE**", 1), true},
		"gone":               {strings.Replace(own, first, "", 1), true},
		"no block quote":     {strings.Replace(own, first, strings.TrimPrefix(first, "> "), 1), true},
		"other words":        {strings.Replace(own, first, message+" Take care.", 1), true},
		"one word less":      {strings.Replace(own, first, first[:strings.LastIndexByte(first, ' ')], 1), true},
		"another beside":     {strings.Replace(own, first, first+"\n\n> **WARNING** The floor is slippery.", 1), false},
		"a draft":            {strings.Replace(own, "revision: ", "draft: yes\nrevision: ", 1), true},
		"a draft, cut off":   {"---\ntitle: Fill\ndraft: yes\nrevision: [", true},
		"the rest gone":      {strings.Replace(own, rest, "", 1), false},
		"equipment gone":     {strings.Replace(own, "protective-equipment: [", "protective-equipment: [dust mask] # [", 1), true},
		"an empty file":      {"", true},
		"without any header": {"Fill the tank.\n", true},
	} {
		t.Run(name, func(t *testing.T) {
			list := proofreadOver(t, with(base, path, c.text), base)
			stopped, lost := finding.Stopping(list) > 0, false
			for _, f := range list {
				lost = lost || f.Rule == messageLostByReplacing.Name
			}
			if c.lost && !stopped || !c.lost && lost {
				t.Errorf("want lost %v, got%s", c.lost, show(list))
			}
		})
	}
}

// with is a copy of files with one of them otherwise.
func with(files fstest.MapFS, path, text string) fstest.MapFS {
	copied := fstest.MapFS{}
	for name, f := range files {
		copied[name] = f
	}
	copied[path] = &fstest.MapFile{Data: []byte(text)}
	return copied
}

func readArticle(t *testing.T, files fstest.MapFS, path string) *manual.Article {
	t.Helper()
	m, _, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	return m.At(path)
}
