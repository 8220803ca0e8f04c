//go:build !wasip1

package main

import (
	"os"
	"testing"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// What the page answers is to the byte what the command and the tables are made with, within a frame: the module decides for itself, so that
// what travels beside it are the facts alone, two thirds of what a table of every verdict took.
func TestMayItGoIn(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	sheet := markup.Sheet{Table: relate.Table(m)}
	var requests []string
	for i, material := range sheet.Table.Materials {
		soil := sheet.Table.Soils[i%len(sheet.Table.Soils)].Name
		requests = append(requests, "\x1f\x1fwash-1\x1f"+material.Name, "US\x1f"+soil+"\x1fwash-2\x1f"+material.Name+"\x1fcarbon-steel", "SI\x1f"+soil+"\x1f\x1f"+material.Name)
	}
	requests = append(requests, "", "\x1f", "\x1f\x1f\x1f\x1f", "€\x1f🧽\x1f\x00")
	calls, want := []call{{"open", sheet.Pack(), 1}}, []string{""}
	for _, r := range requests {
		calls, want = append(calls, ask("admit", r)), append(want, sheet.Reply(r))
	}
	agree(t, calls, want)
	quickest := run(t, []call{{"open", sheet.Pack(), 1}, {"admit", []byte(requests[1]), 60}}).Replies[1].Least / 1e6 // of 60, for a machine with other work
	t.Logf("%.2f ms an answer", quickest)
	if quickest > 16 {
		t.Errorf("an answer takes %.1f ms", quickest)
	}
}

// Without facts, or with what are none, nothing is said; what was opened before stays open.
func TestMayItGoInWithoutFacts(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	sheet := markup.Sheet{Table: relate.Table(m)}
	r := "\x1f\x1fwash-1\x1f" + sheet.Table.Materials[0].Name
	got := run(t, []call{ask("admit", r), ask("open", "no sheet"), ask("admit", r), {"open", sheet.Pack(), 1}, ask("open", "no sheet"), ask("admit", r)})
	for i, has := range []bool{false, false, false, true, false, true} {
		if (got.Replies[i].Reply != nil) != has {
			t.Errorf("reply %d is %v", i, got.Replies[i].Reply)
		}
	}
	if last := got.Replies[5].Reply; last != nil && *last != sheet.Reply(r) {
		t.Errorf("after what was no sheet the answer is %s", *last)
	}
}
