//go:build !wasip1

package main

import (
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/causes"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// What the page ranks is to the byte what is ranked here.
func TestCauses(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	model := relate.Causes(m).Model
	n := len(model.Observations)
	if n < 20 {
		t.Fatalf("only %d observations", n)
	}
	var calls []call
	var want []string
	for i := range n {
		looks := []byte(strings.Repeat("-", n))
		looks[i], looks[(i*7+3)%n] = 's', 'n'
		question := model.Text() + "\n" + string(looks)
		reply, err := causes.Reply(question)
		if err != nil {
			t.Fatal(err)
		}
		calls, want = append(calls, ask("rank", question)), append(want, reply)
	}
	agree(t, calls, want)
	for _, question := range []string{"", "no model", model.Text() + "\nsn?", model.Text() + "\n" + strings.Repeat("s", n+1)} {
		_, err := causes.Reply(question)
		if reply := run(t, []call{ask("rank", question)}).Replies[0].Reply; (reply == nil) != (err != nil) {
			t.Errorf("%.40q in the module is %v, here the error is %v", question, reply, err)
		}
	}
}
