package rules

import (
	"bytes"
	"path"
	"strings"
	"unicode/utf8"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// missingPicture finds pictures that are not in the manual.
// It prevents an empty frame where the reader should see what a good foil, film or basket looks like.
var missingPicture = finding.Rule{
	Name: "missing-picture", Severity: finding.Result,
	Finds:  "a picture that is not in the manual",
	Why:    "The reader sees an empty frame; and nothing is loaded from elsewhere, because the page has to work at the tank.",
	Source: "our own limit: an edition loads nothing from elsewhere",
}

func findMissingPictures(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, l := range a.Pictures {
		to, problem := p.Resolve(a, l.Target)
		switch {
		case problem != nil && problem.Problem == manual.NotFound:
			list = append(list, missingPicture.At(l.At, "The picture “"+l.Target+"” is not in the manual.", p.pictureMeant(a, l.Target)))
		case problem != nil:
			list = append(list, missingPicture.At(l.At, problem.Message, problem.Remedy))
		case to.Outside != "":
			list = append(list, missingPicture.At(l.At, "The picture would be loaded from "+to.Outside+".", "Put a copy into the folder pictures, if you may, and show that."))
		case to.Article != nil:
			list = append(list, missingPicture.At(l.At, "An article is to be shown as a picture.", "Take the exclamation mark away to make it a link."))
		}
	}
	return append(list, picturesWithBlanks(p, a)...)
}

// pictureMeant says what to do about a picture that is not there.
func (p *proof) pictureMeant(a *manual.Article, target string) string {
	const put = "ut the picture into the folder pictures under this name, or take the line out."
	var paths []string
	for _, f := range p.Pictures {
		paths = append(paths, f.Path)
	}
	if near := manual.Nearest(path.Join(path.Dir(a.Path), target), paths); near != "" {
		return "Did you mean " + manual.Relative(a, near) + "? Otherwise p" + put
	}
	return "P" + put
}

// blankInPicture is a picture whose address has a blank in it, which makes it no picture but text in brackets.
var blankInPicture = expression.Of(`!\[([^\]\n]*)\]\(\s*([^()<>"\n]*[^()<>"\s\n] +[^()<>"\n]*\.(?i:svg|png|jpe?g|webp|gif))\s*\)`)

// picturesWithBlanks finds pictures with a blank in their address.
func picturesWithBlanks(p *proof, a *manual.Article) []finding.Finding {
	if !bytes.Contains(a.Body, []byte("![")) {
		return nil
	}
	var list []finding.Finding
	fenced, line := false, a.Start-1
	for text := range bytes.Lines(a.Body) {
		line++
		if trimmed := bytes.TrimLeft(text, " >"); bytes.HasPrefix(trimmed, []byte("```")) || bytes.HasPrefix(trimmed, []byte("~~~")) {
			fenced = !fenced
		}
		if fenced {
			continue
		}
		for _, m := range blankInPicture.FindAllSubmatchIndex(text, -1) {
			target := string(text[m[4]:m[5]])
			tidy := strings.Join(strings.Fields(target), "-")
			place := finding.Place{File: a.Path, Line: line, Column: 1 + utf8.RuneCount(text[:m[0]])}
			remedy := "Name the file without blanks and write it so: ![" + string(text[m[2]:m[3]]) + "](" + tidy + ")"
			if to, problem := p.Resolve(a, tidy); problem == nil && to.Picture != nil {
				remedy = "Write ![" + string(text[m[2]:m[3]]) + "](" + tidy + ")"
			}
			list = append(list, missingPicture.At(place, "The address “"+target+"” has a blank in it, so that no picture is shown.", remedy))
		}
	}
	return list
}
