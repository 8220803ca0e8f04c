package rules

import (
	"context"
	"maps"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// What is kept of one proof-reading is no other than what is found by one that knows nothing: while articles lose numbers, titles, links and sections, go
// and come back, in the same order each time.
func TestProofAgainFindsWhatProofFinds(t *testing.T) {
	t.Parallel()
	files := folder(t, demo)
	names := slices.DeleteFunc(slices.Sorted(maps.Keys(files)), func(name string) bool { return !strings.HasSuffix(name, ".md") })
	random := rand.New(rand.NewPCG(7, 11))
	reader, memo, uses := manual.Reader{}, Memo{}, relate.Memo{}
	read := func(changed []string) (*manual.Manual, []finding.Finding) {
		m, list, err := reader.Read(context.Background(), files, changed)
		if err != nil {
			t.Fatal(err)
		}
		return m, list
	}
	original := maps.Clone(files)
	last, found := "", 0
	chemistries := slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		return !strings.HasPrefix(name, "chemistries/") || strings.Contains(name, ".es.")
	})
	for round := range 20 {
		name := names[random.IntN(len(names))]
		if round%3 == 2 { // on which most texts hang
			name = chemistries[random.IntN(len(chemistries))]
		}
		var changed []string
		if last != "" && random.IntN(2) == 0 {
			files[last] = original[last]
			changed = append(changed, last)
		}
		if files[name] == nil {
			files[name] = original[name]
		}
		fates[round%len(fates)].make(files, name)
		changed, last = append(changed, name), name
		m, _ := read(changed)
		again := ProofAgain(m, relate.UsedByAgain(m, &uses), labelledOn, &memo)
		once := Proof(m, labelledOn)
		found += len(once)
		if !reflect.DeepEqual(again, once) {
			t.Fatalf("round %d, %s of %s: again%s\nonce%s", round, fates[round%len(fates)].what, name, show(again), show(once))
		}
	}
	if found == 0 {
		t.Error("nothing was ever wrong, so that nothing was compared")
	}
}

var someNumber = regexp.MustCompile(`\d+`)

// fates are what an article goes through.
var fates = []struct {
	what string
	make func(fstest.MapFS, string)
}{
	{"another number in the header", func(files fstest.MapFS, name string) {
		head, body, _ := strings.Cut(strings.TrimPrefix(string(files[name].Data), "---\n"), "\n---\n")
		at := someNumber.FindAllStringIndex(head, -1)
		if len(at) > 0 {
			n := at[len(at)/2]
			head = head[:n[0]] + "9" + head[n[0]:]
		}
		files[name] = &fstest.MapFile{Data: []byte("---\n" + head + "\n---\n" + body)}
	}},
	{"a value that cannot be read, and another above it", func(files fstest.MapFS, name string) {
		head, body, _ := strings.Cut(strings.TrimPrefix(string(files[name].Data), "---\n"), "\n---\n")
		if at := someNumber.FindAllStringIndex(head, -1); len(at) > 1 {
			head = head[:at[0][0]] + "9" + head[at[0][0]:at[len(at)-1][0]] + "x" + head[at[len(at)-1][1]:]
		}
		files[name] = &fstest.MapFile{Data: []byte("---\n" + head + "\n---\n" + body)}
	}},
	{"the last section gone", func(files fstest.MapFS, name string) {
		text := string(files[name].Data)
		if i := strings.LastIndex(text, "\n## "); i > 0 {
			text = text[:i+1]
		}
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}},
	{"a sentence more", func(files fstest.MapFS, name string) {
		files[name] = &fstest.MapFile{Data: []byte(string(files[name].Data) + "\nBring Wash 1 to 80 °C and put brass into it for 40 min.\n")}
	}},
	{"another title", func(files fstest.MapFS, name string) {
		files[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(files[name].Data), "\ntitle: ", "\ntitle: The other ", 1))}
	}},
	{"gone", func(files fstest.MapFS, name string) { delete(files, name) }},
}

// A name that an article gets by which other texts call something is looked up in those texts anew, whatever kind of article it is.
func TestANewNameIsReadInOtherTexts(t *testing.T) {
	t.Parallel()
	files := folder(t, demo)
	reader, memo, uses := manual.Reader{}, Memo{}, relate.Memo{}
	proofs := func(changed ...string) (again, once []finding.Finding) {
		m, _, err := reader.Read(context.Background(), files, changed)
		if err != nil {
			t.Fatal(err)
		}
		return ProofAgain(m, relate.UsedByAgain(m, &uses), labelledOn, &memo), Proof(m, labelledOn)
	}
	const linking = "procedures/dry.md"
	files[linking] = &fstest.MapFile{Data: []byte(string(files[linking].Data) + "\nLook at the [pearly gleam](../symptoms/flash-rust.md) first.\n")}
	if again, once := proofs(); !reflect.DeepEqual(again, once) {
		t.Fatalf("before: again%s\nonce%s", show(again), show(once))
	}
	for _, path := range []string{"soils/wax.md", "lessons/how-cavitation-cleans.md", "materials/brass.md"} {
		before := files[path]
		files[path] = &fstest.MapFile{Data: []byte(strings.Replace(string(before.Data), "\nalso-called: [", "\nalso-called: [pearly gleam, ", 1))}
		again, once := proofs(path)
		is := func(f finding.Finding) bool { return f.File == linking && f.Rule == linkNamesAnother.Name }
		if !slices.ContainsFunc(once, is) {
			t.Fatalf("%s: nothing is found that could be forgotten%s", path, show(once))
		}
		if !reflect.DeepEqual(again, once) {
			t.Errorf("%s: again%s\nonce%s", path, show(again), show(once))
		}
		files[path] = before
		proofs(path)
	}
}
