package picture

import (
	"regexp"
	"strings"
)

// loading are the functions of style sheets that fetch something or run it.
//
// Sources: CSS Values 4, url() and src(); CSS Images 4, image(), image-set(), cross-fade(), element(); CSS Painting 1, paint();
// expression() and the properties after it from memory, of browsers long gone.
var loading = regexp.MustCompile(`(?:src|image|image-set|cross-fade|element|paint|expression)\s*\(|-moz-binding|behavior\s*:|javascript:`)

// address finds what url() refers to.
var address = regexp.MustCompile(`(?i)url\(\s*["']?\s*([^"')]*)`)

// rule finds rules that begin with @.
var rule = regexp.MustCompile(`@[^\s({;]*`)

// styling looks at the value of an attribute or at a style sheet. It gives the ids that it refers to, and says what is wrong with it.
func styling(text string, isStyle bool) (ids []string, problem string) {
	if !strings.ContainsAny(text, `(\@<:`) {
		return nil, ""
	}
	lower := strings.ToLower(text)
	switch {
	case strings.Contains(text, `\`) && (isStyle || strings.Contains(text, "(")):
		return nil, "hides letters behind backslashes"
	case isStyle && strings.Contains(text, "<"):
		return nil, "has markup within its styles"
	case loading.MatchString(lower):
		return nil, "loads or runs something by its styles"
	}
	if isStyle {
		for _, name := range rule.FindAllString(lower, -1) {
			switch name {
			case "@media":
			case "@keyframes", "@-webkit-keyframes":
				return nil, "moves by its styles"
			default:
				return nil, "has a style rule that could load something, " + clip(name, 30)
			}
		}
	}
	for _, m := range address.FindAllStringSubmatch(text, -1) {
		if !strings.HasPrefix(m[1], "#") {
			return nil, "loads something from elsewhere, " + clip(m[1], 40)
		}
	}
	return references(text), ""
}

// references gives the ids in url(#id).
func references(text string) []string {
	var ids []string
	for _, m := range address.FindAllStringSubmatch(text, -1) {
		if id, is := strings.CutPrefix(m[1], "#"); is {
			ids = append(ids, strings.TrimSpace(id))
		}
	}
	return ids
}

// sheet takes a style sheet of the drawing.
func (d *drawing) sheet(text string, at int) {
	if _, problem := styling(text, true); problem != "" {
		d.refuse(at, "The drawing "+problem+" (<style>).", savePlain)
	}
	d.plan.rules(text)
}
