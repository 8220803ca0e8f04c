package ownlook

import (
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/themes"
)

func own(name, text string) manual.ThemeFile { return manual.ThemeFile{Name: name, Data: []byte(text)} }

// Of a name that is nearly right the one that is meant is named; a name of the shop's own means none.
func TestWhatANameMeans(t *testing.T) {
	for _, c := range []struct {
		name  string
		role  Role
		meant string
	}{
		{"templates/home.html", Replaces, ""},
		{"templates/hoem.html", Idle, "templates/home.html"},
		{"templates/Home.html", Idle, "templates/home.html"},
		{"templates/home.htm", Idle, "templates/home.html"},
		{"template/home.html", Idle, "templates/home.html"},
		{"hoem.html", Idle, "templates/home.html"},
		{"home.html", Idle, "templates/home.html"},
		{"templates/own/home.html", Idle, "templates/home.html"},
		{"templates/noticeboard.html", Idle, ""},
		{"drawings/wash.svg", Idle, "drawings/line/wash.svg"},
		{"drawings/swatches/ring.svg", Idle, "drawings/swatches/rings.svg"},
		{"scripts/own-counter.js", Idle, ""},
		{"scripts/what_if.js", Idle, "scripts/what-if.js"},
		{"styles/99-own.css", Adds, ""},
		{"styles/41-article.css", Adds, ""},
		{"styles/article.css", Adds, "styles/40-article.css"},
		{"styles/40-artcle.css", Adds, "styles/40-article.css"},
		{"styles/40-Article.css", Adds, "styles/40-article.css"},
		{"words/fr.yaml", Adds, ""},
		{"words/calculators/pt-br.yaml", Adds, ""},
		{"words/french-words.yaml", Idle, ""},
		{"words/fr.yml", Idle, ""},
		{"README.md", Idle, ""},
		{"wasm/search.wasm", Idle, ""},
	} {
		list := Compare([]manual.ThemeFile{own(c.name, "")}, "")
		if len(list) != 1 || list[0].Role != c.role || list[0].Meant != c.meant {
			t.Errorf("%s: %+v, want %q, %q", c.name, list, c.role, c.meant)
		}
	}
}

// Each built-in file is known by its name, and none is taken for another.
func TestEveryBuiltInFileReplacesItself(t *testing.T) {
	for _, name := range themes.BuiltInFiles() {
		data, err := themes.BuiltInFile(name)
		if err != nil {
			t.Fatal(err)
		}
		list := Compare([]manual.ThemeFile{own(name, string(data)), own(Taken+"/"+name, string(data))}, "")
		if len(list) != 1 || list[0].Role != Replaces || list[0].Meant != "" || list[0].Beneath != Same || list[0].Fault != nil {
			t.Errorf("%s: %+v, fault %v", name, list[0].Role, list[0].Fault)
		}
		if files, _, _ := Named(name); len(files) != 1 || files[0] != name {
			t.Errorf("%s names %v", name, files)
		}
	}
}

// What has changed beneath a file is told to the line; what was not kept is not compared.
func TestWhatChangedBeneath(t *testing.T) {
	const name = "drawings/line/maintain.svg"
	now, err := themes.BuiltInFile(name)
	if err != nil {
		t.Fatal(err)
	}
	then := strings.Replace(string(now), "<!--", "<!-- Of old.", 1) + "<!-- more -->\n"
	for _, c := range []struct {
		files     []manual.ThemeFile
		beneath   Beneath
		gone, new int
	}{
		{[]manual.ThemeFile{own(name, "<svg/>"), own(Taken+"/"+name, then)}, Changed, 2, 1},
		{[]manual.ThemeFile{own(name, "<svg/>"), own(Taken+"/"+name, string(now))}, Same, 0, 0},
		{[]manual.ThemeFile{own(name, "<svg/>")}, Unknown, 0, 0},
		{[]manual.ThemeFile{own("styles/99-own.css", "")}, Nothing, 0, 0},
		{[]manual.ThemeFile{own("words/es.yaml", "")}, Nothing, 0, 0},
		{[]manual.ThemeFile{own("templates/noticeboard.html", ""), own(Taken+"/templates/noticeboard.html", "")}, Gone, 0, 0},
	} {
		list := Compare(c.files, "")
		if len(list) != 1 || list[0].Beneath != c.beneath {
			t.Fatalf("%s: %+v, want %q", c.files[0].Name, list, c.beneath)
		}
		if gone, new := Counts(list[0]); gone != c.gone || new != c.new {
			t.Errorf("%s: %d gone, %d new, want %d, %d\n%s", c.files[0].Name, gone, new, c.gone, c.new, Changes(list[0]))
		}
	}
	if list := Compare([]manual.ThemeFile{own(Taken+"/"+name, then)}, ""); len(list) != 0 {
		t.Errorf("what was taken is told of as the shop's own: %+v", list)
	}
}

// A style whose brackets, marks and comments are closed has no fault; one with a slip has it in its line.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line       int // 0: no fault
	}{
		{"styles/a.css", "", 0},
		{"styles/a.css", "a { b: \"}\"; c: '\\'{'; }\n/* { */ d:not([e=\"f\"]) { }\n", 0},
		{"styles/a.css", "a { b: url( data:image/svg+xml,'x )\n", 1},
		{"styles/a.css", "a { b: url(data:x;{y); c: url( \"(\" ) }", 0},
		{"styles/a.css", "a { b: \"c\\\nd\"; }\n}\n", 3},
		{"styles/a.css", "a { b: \\}; }", 0},
		{"styles/a.css", "a {\n b: (c];\n}", 2},
		{"styles/a.css", "a {}\nb {\nc { }\n", 2},
		{"styles/a.css", "a {}\n/* b\nc", 2},
		{"styles/a.css", "a {}\nb { c: \"d\n; }", 2},
		{"styles/a.css", "a {}\n\xff", 2},
		{"styles/a.txt", "a {", 1},
		{"drawings/mark.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"><a/></svg>\n", 0},
		{"drawings/mark.svg", "<svg>\n<a></svg>", 2},
		{"drawings/mark.svg", "<svg>\n", 2},
		{"drawings/mark.svg", "<html></html>", 1},
		{"drawings/mark.svg", "<svg/>\n<svg/>", 2},
		{"drawings/mark.svg", "words", 1},
		{"drawings/mark.svg", "", 1},
		{"scripts/find.js", "x(", 0}, // what a script says is not looked at
		{"scripts/find.js", "x\n\xff", 2},
		{"templates/home.html", "{{", 0}, // tried by making the pages
		{"notes.css", "a {", 0},          // does nothing
	} {
		f := Compare([]manual.ThemeFile{own(c.name, c.text)}, "")[0].Fault
		if got := f; (got == nil) != (c.line == 0) || got != nil && got.Line != c.line {
			t.Errorf("%s %q: %+v, want line %d", c.name, c.text, got, c.line)
		}
	}
}
