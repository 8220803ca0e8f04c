package languageserver

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// Kinds of proposal: LSP 3.17, CompletionItemKind.
const (
	kindKey     = 10
	kindUnit    = 11
	kindWord    = 12
	kindFile    = 17
	kindName    = 18
	kindHeading = 22
)

// proposals gathers what may stand in the place of a token.
type proposals struct {
	in    Range
	typed string
	list  []proposal
}

// add proposes a text, in the order in which it is added.
func (p *proposals) add(kind int, text, detail, more string) {
	p.list = append(p.list, proposal{
		Label: strings.TrimSuffix(text, ": "), Kind: kind, Detail: detail, Documentation: more, FilterText: text, SortText: fmt.Sprintf("%04d", len(p.list)), TextEdit: textEdit{p.in, text},
	})
}

// narrowed keeps what begins with, or has in it, what was typed; everything where nothing has it, since a typing error may be in it.
func (p *proposals) narrowed() completionList {
	typed := strings.ToLower(p.typed)
	kept := slices.DeleteFunc(slices.Clone(p.list), func(c proposal) bool { return !strings.Contains(strings.ToLower(c.FilterText), typed) })
	if len(kept) == 0 {
		kept = p.list
	}
	answer := completionList{IsIncomplete: len(kept) > maxOffered, Items: kept[:min(len(kept), maxOffered)]}
	if answer.Items == nil {
		answer.Items = []proposal{}
	}
	return answer
}

// completion proposes keys, words, names, units and the targets of links.
func completion(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	if at, in := spotAt(q.doc.path, q.text, q.line, q.column); in {
		o := proposals{in: s.bytesIn(q.text, q.line, at.from, at.to), typed: q.text[q.line][at.from:max(at.from, min(q.column, at.to))]}
		o.ofHeader(q, at)
		return o.narrowed(), nil
	}
	if from, to, ok := targetAt(q.text[q.line], q.column); ok {
		o := proposals{in: s.bytesIn(q.text, q.line, from, to), typed: q.text[q.line][from:q.column]}
		o.ofLink(q)
		return o.narrowed(), nil
	}
	if at, in := sumAt(q.text, q.line, q.column); in {
		o := proposals{in: s.bytesIn(q.text, q.line, at.from, at.to), typed: q.text[q.line][at.from:q.column]}
		o.ofSum(q.desk.manual, at)
		return o.narrowed(), nil
	}
	return completionList{Items: []proposal{}}, nil
}

// ofHeader proposes what may stand at a spot of YAML.
func (o *proposals) ofHeader(q *inquiry, at spot) {
	if at.may != nil {
		o.keys(q, at)
	}
	if at.key == nil || at.onKey {
		return
	}
	m := q.desk.manual
	for _, w := range at.key.Words {
		o.add(kindWord, w, at.key.Means, manual.HazardStatements[w])
	}
	if len(at.key.Words) > 0 {
		for _, w := range manual.OwnWords([]byte(q.desk.text(manual.VocabularyFile)), *at.key) {
			o.add(kindWord, w.Word, "declared in "+manual.VocabularyFile+", counts as "+w.As, w.Means)
		}
	}
	if q.doc.path == manual.VocabularyFile && at.key.Name == "as" {
		for _, w := range manual.CountsAs(at.keys[0]) {
			o.add(kindWord, w, at.key.Means, manual.HazardStatements[w])
		}
	}
	for _, k := range at.key.Refers {
		o.names(m, k)
	}
	for _, l := range at.key.Shop {
		o.fromShop(m, l)
	}
	switch at.key.Name {
	case "see-also":
		for _, k := range manual.Kinds {
			o.names(m, k)
		}
	case "approved":
		if date, typed, parted := strings.Cut(at.token, ","); parted {
			for _, role := range m.Shop.Roles {
				o.add(kindName, date+", "+role, "role of the shop file", "")
			}
			o.typed = date + ", " + strings.TrimSpace(typed)
		}
	}
	o.amounts(at)
}

// keys proposes the keys that may stand at a spot, without those that the header has.
func (o *proposals) keys(q *inquiry, at spot) {
	have := map[string]bool{}
	if len(at.keys) == 0 {
		first, end := headerOf(q.doc.path, q.text)
		for i := first; i < end; i++ {
			if m := yamlKey.FindStringSubmatch(q.text[i]); m != nil && i != q.line {
				have[unquoted(m[1])] = true
			}
		}
	}
	for _, k := range at.may {
		if have[k.Name] {
			continue
		}
		text, means := k.Name+": ", k.Means
		if at.onKey {
			text = k.Name // its colon stands
		}
		if k.Required {
			means += " (required)"
		}
		o.add(kindKey, text, means, described(k))
	}
}

// described is what FORMAT.md says of a key's value.
func described(k manual.Key) string {
	text := k.Form
	if k.Example != "" {
		text += "\n" + k.Name + ": " + k.Example
	}
	return text
}

// names proposes the articles of a kind.
func (o *proposals) names(m *manual.Manual, k manual.Kind) {
	for _, a := range m.Articles {
		if a.Kind == k {
			o.add(kindName, a.Name, a.Head.Title, a.Head.Summary)
		}
	}
}

// fromShop proposes the names of a list of the shop file.
func (o *proposals) fromShop(m *manual.Manual, list string) {
	for _, n := range shopNames(m, list) {
		detail := list + " of the shop file"
		if t := m.Shop.Tank(n); list == "tank" && t != nil {
			detail = t.Name + ", " + t.Chemistry.Name
		}
		o.add(kindName, n, detail, "")
	}
}

var numberAndUnit = regexp.MustCompile(`^(.*\d)\s*([^\d]*)$`)

// amounts proposes the units that may stand behind a number; before there is one, the example.
func (o *proposals) amounts(at spot) {
	if len(at.key.Amounts) == 0 {
		return
	}
	m := numberAndUnit.FindStringSubmatch(at.token)
	if m == nil {
		if at.token == "" {
			o.add(kindUnit, at.key.Example, at.key.Means, at.key.Form)
		}
		return
	}
	for _, k := range at.key.Amounts {
		for _, u := range quantity.UnitsOf(k) {
			if u.Symbol == "" || strings.Contains(u.Symbol, "N") && k == quantity.VolumeFraction {
				continue // a plain number, and the ratio, which is no unit behind a number
			}
			if strings.HasPrefix(u.Symbol, strings.TrimSpace(m[2])) {
				o.add(kindUnit, m[1]+" "+u.Symbol, k.String(), "")
			}
		}
	}
	o.typed = m[1]
}

var linkBegins = regexp.MustCompile(`\]\(([^()\s]*)$`)

// targetAt gives the target of the link that a column is in.
func targetAt(line string, column int) (from, to int, ok bool) {
	m := linkBegins.FindStringSubmatchIndex(line[:column])
	if m == nil {
		return 0, 0, false
	}
	to = column
	if i := strings.IndexAny(line[column:], ") \t"); i > 0 && line[column+i] == ')' {
		to += i
	}
	return m[2], to, true
}

// ofLink proposes where a link may lead: headings of this article and of the one that was named, articles, pictures.
func (o *proposals) ofLink(q *inquiry) {
	from := q.desk.manual.At(q.doc.path)
	if from == nil {
		return
	}
	if before, _, named := strings.Cut(o.typed, "#"); named && before != "" {
		if to, problem := q.desk.manual.Resolve(from, before); problem == nil && to.Article != nil {
			o.headings(before, to.Article)
		}
		return
	}
	o.headings("", from)
	if strings.HasPrefix(o.typed, "#") {
		return
	}
	for _, a := range q.desk.manual.Articles {
		o.add(kindFile, manual.Relative(from, a.Path), a.Head.Title, a.Head.Summary)
	}
	for _, p := range q.desk.manual.Pictures {
		o.add(kindFile, manual.Relative(from, p.Path), "picture", "")
	}
}

func (o *proposals) headings(before string, a *manual.Article) {
	for _, sec := range a.Sections {
		if sec.Anchor != "" {
			o.add(kindHeading, before+"#"+sec.Anchor, sec.Heading, "")
		}
	}
}
