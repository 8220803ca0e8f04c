package shops

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"log"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/finding"
)

var day = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

// shelf is shared by the tests that are not about it, so that assets are compressed once.
var shelf *edition.Shelf

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "shops")
	if err == nil {
		shelf, err = edition.OpenShelf(dir)
	}
	if err != nil {
		log.Fatal(err)
	}
	code := m.Run()
	if err := os.RemoveAll(dir); err != nil {
		log.Fatal(err)
	}
	os.Exit(code)
}

const article = "../../testdata/mistakes/manual/soils/chips.md"

// yard is a small base with some shops.
type yard struct {
	t              *testing.T
	base, of, into string
}

// newYard makes a base of the small manual, and shops that differ in their names, in heights above the sea and in what they add.
func newYard(t *testing.T, shops int) *yard {
	t.Helper()
	dir := t.TempDir()
	y := &yard{t, filepath.Join(dir, "base"), filepath.Join(dir, "shops"), filepath.Join(dir, "editions")}
	if err := os.CopyFS(y.base, os.DirFS("../../testdata/mistakes/manual")); err != nil {
		t.Fatal(err)
	}
	for i := range shops {
		y.write(fmt.Sprintf("shop-%d/shop.yaml", i+1), strings.NewReplacer("name: Invented shop", fmt.Sprintf("name: Shop %d", i+1), "altitude: ", fmt.Sprintf("altitude: %d m # ", 100*i+100)).Replace(y.read(filepath.Join(y.base, "shop.yaml"))))
	}
	return y
}

func (y *yard) read(path string) string {
	y.t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		y.t.Fatal(err)
	}
	return string(data)
}

// write writes a file of a shop.
func (y *yard) write(name, text string) {
	y.t.Helper()
	at := filepath.Join(y.of, name)
	if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
		y.t.Fatal(err)
	}
	if err := os.WriteFile(at, []byte(text), 0o600); err != nil {
		y.t.Fatal(err)
	}
}

// publish publishes and gives what became of each shop.
func (y *yard) publish(o Options) (map[string]Result, Summary) {
	y.t.Helper()
	got := map[string]Result{}
	done := o.Done
	o.Base, o.Shops, o.Now = y.base, y.of, day
	o.Done = func(r Result) {
		r.Report.Findings = nil // a thousand lists of them would be the test's own memory
		got[r.Shop] = r
		if done != nil {
			done(r)
		}
	}
	if o.To == "" {
		o.To = y.into
	}
	sum, err := Publish(y.t.Context(), o)
	if err != nil {
		y.t.Fatal(err)
	}
	return got, sum
}

func (y *yard) states(got map[string]Result, want map[string]State) {
	y.t.Helper()
	if len(got) != len(want) {
		y.t.Errorf("%d shops, not %d", len(got), len(want))
	}
	for shop, state := range want {
		if got[shop].State != state {
			y.t.Errorf("%s is %s, not %s: %v %v", shop, got[shop].State, state, got[shop].Err, got[shop].Own)
		}
	}
}

// files are those of a folder of editions, what is kept for later publications apart.
func files(t *testing.T, root string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	err := fs.WalkDir(os.DirFS(root), ".", func(p string, e fs.DirEntry, err error) error {
		if err == nil && p != "." && strings.HasPrefix(e.Name(), ".") {
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if err == nil && !e.IsDir() {
			all[p], err = os.ReadFile(filepath.Join(root, p))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func same(t *testing.T, a, b map[string][]byte, but ...string) {
	t.Helper()
	for name := range a {
		skip := false
		for _, end := range but {
			skip = skip || name == end
		}
		if !skip && !bytes.Equal(a[name], b[name]) {
			t.Errorf("%s is not the same", name)
		}
	}
	if len(a) != len(b) || len(a) == 0 {
		t.Errorf("%d files and %d", len(a), len(b))
	}
}

// An edition over a base is, to the byte, the one that would be published of a folder with both in it; its list alone says more. What editions have in common is stored once, and
// eight processes make what one makes.
func TestShopIsItsOwnManual(t *testing.T) {
	y := newYard(t, 6)
	y.write("shop-2/lessons/ours.md", strings.NewReplacer("title: Chips", "title: Ours", "nature: particles\nremoved-by: [alkaline, neutral]\n", "for: [operator]\nsee-also: [sound]\n").Replace(y.read(article)))
	got, sum := y.publish(Options{})
	want := map[string]State{}
	for i := range 6 {
		want[fmt.Sprintf("shop-%d", i+1)] = Published
	}
	y.states(got, want)
	if !sum.Fine() || sum.Count[Published] != 6 {
		t.Errorf("%+v", sum)
	}
	for _, shop := range []string{"shop-2", "shop-6"} {
		whole, to := filepath.Join(t.TempDir(), "manual"), filepath.Join(t.TempDir(), "edition")
		if err := os.CopyFS(whole, os.DirFS(y.base)); err != nil {
			t.Fatal(err)
		}
		for name, data := range files(t, filepath.Join(y.of, shop)) {
			if err := os.WriteFile(filepath.Join(whole, name), data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := builder.Publish(context.Background(), builder.Options{Manual: whole, To: to, Now: day}); err != nil {
			t.Fatal(err)
		}
		same(t, files(t, to), files(t, filepath.Join(y.into, shop)), edition.ListName)
	}
	y.sharesAssets("shop-1", "shop-6")

	parts := filepath.Join(t.TempDir(), "editions")
	for n := range 8 {
		y.publish(Options{To: parts, Part: Part{n + 1, 8}}) // each opens base and shelf anew, as a process does
	}
	same(t, files(t, y.into), files(t, parts))
}

// sharesAssets compares the files of two editions in place: every asset of the same name is one file.
func (y *yard) sharesAssets(a, b string) {
	y.t.Helper()
	one := 0
	for name := range files(y.t, filepath.Join(y.into, a)) {
		first, err := os.Stat(filepath.Join(y.into, a, name))
		if err != nil {
			y.t.Fatal(err)
		}
		second, err := os.Stat(filepath.Join(y.into, b, name))
		if err != nil || !strings.HasPrefix(name, "assets/") {
			continue
		}
		if !os.SameFile(first, second) {
			y.t.Errorf("%s is stored twice", name)
		}
		one++
	}
	if one < 20 {
		y.t.Errorf("%d assets are stored once", one)
	}
}

// One shop's fault stops that shop alone, is told under its name, and leaves its edition as it was.
func TestOneShopsFault(t *testing.T) {
	y := newYard(t, 4)
	y.publish(Options{Shelf: shelf})
	before := files(t, filepath.Join(y.into, "shop-2"))
	y.write("shop-1/shop.yaml", y.read(filepath.Join(y.of, "shop-1/shop.yaml"))+"# ours\n")
	y.write("shop-2/soils/chips.md", y.read(article))
	y.write("shop-3/shop.yaml", "name: [\n")
	if err := os.Remove(filepath.Join(y.of, "shop-4/shop.yaml")); err != nil {
		t.Fatal(err)
	}
	y.write("read-me.txt", "of nobody")
	got, sum := y.publish(Options{Shelf: shelf})
	y.states(got, map[string]State{"shop-1": Published, "shop-2": Stopped, "shop-3": Stopped, "shop-4": Failed})
	if own := got["shop-2"].Own; finding.Stopping(own) != 1 || own[0].Rule != "unsaid-replacement" {
		t.Errorf("%v", own)
	}
	if sum.Fine() || len(sum.NoShops) != 1 {
		t.Errorf("%+v", sum)
	}
	same(t, before, files(t, filepath.Join(y.into, "shop-2")))
}

// What the base itself is told of is told once, and not again of each shop.
func TestFindingsOfTheBase(t *testing.T) {
	y := newYard(t, 2)
	sound := filepath.Join(y.base, "lessons/sound.md")
	if err := os.WriteFile(sound, []byte(y.read(sound)+"\n![](../pictures/drops.svg)\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	count := 0
	got, _ := y.publish(Options{Shelf: shelf, Begun: func(b *builder.Base, shops int) {
		for _, f := range b.Findings {
			if f.Rule == "undescribed-picture" {
				count++
			}
		}
	}})
	for _, r := range got {
		for _, f := range r.Own {
			if f.Rule == "undescribed-picture" {
				t.Errorf("%s: %v", r.Shop, f)
			}
		}
	}
	if count != 1 {
		t.Errorf("%d times", count)
	}
}

// A run goes on where one was broken off: what is whole and current is not made again, and what is damaged, missing or behind is.
func TestGoingOn(t *testing.T) {
	y := newYard(t, 4)
	y.publish(Options{Shelf: shelf, Program: "1"})
	want := files(t, y.into)
	got, _ := y.publish(Options{Shelf: shelf, Program: "1"})
	y.states(got, map[string]State{"shop-1": Current, "shop-2": Current, "shop-3": Current, "shop-4": Current})

	page := filepath.Join(y.into, "shop-1/index.html")
	if err := os.Remove(page); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(y.into, "shop-3")); err != nil {
		t.Fatal(err)
	}
	got, _ = y.publish(Options{Shelf: shelf, Program: "1"})
	y.states(got, map[string]State{"shop-1": Published, "shop-2": Current, "shop-3": Published, "shop-4": Current})
	same(t, want, files(t, y.into))

	ended, end := context.WithCancel(t.Context())
	_, err := Publish(ended, Options{Base: y.base, Shops: y.of, To: y.into, Now: day, Shelf: shelf, Program: "2", Done: func(r Result) {
		if r.Shop == "shop-2" {
			end()
		}
	}})
	if err == nil {
		t.Error("it was not broken off")
	}
	got, _ = y.publish(Options{Shelf: shelf, Program: "2"})
	y.states(got, map[string]State{"shop-1": Current, "shop-2": Current, "shop-3": Published, "shop-4": Published})
	y.write("shop-4/shop.yaml", y.read(filepath.Join(y.of, "shop-4/shop.yaml"))+"# ours\n")
	got, _ = y.publish(Options{Shelf: shelf, Program: "2"})
	y.states(got, map[string]State{"shop-1": Current, "shop-2": Current, "shop-3": Current, "shop-4": Published})
}

// The base moves on: a shop that replaces the article is stopped until it says that it has looked, and the others follow.
func TestBaseMovesOn(t *testing.T) {
	y := newYard(t, 2)
	text := y.read(article)
	y.write("shop-1/soils/chips.md", strings.Replace(text, "revision: A", "revision: A\nreplaces: A, 96a3d8713e6beb6a", 1))
	got, _ := y.publish(Options{Shelf: shelf})
	y.states(got, map[string]State{"shop-1": Published, "shop-2": Published})
	if err := os.WriteFile(filepath.Join(y.base, "soils/chips.md"), []byte(strings.Replace(text, "Turn the part over.", "Turn the part over twice.", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	got, _ = y.publish(Options{Shelf: shelf})
	y.states(got, map[string]State{"shop-1": Stopped, "shop-2": Stopped})
	if own := got["shop-1"].Own; finding.Stopping(own) != 1 || own[0].Rule != "base-moved-on" {
		t.Errorf("%v", own)
	}
}

func TestParts(t *testing.T) {
	for _, wrong := range []string{"", "3", "0/8", "9/8", "a/b", "1/2/3", "-1/2", "1/0", "1/999999999"} {
		if p, err := PartOf(wrong); err == nil {
			t.Errorf("%q is %v", wrong, p)
		}
	}
	counts := make([]int, 8)
	for i := range 1000 {
		in := 0
		for n := range 8 {
			if (Part{n + 1, 8}).Has(fmt.Sprint("shop-", i)) {
				in++
				counts[n]++
			}
		}
		if in != 1 {
			t.Fatalf("shop %d is in %d parts", i, in)
		}
	}
	for n, count := range counts {
		if count < 85 || count > 165 {
			t.Errorf("part %d has %d of 1,000 shops", n+1, count)
		}
	}
}
