package rules

import (
	"path"
	"strings"

	"tankside/builder/finding"
)

// missingMark finds a mark that is no drawing of the manual.
// It prevents that the pages go out without the shop's mark.
var missingMark = finding.Rule{
	Name: "missing-mark", Severity: finding.Untidy,
	Finds:  "a mark that is no SVG drawing of the manual",
	Why:    "The pages carry the usual mark instead of the shop's.",
	Source: "our own limit: an edition loads nothing from elsewhere",
}

func findMissingMark(p *proof) []finding.Finding {
	look := p.Shop.Look
	if look.Mark == "" {
		return nil
	}
	if strings.ToLower(path.Ext(look.Mark)) != ".svg" {
		return []finding.Finding{missingMark.At(look.MarkAt, "The mark "+look.Mark+" is no SVG drawing.", "Save it as plain SVG in the folder pictures.")}
	}
	for _, f := range p.Pictures {
		if f.Path == look.Mark {
			return nil
		}
	}
	return []finding.Finding{missingMark.At(look.MarkAt, "The mark "+look.Mark+" is not in the manual.", "Put the drawing there, or take the line mark out; then the usual mark is shown.")}
}
