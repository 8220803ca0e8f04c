package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/ownlook"
	"tankside/themes"
)

// misnamedThemeFile finds files of the shop's own theme that no page is made with. It prevents that somebody changes a file and sees no change, or believes
// the shop's own words, mark or template to be shown while the built-in one is. The names are those of the built-in theme.
var misnamedThemeFile = finding.Rule{
	Name: "misnamed-theme-file", Severity: finding.Untidy,
	Finds:  "a file in theme/ that replaces no built-in file and adds nothing, or an added style whose name is almost that of a built-in one",
	Why:    "The pages are made with the built-in file; whoever wrote this one may think that it is used.",
	Source: "the built-in theme's own files, themes/THEME.md",
}

// brokenThemeFile finds styles that are not closed and drawings that are none. It prevents that all styles behind a slip are lost, or that a station or what
// is seen is shown as an empty frame.
var brokenThemeFile = finding.Rule{
	Name: "broken-theme-file", Severity: finding.Untidy,
	Finds:  "a style in theme/ with a bracket, quotation mark or comment that is not closed, a drawing that is no SVG, a style or script that is not UTF-8",
	Why:    "Browsers leave out what they cannot read, and often all that comes after it.",
	Source: "W3C: CSS Syntax Module Level 3 (2021), sections 4.3 and 5.4; Extensible Markup Language 1.0, fifth edition (2008); RFC 3629 (UTF-8)",
}

// outdatedThemeFile finds files of the shop's own that were made of a built-in one which has changed since. It prevents that a template or script of an older
// tankside stays beneath a newer one, without what was mended or added there. Compared is what was kept in theme/taken when the file was written out.
var outdatedThemeFile = finding.Rule{
	Name: "outdated-theme-file", Severity: finding.Untidy,
	Finds:  "a file in theme/ that was made of a built-in one which has changed since",
	Why:    "What was mended or added in the built-in file since then is missing from the shop's pages.",
	Source: "theme/taken, which tankside look writes",
}

// compareTheme lays the shop's own files of a theme beside the built-in ones, once for all rules.
func (p *proof) compareTheme() []ownlook.File { return ownlook.Compare(p.Theme, p.ownTheme()) }

// ownTheme is the theme by name that the manual has.
func (p *proof) ownTheme() string {
	if p.Shop.Look.Theme == "" {
		return themes.Names[0]
	}
	return p.Shop.Look.Theme
}

func findMisnamedThemeFiles(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.themeFiles() {
		at := finding.Place{File: "theme/" + f.Name}
		report := func(message, remedy string) { list = append(list, misnamedThemeFile.At(at, message, remedy)) }
		switch {
		case f.Beneath == ownlook.Gone:
			report("The built-in file that this one was made of is there no longer, and no page is made with this one.", "See in themes/THEME.md, or with tankside look, which file does its work now; then take this one out, with theme/"+ownlook.Taken+"/"+f.Name+".")
		case f.Of != "":
			report("The built-in file of this name is one of the theme "+f.Of+", and this manual has the theme "+p.ownTheme()+".", "Write theme: "+f.Of+" in shop.yaml, if that is meant, or give the file a name of its own.")
		case f.Role == ownlook.Adds && f.Meant != "":
			report("This style is added to the others; no built-in one is called so.", "Call it theme/"+f.Meant+", if it is to replace that one; otherwise give it a name that is further from it.")
		case f.Role != ownlook.Idle, f.Meant == "" && strings.HasPrefix(f.Name, "words/"): // words of a language that the program does not speak
		case themes.IsModules(f.Name):
			report("The modules for the browser are the program's own, and no file replaces them.", "Take it out.")
		case f.Meant != "":
			report("There is no built-in file of this name, so that no page is made with this one.", "Call it theme/"+f.Meant+", if that one is meant; otherwise take it out.")
		default:
			report("There is no built-in file of this name, so that no page is made with this one.", "tankside look lists the files that there are; take this one out, or keep it outside of theme/.")
		}
	}
	return list
}

func findBrokenThemeFiles(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.themeFiles() {
		if f.Fault != nil {
			list = append(list, brokenThemeFile.At(finding.Place{File: "theme/" + f.Name, Line: f.Fault.Line, Column: 1}, f.Fault.Says, "Put it right, or take the file out: then the built-in one is used."))
		}
	}
	return list
}

func findOutdatedThemeFiles(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.themeFiles() {
		if f.Beneath != ownlook.Changed {
			continue
		}
		gone, new := ownlook.Counts(f)
		list = append(list, outdatedThemeFile.At(finding.Place{File: "theme/" + f.Name},
			fmt.Sprintf("The built-in file that this one was made of has changed since: %d lines are gone, %d are new.", gone, new),
			"See what changed with tankside look MANUAL; take over into this file what it needs, then say so with tankside look MANUAL "+f.Name+" --settled.",
			finding.Place{File: "theme/" + ownlook.Taken + "/" + f.Name}))
	}
	return list
}
