package control

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tankside/builder/manual"
)

// Review is when an article has to be looked at again.
type Review struct {
	Article *manual.Article
	Days    int // from today; below zero where it is overdue
}

// Within are the numbers of days by which reviews are listed.
var Within = []int{30, 60, 90}

// Reviews lists the reviews of all articles that are published and say when they are due, the earliest first. A translation goes with its original.
func Reviews(m *manual.Manual, today time.Time) []Review {
	var list []Review
	for _, a := range m.Articles {
		if !a.Head.ReviewBy.IsZero() {
			list = append(list, Review{a, a.DueIn(today)})
		}
	}
	slices.SortFunc(list, func(a, b Review) int {
		return cmp.Or(a.Article.Head.ReviewBy.Compare(b.Article.Head.ReviewBy), strings.Compare(a.Article.Path, b.Article.Path))
	})
	return list
}

// Grouped parts reviews: the overdue ones, those due within each number of days of Within, from the day after the number before, and the rest.
func Grouped(list []Review) [][]Review {
	groups := make([][]Review, len(Within)+2)
	for _, r := range list {
		at := len(Within) + 1
		switch within := slices.IndexFunc(Within, func(days int) bool { return r.Days <= days }); {
		case r.Days < 0:
			at = 0
		case within >= 0:
			at = within + 1
		}
		groups[at] = append(groups[at], r)
	}
	return groups
}
