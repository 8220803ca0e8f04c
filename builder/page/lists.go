package page

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/manual"
)

// listContent is what the list template shows.
type listContent struct {
	Title, Summary string
	Tables         []link // the tables that are derived from these articles
	Groups         []group
}

// group is a list of links under a heading.
type group struct {
	Title string
	Links []link
}

// kind fills the page that lists the articles of a kind.
func (s *site) kind(f *frame, k manual.Kind) error {
	c := listContent{Title: s.words.say(k.Heading()), Tables: s.derivedLinks(f.Root, k)}
	f.Title = c.Title
	if k == manual.Lesson {
		c.Groups = []group{{Links: s.links(f.Root, s.lessons())}}
		f.Content = c
		return nil
	}
	for _, st := range manual.Stations {
		var list []*manual.Article
		for _, a := range s.Manual.Articles {
			if a.Kind == k && a.Head.Station == st {
				list = append(list, a)
			}
		}
		if len(list) > 0 {
			s.sort(list)
			c.Groups = append(c.Groups, group{s.words.say(stationTitles[st]), s.links(f.Root, list)})
		}
	}
	if len(c.Groups) == 1 { // one heading alone parts nothing
		c.Groups[0].Title = ""
	}
	f.Content = c
	return nil
}

// lessons are in the order of the course.
func (s *site) lessons() []*manual.Article {
	var list []*manual.Article
	for _, a := range s.Manual.Articles {
		if a.Kind == manual.Lesson {
			list = append(list, a)
		}
	}
	slices.SortStableFunc(list, func(a, b *manual.Article) int { return a.Lesson.Order - b.Lesson.Order })
	return list
}

// station fills the page that lists what belongs to a station of the line, and the vessels that stand there.
func (s *site) station(f *frame, st manual.Station) error {
	c := listContent{Title: s.words.say(stationTitles[st]), Tables: s.vesselsAt(f.Root, st), Groups: s.atStation(f.Root, st, nil)}
	f.Title = s.words.say("Station") + ": " + c.Title
	if links := s.recordLinks(f.Root, st == "wash"); len(links) > 0 && (st == "wash" || st == "rinse") {
		c.Groups = append(c.Groups, group{s.words.say("Readings"), links})
	}
	f.here(st)
	f.Content = c
	return nil
}

// atStation lists the articles of a station kind by kind, but for some.
func (s *site) atStation(root string, st manual.Station, but []*manual.Article) []group {
	var groups []group
	for _, k := range manual.Kinds {
		var list []*manual.Article
		for _, a := range s.Manual.Articles {
			if a.Kind == k && a.Head.Station == st && !slices.Contains(but, a) {
				list = append(list, a)
			}
		}
		if len(list) > 0 {
			s.sort(list)
			groups = append(groups, group{s.words.say(k.Heading()), s.links(root, list)})
		}
	}
	return groups
}

// vesselsAt links the tanks, rinses or the dryer of a station that have a page of their own.
func (s *site) vesselsAt(root string, st manual.Station) []link {
	var links []link
	for _, stop := range s.line() {
		if stop.station == st && stop.tank != "" && stop.at != stationPage(st) {
			l := s.toPage(root, stop.at, stop.Name)
			l.Lang = stop.Lang
			links = append(links, l)
		}
	}
	return links
}

// stationTitles are the headings of the stations' pages.
var stationTitles = map[manual.Station]string{
	"receive": "Receive", "wash": "Wash", "rinse": "Rinse", "dry": "Dry", "inspect": "Inspect", "maintain": "Care",
}

// sort puts articles in the order of their titles in the site's language.
func (s *site) sort(list []*manual.Article) {
	slices.SortFunc(list, func(a, b *manual.Article) int { return byTitle(s.local(a), s.local(b)) })
}

func (s *site) links(root string, list []*manual.Article) []link {
	var links []link
	for _, a := range list {
		l := s.toArticle(root, a)
		l.Note, l.NoteLang = s.local(a).Head.Summary, l.Lang
		links = append(links, l)
	}
	return links
}

// fold brings a word into the form by which it is sorted: without case and accents. The sign of the micro, which is read so, stands among the m.
func fold(word string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r):
			return -1
		case r == 'µ' || r == 'μ':
			return 'm'
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(word))
}
