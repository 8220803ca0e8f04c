package tree

import (
	"strconv"
	"strings"

	"tankside/builder/finding"
)

const walkSource = "our own format for symptom trees; DIN 66001 and ISO 5807 demand the same of decisions in a flowchart (from memory, to be confirmed by the process engineer)"

var (
	ruleNoTree = finding.Rule{
		Name: "no-first-step", Severity: finding.Result,
		Finds:  "a symptom article without a step to begin with",
		Why:    "Somebody with the bad part in the hand is asked nothing and led nowhere.",
		Source: walkSource,
	}
	ruleAnswerToNothing = finding.Rule{
		Name: "answer-to-nothing", Severity: finding.Result,
		Finds:  "an answer that leads to no step and no article",
		Why:    "The walk stops in the middle, with the part still bad.",
		Source: walkSource,
	}
	ruleDeadEnd = finding.Rule{
		Name: "dead-end", Severity: finding.Result,
		Finds:  "a question without answers, or an answer without a link",
		Why:    "The walk stops in the middle, with the part still bad.",
		Source: walkSource,
	}
	ruleUnreachable = finding.Rule{
		Name: "unreachable-step", Severity: finding.Result,
		Finds:  "a step or remedy to which no answer leads",
		Why:    "What it says is never read by those who walk the tree.",
		Source: walkSource,
	}
	ruleCircle = finding.Rule{
		Name: "circle", Severity: finding.Result,
		Finds:  "answers that lead back to a step already passed",
		Why:    "People who go round in a circle give up, or guess.",
		Source: walkSource,
	}
	ruleOneAnswer = finding.Rule{
		Name: "one-answer", Severity: finding.Untidy,
		Finds:  "a step with a single answer",
		Why:    "A question that can be answered one way only asks nothing; often the other answer was forgotten.",
		Source: walkSource,
	}
	ruleNoRecheck = finding.Rule{
		Name: "remedy-without-recheck", Severity: finding.Result,
		Finds:  "a remedy that does not say how to see that it has worked",
		Why:    "Without a recheck the next load goes through unproved, and nobody learns which remedy it was.",
		Source: "common practice, no source: change one thing, recheck, write it down",
	}
	ruleTwoHeadings = finding.Rule{
		Name: "duplicate-heading", Severity: finding.Result,
		Finds:  "two steps of a tree with one heading",
		Why:    "A link by the heading reaches the first of the two only.",
		Source: walkSource,
	}
)

// Rules are the rules for symptom trees.
func Rules() []finding.Rule {
	return []finding.Rule{
		ruleNoTree, ruleAnswerToNothing, ruleDeadEnd, ruleUnreachable, ruleCircle, ruleOneAnswer, ruleNoRecheck, ruleTwoHeadings,
	}
}

var checks = []func(*Tree) []finding.Finding{noTree, deadEnd, unreachable, circle, oneAnswer, noRecheck, twoHeadings}

func noTree(t *Tree) []finding.Finding {
	const remedy = "Write a section of level 2 whose heading is the first question, and close it with a list of answers, each ending in a link."
	switch {
	case t.Start == nil:
		return []finding.Finding{ruleNoTree.At(finding.Place{File: t.Article.Path, Line: t.Article.Start, Column: 1}, "The symptom has no sections, so there is no step to begin with.", remedy)}
	case t.Start.Remedy && !asks(t.Start):
		return []finding.Finding{ruleNoTree.At(t.Start.Section.At, "The first section, “"+t.Start.Section.Heading+"”, has no answers, so the walk ends where it begins.", remedy)}
	}
	return nil
}

// asks tells whether a node without answers was meant to be a step.
func asks(n *Node) bool {
	return len(n.Section.Unlinked) > 0 || strings.HasSuffix(strings.TrimSpace(n.Section.Heading), "?")
}

func deadEnd(t *Tree) []finding.Finding {
	var list []finding.Finding
	for _, n := range t.Nodes {
		switch {
		case len(n.Section.Unlinked) > 0:
			for _, at := range n.Section.Unlinked {
				list = append(list, ruleDeadEnd.At(at, "This answer of the step “"+n.Section.Heading+"” does not end in a link.", "End it with a link to the next step or to a remedy: [Hard-water salts](#hard-water-salts)"))
			}
		case n.Remedy && asks(n):
			list = append(list, ruleDeadEnd.At(n.Section.At, "“"+n.Section.Heading+"” asks a question and gives no answers.", "Close the section with a list of answers, each ending in a link. If it is a remedy, do not phrase its heading as a question."))
		}
	}
	return list
}

func unreachable(t *Tree) []finding.Finding {
	var list []finding.Finding
	for _, n := range t.Nodes {
		if n.Depth < 0 && !t.blamed(n) {
			list = append(list, ruleUnreachable.At(n.Section.At, "No answer leads to “"+n.Section.Heading+"”.", "Link to #"+n.Section.Anchor+" from an answer, or take the section out."))
		}
	}
	return list
}

// blamed tells whether the way to an unreachable node is broken at a place that is reported already: every step that names it is
// itself unreachable, or has a list of answers that could not be read.
func (t *Tree) blamed(n *Node) bool {
	for _, from := range t.Nodes {
		for _, a := range from.Answers {
			if a.To == n && from != n {
				return true // its own step is unreachable, and is reported
			}
		}
		if len(from.Section.Unlinked) > 0 && from.Depth >= 0 {
			return true // its answers are not known
		}
	}
	return false
}

func circle(t *Tree) []finding.Finding {
	var list []finding.Finding
	const (
		fresh = iota
		open
		done
	)
	state := make(map[*Node]int, len(t.Nodes))
	var visit func(*Node)
	visit = func(n *Node) {
		state[n] = open
		for _, a := range n.Answers {
			switch {
			case a.To == nil:
			case state[a.To] == open:
				list = append(list, ruleCircle.At(a.Link.At, "The answer “"+a.Text+"” leads back to “"+a.To.Section.Heading+"”, which has been passed on the way here.",
					"Lead it to a remedy or to a new question. What is to be repeated belongs in the remedy's recheck.", a.To.Section.At))
			case state[a.To] == fresh:
				visit(a.To)
			}
		}
		state[n] = done
	}
	for _, n := range t.Nodes {
		if state[n] == fresh {
			visit(n)
		}
	}
	return list
}

func oneAnswer(t *Tree) []finding.Finding {
	var list []finding.Finding
	for _, n := range t.Nodes {
		if len(n.Section.Answers) == 1 {
			list = append(list, ruleOneAnswer.At(n.Section.At, "The step “"+n.Section.Heading+"” has one answer only.", "Add the other answers, or join the step with the one that it leads to."))
		}
	}
	return list
}

func noRecheck(t *Tree) []finding.Finding {
	var list []finding.Finding
	for _, n := range t.Nodes {
		if n.Remedy && !asks(n) && n != t.Start && !t.rechecks(n) {
			list = append(list, ruleNoRecheck.At(n.Section.At, "The remedy “"+n.Section.Heading+"” does not say how to see that it has worked.",
				"Add a paragraph that begins with **Recheck.** and says what to look at, on how many parts, and which number passes."))
		}
	}
	return list
}

// rechecks tells whether a remedy, its sub-sections included, has a paragraph that opens with “Recheck.”.
func (t *Tree) rechecks(n *Node) bool {
	inside := false
	for i := range t.Article.Sections {
		s := &t.Article.Sections[i]
		if s.Level <= 2 {
			inside = s == n.Section
		}
		if !inside {
			continue
		}
		for _, l := range s.Leads {
			if strings.HasPrefix(l.Text, "Recheck") {
				return true
			}
		}
	}
	return false
}

func twoHeadings(t *Tree) []finding.Finding {
	var list []finding.Finding
	first := make(map[string]*Node, len(t.Nodes))
	for _, n := range t.Nodes {
		key := strings.ToLower(n.Section.Heading)
		if before := first[key]; before != nil {
			list = append(list, ruleTwoHeadings.At(n.Section.At, "The heading “"+n.Section.Heading+"” is used before, for step "+strconv.Itoa(before.Number)+".", "Word the two differently.", before.Section.At))
			continue
		}
		first[key] = n
	}
	return list
}
