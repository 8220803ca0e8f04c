package changes

import (
	"cmp"
	"fmt"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"

	"tankside/builder/content"
	"tankside/builder/ledger"
	"tankside/builder/manual"
)

// Renamings are the files that have other names.
func Renamings(list []Change) []ledger.Renamed {
	var all []ledger.Renamed
	for _, c := range list {
		if c.Kind == Renamed && c.Heading == "" {
			all = append(all, ledger.Renamed{From: c.Before, To: c.After})
		}
	}
	return all
}

// Files are the changes file by file.
type Files struct {
	Added, Removed []string // paths
	Renamed        []string // by the newer paths
	Changed        []string // what is in them, those that have another name as well among them
}

// ByFile sorts the files by what has happened to them. a and b are the contents of which the list is.
func ByFile(a, b *content.Content, list []Change) Files {
	var f Files
	from, gone := map[string]string{}, map[string]bool{}
	for _, r := range Renamings(list) {
		from[r.To], gone[r.From] = r.From, true
	}
	for _, p := range paths(list) {
		_, had := a.At(p)
		_, has := b.At(p)
		switch {
		case from[p] != "":
			f.Renamed = append(f.Renamed, p)
		case !had || gone[p]: // what was there has another path now
			f.Added = append(f.Added, p)
			continue
		case !has:
			f.Removed = append(f.Removed, p)
			continue
		}
		if slices.ContainsFunc(list, func(c Change) bool { return c.Article == p && (c.Kind != Renamed || c.Heading != "") }) {
			f.Changed = append(f.Changed, p)
		}
	}
	return f
}

func paths(list []Change) []string {
	var all []string
	for _, c := range list {
		if len(all) == 0 || all[len(all)-1] != c.Article {
			all = append(all, c.Article)
		}
	}
	return all
}

// InShort says in one line what has changed, for the ledger. a and b are the contents of which the list is.
func InShort(a, b *content.Content, list []Change) string {
	f := ByFile(a, b, list)
	f.Changed = slices.DeleteFunc(f.Changed, func(p string) bool { return p == manual.ShopFile })
	var told []string
	for _, t := range []struct {
		files []string
		word  string
	}{{f.Changed, "changed"}, {f.Added, "new"}, {f.Removed, "taken out"}, {f.Renamed, "renamed"}} {
		if len(t.files) > 0 {
			told = append(told, fmt.Sprintf("%d %s", len(t.files), t.word))
		}
	}
	var parts, settings []string
	if len(told) > 0 {
		parts = append(parts, "files: "+strings.Join(told, ", "))
	}
	for _, c := range list {
		if c.Article == manual.ShopFile {
			settings = append(settings, fmt.Sprintf("%s %s → %s", c.Heading, cmp.Or(flat(c.Before), "–"), cmp.Or(flat(c.After), "–")))
		}
	}
	if len(settings) > 0 {
		parts = append(parts, manual.ShopFile+": "+strings.Join(settings, ", "))
	}
	return strings.Join(parts, "; ")
}

func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

// Follows is what has to be done on the floor once an edition takes the place of another.
type Follows struct {
	Cards   []string // tanks, rinses and the dryer, by their ids: cards that may say something else now
	Down    []string // by their ids: cards of what is not there any more
	Sheets  []string // paths of parts whose process sheets may say something else now
	Lessons []string // paths of lessons that say something else now
	Gone    []string // paths of parts and lessons that are not there any more: their sheets are to be taken away
	Readers []Reader
}

// Printed is what is printed of an edition, by codes that are the same exactly if the print says the same. A map is nil where nobody knows.
type Printed struct {
	Cards  map[string]string // by the ids of tanks, rinses and the dryer
	Sheets map[string]string // by the paths of their articles: process sheets of parts, and what lessons print that is not in their own words
}

// With gives what follows where it is known what was printed and is: then only those cards and process sheets are named that say something else, and those that are new, and
// lessons that show something else as well. What is not known of both is as it was. list are the changes, which say what was renamed.
func (f Follows) With(was, is Printed, list []Change) Follows {
	return f.withCards(was.Cards, is.Cards).withSheets(was.Sheets, is.Sheets, list)
}

func (f Follows) withSheets(was, is map[string]string, list []Change) Follows {
	if was == nil || is == nil {
		return f
	}
	from := map[string]string{}
	for _, r := range Renamings(list) {
		from[r.To] = r.From
	}
	lessons := f.Lessons
	f.Sheets, f.Lessons = nil, nil
	for _, p := range slices.Sorted(maps.Keys(is)) {
		same := was[cmp.Or(from[p], p)] == is[p]
		switch path.Dir(p) {
		case "parts":
			if !same {
				f.Sheets = append(f.Sheets, p)
			}
		case "lessons":
			if !same || slices.Contains(lessons, p) {
				f.Lessons = append(f.Lessons, p)
			}
		}
	}
	return f
}

func (f Follows) withCards(was, is map[string]string) Follows {
	if was == nil || is == nil {
		return f
	}
	var cards []string
	for _, id := range f.Cards {
		if was[id] != is[id] {
			cards = append(cards, id)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(is)) {
		if was[id] != is[id] && !slices.Contains(f.Cards, id) {
			cards = append(cards, id)
		}
	}
	f.Cards = cards
	return f
}

// Reader is a role with what it has to read again. A role "" is everybody: no lesson says who works at the station.
type Reader struct {
	Role  string
	Files []string // paths
}

// noCard are the keys of the shop file that no card and no process sheet shows or rests on.
var noCard = map[string]bool{
	"seen-most": true, "theme": true, "type": true, "accent": true, "reading-grade": true, "translations": true, "currency": true, "energy-price": true, "note": true,
}

// Consequences works out what follows from the changes between two contents. It rather names a card or a sheet too many: [Follows.With] says whether it
// is another, where what is printed can be compared.
func Consequences(a, b *content.Content, list []Change) Follows {
	c := consequences{a: a, b: b, list: list, shop: partsAt(b, manual.ShopFile), was: partsAt(a, manual.ShopFile), changed: map[string]bool{}}
	c.follows = followersOf(list)
	for _, one := range list {
		if key := one.OfHeader(); (key == "" || !manual.Controls(key)) && c.tells(one) {
			c.changed[one.Article] = true
		}
	}
	c.changePictured()
	var f Follows
	f.Cards, f.Down = c.cards()
	for _, d := range b.Docs() {
		kind := path.Dir(d.Path)
		switch {
		case kind == "parts" && c.sheet(d):
			f.Sheets = append(f.Sheets, d.Path)
		case kind == "lessons" && slices.ContainsFunc(list, func(o Change) bool { return o.Article == d.Path && c.tells(o) }):
			f.Lessons = append(f.Lessons, d.Path)
		}
	}
	for _, p := range ByFile(a, b, list).Removed {
		if kind := path.Dir(p); kind == "parts" || kind == "lessons" {
			f.Gone = append(f.Gone, p)
		}
	}
	f.Readers = c.readers()
	return f
}

type consequences struct {
	follows   *strings.Replacer // has an old text name files as they are named now
	a, b      *content.Content
	list      []Change
	shop, was map[string]string // the shop file's values
	changed   map[string]bool   // files of which something has changed that readers work by
}

// changePictured counts an article as changed that shows a picture which has changed: who works by it sees something else.
func (c *consequences) changePictured() {
	for _, one := range c.list {
		if one.Kind != Changed || path.Dir(one.Article) != pictureFolder {
			continue
		}
		for _, d := range c.b.Docs() {
			if Shows(d, one.Article) {
				c.changed[d.Path] = true
			}
		}
	}
}

const pictureFolder = "pictures"

// Shows tells whether an article shows a picture, by its path: ![Foil](../pictures/foil.svg).
func Shows(article content.Doc, picture string) bool {
	name := path.Base(picture)
	if path.Dir(picture) != pictureFolder || !content.IsArticle(article.Path) {
		return false
	}
	for _, p := range article.Parts() {
		for _, written := range []string{name, url.PathEscape(name), strings.ReplaceAll(name, " ", "%20")} {
			for _, end := range []string{")", " ", ">"} { // of a target, with a title behind it, between angle brackets
				if strings.Contains(p.Text, pictureFolder+"/"+written+end) {
					return true
				}
			}
		}
	}
	return false
}

// followersOf has a text that names files by their older names name them as they are named now, in links and in headers.
func followersOf(list []Change) *strings.Replacer {
	var pairs []string
	for _, r := range Renamings(list) {
		if content.IsArticle(r.From) {
			pairs = append(pairs, strings.TrimSuffix(path.Base(r.From), ".md"), strings.TrimSuffix(path.Base(r.To), ".md"))
		}
	}
	return strings.NewReplacer(pairs...)
}

// tells is whether a change tells a reader anything: the new name of a file does not, and neither does a link that follows it.
func (c *consequences) tells(one Change) bool {
	if one.Kind == Renamed && one.Heading == "" {
		return false
	}
	return one.Kind != Changed || c.follows.Replace(one.Before) != c.follows.Replace(one.After)
}

func partsAt(c *content.Content, path string) map[string]string {
	d, there := c.At(path)
	if !there {
		return nil
	}
	parts := map[string]string{}
	for _, p := range d.Parts() {
		parts[p.Name] = p.Text
	}
	return parts
}

// stands are the ids of tanks, rinses and the dryer.
func stands(shop map[string]string) []string {
	var ids []string
	for _, list := range []string{"tanks", "rinses"} {
		ids = append(ids, strings.Fields(shop[list])...)
	}
	if id := shop["dryer: id"]; id != "" {
		ids = append(ids, id)
	}
	return ids
}

// about gives the ids of the shop file that its changes are about; everything is true where something has changed that all of them rest on.
func (c *consequences) about() (ids map[string]bool, everything bool) {
	ids = map[string]bool{}
	for _, one := range c.list {
		if one.Article == manual.VocabularyFile {
			return ids, true
		}
		if one.Article != manual.ShopFile {
			continue
		}
		switch keys := strings.SplitN(one.Heading, ": ", 3); {
		case (keys[0] == "tanks" || keys[0] == "rinses") && len(keys) > 1:
			ids[keys[1]] = true
		case keys[0] == "tanks" || keys[0] == "rinses": // which there are, and in which order
		case keys[0] == "dryer":
			ids[c.shop["dryer: id"]] = true
		case !noCard[keys[0]]:
			everything = true
		}
	}
	return ids, everything
}

func (c *consequences) cards() (cards, down []string) {
	about, everything := c.about()
	others := false // of which every card of a tank may tell
	for p := range c.changed {
		others = others || path.Dir(p) == "materials" || path.Dir(p) == "procedures"
	}
	there := stands(c.shop)
	for _, id := range there {
		chemistry := c.shop["tanks: "+id+": chemistry"]
		_, isTank := c.shop["tanks: "+id+": id"]
		if everything || about[id] || isTank && (others || chemistry != "" && c.changed["chemistries/"+chemistry+".md"]) {
			cards = append(cards, id)
		}
	}
	for _, id := range stands(c.was) {
		if !slices.Contains(there, id) {
			down = append(down, id)
		}
	}
	return cards, down
}

// sheet tells whether a part's process sheet may say something else.
func (c *consequences) sheet(d content.Doc) bool {
	for _, one := range c.list {
		if one.Article == d.Path && c.tells(one) {
			return true
		}
	}
	about, everything := c.about()
	if everything {
		return true
	}
	original, _ := manual.OriginalOf(d.Path)
	names := map[string]bool{}
	if of, there := c.b.At(original); there {
		for _, p := range of.Parts() {
			if strings.HasPrefix(p.Name, content.HeaderKey) {
				for _, name := range strings.FieldsFunc(p.Text, func(r rune) bool { return strings.ContainsRune(" \n\t,:[]{}\"'", r) }) {
					names[name] = true
				}
			}
		}
	}
	for _, id := range stands(c.shop) {
		if names[id] {
			names[c.shop["tanks: "+id+": chemistry"]] = true
		}
		if names[id] && about[id] {
			return true
		}
	}
	for p := range c.changed {
		if names[strings.TrimSuffix(path.Base(p), ".md")] && slices.Contains([]string{"chemistries", "materials", "soils", "procedures"}, path.Dir(p)) {
			return true
		}
	}
	return false
}

// readers says which roles have to read what has changed: those of the lessons at the article's station, and of the lessons that name it.
func (c *consequences) readers() []Reader {
	lessons := c.lessons()
	by := map[string][]string{}
	for _, p := range slices.Sorted(maps.Keys(c.changed)) {
		d, there := c.b.At(p)
		if !there || !content.IsArticle(p) {
			continue
		}
		original, _ := manual.OriginalOf(p)
		roles := map[string]bool{}
		station := ""
		if of, has := c.b.At(original); has {
			station = headerOf(of, "station")
		}
		for _, l := range lessons {
			if l.station == station || strings.Contains(l.text, path.Base(original)) || l.path == original {
				for _, r := range l.roles {
					roles[r] = true
				}
			}
		}
		if len(roles) == 0 {
			roles[""] = true
		}
		for r := range roles {
			by[r] = append(by[r], d.Path)
		}
	}
	var list []Reader
	for _, r := range slices.Sorted(maps.Keys(by)) {
		list = append(list, Reader{r, by[r]})
	}
	return list
}

// lesson is what is asked of a lesson.
type lesson struct {
	path, station, text string
	roles               []string
}

func (c *consequences) lessons() []lesson {
	var list []lesson
	for _, d := range c.b.Docs() {
		if _, language := manual.OriginalOf(d.Path); path.Dir(d.Path) != "lessons" || language != "" || !content.IsArticle(d.Path) {
			continue
		}
		l := lesson{path: d.Path, station: headerOf(d, "station")}
		for _, p := range d.Parts() {
			l.text += p.Text + "\n"
		}
		for _, role := range strings.Split(headerOf(d, "for"), "\n") {
			if role = strings.TrimSpace(strings.TrimPrefix(role, "- ")); role != "" {
				l.roles = append(l.roles, role)
			}
		}
		list = append(list, l)
	}
	return list
}

func headerOf(d content.Doc, key string) string {
	for _, p := range d.Parts() {
		if p.Name == content.HeaderKey+key {
			return p.Text
		}
	}
	return ""
}
