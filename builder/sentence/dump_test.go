package sentence

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"tankside/builder/manual"
)

func TestDump(t *testing.T) {
	in := os.Getenv("DUMP")
	if in == "" {
		t.Skip()
	}
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	n := NewNames(m)
	host := m.At("procedures/heat-the-bath.md")
	for _, s := range Read([]byte(strings.ReplaceAll(in, `\n`, "\n")), n, func(target string) *manual.Article {
		d, p := m.Resolve(host, target)
		if p != nil {
			return nil
		}
		return d.Article
	}) {
		fmt.Printf("S %q question=%v\n", s.Text(), s.Question)
		for i, c := range s.Clauses {
			fmt.Printf("  C%d mood=%d opener=%q verb=%q neg=%v: %s\n", i, c.Mood, c.Opener, c.Verb, c.Negated, joined(s.tokens[c.from:c.to]))
		}
		for _, q := range s.Quantities {
			about := "-"
			if q.About != nil {
				about = fmt.Sprint(q.About.Word, " ", q.About.Thing != nil)
			}
			fmt.Printf("  Q %q rel=%d clause=%d about=%s attr=%q near=%q rough=%v\n", q.Text, q.Relation, q.Clause, about, q.Attribute, q.Near, q.Rough)
		}
		for _, m := range s.Mentions {
			fmt.Printf("  M %q where=%v stands=%v thing=%v\n", m.Word, m.Where, m.Stands, m.Thing != nil)
		}
	}
}
