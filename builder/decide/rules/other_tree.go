package rules

import (
	"fmt"
	"path"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/tree"
)

// otherTree finds translated symptom trees that lead elsewhere than the original's.
// It prevents that one answer leads readers of two languages to two remedies, of which at most one is right.
// The limit is the original's tree: the same steps, remedies and answers in the same order, each answer leading to the same place. Words are
// not compared. A tree of which the original has faults is left alone until they are put right.
var otherTree = finding.Rule{
	Name: "other-tree", Severity: finding.Result,
	Finds:  "a translated symptom tree with other steps or answers than the original's, or with answers that lead elsewhere",
	Why:    "The same answer leads readers of the translation to another remedy, or to none.",
	Source: "the original",
}

func findOtherTrees(p *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil || t.Kind != manual.Symptom {
		return nil
	}
	theirs, _ := tree.Of(o)
	own, _ := tree.Of(t)
	one := func(at finding.Place, message, remedy string, also finding.Place) []finding.Finding {
		return []finding.Finding{otherTree.At(at, message, remedy, also)}
	}
	for i, n := range own.Nodes {
		if i >= len(theirs.Nodes) {
			return one(n.Section.At, fmt.Sprintf("The original has %d steps and remedies; this is one more.", i), "Translate section by section, in the original's order.", finding.Place{File: o.Path})
		}
		same := theirs.Nodes[i]
		what := map[bool]string{true: "a remedy", false: "a step with answers"}
		if n.Remedy != same.Remedy {
			return one(n.Section.At, fmt.Sprintf("“%s” is %s; in the original, “%s” is %s.", n.Section.Heading, what[n.Remedy], same.Section.Heading, what[same.Remedy]),
				"Close a step with a list whose every item ends in a link, and a remedy with something else.", same.Section.At)
		}
		// The lists as written: the trees leave out answers that lead nowhere.
		written, original := n.Section.Answers, same.Section.Answers
		if len(written) != len(original) {
			return one(n.Section.At, fmt.Sprintf("“%s” has %d answers; in the original, “%s” has %d.", n.Section.Heading, len(written), same.Section.Heading, len(original)),
				"Translate each answer, in the original's order.", same.Section.At)
		}
		for k, a := range written {
			if leads(own, a.Link, t) != leads(theirs, original[k].Link, o) {
				return one(a.Link.At, fmt.Sprintf("The answer “%s” leads elsewhere than the original's “%s”.", a.Text, original[k].Text),
					"Link it to the same step by its heading here, or to the same article.", original[k].Link.At)
			}
		}
	}
	if n := len(own.Nodes); n < len(theirs.Nodes) {
		return one(at(t, "title"), fmt.Sprintf("The translation ends before “%s” of the original.", theirs.Nodes[n].Section.Heading), "Translate section by section, in the original's order.", theirs.Nodes[n].Section.At)
	}
	return nil
}

// leads says where an answer leads, for comparison: the number of a step, or the article.
func leads(t *tree.Tree, l manual.Link, of *manual.Article) string {
	for _, n := range t.Nodes {
		for _, a := range n.Answers {
			if a.Link.At == l.At && a.To != nil {
				return fmt.Sprint(a.To.Number)
			}
		}
	}
	return path.Join(path.Dir(of.Path), l.Target)
}
