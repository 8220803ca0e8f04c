package builder

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/ledger"
	"tankside/builder/manual"
)

// onDisk is a manual in a folder at which somebody works, a step at a time, without a plan.
type onDisk struct {
	t      *testing.T
	dir    string
	random *rand.Rand
	names  int
	did    map[string]int // how often each kind of step was done
}

// someWords are those of which texts are made.
var someWords = strings.Fields("bath part basket rinse heat wait lift drain turn dry look wipe fill mark level lid hook glove sound foam film spot rust test strip note clock drum hose cold warm clear slow even")

func (d *onDisk) text(n int) string {
	words := make([]string, n)
	for i := range words {
		words[i] = someWords[d.random.IntN(len(someWords))]
	}
	return strings.Join(words, " ") + "."
}

func (d *onDisk) article(title string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: %s\nsummary: %s\nstation: wash\nrevision: A\napproved: not yet\nreview-by: 2030-01-01\nsources: [\"common practice, no source\"]\n---\n%s\n", title, d.text(4), d.text(12))
	for i := range 1 + d.random.IntN(4) {
		fmt.Fprintf(&b, "\n## %s %d\n\n%s\n", someWords[d.random.IntN(len(someWords))], i, d.text(10+d.random.IntN(20)))
	}
	return b.String()
}

func (d *onDisk) write(name, text string) {
	d.t.Helper()
	at := filepath.Join(d.dir, filepath.FromSlash(name))
	if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o755), os.WriteFile(at, []byte(text), 0o644)); err != nil {
		d.t.Fatal(err)
	}
}

func (d *onDisk) read(name string) string {
	d.t.Helper()
	text, err := os.ReadFile(filepath.Join(d.dir, filepath.FromSlash(name)))
	if err != nil {
		d.t.Fatal(err)
	}
	return string(text)
}

func (d *onDisk) remove(name string) {
	d.t.Helper()
	if err := os.Remove(filepath.Join(d.dir, filepath.FromSlash(name))); err != nil {
		d.t.Fatal(err)
	}
}

// articles are the files of articles, translations among them.
func (d *onDisk) articles() []string {
	d.t.Helper()
	var list []string
	err := fs.WalkDir(os.DirFS(d.dir), ".", func(p string, e fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(p, ".md") {
			list = append(list, p)
		}
		return err
	})
	if err != nil {
		d.t.Fatal(err)
	}
	return list
}

func (d *onDisk) fresh(folder string) string {
	d.names++
	return fmt.Sprintf("%s/%s-%d%d.md", folder, someWords[d.random.IntN(len(someWords))], d.names, d.random.IntN(1000))
}

var aSection = regexp.MustCompile(`(?m)^## .*$`)

// step does one thing to the manual.
func (d *onDisk) step() {
	d.t.Helper()
	all := d.articles()
	steps := []string{"new article", "value", "glossary", "picture"}
	if len(all) > 0 {
		steps = append(steps, "word", "word", "key", "new heading", "heading gone", "heading renamed", "heading moved", "renamed", "renamed and changed", "moved", "gone", "copied", "line ends", "translated", "swapped")
	}
	step := steps[d.random.IntN(len(steps))]
	d.did[step]++
	pick := func() string { return all[d.random.IntN(len(all))] }
	// sections cuts an article before each of its headings.
	sections := func(text string) []string {
		var list []string
		from := 0
		for _, at := range aSection.FindAllStringIndex(text, -1) {
			list, from = append(list, text[from:at[0]]), at[0]
		}
		return append(list, text[from:])
	}
	switch step {
	case "new article":
		name := d.fresh([]string{"procedures", "soils"}[d.random.IntN(2)])
		d.write(name, d.article(d.text(3)))
	case "value":
		d.write("shop.yaml", fmt.Sprintf("name: Shop\nroles: [operator]\ntanks:\n  - {id: wash-1, name: Wash 1, volume: %d L}\n", 50+d.random.IntN(50)))
	case "glossary":
		d.write("glossary.yaml", fmt.Sprintf("%s: {means: %s}\n", someWords[d.random.IntN(len(someWords))], d.text(5)))
	case "picture":
		d.write(fmt.Sprintf("pictures/p%d.svg", d.random.IntN(3)), strings.Replace(square, "10", fmt.Sprint(10+d.random.IntN(9)), 1))
	case "word":
		name := pick()
		words := strings.Split(d.read(name), " ")
		i := len(words)/2 + d.random.IntN(len(words)/2+1) - 1
		words[max(i, 0)] += " " + someWords[d.random.IntN(len(someWords))]
		d.write(name, strings.Join(words, " "))
	case "key":
		name := pick()
		d.write(name, regexp.MustCompile(`(?m)^summary: .*$`).ReplaceAllString(d.read(name), "summary: "+d.text(4)))
	case "new heading":
		name := pick()
		d.write(name, d.read(name)+fmt.Sprintf("\n## %s\n\n%s\n", d.text(2), d.text(9)))
	case "heading gone", "heading moved", "heading renamed":
		name := pick()
		parts := sections(d.read(name))
		if len(parts) < 3 {
			return
		}
		i := 1 + d.random.IntN(len(parts)-1)
		switch step {
		case "heading gone":
			parts = slices.Delete(parts, i, i+1)
		case "heading renamed":
			parts[i] = aSection.ReplaceAllString(parts[i], "## "+d.text(2))
		case "heading moved":
			j := 1 + d.random.IntN(len(parts)-1)
			parts[i], parts[j] = parts[j], parts[i]
			for k := range parts {
				parts[k] = strings.TrimRight(parts[k], "\n") + "\n\n"
			}
		}
		d.write(name, strings.Join(parts, ""))
	case "renamed", "renamed and changed", "moved", "copied":
		name := pick()
		folder := filepath.ToSlash(filepath.Dir(name))
		if step == "moved" {
			folder = map[string]string{"procedures": "soils", "soils": "procedures"}[folder]
		}
		text := d.read(name)
		if step == "renamed and changed" {
			text += "\n" + d.text(6) + "\n"
		}
		if step != "copied" {
			d.remove(name)
		}
		d.write(d.fresh(folder), strings.Replace(text, "translates: A\n", "revision: A\n", 1))
	case "gone":
		d.remove(pick())
	case "line ends":
		name := pick()
		d.write(name, strings.ReplaceAll(strings.ReplaceAll(d.read(name), "\r\n", "\n"), "\n", "\r\n"))
	case "translated":
		name := pick()
		if original, language := manual.OriginalOf(name); language == "" {
			d.write(strings.TrimSuffix(original, ".md")+".es.md", "---\ntitle: "+d.text(2)+"\nsummary: "+d.text(3)+"\ntranslates: A\napproved: not yet\n---\n"+d.text(12)+"\n\n## "+d.text(1)+"\n\n"+d.text(10)+"\n")
		}
	case "swapped":
		a, b := pick(), pick()
		x, y := d.read(a), d.read(b)
		d.write(a, y)
		d.write(b, x)
	}
}

// content is what an edition of the manual would be made from; false where somebody has left it so that nobody can say.
func (d *onDisk) content() (*content.Content, bool) {
	d.t.Helper()
	c, _, err := ContentOfFolder(d.t.Context(), d.dir)
	if errors.Is(err, content.ErrUnreadable) {
		return nil, false
	}
	if err != nil {
		d.t.Fatal(err)
	}
	return c, true
}

// leads fails the test where what is listed between two contents does not make the newer one of the older.
func leads(t *testing.T, how string, a, b *content.Content) {
	t.Helper()
	got, err := changes.Apply(a, changes.Between(a, b, nil))
	if err != nil {
		t.Fatalf("%s: %v", how, err)
	}
	if got.Digest() != b.Digest() {
		t.Fatalf("%s: the changes applied give something else", how)
	}
}

// Whatever people do to a manual's files, the list of what has changed between any two of its states makes the one of the other, forwards and backwards; and no two states that
// differ have one digest.
func TestChangesOfWholeManuals(t *testing.T) {
	t.Parallel()
	did := map[string]int{}
	read, unread := 0, 0
	for seed := range uint64(12) {
		d := &onDisk{t: t, dir: t.TempDir(), random: rand.New(rand.NewPCG(seed, 7)), did: did}
		d.write("shop.yaml", "name: Shop\nroles: [operator]\ntanks:\n  - {id: wash-1, name: Wash 1, volume: 40 L}\n")
		for range 5 {
			d.write(d.fresh("procedures"), d.article(d.text(3)))
		}
		states := []*content.Content{}
		for range 25 {
			for range 1 + d.random.IntN(4) {
				d.step()
			}
			c, is := d.content()
			if !is {
				unread++
				continue
			}
			read++
			for _, before := range states[max(0, len(states)-3):] {
				leads(t, fmt.Sprintf("seed %d, forwards", seed), before, c)
				leads(t, fmt.Sprintf("seed %d, backwards", seed), c, before)
				if same := len(changes.Between(before, c, nil)) == 0; same != (before.Digest() == c.Digest()) {
					t.Fatalf("seed %d: nothing has changed is %v, and the digests say otherwise", seed, same)
				}
			}
			states = append(states, c)
		}
	}
	if read < 200 || unread > read/3 {
		t.Errorf("only %d states could be read, %d could not", read, unread)
	}
	for _, step := range []string{"new article", "value", "glossary", "picture", "word", "key", "new heading", "heading gone", "heading renamed", "heading moved", "renamed", "renamed and changed", "moved", "gone", "copied", "line ends", "translated", "swapped"} {
		if did[step] < 5 {
			t.Errorf("%s was done %d times", step, did[step])
		}
	}
}

// Two people work on two branches, and each enters what came of it: however git merges the two, the ledger has the entries of both and nobody else's are lost, and the changes lead
// from each side to what was merged.
func TestMergesOfWholeManuals(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not here")
	}
	merged := 0
	for seed := range uint64(6) {
		d := &onDisk{t: t, dir: t.TempDir(), random: rand.New(rand.NewPCG(seed, 11)), did: map[string]int{}}
		git := func(args ...string) error {
			c := exec.Command("git", append([]string{"-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false", "-c", "core.autocrlf=false"}, args...)...)
			c.Dir = d.dir
			c.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_SYSTEM="+os.DevNull)
			out, err := c.CombinedOutput()
			if err != nil {
				return fmt.Errorf("git %v: %w: %s", args, err, out)
			}
			return nil
		}
		must := func(args ...string) {
			t.Helper()
			if err := git(args...); err != nil {
				t.Fatal(err)
			}
		}
		var entries []string
		enter := func(by string) bool {
			c, is := d.content()
			if !is {
				return false
			}
			text, err := os.ReadFile(filepath.Join(d.dir, ledger.File))
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				t.Fatal(err)
			}
			l, _ := ledger.Parse(text)
			e := ledger.Entry{Number: l.Next(), Date: "2026-12-01", Digest: c.Digest(), By: by}
			_, add := l.With(e)
			d.write(ledger.File, string(text)+string(add))
			entries = append(entries, e.String())
			return true
		}
		must("init", "-q", "-b", "one")
		d.write(".gitattributes", ledger.File+" merge=union\n")
		d.write("shop.yaml", "name: Shop\nroles: [operator]\ntanks:\n  - {id: wash-1, name: Wash 1, volume: 40 L}\n")
		for range 6 {
			d.write(d.fresh("procedures"), d.article(d.text(3)))
		}
		enter("base")
		must("add", "-A")
		must("commit", "-q", "-m", "base")
		sides := map[string]*content.Content{}
		for _, branch := range []string{"one", "two"} {
			if branch == "two" {
				must("checkout", "-q", "-b", "two", "HEAD~1")
			}
			for range 4 {
				d.step()
			}
			enter(branch)
			sides[branch], _ = d.content()
			must("add", "-A")
			must("commit", "-q", "--allow-empty", "-m", branch)
		}
		if err := git("merge", "-q", "-X", "ours", "one", "-m", "both"); err != nil { // one side has taken out what the other has changed: what stands there then stays
			must("add", "-A")
			must("commit", "-q", "-m", "both")
		}
		l, faults := ledger.Parse([]byte(d.read(ledger.File)))
		if len(faults) > 0 {
			t.Fatalf("seed %d: %v", seed, faults)
		}
		for _, e := range entries {
			if !slices.ContainsFunc(l.Entries(), func(o ledger.Entry) bool { return o.String() == e }) {
				t.Errorf("seed %d: the ledger has lost %s", seed, e)
			}
		}
		now, is := d.content()
		for branch, side := range sides {
			if is && side != nil {
				merged++
				leads(t, fmt.Sprintf("seed %d, from branch %s to what was merged", seed, branch), side, now)
			}
		}
	}
	if merged < 6 {
		t.Errorf("only %d sides of merges could be read", merged)
	}
}
