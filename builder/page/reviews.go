package page

import (
	"cmp"
	"fmt"

	"tankside/builder/control"
	"tankside/builder/manual"
)

// reviewsPage lists what has to be looked at again, and ReviewsFile has the same for calendars.
const (
	reviewsPage = "reviews.html"
	ReviewsFile = "reviews.ics"
)

// reviews fills the page.
func (s *site) reviews(f *frame) error {
	f.Title = s.words.say("Reviews")
	c := listContent{Title: f.Title, Summary: fmt.Sprintf(s.words.say("What has to be looked at again, as of %s."), s.Day)}
	c.Tables = []link{{Href: f.Root + ReviewsFile, Title: s.words.say("Calendar file"), Note: s.words.say("all reviews, as iCalendar")}}
	groups := control.Grouped(control.Reviews(s.Manual, s.today()))
	titles := []string{s.words.say("Overdue")}
	before := 0
	for _, days := range control.Within {
		titles = append(titles, fmt.Sprintf(s.words.say("Due in %d to %d days"), before, days))
		before = days + 1
	}
	for i, title := range titles {
		g := group{Title: fmt.Sprintf("%s (%d)", title, len(groups[i]))}
		for _, r := range groups[i] {
			l := s.toArticle(f.Root, r.Article)
			l.Note = r.Article.Head.ReviewBy.Format("2006-01-02") + " · " + s.approver(r.Article)
			g.Links = append(g.Links, l)
		}
		c.Groups = append(c.Groups, g)
	}
	f.Content = c
	return nil
}

// approver names whoever answers for an article, or says that nobody does.
func (s *site) approver(a *manual.Article) string {
	c := s.control(a)
	if c.Approved == "" {
		return c.StateOfRelease
	}
	return c.Name + ", " + c.Role
}

// calendar is the file of all reviews. It is in the manual's own language.
func (s *site) calendar() []byte {
	var events []control.Event
	for _, r := range control.Reviews(s.Manual, s.today()) {
		a := r.Article
		events = append(events, control.Event{
			Of: a.Path, Day: a.Head.ReviewBy,
			Summary: fmt.Sprintf(s.words.say("Review: %s"), a.Head.Title),
			More:    fmt.Sprintf("%s %s · %s · %s", s.words.say("Revision"), a.Head.Revision, s.approver(a), a.Path),
		})
	}
	return control.Calendar(cmp.Or(s.Manual.Shop.Name, "Tankside"), s.today(), events)
}
