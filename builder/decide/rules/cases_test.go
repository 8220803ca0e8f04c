package rules

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"

	"tankside/builder/finding"
)

// renew writes what the proof-reader says today into the cases, to be read over before it is committed:
//
//	go test ./builder/decide/rules -run Cases -renew
var renew = flag.Bool("renew", false, "write the findings of today into testdata/cases")

const casesFolder = "testdata/cases"

// ruleCase is one file of testdata/cases; the package's documentation says how it is written.
type ruleCase struct {
	file  string
	rule  string
	words txtar.Archive
}

// readCases reads every case. The rule is the file's name up to its first dot.
func readCases(t testing.TB) []ruleCase {
	t.Helper()
	names, err := filepath.Glob(casesFolder + "/*.txtar")
	if err != nil || len(names) == 0 {
		t.Fatalf("there are no cases in %s (%v)", casesFolder, err)
	}
	var list []ruleCase
	for _, name := range names {
		a, err := txtar.ParseFile(name)
		if err != nil {
			t.Fatal(err)
		}
		rule, _, _ := strings.Cut(filepath.Base(name), ".")
		list = append(list, ruleCase{name, rule, *a})
	}
	return list
}

// groups gives the sorts of sections of a case in their order: mistake, mending, near miss, near miss 2 …
func (c *ruleCase) groups() []string {
	var list []string
	for _, f := range c.words.Files {
		if group, _, is := strings.Cut(f.Name, ":"); is && !slices.Contains(list, group) {
			list = append(list, group)
		}
	}
	return list
}

// made gives a copy of the files with what the sections of a group do.
func (c *ruleCase) made(t testing.TB, files fstest.MapFS, group string) fstest.MapFS {
	t.Helper()
	files = maps.Clone(files)
	for _, f := range c.words.Files {
		of, what, is := strings.Cut(f.Name, ": ")
		if !is || of != group {
			continue
		}
		verb, name, _ := strings.Cut(what, " ")
		if err := verbs(verb, files, name, f.Data); err != nil {
			t.Fatalf("%s: -- %s --: %v", c.file, f.Name, err)
		}
	}
	return files
}

// verbs does to the files what a section says.
func verbs(verb string, files fstest.MapFS, name string, data []byte) error {
	switch verb {
	case "change":
		f := files[name]
		if f == nil {
			return fmt.Errorf("there is no such file")
		}
		changed, err := change(string(f.Data), string(data))
		files[name] = &fstest.MapFile{Data: []byte(changed)}
		return err
	case "write":
		files[name] = &fstest.MapFile{Data: data}
	case "quoted": // a text with bytes that are no UTF-8, as a Go string
		text, err := strconv.Unquote(strings.TrimSpace(string(data)))
		files[name] = &fstest.MapFile{Data: []byte(text)}
		return err
	case "pipe":
		files[name] = &fstest.MapFile{Mode: fs.ModeNamedPipe}
	case "remove":
		if files[name] == nil {
			return fmt.Errorf("there is no such file")
		}
		delete(files, name)
	case "rename":
		from, to, _ := strings.Cut(name, " to ")
		if files[from] == nil {
			return fmt.Errorf("there is no such file")
		}
		files[to] = files[from]
		delete(files, from)
	case "translate": // every article, but for one
		for _, e := range allInSpanish(small, strings.TrimPrefix(name, "all but ")) {
			if e.old != "" && !strings.Contains(string(files[e.file].Data), e.new) {
				files[e.file] = &fstest.MapFile{Data: []byte(strings.Replace(string(files[e.file].Data), e.old, e.new, 1))}
			}
			if e.old == "" {
				files[e.file] = &fstest.MapFile{Data: []byte(e.new)}
			}
		}
	default:
		return fmt.Errorf("%q is nothing that can be done to a file", verb)
	}
	return nil
}

// change applies a section's changes: lines that begin with a hyphen or a blank are in the text, next to each other and once; those with a
// hyphen go, those with a plus sign come. Three full stops part one change from the next; plus lines alone come at the end of the text.
func change(text, section string) (string, error) {
	for part := range strings.SplitSeq(strings.TrimSuffix(section, "\n"), "\n...\n") {
		old, new, err := sides(part)
		if err != nil {
			return "", err
		}
		if old == "" {
			text += new
			continue
		}
		if n := strings.Count("\n"+text, "\n"+old); n != 1 {
			return "", fmt.Errorf("these lines are in the text %d times, not once:\n%s", n, old)
		}
		text = strings.TrimPrefix(strings.Replace("\n"+text, "\n"+old, "\n"+new, 1), "\n")
	}
	return text, nil
}

// sides gives what a change takes away and what it puts there. “* 500” has the line before it 500 times.
func sides(part string) (old, new string, err error) {
	last, from := "", &new
	for line := range strings.SplitSeq(part, "\n") {
		mark, rest := byte(' '), ""
		if line != "" {
			mark, rest = line[0], line[1:]+"\n"
		} else {
			rest = "\n"
		}
		switch mark {
		case '-':
			old, last = old+rest, rest
			from = &old
		case '+':
			new, last = new+rest, rest
			from = &new
		case ' ':
			old, new = old+rest, new+rest
		case '*':
			times, err := strconv.Atoi(strings.TrimSpace(rest))
			if err != nil {
				return "", "", err
			}
			*from += strings.Repeat(last, times-1)
		default:
			return "", "", fmt.Errorf("a line of a change begins with a blank, + or -: %q", line)
		}
	}
	return old, new, nil
}

// told is a finding as a case has it.
func told(f finding.Finding) string {
	b := "place: " + f.Place.String() + "\nmessage: " + f.Message + "\nremedy: " + f.Remedy + "\n"
	for _, also := range f.Also {
		b += "also: " + also.String() + "\n"
	}
	return b
}

// TestCases makes each mistake of testdata/cases in the small manual: its rule says exactly that, there, and nothing else is said; after the
// mending, and of each near miss, nothing is said.
func TestCases(t *testing.T) {
	base := folder(t, small)
	for _, c := range readCases(t) {
		t.Run(strings.TrimSuffix(path.Base(filepath.ToSlash(c.file)), ".txtar"), func(t *testing.T) {
			proofread := proofread
			if slices.Contains(ofText, finding.RuleName(c.rule)) { // of the files that the case changes
				proofread = func(t testing.TB, files fs.FS) []finding.Finding {
					changed := files.(fstest.MapFS)
					return withoutApprovals(proofreadAll(t, files), func(file string) bool {
						return base[file] == nil || !bytes.Equal(base[file].Data, changed[file].Data)
					})
				}
			}
			if c.rule == string(changedWithoutRevision.Name) {
				proofread = func(t testing.TB, files fs.FS) []finding.Finding {
					return proofreadSince(t, files.(fstest.MapFS), base)
				}
			}
			if slices.Contains(overBase, finding.RuleName(c.rule)) {
				proofread = func(t testing.TB, files fs.FS) []finding.Finding { return proofreadOver(t, files.(fstest.MapFS), base) }
			}
			wrong := c.made(t, base, "mistake")
			list := proofread(t, wrong)
			if len(list) != 1 || string(list[0].Rule) != c.rule {
				t.Fatalf("the mistake: want %s alone, got%s", c.rule, show(list))
			}
			c.compare(t, told(list[0]))
			if f := list[0]; f.Message == "" || f.Why == "" || f.Remedy == "" || !f.Severity.Stops() && f.Severity != finding.Untidy {
				t.Errorf("half a note: %+v", f)
			}
			groups := c.groups()
			if !slices.Contains(groups, "mending") || !slices.Contains(groups, "near miss") {
				t.Error("the case has no mending or no near miss")
			}
			for _, group := range groups {
				switch {
				case group == "mending":
					if left := proofread(t, c.made(t, wrong, group)); len(left) > 0 {
						t.Errorf("after the mending: want nothing, got%s", show(left))
					}
				case strings.HasPrefix(group, "near miss"):
					if near := proofread(t, c.made(t, base, group)); len(near) > 0 {
						t.Errorf("%s: want nothing, got%s", group, show(near))
					}
				case group != "mistake":
					t.Errorf("nothing is known of %q", group)
				}
			}
		})
	}
}

// compare holds a finding against the case's section, or writes it there.
func (c *ruleCase) compare(t *testing.T, now string) {
	t.Helper()
	i := slices.IndexFunc(c.words.Files, func(f txtar.File) bool { return f.Name == "finding" })
	if i >= 0 && string(c.words.Files[i].Data) == now {
		return
	}
	if !*renew {
		t.Errorf("the finding is now\n%sread it over, then: go test ./builder/decide/rules -run Cases -renew", now)
		return
	}
	if i < 0 {
		i = slices.IndexFunc(c.words.Files, func(f txtar.File) bool { return !strings.HasPrefix(f.Name, "mistake") })
		if i < 0 {
			i = len(c.words.Files)
		}
		c.words.Files = slices.Insert(c.words.Files, i, txtar.File{Name: "finding"})
	}
	c.words.Files[i].Data = []byte(now)
	if err := os.WriteFile(c.file, txtar.Format(&c.words), 0o666); err != nil {
		t.Fatal(err)
	}
}
