package picture

import (
	"regexp"
	"strings"
)

// loading are the functions of style sheets that fetch something or run it.
//
// Sources: CSS Values 4, url() and src(); CSS Images 4, image(), image-set(), cross-fade(), element(); CSS Painting 1, paint();
// expression() and the properties after it from memory, of browsers long gone.
var loading = regexp.MustCompile(`(?:src|image|image-set|cross-fade|element|paint|expression)\(|-moz-binding|behavior\s*:|javascript:`)

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
		if strings.ContainsAny(m[1], "{};") {
			return nil, "refers to a part of a strange name, " + clip(m[1], 40)
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

// maxBlocks is how many blocks of style rules may stand within each other: a rule within a condition within another, and one to spare.
const maxBlocks = 4

// quoted finds what style rules cannot stand in, and the addresses within them that have to be kept.
var quoted = regexp.MustCompile(`(?is)url\(\s*["']?[^"')]*["']?\s*\)|"[^"]*"|'[^']*'|/\*.*?\*/`)

// sheet takes a style sheet of the drawing: what it does is refused or noted in the plan, by each name in the selectors. That can be
// more elements than a rule means, and never fewer.
func (d *drawing) sheet(text string, at int) {
	if _, problem := styling(text, true); problem != "" {
		d.refuse(at, "The drawing "+problem+" (<style>).", savePlain)
		return
	}
	text = quoted.ReplaceAllStringFunc(text, func(s string) string {
		if ids := references(s); len(ids) > 0 {
			return "url(#" + ids[0] + ")"
		}
		return " "
	})
	blocks := [][]string{names("")} // the names in the selectors of the open blocks
	for len(text) > 0 {
		i := strings.IndexAny(text, "{};")
		if i < 0 {
			i = len(text) - 1
		}
		part, last := text[:i], len(blocks)-1
		d.plan.style(blocks[last], references(part))
		switch text[i] {
		case '{':
			if last >= maxBlocks {
				d.refuse(at, "The drawing has style rules within style rules within style rules (<style>).", savePlain)
				return
			}
			blocks = append(blocks, names(part))
			if last > 0 {
				blocks[last+1] = append(blocks[last+1], blocks[last]...)
			}
		case '}':
			blocks = blocks[:max(last, 1)]
		}
		text = text[i+1:]
	}
}

// names gives the names in selectors: elements, .classes, #ids, and * for all where a selector goes by something else.
func names(selectors string) []string {
	var all []string
	if selectors == "" || strings.ContainsAny(selectors, "[:&") {
		all = append(all, "*")
	}
	word := func(r rune) bool { return strings.ContainsRune(" \t\r\n,>+~:()[]=|", r) }
	for _, compound := range strings.FieldsFunc(selectors, word) {
		start := 0
		for i := 1; i <= len(compound); i++ {
			if i == len(compound) || compound[i] == '.' || compound[i] == '#' {
				all = append(all, compound[start:i])
				start = i
			}
		}
	}
	return all
}
