package rules

import (
	"bytes"
	"context"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Sentences of other trades: the documentation of the modules that this project is built from, as they lie in the module cache. None of them
// speaks of a tank, so that nearly every finding in them is a false alarm.
const (
	foreignWanted    = 3000 // sentences
	foreignPerParts  = 1000 // at most one false alarm in so many
	foreignHostFile  = "lessons/the-variables-together.md"
	foreignInOneText = 120 // paragraphs in one article
	foreignOfModule  = 120 // paragraphs of one module, so that each has its say
)

// foreignParagraphs gathers paragraphs of running text from the markdown files and the doc comments of the modules, each once.
func foreignParagraphs(t testing.TB) []string {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "all").Output()
	if err != nil {
		t.Fatal("the modules cannot be listed: ", err)
	}
	seen := map[string]bool{}
	var list []string
	add := func(text string) {
		text = strings.Join(strings.Fields(text), " ")
		if len(text) < 40 || len(text) > 1500 || strings.Count(text, " ") < 6 || seen[text] || !strings.ContainsAny(text[len(text)-1:], ".!?:") || strings.ContainsAny(text, "<>{}|\\`") || strings.HasPrefix(text, "#") {
			return
		}
		seen[text] = true
		list = append(list, text)
	}
	for dir := range strings.FieldsSeq(string(out)) {
		if root, err := filepath.Abs("../../.."); err != nil || dir == root {
			continue
		}
		before := len(list)
		err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			if len(list)-before > foreignOfModule {
				return fs.SkipAll
			}
			switch {
			case strings.HasSuffix(p, ".md"):
				data, err := os.ReadFile(p)
				if err != nil {
					return err
				}
				for _, block := range strings.Split(string(data), "\n\n") {
					if !strings.HasPrefix(block, " ") && !strings.HasPrefix(block, "\t") && !strings.HasPrefix(block, "```") {
						add(block)
					}
				}
			case strings.HasSuffix(p, ".go") && !strings.HasSuffix(p, "_test.go"):
				f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ParseComments|parser.SkipObjectResolution)
				if err != nil {
					return nil // a file for another compiler
				}
				ast.Inspect(f, func(n ast.Node) bool {
					if c, ok := n.(*ast.CommentGroup); ok {
						for _, block := range strings.Split(c.Text(), "\n\n") {
							add(block)
						}
					}
					return true
				})
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return list
}

// foreignAlarms proof-reads the paragraphs as the text of articles of the demo manual, and gives how many sentences they have and what is
// found in them. What the reader itself says of foreign markdown, of links that lead nowhere and of hard reading is no rule of sentences.
func foreignAlarms(t testing.TB) (sentences int, alarms []finding.Finding) {
	t.Helper()
	files := untranslated(folder(t, demo))
	head, _, _ := bytes.Cut(files[foreignHostFile].Data[4:], []byte("\n---\n"))
	paragraphs := foreignParagraphs(t)
	for i := 0; i < len(paragraphs); i += foreignInOneText {
		text := strings.Join(paragraphs[i:min(i+foreignInOneText, len(paragraphs))], "\n\n")
		files[fmt.Sprintf("lessons/foreign-%d.md", i)] = &fstest.MapFile{Data: []byte("---\n" + string(head) + "\n---\n" + text + "\n")}
	}
	m, _, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	of := map[string]bool{}
	for _, r := range registry() {
		if ofSentences[string(r.Name)] {
			of[string(r.Name)] = true
		}
	}
	if len(of) != len(ofSentences) {
		t.Fatal("a rule of sentences is not in the list of rules")
	}
	for _, f := range Proof(m, today) {
		if of[string(f.Rule)] && strings.HasPrefix(f.File, "lessons/foreign-") {
			alarms = append(alarms, f)
		}
	}
	for i := 0; i < len(paragraphs); i += foreignInOneText {
		a := m.At(fmt.Sprintf("lessons/foreign-%d.md", i))
		if a == nil {
			t.Fatal("an article was not read")
		}
		p := newProof(m, today)
		sentences += len(p.reading(a).sentences)
	}
	return sentences, alarms
}

// ofSentences are the rules of running text.
var ofSentences = map[string]bool{
	"number-against-model": true, "heat-beyond-limit": true, "text-against-decision": true, "link-names-another": true, "unmarked-message": true,
	"message-without-hazard": true, "unequal-units": true, "wrong-sum": true, "listing-against-model": true, "pasted-text": true, "lost-cell": true,
	"water-into-concentrate": true, "hands-in-sound": true, "neutralised-on-skin": true, "mixed-in-text": true, "unlisted-chemistry": true, "other-tank-in-text": true,
}

func TestSentencesOfOtherTradesRaiseNoAlarm(t *testing.T) {
	sentences, alarms := foreignAlarms(t)
	if sentences < foreignWanted {
		t.Fatalf("only %d sentences of other trades could be found; %d are wanted: is the module cache filled (make build)?", sentences, foreignWanted)
	}
	t.Logf("%d sentences, %d alarms:%s", sentences, len(alarms), show(alarms))
	if len(alarms)*foreignPerParts > sentences {
		t.Errorf("%d false alarms in %d sentences of other trades, at most 1 in %d is wanted:%s", len(alarms), sentences, foreignPerParts, show(alarms))
	}
}
