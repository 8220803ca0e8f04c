package main

import (
	"context"
	"fmt"
	"io"
	"strconv"
	"time"

	"tankside/builder"
	"tankside/builder/control"
	"tankside/builder/manual"
)

var reviewsCommand = command{
	name: "reviews",
	args: "[MANUAL]",
	does: "what has to be looked at again, and when",
	more: `Lists the articles whose review is overdue, or due within so many days. The edition has the same as a page, and all reviews as a calendar
file, reviews.ics. An overdue review stops no publication: the article's pages and sheets say so. Exit status 1 where one is overdue.`,
	setUp: func(o *options) action {
		days := o.text("days", "N", "how far ahead; without it 90", "90")
		asJSON := o.yes("json", "for programs: a list of path, title, revision, review-by, days, approval, name, role")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err != nil {
				return err
			}
			ahead, err := strconv.Atoi(*days)
			if err != nil || ahead < 0 {
				return fmt.Errorf("--days takes a whole number of days, not %q", *days)
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			m, _, err := builder.Read(ctx, folder, now)
			if err != nil {
				return err
			}
			list := control.Reviews(m, now)
			due, overdue := list[:0], 0
			for _, r := range list {
				if r.Days <= ahead {
					due = append(due, r)
				}
				if r.Days < 0 {
					overdue++
				}
			}
			if *asJSON {
				err = c.json(reviewsJSON(due))
			} else {
				writeReviews(c.out, due, overdue, ahead)
			}
			if err == nil && overdue > 0 {
				err = status(exitFindings)
			}
			return err
		}
	},
}

type reviewJSON struct {
	Path     string               `json:"path"`
	Title    string               `json:"title"`
	Revision string               `json:"revision"`
	ReviewBy string               `json:"review-by"`
	Days     int                  `json:"days"`
	Approval manual.ApprovalState `json:"approval"`
	Name     string               `json:"name"`
	Role     string               `json:"role"`
}

func reviewsJSON(list []control.Review) []reviewJSON {
	all := []reviewJSON{}
	for _, r := range list {
		h := r.Article.Head
		all = append(all, reviewJSON{r.Article.Path, h.Title, h.Revision, h.ReviewBy.Format(time.DateOnly), r.Days, r.Article.ApprovalState(), h.Approval.Name, h.Approval.Role})
	}
	return all
}

func writeReviews(w io.Writer, due []control.Review, overdue, ahead int) {
	for _, r := range due {
		when := fmt.Sprintf("in %s", count(r.Days, "day", "days"))
		switch {
		case r.Days < 0:
			when = fmt.Sprintf("overdue by %s", count(-r.Days, "day", "days"))
		case r.Days == 0:
			when = "today"
		}
		who := "not approved"
		if p := r.Article.Head.Approval; r.Article.ApprovalState() == manual.Approved {
			who = p.Name + ", " + p.Role
		}
		fmt.Fprintf(w, "%s  %s  %s: %s (%s)\n", r.Article.Head.ReviewBy.Format(time.DateOnly), when, r.Article.Path, shown(r.Article.Head.Title), shown(who))
	}
	fmt.Fprintf(w, "%s due within %d days, %d of them overdue.\n", count(len(due), "review", "reviews"), ahead, overdue)
}
