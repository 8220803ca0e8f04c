package manual

import (
	"bytes"
	"io/fs"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
)

// Before is an article as it was before something was renamed, as far as an edition tells of it: its path, and the digest of what it says with the names of then.
// What differs from an edition by a renaming alone has not been changed.
type Before struct{ Path, Content string }

// mostBefore is how many renamings of one thing are looked back on.
const mostBefore = 4

// calledBefore are the old addresses of everything by those of today, the latest first.
type calledBefore map[string][]string

func calledBeforeOf(list []Moved) calledBefore {
	c := calledBefore{}
	for _, f := range slices.Backward(list) {
		c[f.To] = append(c[f.To], f.From)
	}
	return c
}

// then gives the address of so many renamings ago, or today's.
func (c calledBefore) then(address string, ago int) string {
	if list := c[address]; len(list) > 0 {
		return list[min(ago, len(list)-1)]
	}
	return address
}

// deepest is how many renamings of one thing there are, as far as they are looked back on.
func (c calledBefore) deepest() int {
	n := 0
	for _, list := range c {
		n = max(n, len(list))
	}
	return min(n, mostBefore)
}

// readCalledBefore reads the old addresses where they may have changed, or are gone; then every article is read again, since what it said with the names of then may
// be otherwise.
func (r *Reader) readCalledBefore(fsys fs.FS, stale map[string]bool) {
	at, there := r.at[MovedFile]
	if there && !stale[MovedFile] || !there && r.before == nil {
		return
	}
	r.before = nil
	if there && r.files[at].sort == movedFile {
		d := &decoder{file: MovedFile}
		if data, ok := d.load(fsys, r.files[at]); ok {
			if data, ok = d.clean(data); ok {
				r.before = calledBeforeOf(readMoved(d, data)) // what is wrong with it is told when the file itself is read
			}
		}
	}
	for _, f := range r.files {
		if f.sort == articleFile {
			stale[f.path] = true
		}
	}
}

// noteBefore notes how the article was called and what it said with the names of before, where that differs from today.
func (d *decoder) noteBefore(a *Article, header *yaml.Node) {
	for ago := range d.before.deepest() {
		b := Before{Path: d.pathThen(a.Path, ago)}
		b.Content = contentOf(d.headerThen(a, header, ago), d.bodyThen(a, b.Path, ago))
		if (b.Path != a.Path || b.Content != a.Content) && !slices.Contains(a.Before, b) {
			a.Before = append(a.Before, b)
		}
	}
}

// pathThen is the path of an article or of a translation at that time.
func (d *decoder) pathThen(p string, ago int) string {
	if original, language, is := translationOf(p); is {
		then := d.before.then(original, ago)
		return strings.TrimSuffix(then, ".md") + "." + strings.ToLower(language) + ".md"
	}
	return d.before.then(p, ago)
}

// headerThen is the header with the names of then.
func (d *decoder) headerThen(a *Article, header *yaml.Node, ago int) *yaml.Node {
	then := map[finding.Place]string{}
	for _, p := range d.names {
		if name := d.nameThen(p, ago); name != p.ref.Name {
			then[p.ref.At] = name
		}
	}
	for _, ref := range a.Head.SeeAlso {
		if strings.ContainsAny(ref.Name, "/#") || strings.HasSuffix(ref.Name, ".md") {
			then[ref.At] = d.linkThen(a.Path, d.pathThen(a.Path, ago), ref.Name, ago)
		} else if name := d.nameThen(pending{ref: ref, kinds: Kinds}, ago); name != ref.Name {
			then[ref.At] = name
		}
	}
	if len(then) == 0 {
		return header
	}
	var copied func(*yaml.Node) *yaml.Node
	copied = func(n *yaml.Node) *yaml.Node {
		c := *n
		if name, is := then[finding.Place{File: d.file, Line: n.Line + 1, Column: n.Column}]; is && n.Kind == yaml.ScalarNode {
			c.Value = name
		}
		c.Content = nil
		for _, inner := range n.Content {
			c.Content = append(c.Content, copied(inner))
		}
		return &c
	}
	return copied(header)
}

// nameThen is a name of a header as it was then.
func (d *decoder) nameThen(p pending, ago int) string {
	if slices.Contains(p.words, p.ref.Name) {
		return p.ref.Name
	}
	if slices.Contains(p.shop, tankIDs) {
		return strings.TrimPrefix(d.before.then(TankFolder+p.ref.Name, ago), TankFolder)
	}
	for now := range d.before {
		folder, _, _ := strings.Cut(now, "/")
		kind, is := kindOf(folder)
		if is && slices.Contains(p.kinds, kind) && path.Base(now) == p.ref.Name+".md" {
			return strings.TrimSuffix(path.Base(d.before.then(now, ago)), ".md")
		}
	}
	return p.ref.Name
}

// bodyThen is the text with the links and tanks of then, for a digest.
func (d *decoder) bodyThen(a *Article, pathThen string, ago int) []byte {
	body := a.Body
	for _, links := range [][]Link{a.Links, a.Pictures} {
		for _, link := range links {
			then := d.linkThen(a.Path, pathThen, link.Target, ago)
			if then == link.Target {
				continue
			}
			for _, around := range [][2]string{{"(", ")"}, {"(", " "}, {"<", ">"}, {"]: ", "\n"}, {"]: ", " "}} {
				body = bytes.ReplaceAll(body, []byte(around[0]+link.Target+around[1]), []byte(around[0]+then+around[1]))
			}
		}
	}
	for _, sum := range a.Sums {
		for _, in := range sum.Inputs {
			if then := strings.TrimPrefix(d.before.then(TankFolder+in.Value, ago), TankFolder); in.Name == "tank" && then != in.Value {
				lines := bytes.Split(body, []byte("\n"))
				if n := in.At.Line - a.Start; n >= 0 && n < len(lines) {
					lines[n] = bytes.Replace(lines[n], []byte(in.Value), []byte(then), 1)
				}
				body = bytes.Join(lines, []byte("\n"))
			}
		}
	}
	return body
}

// linkThen is a link as it was written then: in the article's path of then, to what it leads to by the path of then.
func (d *decoder) linkThen(from, fromThen, target string, ago int) string {
	where, anchor, has := strings.Cut(target, "#")
	if scheme.MatchString(target) || strings.HasPrefix(target, "/") {
		return target
	}
	to := from
	if where != "" {
		to = path.Join(path.Dir(from), where)
	}
	toThen := d.pathThen(to, ago)
	if has {
		if then := d.before.then(to+"#"+anchor, ago); then != to+"#"+anchor {
			_, anchor, _ = strings.Cut(then, "#")
		}
	}
	switch {
	case where == "":
	case path.Dir(from) == path.Dir(fromThen) && path.Dir(to) == path.Dir(toThen):
		where = where[:strings.LastIndexByte(where, '/')+1] + path.Base(toThen)
	default:
		where = relative(&Article{Path: fromThen}, toThen)
	}
	if has {
		where += "#" + anchor
	}
	return where
}
