package admit_test

import (
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

func demoTable(t *testing.T) *admit.Table {
	t.Helper()
	m, _, err := manual.Read(t.Context(), os.DirFS("../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return relate.Table(m)
}

// What is asked of a changed bath is what is answered where the shop file says so: for every material, every tank and many values, the same verdict with
// the same reasons, but for what drips into the rinses, which the shop's line would be reckoned anew for.
func TestAsIsWhatTheShopFileWouldSay(t *testing.T) {
	table := demoTable(t)
	at := func(text string) fact.Limit { return limit(text, quantity.Temperature) }
	for _, as := range []admit.As{
		{Window: fact.Window{Temperature: at("68 °C")}}, {Window: fact.Window{Temperature: at("30 °C")}}, {Window: fact.Window{Temperature: at("95 °C")}},
		{Window: fact.Window{Frequency: limit("25 kHz", quantity.Frequency)}}, {Window: fact.Window{Frequency: limit("130 kHz", quantity.Frequency), Temperature: at("50 °C")}},
	} {
		for i := range table.Tanks {
			changed := demoTable(t)
			tank := &changed.Tanks[i]
			set := func(has *fact.Limit, asks fact.Limit) {
				if asks.Set {
					asks.At = has.At
					*has = asks
				}
			}
			set(&tank.Temperature, as.Temperature)
			set(&tank.Frequency, as.Frequency)
			for _, m := range table.Materials {
				q := admit.Question{Materials: []string{m.Name}, Bath: tank.ID}
				want, err := changed.Answer(q)
				if err != nil {
					t.Fatal(err)
				}
				q.As = &as
				got, err := table.Answer(q)
				if err != nil || got.Verdict != want.Verdict || said(got) != said(want) {
					t.Errorf("%s in %s, changed: %s %v, in the shop file: %s\n%s\n%s", m.Name, tank.ID, got.Verdict, err, want.Verdict, said(got), said(want))
				}
			}
		}
	}
}

func said(a admit.Answer) string {
	var list []string
	for _, r := range a.Reasons {
		list = append(list, r.Text)
	}
	return strings.Join(list, "\n")
}

// Another chemistry in a tank never gets a yes that was not checked: what drips into the rinses is reckoned for today's baths, so a material that does
// not stand the new bath's pH is told so of the rinse too; and the table itself stays as it was.
func TestAnotherChemistryInATank(t *testing.T) {
	table := demoTable(t)
	before := string(table.Pack())
	for _, c := range table.Chemistries {
		for _, m := range table.Materials {
			own, err := table.Answer(admit.Question{Materials: []string{m.Name}, Bath: c.Name})
			if err != nil {
				t.Fatal(err)
			}
			for i := range table.Tanks {
				in, err := table.Answer(admit.Question{Materials: []string{m.Name}, Bath: table.Tanks[i].ID, As: &admit.As{Chemistry: c.Name}})
				if err != nil {
					t.Fatal(err)
				}
				if own.Verdict == admit.No && in.Verdict != admit.No && own.Reasons[0].Rule != "flammable-in-ordinary-tank" {
					t.Errorf("%s may not go into %s (%s), but into %s with it", m.Name, c.Name, own.Reasons[0].Text, table.Tanks[i].ID)
				}
			}
		}
	}
	if string(table.Pack()) != before {
		t.Error("asking has changed the table")
	}
	for _, q := range []admit.Question{{Bath: "wash-9"}, {Bath: "wash-1", As: &admit.As{Chemistry: "nothing"}}} {
		if _, err := table.Answer(q); err == nil {
			t.Errorf("%+v is answered", q)
		}
	}
}

// Two baths beside each other: every material once, those that drop out first, and each answer is that of the question asked alone.
func TestBeside(t *testing.T) {
	table := demoTable(t)
	left, right := admit.Question{Bath: "wash-1"}, admit.Question{Bath: "wash-1", As: &admit.As{Window: fact.Window{Temperature: limit("68 °C", quantity.Temperature)}}}
	list, err := table.Beside(left, right)
	if err != nil || len(list) != len(table.Materials) {
		t.Fatalf("%d of %d materials, %v", len(list), len(table.Materials), err)
	}
	for i, v := range list {
		q := right
		q.Materials = []string{v.Material.Name}
		if want, _ := table.Answer(q); v.Right.Verdict != want.Verdict {
			t.Errorf("%s: %s, asked alone %s", v.Material.Name, v.Right.Verdict, want.Verdict)
		}
		if i > 0 && v.Turn() < list[i-1].Turn() {
			t.Errorf("%s gets worse and stands behind %s", v.Material.Name, list[i-1].Material.Name)
		}
	}
	if _, err := table.Beside(left, admit.Question{Bath: "wash-9"}); err == nil {
		t.Error("a tank that is not there")
	}
}
