package tree

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// head is the header of a symptom article; the body begins on line 11.
const head = `---
title: Spotty parts
summary: Spots after drying.
station: dry
revision: A
approved: 2026-09-14, trainer
review-by: 2027-09-14
sources: [common practice, no source]
seen-on: part
---
`

const sound = `What is seen.

## Does it wipe off dry?

**How to look.** One stroke with a dry cloth.

- Yes, it wipes off dry: [Hard-water salts](#hard-water-salts)
- No: [Does it fizz?](#does-it-fizz)
- It is brown: [Darkened brass](darkened-brass.md)

## Does it fizz?

- Yes: [Hard-water salts](spotty-parts.md#hard-water-salts).
- No: [Detergent film](#detergent-film)

## Hard-water salts

1. Change the last rinse: [Rinse](../procedures/rinse.md)

**Recheck.** Five parts, no spot.

## Detergent film

### Why

Drag-out.

### Then

**Recheck.** Five parts, no film.
`

func of(t *testing.T, body string) (*Tree, []finding.Finding) {
	t.Helper()
	m, list, err := manual.Read(context.Background(), fstest.MapFS{
		manual.ShopFile:            {Data: []byte("name: Invented shop\nroles: [trainer]\n")},
		"symptoms/spotty-parts.md": {Data: []byte(head + body)},
	})
	if err != nil || len(list) > 0 {
		t.Fatal(err, list)
	}
	return Of(m.At("symptoms/spotty-parts.md"))
}

func TestWalk(t *testing.T) {
	tree, list := of(t, sound)
	if len(list) > 0 {
		t.Errorf("findings in a tree without fault: %v", list)
	}
	var got []string
	for _, n := range tree.Nodes {
		line := fmt.Sprintf("%d %s, depth %d, remedy %v:", n.Number, n.Section.Heading, n.Depth, n.Remedy)
		for _, a := range n.Answers {
			if a.To != nil {
				line += fmt.Sprintf(" %q→%d", a.Text, a.To.Number)
			} else {
				line += fmt.Sprintf(" %q→%s", a.Text, a.Link.Target)
			}
		}
		got = append(got, line)
	}
	want := []string{
		`1 Does it wipe off dry?, depth 0, remedy false: "Yes, it wipes off dry"→3 "No"→2 "It is brown"→darkened-brass.md`,
		`2 Does it fizz?, depth 1, remedy false: "Yes"→3 "No"→4`,
		`3 Hard-water salts, depth 1, remedy true:`,
		`4 Detergent film, depth 2, remedy true:`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if tree.Start != tree.Nodes[0] || tree.Node("detergent-film") != tree.Nodes[3] || tree.Node("nothing") != nil {
		t.Error("start or node by anchor is wrong")
	}
}

func TestFaultsOfTrees(t *testing.T) {
	change := func(pairs ...string) string {
		r := strings.NewReplacer(pairs...).Replace(sound)
		if r == sound {
			t.Fatalf("nothing was changed by %q", pairs)
		}
		return r
	}
	for name, c := range map[string]struct{ body, want string }{
		"no sections":          {"Only text.\n", "11:1 no-first-step"},
		"begins with a remedy": {"## Hard-water salts\n\n**Recheck.** Look.\n", "11:1 no-first-step"},
		"heading misspelt":     {change("(#detergent-film)", "(#detergent-fylm)"), "24:7 answer-to-nothing|32:1 unreachable-step"},
		"leads to sub-section": {change("(#does-it-fizz)", "(#why)"), "18:7 answer-to-nothing|21:1 unreachable-step"},
		"leads to the article": {change("(darkened-brass.md)", "(spotty-parts.md)"), "19:16 answer-to-nothing"},
		"no way there":         {change("- No: [Detergent film](#detergent-film)", "- No: [Hard-water salts](#hard-water-salts)"), "32:1 unreachable-step"},
		"island":               {sound + "\n## Is it warm?\n\n- Yes: [Detergent film](#detergent-film)\n- No: [Cold](#cold)\n\n## Cold\n\n**Recheck.** Look.\n", "42:1 unreachable-step"},
		"question unanswered":  {change("- Yes: [Hard-water salts](spotty-parts.md#hard-water-salts).\n- No: [Detergent film](#detergent-film)\n", ""), "21:1 dead-end|30:1 unreachable-step"},
		"answer without link":  {change("- No: [Detergent film](#detergent-film)", "- No: it is a film"), "24:1 dead-end"},
		"circle":               {change("[Detergent film](#detergent-film)", "[Again](#does-it-wipe-off-dry)"), "24:7 circle|32:1 unreachable-step"},
		"circle of one":        {change("[Detergent film](#detergent-film)", "[Detergent film](#detergent-film)\n- Again: [It](#does-it-fizz)"), "25:10 circle"},
		"one answer":           {change("- Yes: [Hard-water salts](spotty-parts.md#hard-water-salts).\n", ""), "21:1 one-answer"},
		"no recheck":           {change("**Recheck.** Five parts, no film.", "Look at five parts."), "32:1 remedy-without-recheck"},
		"recheck in passing":   {change("**Recheck.** Five parts, no film.", "Then **Recheck.** five parts."), "32:1 remedy-without-recheck"},
		"one heading twice":    {change("## Detergent film", "## Hard-water salts"), "24:7 answer-to-nothing|32:1 duplicate-heading|32:1 unreachable-step"},
		// Near misses, nothing to say:
		"numbered list at the end of a remedy": {change("**Recheck.** Five parts, no spot.", "**Recheck.** Look.\n\n1. [Rinse](../procedures/rinse.md)"), ""},
		"list of links elsewhere, one without": {change("**Recheck.** Five parts, no spot.", "**Recheck.** Look.\n\n- [Rinse](../procedures/rinse.md)\n- the log"), ""},
		"question mark inside a remedy's name": {change("## Detergent film", "## Detergent film? rinse longer", "#detergent-film", "#detergent-film-rinse-longer"), ""},
	} {
		t.Run(name, func(t *testing.T) {
			_, list := of(t, c.body)
			var got []string
			for _, f := range list {
				got = append(got, strings.TrimPrefix(f.Place.String(), "symptoms/spotty-parts.md:")+" "+string(f.Rule))
				if f.Message == "" || f.Why == "" || f.Remedy == "" {
					t.Errorf("half a note: %+v", f)
				}
			}
			if g := strings.Join(got, "|"); g != c.want {
				t.Errorf("got %s\nwant %s", g, c.want)
			}
		})
	}
}

// A tree of steps that all lead to all later steps has 2^n ways through it: reading must not walk each.
func TestManyWaysAreNotWalkedOneByOne(t *testing.T) {
	var b strings.Builder
	const n = 33 // so many answers as a tree may have
	for i := range n {
		fmt.Fprintf(&b, "## Step %d?\n\n", i)
		for j := i + 1; j < n; j++ {
			fmt.Fprintf(&b, "- To %d: [Step %d?](#step-%d)\n", j, j, j)
		}
		fmt.Fprintf(&b, "- End: [End](#end)\n\n")
	}
	b.WriteString("## End\n\n**Recheck.** Look.\n")
	tree, list := of(t, b.String())
	if len(tree.Nodes) != n+1 {
		t.Errorf("%d nodes", len(tree.Nodes))
	}
	for _, f := range list {
		if f.Rule != "one-answer" { // the last step
			t.Errorf("%v", f)
		}
	}
}
