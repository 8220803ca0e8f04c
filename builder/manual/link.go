package manual

import (
	"html"
	"net/url"
	"path"
	"strings"
	"unicode"

	"tankside/builder/expression"
)

// Destination is where a link leads. One of its fields Article, Picture and Outside is set.
type Destination struct {
	Article *Article
	Section *Section // the heading, where the link names one
	Picture *File
	Outside string // an address outside the manual: https, http, mailto or tel
}

// LinkProblem is what can be wrong with a link.
type LinkProblem uint8

// The problems, from a slip to what must never be followed.
const (
	NotFound  LinkProblem = iota // nothing there
	NoHeading                    // an article without that heading
	Leaves                       // a path out of the manual, or an absolute one
	Unsafe                       // an address that could run a script or load something
)

// LinkError says what is wrong with a link, and what to do.
type LinkError struct {
	Problem LinkProblem
	Message string // a sentence
	Remedy  string // a sentence
}

// Error gives the sentence.
func (e *LinkError) Error() string { return e.Message }

var scheme = expression.Of(`^([A-Za-z][A-Za-z0-9+.-]*):`)

// Resolve gives where a link of an article leads, from its target as written. A nil article stands for the manual's own folder.
// A link to a file that is there but could not be read leads to an empty Destination: what is wrong with the file has been said.
func (m *Manual) Resolve(from *Article, target string) (Destination, *LinkError) {
	if a := m.simple(from, target); a != nil {
		return Destination{Article: a}, nil // as most links are
	}
	to, problem := locate(from, target)
	if problem != nil {
		return Destination{}, problem
	}
	if to.outside != "" {
		return Destination{Outside: to.outside}, nil
	}
	a := from
	if to.path != "" {
		if picture := m.byImage[to.path]; picture != nil {
			return Destination{Picture: picture}, nil
		}
		if m.refused[to.path] {
			return Destination{}, nil
		}
		if a = m.At(to.path); a == nil {
			return Destination{}, m.notFound(from, to.shown, to.path)
		}
	}
	if a == nil {
		return Destination{}, &LinkError{NotFound, "The link " + to.shown + " names no file.", "Write the path of an article."}
	}
	if to.anchor == "" {
		if to.path == "" {
			return Destination{}, &LinkError{NotFound, "The link leads nowhere.", "Write between the round brackets where it leads."}
		}
		return Destination{Article: a}, nil
	}
	for i := range a.Sections {
		if a.Sections[i].Anchor == to.anchor {
			return Destination{Article: a, Section: &a.Sections[i]}, nil
		}
	}
	return Destination{}, noHeading(a, from, to.anchor, to.shown)
}

// PathOf gives the path in the manual that a link of an article names, whether something is there or not; "" where it names none.
func PathOf(from *Article, target string) string {
	if folder, name, plain := plainPath(from, target); plain {
		return folder + name
	}
	to, problem := locate(from, target)
	if problem == nil && to.outside == "" && to.path == "" && from != nil {
		return from.Path
	}
	return to.path
}

// named is what a link names: an address outside the manual, or a path in it ("" for the article itself) and a heading.
type named struct {
	outside, path, anchor string
	shown                 string // for a message
}

// locate reads a link, and looks at nothing but it and the path of its article.
func locate(from *Article, target string) (named, *LinkError) {
	shown := "“" + clip(target, 80) + "”"
	// Browsers read entities in an address and skip control characters: judge what they would see.
	target = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, html.UnescapeString(strings.TrimSpace(target)))

	if s := scheme.FindStringSubmatch(target); s != nil {
		switch strings.ToLower(s[1]) {
		case "https", "http", "mailto", "tel":
			return named{outside: target}, nil
		case "file":
			return named{}, &LinkError{Leaves, "The link " + shown + " leads to a file of one computer.", "Copy the file into the manual and link to it with a relative path."}
		}
		if len(s[1]) == 1 {
			return named{}, &LinkError{Leaves, "The link " + shown + " leads to a drive of one computer.", "Copy the file into the manual and link to it with a relative path."}
		}
		return named{}, &LinkError{Unsafe, "The link " + shown + " has the scheme “" + clip(s[1], 20) + ":”, which pages do not follow.", "Link to an article, or to an https address."}
	}
	switch {
	case strings.HasPrefix(target, "//"):
		return named{}, &LinkError{Unsafe, "The link " + shown + " begins with two slashes, so where it leads depends on how the page was opened.", "Put https: before it, or write a relative path."}
	case strings.HasPrefix(target, "/") || strings.HasPrefix(target, `\`):
		return named{}, &LinkError{Leaves, "The link " + shown + " is an absolute path.", "Write the path from this article: ../soils/wax.md"}
	case strings.Contains(target, `\`):
		return named{}, &LinkError{NotFound, "The link " + shown + " has a backslash.", "Write it with slashes: " + strings.ReplaceAll(target, `\`, "/")}
	}
	where, anchor, _ := strings.Cut(target, "#")
	if decoded, err := url.PathUnescape(where); err == nil {
		where = decoded
	}
	if strings.ContainsRune(where, 0) || strings.ContainsAny(where, `\`) {
		return named{}, &LinkError{NotFound, "The link " + shown + " has a character in it that no file name has.", "Correct the path."}
	}
	to := named{shown: shown}
	if where != "" {
		base := "."
		if from != nil {
			base = path.Dir(from.Path)
		}
		if to.path = path.Join(base, where); to.path == ".." || strings.HasPrefix(to.path, "../") {
			return named{}, &LinkError{Leaves, "The link " + shown + " leads out of the manual.", "Copy the file into the manual and link to it there."}
		}
	}
	if decoded, err := url.PathUnescape(anchor); err == nil {
		anchor = decoded
	}
	to.anchor = anchor
	return to, nil
}

// simple gives the article of a link that is nothing but its name, or its path from the next folder up, in plain characters; or nil.
// It asks the map without making a string.
func (m *Manual) simple(from *Article, target string) *Article {
	here, target, plain := plainPath(from, target)
	if !plain {
		return nil
	}
	var space [maxPath]byte
	a := m.byPath[string(append(append(space[:0], here...), target...))]
	if a != nil {
		m.trace.asked("", a.Path, a)
	}
	return a
}

// plainPath gives folder and name of the article that a link names in plain characters, as most links do; others are not told.
func plainPath(from *Article, target string) (folder, name string, plain bool) {
	if from == nil || !strings.HasSuffix(target, ".md") {
		return "", "", false
	}
	here := from.Path[:strings.LastIndexByte(from.Path, '/')+1]
	if there, up := strings.CutPrefix(target, "../"); up && here != "" {
		target, here = there, here[:strings.LastIndexByte(here[:len(here)-1], '/')+1]
	}
	for i := range len(target) {
		c := target[i]
		plain := c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-'
		if !plain && !(c == '/' || c == '.') || !plain && (i == 0 || target[i-1] == '/' || target[i-1] == '.') {
			return "", "", false
		}
	}
	return here, target, true
}

func noHeading(a, from *Article, anchor, shown string) *LinkError {
	var anchors []string
	for _, s := range a.Sections {
		if s.Anchor != "" {
			anchors = append(anchors, s.Anchor)
		}
	}
	in := "This article"
	if a != from {
		in = a.Path
	}
	e := &LinkError{NoHeading, in + " has no heading for the link " + shown + ".", "Link to one of its headings, or to the article alone."}
	if n := Nearest(Anchor(anchor), anchors); n != "" {
		e.Remedy = "Did you mean #" + n + "?"
	}
	return e
}

// notFound says that there is no such file, and which was likely meant.
func (m *Manual) notFound(from *Article, shown, p string) *LinkError {
	e := &LinkError{NotFound, "The link " + shown + " leads to no article.", "Correct the path, or write the article."}
	if pictureTypes[strings.ToLower(path.Ext(p))] {
		e.Message, e.Remedy = "The link "+shown+" leads to no picture.", "Correct the path, or put the picture there."
	}
	var paths []string
	name := path.Base(p)
	for _, a := range m.Articles {
		if strings.EqualFold(path.Base(a.Path), name) || strings.EqualFold(path.Base(a.Path), name+".md") {
			e.Remedy = "Did you mean " + relative(from, a.Path) + "?"
			return e
		}
		paths = append(paths, a.Path)
	}
	for _, picture := range m.Pictures {
		if strings.EqualFold(path.Base(picture.Path), name) {
			e.Remedy = "Did you mean " + relative(from, picture.Path) + "?"
			return e
		}
		paths = append(paths, picture.Path)
	}
	if n := Nearest(p, paths); n != "" {
		e.Remedy = "Did you mean " + relative(from, n) + "?"
	}
	return e
}

// Relative is the path of a file of the manual as a link of an article would write it.
func Relative(from *Article, p string) string { return relative(from, p) }

// relative is the path as a link of an article would write it.
func relative(from *Article, p string) string {
	if from == nil {
		return p
	}
	here, there := strings.Split(path.Dir(from.Path), "/"), strings.Split(p, "/")
	for len(here) > 0 && len(there) > 1 && here[0] == there[0] {
		here, there = here[1:], there[1:]
	}
	return strings.Repeat("../", len(here)) + strings.Join(there, "/")
}

// Lookup gives every article of that name, of any kind, in the order of Kinds.
func (m *Manual) Lookup(name string) []*Article {
	var found []*Article
	for _, k := range Kinds {
		if a := m.Named(k, name); a != nil {
			found = append(found, a)
		}
	}
	return found
}

// Reference gives the article that an entry of see-also means: a relative link, or a name.
func (m *Manual) Reference(from *Article, entry string) (*Article, *LinkError) {
	if strings.ContainsAny(entry, "/#") || strings.HasSuffix(entry, ".md") {
		to, err := m.Resolve(from, entry)
		if err == nil && to.Article == nil && to != (Destination{}) {
			err = &LinkError{NotFound, "“" + clip(entry, 80) + "” is no article.", "Name an article."}
		}
		return to.Article, err
	}
	switch found := m.Lookup(entry); len(found) {
	case 1:
		return found[0], nil
	case 0:
		var names []string
		for _, a := range m.Articles {
			names = append(names, a.Name)
		}
		return nil, &LinkError{NotFound, "There is no article “" + clip(entry, 40) + "”" + stop(didYouMean(entry, names)), "Correct the name, or write the article."}
	default:
		return nil, &LinkError{NotFound, "“" + entry + "” is the name of two articles, " + found[0].Path + " and " + found[1].Path + ".", "Write the one that is meant as a link: " + relative(from, found[0].Path)}
	}
}
