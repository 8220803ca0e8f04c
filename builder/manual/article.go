package manual

import (
	"bytes"
	"cmp"
	"fmt"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// readArticle reads the cleaned text of an article.
func readArticle(d *decoder, kind Kind, data []byte) *Article {
	a := &Article{Path: d.file, Kind: kind}
	original, language, isTranslation := translationOf(d.file)
	if !isTranslation {
		original = d.file
	}
	a.Name, a.Language = strings.TrimSuffix(path.Base(original), path.Ext(original)), language
	if d.signals != nil {
		a.signals = d.signals.in(cmp.Or(language, d.language))
	}
	kind.declared().facts.make(a)
	var whole *yaml.Node // the header
	header, body, start, ok := splitHeader(d, data)
	a.Body, a.Start = body, start
	a.Head.At = map[string]finding.Place{}
	a.Partial = true
	if ok {
		d.offset = 1
		mapping := d.mapping(header, "header")
		if mapping != nil {
			a.Partial, a.Content, a.Header = false, contentOf(mapping, body), saidOf(mapping)
			if isTranslation {
				readTranslationHead(d, a, mapping)
			} else {
				readHead(d, a, mapping)
			}
			a.names, whole = d.names, mapping
		} else {
			a.Head.Draft = saysDraft.Match(header)
		}
		d.offset = 0
	}
	if !d.readable(a) {
		a.Body, a.Partial, a.Content = nil, true, ""
		return a
	}
	readBody(d, a)
	if whole != nil {
		d.noteBefore(a, whole)
	}
	if !d.measured(a) {
		whole := *a
		*a = Article{Path: a.Path, Name: a.Name, Kind: a.Kind, Language: a.Language, Head: a.Head, Start: a.Start, signals: a.signals, Partial: true, firstAid: a.firstAid, names: a.names}
		kind.declared().facts.share(a, &whole)
	}
	return a
}

var (
	fenceOpens  = expression.Of("^ {0,3}(`{3,}[^`]*|~{3,}.*)$")
	fenceCloses = expression.Of("^ {0,3}(`{3,}|~{3,})[ \t]*$")
)

// mayFence tells quickly of most lines that they neither open nor close a listing.
func mayFence(line []byte) bool {
	line = bytes.TrimLeft(line, " ")
	return len(line) >= 3 && line[0] == line[1] && (line[0] == '`' || line[0] == '~')
}

func opensFence(line []byte) [][]byte {
	if !mayFence(line) {
		return nil
	}
	return fenceOpens.FindSubmatch(line)
}

func closesFence(line []byte) [][]byte {
	if !mayFence(line) {
		return nil
	}
	return fenceCloses.FindSubmatch(line)
}

// splitHeader parts the header from the body. start is the line on which the body begins.
func splitHeader(d *decoder, data []byte) (header, body []byte, start int, ok bool) {
	const remedy = "Begin the file with a line of three hyphens, the header's keys, and another line of three hyphens."
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	if string(bytes.TrimRight(first, " \t")) != "---" {
		d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, "The article has no header.", remedy)
		return nil, data, 1, false
	}
	start = 2
	for at := 0; at <= len(rest); start++ {
		line, _, more := bytes.Cut(rest[at:], []byte("\n"))
		next := at + len(line) + 1
		if string(bytes.TrimRight(line, " \t")) == "---" {
			if at > maxHeader {
				d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, fmt.Sprintf("The header has more than %d KiB.", maxHeader>>10), "What is long belongs in the text below it.")
				return nil, rest[min(next, len(rest)):], start + 1, false
			}
			return rest[:at], rest[min(next, len(rest)):], start + 1, true
		}
		if !more {
			break
		}
		at = next
	}
	d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, "The header is not closed.", remedy)
	return nil, nil, start + 1, false
}
