//go:build !wasip1

package main

import (
	"testing"

	"tankside/builder/asked"
)

// What is read in the page is to the byte what the command reads. Without names there are conversions alone.
func TestAsked(t *testing.T) {
	packed := asked.Gather([]asked.Thing{{Sort: 'm', Name: "brass", Title: "Brass"}, {Sort: 't', Name: "wash-1", Title: "Wash 1", Volume: "120 L", Degree: " °C"}},
		map[string]string{"dilution": "a.html#sum-dilution"}, func(english string) string { return english })
	texts := []string{"brass in wash 1", "3 % of 60 L", "120 l 4 % 12 to 62", "0.5 gal in L", "8 oz/gal 60 L", "", "\x1f\x1e", "€ 🧽 in \x00"}
	var calls []call
	var want []string
	for _, text := range texts {
		calls, want = append(calls, ask("read", text)), append(want, new(asked.Names).Read(nil, text))
	}
	calls, want = append(calls, ask("know", packed)), append(want, "")
	for _, text := range texts {
		calls, want = append(calls, ask("read", text)), append(want, asked.Unpack(packed).Read(nil, text))
	}
	agree(t, calls, want)
}
