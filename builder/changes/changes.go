package changes

import (
	"slices"
	"strings"

	"tankside/builder/content"
)

// Kind is what has happened to a part of a manual.
type Kind string

// The kinds.
const (
	Changed Kind = "changed"
	Added   Kind = "added"
	Removed Kind = "removed"
	Moved   Kind = "moved"
	Renamed Kind = "renamed"
)

// Change is one difference. Article is the path of the file as the newer content has it, Heading the name of the part; see [content.Part].
//
// Before and After are its texts. Of what was moved they are the headings behind which it stood and stands; of what was renamed the names, and where
// Heading is "" as well, the paths of the file. An article that is new has each of its parts as added, one that is gone each as removed.
type Change struct {
	Article string `json:"article"`
	Heading string `json:"heading"`
	Kind    Kind   `json:"kind"`
	Before  string `json:"before"`
	After   string `json:"after"`

	behind string // of what was added or moved to a text: the part behind which it stands
}

// Behind is the part of a text behind which an added part stands.
func (c Change) Behind() string { return c.behind }

// OfHeader is the key of an article's header that the change is about, or "".
func (c Change) OfHeader() string {
	key, is := strings.CutPrefix(c.Heading, content.HeaderKey)
	if !is {
		return ""
	}
	return key
}

// Between gives what has to be done to a to make it b, by the paths of b. History says by what path a file of a went later on, as far as that is known; it
// may be nil; what b itself says of old addresses counts before it.
func Between(a, b *content.Content, history map[string]string) []Change {
	if a.Digest() == b.Digest() {
		return nil
	}
	renamed, gone := pairFiles(a, b, leading(b, history))
	var list []Change
	for _, d := range b.Docs() {
		old, had := a.At(d.Path)
		if !had {
			if from, is := renamed[d.Path]; is {
				list = append(list, Change{Article: d.Path, Kind: Renamed, Before: from, After: d.Path})
				old, _ = a.At(from)
			}
		}
		if had && old.Sum == d.Sum {
			continue
		}
		list = append(list, ofFile(d.Path, partsOf(old), partsOf(d))...)
	}
	for _, old := range gone {
		list = append(list, ofFile(old.Path, partsOf(old), nil)...)
	}
	slices.SortStableFunc(list, func(a, b Change) int { return strings.Compare(a.Article, b.Article) })
	return list
}

// partsOf are the parts of a file, none of one that is not there.
func partsOf(d content.Doc) []content.Part {
	if d.Path == "" {
		return nil
	}
	return d.Parts()
}

// inOrder tells of which parts of a file the order counts: those of an article's text.
func inOrder(path, name string) bool {
	return content.IsArticle(path) && !strings.HasPrefix(name, content.HeaderKey)
}

// ofFile compares the parts of a file.
func ofFile(path string, before, after []content.Part) []Change {
	old := make(map[string]string, len(before))
	for _, p := range before {
		old[p.Name] = p.Text
	}
	now := make(map[string]string, len(after))
	for _, p := range after {
		now[p.Name] = p.Text
	}
	was := pairParts(path, before, after, old, now)
	moved := movedParts(path, before, after, was)
	var list []Change
	last := "" // the part of the text before this one
	for _, p := range after {
		from, had := was[p.Name]
		text := old[from]
		if had && from != p.Name {
			list = append(list, Change{Article: path, Heading: p.Name, Kind: Renamed, Before: from, After: p.Name})
			text = retitled(text, from, p.Name)
		}
		switch {
		case !had:
			list = append(list, Change{Article: path, Heading: p.Name, Kind: Added, After: p.Text, behind: last})
		case text != p.Text:
			list = append(list, Change{Article: path, Heading: p.Name, Kind: Changed, Before: text, After: p.Text})
		}
		if from, is := moved[p.Name]; is {
			list = append(list, Change{Article: path, Heading: p.Name, Kind: Moved, Before: from, After: last, behind: last})
		}
		if inOrder(path, p.Name) {
			last = p.Name
		}
	}
	taken := make(map[string]bool, len(was))
	for _, from := range was {
		taken[from] = true
	}
	for _, p := range before {
		if !taken[p.Name] {
			list = append(list, Change{Article: path, Heading: p.Name, Kind: Removed, Before: p.Text})
		}
	}
	return list
}

// retitled is a text whose heading has another name.
func retitled(text, from, to string) string {
	first, rest, more := strings.Cut(text, "\n")
	first = strings.Replace(first, from, to, 1)
	if !more {
		return first
	}
	return first + "\n" + rest
}

// pairParts says which part each of the newer ones was before: that of its name, or one whose heading was changed.
func pairParts(path string, before, after []content.Part, old, now map[string]string) map[string]string {
	was := make(map[string]string, len(after))
	var gone, come []text
	for _, p := range after {
		if _, had := old[p.Name]; had {
			was[p.Name] = p.Name
		} else if inOrder(path, p.Name) {
			come = append(come, text{p.Name, below(p.Text), p.Name})
		}
	}
	for _, p := range before {
		if _, has := now[p.Name]; !has && inOrder(path, p.Name) {
			gone = append(gone, text{p.Name, below(p.Text), p.Name})
		}
	}
	for to, from := range pairTexts(gone, come) {
		was[to] = from
	}
	return was
}

// below is a text without the line of its heading.
func below(text string) string {
	_, rest, _ := strings.Cut(text, "\n")
	return strings.Trim(rest, "\n")
}

// movedParts are the parts of a text that stand otherwise to the most that have stayed in their order, each with the part behind which it stood.
func movedParts(path string, before, after []content.Part, was map[string]string) map[string]string {
	at := map[string]int{}       // place in before
	stood := map[string]string{} // behind which
	last := ""
	for i, p := range before {
		if inOrder(path, p.Name) {
			at[p.Name], stood[p.Name] = i, last
			last = p.Name
		}
	}
	var names []string
	var places []int
	for _, p := range after {
		if from, had := was[p.Name]; had && inOrder(path, p.Name) {
			names = append(names, p.Name)
			places = append(places, at[from])
		}
	}
	stay := longestRising(places)
	moved := map[string]string{}
	for i, name := range names {
		if !stay[i] {
			moved[name] = stood[was[name]]
		}
	}
	return moved
}

// longestRising marks a longest part of a sequence of different numbers in which each is greater than the one before (patience sorting).
func longestRising(list []int) []bool {
	var ends []int // of the best sequence of each length, the place of its last number
	before := make([]int, len(list))
	for i, v := range list {
		n, _ := slices.BinarySearchFunc(ends, v, func(e, v int) int { return list[e] - v })
		before[i] = -1
		if n > 0 {
			before[i] = ends[n-1]
		}
		if n == len(ends) {
			ends = append(ends, i)
		} else {
			ends[n] = i
		}
	}
	in := make([]bool, len(list))
	if len(ends) > 0 {
		for i := ends[len(ends)-1]; i >= 0; i = before[i] {
			in[i] = true
		}
	}
	return in
}
