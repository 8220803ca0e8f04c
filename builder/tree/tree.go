// Package tree reads symptom trees: the way from what is seen to a remedy, one question at a time.
//
// In a symptom article each section of level 2 is a step. The list that closes it holds the answers; each answer ends in a link to
// another step of the article, or to another article. A section without such a list is a remedy: the walk ends there.
// The walk begins at the first section of level 2.
//
//	## Does it wipe off dry?
//
//	**How to look.** One stroke with a dry white cloth, under a lamp.
//
//	- Yes: [Hard-water salts](#hard-water-salts)
//	- No: [Is it iridescent?](#is-it-iridescent)
//
// Of gives the tree with everything that is wrong with it. On paper the steps are walked by their numbers.
package tree

import (
	"path"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Tree is the tree of one symptom article.
type Tree struct {
	Article *manual.Article
	Start   *Node   // where the walk begins; nil when the article has no section of level 2
	Nodes   []*Node // steps and remedies in the order of the article
}

// Node is a step or a remedy.
type Node struct {
	Section *manual.Section
	Number  int      // from 1, in the order of the article: what the printed form calls it
	Remedy  bool     // no answers: the walk ends here
	Depth   int      // answers given on the shortest way here; -1 when no way leads here
	Answers []Answer // empty for a remedy
}

// Answer is a way on from a step. To is set when it leads to another section of the article; otherwise Link leads elsewhere.
type Answer struct {
	Text string
	To   *Node
	Link manual.Link
}

// Node gives the step or remedy with that anchor, or nil.
func (t *Tree) Node(anchor string) *Node {
	for _, n := range t.Nodes {
		if n.Section.Anchor == anchor {
			return n
		}
	}
	return nil
}

// Of reads the tree of a symptom article. Answers that lead nowhere are left out of it and reported.
func Of(a *manual.Article) (*Tree, []finding.Finding) {
	t := &Tree{Article: a}
	for i := range a.Sections {
		if s := &a.Sections[i]; s.Level == 2 {
			t.Nodes = append(t.Nodes, &Node{Section: s, Number: len(t.Nodes) + 1, Remedy: len(s.Answers) == 0, Depth: -1})
		}
	}
	var list []finding.Finding
	for _, n := range t.Nodes {
		list = append(list, t.link(n)...)
	}
	if len(t.Nodes) > 0 {
		t.Start = t.Nodes[0]
		t.measure()
	}
	for _, check := range checks {
		list = append(list, check(t)...)
	}
	finding.Sort(list)
	return t, list
}

// link finds where the answers of a node lead.
func (t *Tree) link(n *Node) []finding.Finding {
	var list []finding.Finding
	for _, a := range n.Section.Answers {
		target, anchor, hasAnchor := strings.Cut(a.Link.Target, "#")
		if target != "" && path.Join(path.Dir(t.Article.Path), target) != t.Article.Path {
			n.Answers = append(n.Answers, Answer{Text: a.Text, Link: a.Link})
			continue
		}
		if !hasAnchor || anchor == "" {
			list = append(list, ruleAnswerToNothing.At(a.Link.At, "The answer “"+a.Text+"” leads to this article as a whole, not to a step.", "Link to the heading of the next step: (#does-it-wipe-off)"))
			continue
		}
		to := t.Node(anchor)
		if to == nil {
			list = append(list, ruleAnswerToNothing.At(a.Link.At, "The answer “"+a.Text+"” leads to “#"+anchor+"”, which is no section of level 2 of this article.", t.suggest(anchor)))
			continue
		}
		n.Answers = append(n.Answers, Answer{Text: a.Text, Link: a.Link, To: to})
	}
	return list
}

// suggest says which step was likely meant.
func (t *Tree) suggest(anchor string) string {
	var anchors []string
	for _, n := range t.Nodes {
		anchors = append(anchors, n.Section.Anchor)
	}
	if near := manual.Nearest(manual.Anchor(anchor), anchors); near != "" {
		return "Did you mean #" + near + "?"
	}
	return "Write the section, or link to one of: #" + strings.Join(anchors, ", #")
}

// measure sets the depth of every node that the walk can reach.
func (t *Tree) measure() {
	t.Start.Depth = 0
	for next := []*Node{t.Start}; len(next) > 0; next = next[1:] {
		for _, a := range next[0].Answers {
			if a.To != nil && a.To.Depth < 0 {
				a.To.Depth = next[0].Depth + 1
				next = append(next, a.To)
			}
		}
	}
}
