package editions

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/carry"
	"tankside/builder/edition"
)

// shelf is a folder with editions in it.
type shelf struct {
	t    *testing.T
	at   string
	base *edition.Base
}

// over makes the next editions those of shops over a base.
func (s *shelf) over(shop string, m edition.Mark) {
	s.base = &edition.Base{Shop: shop, Mark: m, Inputs: "x"}
}

// publish makes a small edition at a path of the folder. Articles are “path revision content”.
func (s shelf) publish(path, shop string, m edition.Mark, articles ...string) {
	s.t.Helper()
	to := filepath.Join(s.at, filepath.FromSlash(path))
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		s.t.Fatal(err)
	}
	w, err := edition.BeginIn(nil, to)
	if err != nil {
		s.t.Fatal(err)
	}
	for _, name := range []string{"index.html", "this-edition.html", "soils/wax.html"} {
		if err := w.Add(name, []byte(shop+name)); err != nil {
			s.t.Fatal(err)
		}
	}
	list := edition.List{Base: s.base, Shop: shop, Mark: m, First: edition.Sum([]byte("open")), Articles: []edition.Article{}}
	for _, a := range articles {
		part := strings.Fields(a)
		list.Articles = append(list.Articles, edition.Article{Path: part[0], Revision: part[1], Content: part[2]})
	}
	if _, err := w.Commit(list, []byte("// worker")); err != nil {
		s.t.Fatal(err)
	}
}

func (s shelf) look(base string) map[string]One {
	s.t.Helper()
	var b *Base
	if base != "" {
		var err error
		if b, err = OpenBase(s.t.Context(), filepath.Join(s.at, base)); err != nil {
			s.t.Fatal(err)
		}
	}
	f, err := Look(s.t.Context(), s.at, b, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	by := map[string]One{}
	for _, o := range f.Editions {
		by[o.Path] = o
	}
	if len(by) != len(f.Editions) {
		s.t.Errorf("a path is there twice: %+v", f.Editions)
	}
	return by
}

func (s shelf) compare(got map[string]One, want map[string]string) {
	s.t.Helper()
	for path, is := range want {
		if o := got[path]; fmt.Sprint(o.State, ", ", o.Standing) != is {
			s.t.Errorf("%s is %s, %s (%s %s), not %s", path, o.State, o.Standing, o.Problem, o.Why, is)
		}
	}
	for path := range got {
		if _, is := want[path]; !is {
			s.t.Errorf("%s is told of", path)
		}
	}
}

func mark(number int, code string) edition.Mark {
	m := edition.Mark{Edition: number, Code: code}
	if number > 0 {
		m.Date = "2026-11-0" + fmt.Sprint(number)
	}
	return m
}

// Within a shop the newest number of the ledger is what the others are compared with; two shops count by themselves.
func TestStandingByLedger(t *testing.T) {
	t.Parallel()
	s := shelf{t: t, at: t.TempDir()}
	s.publish("a/old", "A", mark(3, "three"))
	s.publish("a/deep/er/new", "A", mark(5, "five"))
	s.publish("a/before", "A", edition.Mark{Code: "x", After: 4})
	s.publish("a/after", "A", edition.Mark{Code: "y", After: 5})
	s.publish("a/same", "A", edition.Mark{Code: "five", After: 4})
	s.publish("a/draft", "A", edition.Mark{Code: "z", After: 2, Draft: true})
	s.publish("b", "B", mark(1, "one"))
	s.publish("c/1", "C", mark(2, "two"))
	s.publish("c/2", "C", mark(2, "zwei"))
	s.publish("d/1", "D", mark(0, "d"))
	s.publish("d/2", "D", mark(0, "d"))
	s.publish("e/1", "E", mark(0, "e"))
	s.publish("e/2", "E", mark(0, "f"))
	s.compare(s.look(""), map[string]string{
		"a/old": "whole, behind", "a/deep/er/new": "whole, newest", "a/before": "whole, behind", "a/after": "whole, not compared", "a/same": "whole, newest",
		"a/draft": "whole, not compared", "b": "whole, not compared", "c/1": "whole, apart", "c/2": "whole, apart", "d/1": "whole, newest", "d/2": "whole, newest",
		"e/1": "whole, not compared", "e/2": "whole, not compared",
	})
}

// An edition that was made over an earlier edition of its base is behind, whether the base is named or others are over a later one.
func TestStandingOverABase(t *testing.T) {
	t.Parallel()
	s := shelf{t: t, at: t.TempDir()}
	s.publish("base/2", "Base", mark(2, "two"), "soils/wax.html A one")
	s.publish("base/3", "Base", mark(3, "three"), "soils/wax.html A one")
	s.over("Base", mark(2, "two"))
	s.publish("a", "A", mark(0, "a"), "soils/wax.html A two")
	s.over("Base", mark(3, "three"))
	s.publish("b", "B", mark(1, "b"), "soils/wax.html A two")
	s.over("Base", mark(3, "drei"))
	s.publish("c", "C", mark(0, "c"), "soils/wax.html A two")
	s.over("Base", edition.Mark{Code: "x", After: 2})
	s.publish("d", "D", mark(0, "d"), "soils/wax.html A two")
	s.over("Base", edition.Mark{Code: "y", After: 3})
	s.publish("e", "E", mark(0, "e"), "soils/wax.html A two")
	s.over("Other", mark(1, "one"))
	s.publish("f", "F", mark(0, "f"), "soils/wax.html A two")
	want := map[string]string{"base/2": "whole, behind", "base/3": "whole, newest", "a": "whole, behind", "b": "whole, not compared", "c": "whole, apart", "d": "whole, behind",
		"e": "whole, not compared", "f": "whole, not compared"}
	s.compare(s.look(""), want)
	want["b"] = "whole, newest"
	s.compare(s.look("base/3"), want)
	want["a"], want["b"], want["base/2"], want["c"], want["d"] = "whole, newest", "whole, newest", "whole, newest", "whole, newest", "whole, not compared"
	s.compare(s.look("base/2"), want)
}

// Of another shop than the base's the articles are compared, and a text that is otherwise without an earlier revision is not called newest.
func TestStandingByBase(t *testing.T) {
	t.Parallel()
	s := shelf{t: t, at: t.TempDir()}
	s.publish("base", "Base", mark(7, "seven"), "a.html 10 a2", "b.html C b")
	s.publish("copy", "Base", mark(7, "seven"), "a.html 10 a2", "b.html C b")
	s.publish("old", "Base", mark(6, "six"), "a.html 9 a1", "b.html C b")
	s.publish("shop/same", "S", mark(1, "s1"), "a.html 10 a2", "b.html C b", "own.html A own")
	s.publish("shop/behind", "S", mark(9, "s9"), "a.html 9 a1", "b.html C b")
	s.publish("shop/replaced", "S", mark(2, "s2"), "a.html 10 mine", "b.html C b")
	s.publish("shop/lacking", "S", mark(3, "s3"), "a.html 10 a2")
	s.publish("shop/other", "S", mark(4, "s4"), "a.html x1 a2x", "b.html C b")
	got := s.look("base")
	s.compare(got, map[string]string{
		"base": "whole, newest", "copy": "whole, newest", "old": "whole, behind", "shop/same": "whole, newest", "shop/behind": "whole, behind",
		"shop/replaced": "whole, not compared", "shop/lacking": "whole, not compared", "shop/other": "whole, not compared",
	})
	if why := got["shop/behind"].Why; why != "of the base's 2 articles 1 are the same, 1 of an earlier revision, 0 otherwise, 0 not there" {
		t.Error(why)
	}
	if err := os.WriteFile(filepath.Join(s.at, "base", "index.html"), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := OpenBase(t.Context(), filepath.Join(s.at, "base")); err == nil || !strings.Contains(err.Error(), "Nothing was compared with it") {
		t.Errorf("a damaged base: %v", err)
	}
}

// Whatever happens to one edition is told of that one, and the others are compared all the same.
func TestOneFaultIsOneLine(t *testing.T) {
	t.Parallel()
	s := shelf{t: t, at: t.TempDir()}
	for _, name := range []string{"whole", "changed", "list", "no-list", "cut", "half/a", ".hidden/a"} {
		s.publish(name, name, mark(1, "one"))
	}
	in := func(path string) string { return filepath.Join(s.at, filepath.FromSlash(path)) }
	zip := in("carried.zip")
	_, err := carry.Write(t.Context(), in("whole"), zip, []byte("open"))
	data, err2 := os.ReadFile(zip)
	if err := errors.Join(err, err2,
		os.WriteFile(in("changed/soils/wax.html"), []byte("poison"), 0o600), os.WriteFile(in("changed/more.html"), nil, 0o600),
		os.WriteFile(in("list/edition.json"), []byte("{}"), 0o600),
		os.Remove(in("no-list/edition.json")), os.Remove(in("no-list/offline.js")),
		os.Truncate(in("cut/edition.json"), 20), os.Remove(in("half/a/index.html")),
		os.WriteFile(in("other.zip"), data[:len(data)/2], 0o600), os.MkdirAll(in("nothing/here"), 0o755),
		os.Mkdir(in("content"), 0o755), os.WriteFile(in("content/shop.yaml"), nil, 0o600), // a manual is not missed as an edition
	); err != nil {
		t.Fatal(err)
	}
	links := 0
	if err := os.Symlink(in("whole"), in("link")); err == nil { // not every desk may make links
		links = 1
	}
	got := s.look("")
	s.compare(got, map[string]string{
		"whole": "whole, newest", "carried.zip": "whole, newest", "changed": "damaged, not compared", "list": "unknown, not compared", "no-list": "unknown, not compared",
		"cut": "unknown, not compared", "half/a": "damaged, not compared", "other.zip": "unknown, not compared", "nothing": "none, not compared",
	})
	if o := got["changed"]; o.Damaged.Count != 1 || o.Extra.Count != 1 || o.Fine() || o.Shop != "changed" {
		t.Errorf("%+v", o)
	}
	if f, err := Look(t.Context(), s.at, nil, nil); err != nil || f.Links != links {
		t.Errorf("%d links, %v", f.Links, err)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	if _, err := Look(ended, s.at, nil, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("broken off: %v", err)
	}
	if _, err := Look(t.Context(), in("not there"), nil, nil); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}

// Of many files ten are named, and all are counted. A folder that goes too deep is refused by name.
func TestBounds(t *testing.T) {
	t.Parallel()
	s := shelf{t: t, at: t.TempDir()}
	s.publish("a", "A", mark(1, "one"))
	for i := range 25 {
		if err := os.WriteFile(filepath.Join(s.at, "a", fmt.Sprint("more-", i)), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if o := s.look("")["a"]; o.Extra.Count != 25 || len(o.Extra.First) != mostPaths {
		t.Errorf("%+v", o.Extra)
	}
	if err := os.MkdirAll(filepath.Join(s.at, strings.Repeat("d/", deepest+1)), 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := Look(t.Context(), s.at, nil, nil); !errors.Is(err, ErrTooMany) || !strings.Contains(err.Error(), "d/d") {
		t.Errorf("too deep: %v", err)
	}
}

// Revisions are ordered as document control counts them, and not otherwise.
func TestEarlier(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, b string
		want bool
	}{{"9", "10", true}, {"10", "9", false}, {"C", "D", true}, {"Z", "AA", true}, {"AA", "Z", false}, {"a", "b", true}, {"a", "B", false}, {"3", "C", false}, {"", "A", false}, {"A", "A", false}, {"x1", "x2", false}} {
		if earlier(c.a, c.b) != c.want {
			t.Errorf("%q before %q: %v", c.a, c.b, !c.want)
		}
	}
}
