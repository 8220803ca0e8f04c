package understood

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/manual"
)

// Reading is an article, or the shop file, that somebody has to read.
type Reading struct {
	Path  string `json:"path"`
	Title string `json:"title"`
	Parts []Part `json:"parts"` // what in it; none where it is to be read whole
	State State  `json:"state"`
}

// Part is a piece of an article with what has happened to it.
type Part struct {
	Heading string       `json:"heading"`
	Kind    changes.Kind `json:"kind"`
	Before  string       `json:"before,omitempty"` // of values of the shop file
	After   string       `json:"after,omitempty"`
}

// State is what has become of an article.
type State string

// The states.
const (
	Changed State = "changed"
	New     State = "new"
	Gone    State = "taken out" // is not to be worked by any more
	Whole   State = "whole"     // nothing of it was ever signed
)

// Why is why somebody has to read everything anew.
type Why string

// The reasons. The last is our own limit: after a year in which nobody had them read it, what has not changed is to be read again as well.
const (
	OnlyChanges Why = ""
	NeverSigned Why = "never"
	NotToBeHad  Why = "lost" // nobody can say any more what the edition said that was signed
	LongAgo     Why = "long"
)

// longAgo is after how many days a signature holds for nothing any more. Common practice is a yearly instruction, no source.
const longAgo = 365

// Person is somebody with what they have to read.
type Person struct {
	Who    string    `json:"who"` // "" is whoever has signed nothing yet
	Signed *Entry    `json:"signed,omitempty"`
	Days   int       `json:"days"` // since they signed
	Why    Why       `json:"why,omitempty"`
	Reads  []Reading `json:"reads"`
}

// Role is a role with its people; the last of them is whoever has signed nothing yet.
type Role struct {
	Role    string   `json:"role"`
	Unknown bool     `json:"unknown,omitempty"` // the shop file has no such role
	People  []Person `json:"people"`
}

// Edition is an edition that somebody has signed: its content, and what is known of the names that its files got later.
type Edition struct {
	Content *content.Content
	Renamed map[string]string
}

// Duties works out what everybody has to read of a manual since the edition that they signed. older gives such an edition, or nil where nobody has it any more.
func Duties(m *manual.Manual, now *content.Content, r Record, today time.Time, older func(Entry) (*Edition, error)) ([]Role, error) {
	d := duties{now: now, today: today, older: older, since: map[string]*since{}}
	d.all = sinceOf(&Edition{Content: content.New(nil)}, now)
	roles := slices.Clone(m.Shop.Roles)
	known := len(roles)
	for _, reader := range d.all.follows.Readers {
		if reader.Role != "" && !slices.Contains(roles, reader.Role) {
			roles = append(roles, reader.Role)
		}
	}
	for _, e := range r.entries {
		if !slices.Contains(roles, e.Role) {
			roles = append(roles, e.Role)
		}
	}
	var list []Role
	for i, name := range roles {
		role := Role{Role: name, Unknown: i >= known}
		for _, e := range r.Latest(name) {
			p, err := d.person(name, e)
			if err != nil {
				return nil, err
			}
			role.People = append(role.People, p)
		}
		role.People = append(role.People, Person{Why: NeverSigned, Reads: d.whole(name)})
		list = append(list, role)
	}
	return list, nil
}

type duties struct {
	now   *content.Content
	today time.Time
	older func(Entry) (*Edition, error)
	since map[string]*since // by code
	all   *since            // since nothing
}

// since is what has changed since an edition.
type since struct {
	list    []changes.Change
	files   changes.Files
	follows changes.Follows
	was     *content.Content
	now     *content.Content
}

func sinceOf(e *Edition, now *content.Content) *since {
	list := changes.Between(e.Content, now, e.Renamed)
	return &since{list, changes.ByFile(e.Content, now, list), changes.Consequences(e.Content, now, list), e.Content, now}
}

func (d *duties) person(role string, e Entry) (Person, error) {
	p := Person{Who: e.Who, Signed: &e}
	if day, err := time.Parse(time.DateOnly, e.Date); err == nil {
		p.Days = int(d.today.Sub(day).Hours() / 24)
	}
	if p.Days > longAgo {
		p.Why, p.Reads = LongAgo, d.whole(role)
		return p, nil
	}
	s, known := d.since[e.Code]
	if !known {
		edition, err := d.older(e)
		if err != nil {
			return p, fmt.Errorf("edition %d, which %s has signed: %w", e.Edition, e.Who, err)
		}
		if edition != nil {
			s = sinceOf(edition, d.now)
		}
		d.since[e.Code] = s
	}
	if s == nil {
		p.Why, p.Reads = NotToBeHad, d.whole(role)
		return p, nil
	}
	p.Reads = s.reads(role, d.now)
	return p, nil
}

// whole is everything that a role reads.
func (d *duties) whole(role string) []Reading {
	list := []Reading{}
	for _, r := range d.all.reads(role, d.now) {
		if r.Path != manual.ShopFile {
			list = append(list, Reading{Path: r.Path, Title: r.Title, Parts: []Part{}, State: Whole})
		}
	}
	return list
}

// reads is what a role reads of what has changed: what its lessons or stations name, what belongs to nobody's, what was taken out, and values of the line.
func (s *since) reads(role string, now *content.Content) []Reading {
	list := []Reading{}
	have := map[string]bool{}
	add := func(file string, state State, in *content.Content) {
		if original, language := manual.OriginalOf(file); language != "" && have[original] {
			return // whoever reads the original reads its translation
		}
		if have[file] || !content.IsArticle(file) {
			return
		}
		have[file] = true
		list = append(list, Reading{Path: file, Title: titleIn(in, file), State: state, Parts: s.parts(file, state)})
	}
	for _, reader := range s.follows.Readers {
		if reader.Role != role && reader.Role != "" {
			continue
		}
		for _, file := range originalsFirst(reader.Files) {
			state := Changed
			if slices.Contains(s.files.Added, file) {
				state = New
			}
			add(file, state, now)
		}
	}
	for _, file := range originalsFirst(s.files.Removed) {
		add(file, Gone, s.was)
	}
	slices.SortFunc(list, func(a, b Reading) int { return strings.Compare(a.Path, b.Path) })
	if values := s.values(); len(values) > 0 {
		list = append([]Reading{{Path: manual.ShopFile, State: Changed, Parts: values}}, list...)
	}
	return list
}

// originalsFirst has every original stand before its translations.
func originalsFirst(files []string) []string {
	files = slices.Clone(files)
	slices.SortStableFunc(files, func(a, b string) int {
		_, x := manual.OriginalOf(a)
		_, y := manual.OriginalOf(b)
		return cmp.Compare(len(x), len(y))
	})
	return files
}

// parts are the headings and keys of an article that have changed.
func (s *since) parts(file string, state State) []Part {
	list := []Part{}
	if state != Changed {
		return list
	}
	for _, c := range s.list {
		if d, there := s.now.At(file); there && c.Kind == changes.Changed && changes.Shows(d, c.Article) {
			list = append(list, Part{Heading: c.Article, Kind: c.Kind})
			continue
		}
		if c.Article != file || c.Kind == changes.Renamed && c.Heading == "" || c.OfHeader() != "" && manual.Controls(c.OfHeader()) {
			continue
		}
		name := c.Heading
		if key := c.OfHeader(); key != "" {
			name = key
		}
		list = append(list, Part{Heading: name, Kind: c.Kind})
	}
	return list
}

// values are the values of the line that have changed in the shop file.
func (s *since) values() []Part {
	var list []Part
	for _, c := range s.list {
		first, _, _ := strings.Cut(c.Heading, ":")
		if c.Article == manual.ShopFile && slices.Contains([]string{"tanks", "rinses", "dryer", "water"}, first) && !strings.Contains(c.Heading, "rests-on") {
			list = append(list, Part{c.Heading, c.Kind, c.Before, c.After})
		}
	}
	return list
}

// titleIn is the title of an article, or its name.
func titleIn(c *content.Content, file string) string {
	if d, there := c.At(file); there {
		for _, p := range d.Parts() {
			if p.Name == content.HeaderKey+"title" {
				return p.Text
			}
		}
	}
	return path.Base(file)
}
