package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// unsafeLink finds links that a browser would run, or that lead to different places depending on how the page was opened.
// It prevents that a pasted link runs a script on the tablets of a shop. The schemes that are let through are https, http, mailto and tel.
var unsafeLink = finding.Rule{
	Name: "unsafe-link", Severity: finding.Result,
	Finds:  "a link with a scheme other than https, http, mailto and tel",
	Why:    "Such a link can run a script in the page, or do nothing at all; pages leave it out.",
	Source: "RFC 3986, section 7; WHATWG URL standard; our own limit for which schemes are let through",
}

func findUnsafeLinks(p *proof, a *manual.Article) []finding.Finding {
	return badLinks(p, a, unsafeLink, manual.Unsafe)
}
