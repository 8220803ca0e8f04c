package languageserver

import (
	"context"
	"regexp"
	"strconv"
	"strings"

	"tankside/builder/finding"
)

type codeActionParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        Range      `json:"range"`
}

type codeAction struct {
	Title       string        `json:"title"`
	Kind        string        `json:"kind"`
	Diagnostics []diagnostic  `json:"diagnostics"`
	IsPreferred bool          `json:"isPreferred,omitempty"`
	Edit        workspaceEdit `json:"edit"`
}

// codeActions offers, for the findings of some lines, the mends that are sure.
func codeActions(ctx context.Context, s *server, p codeActionParams) (any, error) {
	q := s.inquire(ctx, positionParams{p.TextDocument, p.Range.Start})
	if q == nil {
		return nil, nil
	}
	list := []codeAction{}
	for _, f := range q.desk.in(ctx, q.doc.path, s.options) {
		line := max(f.Line, 1)
		if line > len(q.text) || uint32(line-1) < p.Range.Start.Line || uint32(line-1) > p.Range.End.Line {
			continue
		}
		title, m, ok := mending(q, f)
		if !ok {
			continue
		}
		edit := s.workspaceEdit(q.desk, renaming{mends: []mend{m}})
		list = append(list, codeAction{title, "quickfix", []diagnostic{s.diagnostic(q.desk, f, map[string][]string{})}, true, edit})
	}
	return list, nil
}

// What a finding's sentences suggest; a test holds that findings say it so.
var (
	meantName = regexp.MustCompile(`[Dd]id you mean “([^”]+)”\?`)
	meantLink = regexp.MustCompile(`^Did you mean ([^\s?]+)\?`)
	meantText = regexp.MustCompile(`^Write [^:\s]+: ([^;]+)\.$`)
)

// mending is the one sure mend of a finding, if there is one: the nearest known key, name or word, the nearest target of a link, an
// amount that can be meant in one way alone, the next revision.
func mending(q *inquiry, f finding.Finding) (title string, m mend, ok bool) {
	line := max(f.Line, 1) - 1
	text := q.doc.text
	start := at(text, finding.Place{Line: line + 1})
	column := 0
	if f.Column > 0 {
		column = at(text, f.Place) - start
	}
	replace := func(from, to int, with string) (string, mend, bool) {
		return "Write “" + with + "” instead of “" + q.text[line][from:to] + "”", mend{f.File, start + from, start + to, with}, true
	}
	switch {
	case f.Rule == "changed-without-revision":
		return raised(q, f)
	case f.Rule == "wrong-quantity":
		sp, in := spotAt(f.File, q.text, line, column)
		n := meantText.FindStringSubmatch(f.Remedy)
		if in && n != nil && !sp.onKey && !strings.Contains(n[1], ", or ") {
			return replace(sp.from, sp.to, n[1])
		}
		return "", m, false
	}
	if n := meantLink.FindStringSubmatch(f.Remedy); n != nil {
		for _, l := range wholeLink.FindAllStringSubmatchIndex(q.text[line], -1) {
			if l[0] != column {
				continue
			}
			target := n[1]
			if before, _, has := strings.Cut(q.text[line][l[2]:l[3]], "#"); has && strings.HasPrefix(target, "#") {
				target = before + target
			} else if strings.HasPrefix(target, "#") {
				return "", m, false
			}
			return replace(l[2], l[3], target)
		}
		return "", m, false
	}
	n := meantName.FindStringSubmatch(f.Message)
	if n == nil || f.Column == 0 {
		return "", m, false
	}
	sp, in := spotAt(f.File, q.text, line, column)
	if !in || sp.token == "" || !strings.Contains(f.Message, "“"+sp.token+"”") {
		return "", m, false
	}
	from, to := sp.from, sp.to
	if raw := q.text[line][from:to]; len(raw) > 1 && raw != sp.token { // in quotation marks, which stay
		if i := strings.Index(raw, sp.token); i >= 0 {
			from, to = from+i, from+i+len(sp.token)
		}
	}
	return replace(from, to, n[1])
}

var revisionLine = regexp.MustCompile(`^revision:[ \t]+("?)([A-Ya-y]|\d{1,6})("?)[ \t]*(?:#.*)?$`)

// raised is the next revision: the next letter, or the number that is one higher.
func raised(q *inquiry, f finding.Finding) (string, mend, bool) {
	first, end := headerOf(f.File, q.text)
	for i := first; i < end; i++ {
		m := revisionLine.FindStringSubmatchIndex(q.text[i])
		if m == nil {
			continue
		}
		old := q.text[i][m[4]:m[5]]
		next := string(rune(old[0]) + 1)
		if n, err := strconv.Atoi(old); err == nil {
			next = strconv.Itoa(n + 1)
		}
		start := at(q.doc.text, finding.Place{Line: i + 1})
		return "Raise the revision to " + next + " (and have it approved anew)", mend{f.File, start + m[4], start + m[5], next}, true
	}
	return "", mend{}, false
}
