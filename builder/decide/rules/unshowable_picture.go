package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/picture"
)

// unshowablePicture finds pictures that cannot be prepared for an edition: broken off, damaged, moving, in colours that cannot be kept,
// larger than can be read, or drawings with something in them that no drawing needs.
// It prevents an empty frame, and a picture whose colours mislead, where the reader should see what a part looks like.
// The limits are those of package picture, which names its sources.
var unshowablePicture = finding.Rule{
	Name: "unshowable-picture", Severity: finding.Result,
	Finds:  "a picture that cannot be shown: damaged, moving, too large, or in colours that cannot be kept",
	Why:    "The reader sees an empty frame, or colours that mislead.",
	Source: "PNG (ISO/IEC 15948), JPEG (ISO/IEC 10918-1), SVG 2; WCAG 2.2, success criterion 2.2.2, on what moves",
}

func findUnshowablePictures(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.Pictures {
		problems := p.memo.picturesOf().Of(p.Manual, f.Path, func(*manual.Manual) []*picture.Problem { return picture.Check(f.Path, f.Data) })
		if len(problems) == 0 && f.Damage != nil {
			problems = []*picture.Problem{f.Damage}
		}
		for _, problem := range problems {
			at := finding.Place{File: f.Path, Line: problem.Line, Column: problem.Column}
			list = append(list, unshowablePicture.At(at, problem.Message, problem.Remedy))
		}
	}
	return list
}
