package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// unknownSource finds words that are to name one of an article's sources and name none, or several, and keys of “rests-on” that the header has not.
// It prevents that a number is trusted by a source that says nothing of it.
var unknownSource = finding.Rule{
	Name: "unknown-source", Severity: finding.Result,
	Finds:  "words that should name one source of the article and name none or several",
	Why:    "Whoever looks the number up lands at the wrong source, or at none.",
	Source: "the manual's format",
}

func findUnknownSources(_ *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	if a.Original == nil && a.Language == "" {
		list = restsOnFaults(a)
	}
	for _, mark := range a.Marks {
		if f := sourceFault(a, mark); f != nil {
			list = append(list, *f)
		}
	}
	return list
}

// restsOnFaults finds what is wrong with “rests-on” in the header.
func restsOnFaults(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, r := range a.Head.RestsOn {
		if f := sourceFault(a, r.Source); f != nil {
			list = append(list, *f)
		}
		for _, key := range r.Keys {
			if _, given := a.Head.At[key.Name]; !given {
				list = append(list, unknownSource.At(key.At, fmt.Sprintf("The header has no “%s” that could rest on “%s”.", key.Name, r.Source.Name),
					"Name keys that the header has, or take this one out."))
			}
		}
	}
	return list
}

// sourceFault tells what is wrong with a name of a source, or nil.
func sourceFault(a *manual.Article, name manual.Ref) *finding.Finding {
	found := a.SourcesNamed(name.Name)
	if len(found) == 1 {
		return nil
	}
	f := unknownSource.At(name.At, "“"+name.Name+"” is none of the article's sources.", "Write the first words of one of them, or add it to them: "+listed(a.Head.Sources)+".", at(a, "sources"))
	if len(found) > 1 {
		var which []string
		for _, i := range found {
			which = append(which, a.Head.Sources[i])
		}
		f.Message = fmt.Sprintf("“%s” can mean %d of the article's sources.", name.Name, len(found))
		f.Remedy = "Write more of the one that is meant: " + listed(which) + "."
	}
	return &f
}

// listed quotes some texts, each by its first words.
func listed(texts []string) string {
	quoted := make([]string, len(texts))
	for i, s := range texts {
		quoted[i] = "“" + shorten(s) + "”"
	}
	return strings.Join(quoted, ", ")
}
