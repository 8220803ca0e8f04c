package main

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// The command says of every pair and every part of the demo manual what the decision says, for people and for programs: the verdict, every
// reason, and what to keep to.
func TestCommandSaysWhatIsDecided(t *testing.T) {
	t.Parallel()
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	table := relate.Table(m)
	check := func(name string, want admit.Answer, told admission) {
		t.Helper()
		var out bytes.Buffer
		(&console{out: &out}).tellAnswer(told)
		data, err := json.Marshal(told.forPrograms())
		if err != nil {
			t.Fatal(err)
		}
		var said struct {
			Verdict, Keep string
			Reasons       []struct{ Text string }
			Recipe        *struct{ Spans []struct{ What, Text string } }
		}
		if err := json.Unmarshal(data, &said); err != nil {
			t.Fatal(err)
		}
		if said.Verdict != string(want.Verdict) || said.Keep != want.Brief(nil, quantity.SI) || len(said.Reasons) != len(want.Reasons) || (said.Recipe == nil) != (want.Recipe == nil) {
			t.Errorf("%s is %s, to keep %q: %s", name, want.Verdict, want.Brief(nil, quantity.SI), data)
		}
		if !strings.HasPrefix(out.String(), verdictWords[want.Verdict]+": ") {
			t.Errorf("%s is %s: %s", name, want.Verdict, out.String())
		}
		for i, r := range want.Reasons {
			if !strings.Contains(out.String(), r.Text) || !strings.HasSuffix(said.Reasons[i].Text, r.Text) {
				t.Errorf("%s: nothing says %q", name, r.Text)
			}
		}
	}
	asked := 0
	for i := range table.Materials {
		for _, b := range table.Baths() {
			q := admit.Question{Materials: []string{table.Materials[i].Name}, Bath: b.Name}
			want, err := table.Answer(q)
			told, err2 := answered(table, "", q.Materials, "", q.Bath)
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			check(q.Materials[0]+" in "+q.Bath, want, told)
			asked++
		}
	}
	for i := range table.Parts {
		want, err := table.Sheet(table.Parts[i].Name)
		told, err2 := answered(table, table.Parts[i].Name, nil, "", "")
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		check(table.Parts[i].Name, want, told)
		asked++
	}
	if asked < 700 {
		t.Errorf("only %d questions were asked", asked)
	}
}
