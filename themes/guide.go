package themes

import (
	_ "embed"
	"fmt"
	"path"
	"strings"
)

// purposes says of every template, and of every block that is defined in one beside its content, what it is there for: file, block, purpose, parted by tabs.
// Styles, scripts and drawings say it themselves, in their first comment.
//
//go:embed purposes.tsv
var purposes string

// Part is a file of the built-in theme, or a block of a template, with what it is there for.
type Part struct{ File, Block, Purpose string }

// Parts are all of them, in the order of BuiltInFiles, each file before its blocks. Purpose is empty where nobody has said it; a test finds that.
func Parts() []Part {
	declared := map[string][]Part{}
	for line := range strings.Lines(purposes) {
		f := strings.SplitN(strings.TrimSuffix(line, "\n"), "\t", 3)
		if len(f) == 3 {
			declared[f[0]] = append(declared[f[0]], Part{f[0], f[1], f[2]})
		}
	}
	var list []Part
	for _, file := range BuiltInFiles() {
		if said := declared[file]; len(said) > 0 {
			list = append(list, said...)
			continue
		}
		list = append(list, Part{File: file, Purpose: ownPurpose(file)})
	}
	return list
}

// ownPurpose is what a file says of itself: the first sentence or two of its first comment, up to an empty line.
func ownPurpose(file string) string {
	tag := strings.TrimSuffix(path.Base(file), ".yaml")
	switch path.Dir(file) {
	case "words":
		return "what pages, cards, reasons and the search say in the language " + tag
	case "words/calculators":
		return "what the calculators say in the language " + tag
	}
	data, err := BuiltInFile(file)
	if err != nil {
		return ""
	}
	return firstComment(string(data))
}

// firstComment is the first comment of a style, a drawing or a script, in one line.
func firstComment(text string) string {
	for _, marks := range [][2]string{{"/*", "*/"}, {"<!--", "-->"}} {
		if _, after, is := strings.Cut(text, marks[0]); is && !strings.HasPrefix(text, "//") {
			comment, _, _ := strings.Cut(after, marks[1])
			return strings.Join(strings.Fields(comment), " ")
		}
	}
	var lines []string
	for line := range strings.Lines(text) {
		said, is := strings.CutPrefix(strings.TrimSpace(line), "//")
		if !is || said == "" {
			break
		}
		lines = append(lines, said)
	}
	return strings.Join(strings.Fields(strings.Join(lines, " ")), " ")
}

// sections are the folders of a theme as the guide tells of them.
var sections = []struct{ folder, title, says string }{
	{"templates", "Templates", "html/template of Go's library. A page is made with `page.html` and one other, whose block `content` is its main part; a shop's own file has to define the same blocks. " +
		"`{{say \"…\"}}` says a phrase in the reader's language."},
	{"styles", "Styles", "Joined in the order of their names. A file of another name is added: `styles/99-own.css` comes after all others."},
	{"scripts", "Scripts", "Classic scripts, since modules do not work from a memory stick. A page has those that it needs, and no others."},
	{"drawings", "The mark", "SVG. `mark` in the shop file names a picture instead."},
	{"drawings/line", "Stations of the line", "SVG, drawn in the colour of the text."},
	{"drawings/swatches", "What is seen on a part", "SVG. `swatch` in a symptom's header names one."},
	{"words", "Words", "A phrase in English, and what is shown for it. `tankside words LANGUAGE` writes a file for another language and keeps it current; `words/en.yaml` says it in other English words."},
	{"words/calculators", "Words of the calculators", "The same, of the calculators."},
}

// cell writes a text into a cell of a table in markdown.
var cell = strings.NewReplacer("|", "\\|", "<", "&lt;")

// Guide is the page that tells of every file of a theme, as markdown. It is made of what the files say of themselves.
func Guide() string {
	var b strings.Builder
	b.WriteString("# The files of a theme\n\n" +
		"A file in the manual's folder `theme/` replaces the built-in one of the same name. `tankside look MANUAL NAME` writes a built-in one there, to be changed, and keeps it in\n" +
		"`theme/taken/` as it was: after an upgrade `tankside look MANUAL` shows what has changed beneath the shop's own, and `tankside proof` says that something has.\n")
	all := Parts()
	for _, s := range sections {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n| file | what it is there for |\n| --- | --- |\n", s.title, s.says)
		for _, p := range all {
			if path.Dir(p.File) != s.folder {
				continue
			}
			name := "`" + p.File + "`"
			if set := SetOf(p.File); set != "" {
				name += " (theme " + set + ")"
			}
			if p.Block != "" {
				name = "– block `" + p.Block + "`"
			}
			fmt.Fprintf(&b, "| %s | %s |\n", name, cell.Replace(p.Purpose))
		}
	}
	return b.String()
}
