package manual

import (
	"context"
	"io/fs"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
	"tankside/builder/finding"
)

// Layer is what a shop's manual lies over: the manual that many shops share.
type Layer struct {
	Base  *Manual
	Own   []string // the shop's own files, by path
	Apart []string // files in the shop's folder that no shop has, by path; they are no part of the manual
}

// Has tells whether a file is the shop's own.
func (l *Layer) Has(path string) bool {
	_, has := slices.BinarySearch(l.Own, path)
	return has
}

// anywhere is the path of a folder that is never a file, so that whoever says it may have changed has the folder walked.
const anywhere = "."

// ReadOver reads a shop's manual, which is the folder that r has read with the shop's own files over it. Files that are not the shop's own are not read again:
// the manuals of all shops share what was made of them. r stays as it is.
func (r *Reader) ReadOver(ctx context.Context, fsys fs.FS, over *Layer) (*Manual, []finding.Finding, error) {
	shop := *r
	shop.over = over
	return shop.Read(ctx, fsys, append([]string{anywhere}, over.Own...))
}

// Replaced is which article of the base a shop's article stands in place of.
type Replaced struct {
	Revision string // of the base's article, as it was when the shop's was written or last compared with it
	Digest   string // of its text and facts
}

// String is what the key says.
func (r Replaced) String() string { return r.Revision + ", " + r.Digest }

// Replaceable is what an article that stands in place of this one has to say.
func (a *Article) Replaceable() Replaced {
	return Replaced{a.Head.Revision, a.Content[:min(digestLength, len(a.Content))]}
}

var replacesForm = expression.Of(`^([^,]{1,12}), ?([0-9a-f]{16})$`)

// replacesKey says which article of the base a shop's article stands in place of.
func replacesKey() field[Article] {
	key := Key{Name: "replaces", Form: "revision and digest, parted by a comma, as the proof-reader gives them", Example: "C, 5f0c1d2e3a4b6978",
		Means: "which revision of the base's article of the same path a shop's article stands in place of"}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		value, ok := d.scalar(n, key)
		if !ok {
			return
		}
		parts := replacesForm.FindStringSubmatch(strings.TrimSpace(value))
		if parts == nil {
			d.report(ruleWrongValue, d.at(n), "“replaces” takes the revision of the base's article and the digest of its text, not “"+clip(value, 40)+"”.",
				"Leave the key out and publish over the base: what is found then says what to write.")
			return
		}
		a.Head.Replaces = Replaced{strings.TrimSpace(parts[1]), parts[2]}
	}}
}
