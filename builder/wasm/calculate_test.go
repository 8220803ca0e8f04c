//go:build !wasip1

package main

import (
	"slices"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/language"
	"tankside/calculators"
	"tankside/calculators/markup"
	"tankside/themes"
)

// requests holds a request for each calculator, that of its example.
func requests() map[string]string {
	all := map[string]string{}
	for _, c := range calculators.All() {
		request := []string{c.Name, "SI"}
		for _, e := range c.Example {
			request = append(request, e.Name, e.Text)
		}
		all[c.Name] = strings.Join(request, markup.Separator)
	}
	return all
}

// spanish are the calculators' phrases in Spanish.
func spanish(t *testing.T) language.Words {
	t.Helper()
	data, err := themes.New(nil).Read("words/calculators/es.yaml")
	if err != nil {
		t.Fatal(err)
	}
	said := language.Words{}
	if err := yaml.Unmarshal(data, &said); err != nil {
		t.Fatal(err)
	}
	return said
}

// TestSums: what a page shows after a key press is to the byte what was
// published.
func TestSums(t *testing.T) {
	var calls []call
	var want []string
	for _, c := range calculators.All() {
		request := requests()[c.Name]
		for _, r := range []string{request, strings.Replace(request, "SI", "US", 1), strings.ToValidUTF8(request[:len(request)/2], ""), c.Name} {
			calls, want = append(calls, ask("calculate", r)), append(want, markup.Reply(nil, r))
		}
	}
	for _, r := range []string{"", "\x1f\x1f\x1f", "\u20ac\U0001f9fd\x1fSI", strings.Repeat("9", 100000)} {
		calls, want = append(calls, ask("calculate", r)), append(want, markup.Reply(nil, r))
	}
	for _, r := range [][]string{{"dilution", "volume", "120 L", "US gal"}, {"heat-up", "start", "14 °F", "°C"}, {"heat-up", "start", "warm", "°C"}, {""}} {
		joined := strings.Join(r, markup.Separator)
		calls, want = append(calls, ask("convert", joined)), append(want, markup.Convert(joined))
	}
	said := spanish(t)
	calls, want = append(calls, ask("speak", said.Pack())), append(want, "")
	for _, c := range calculators.All() {
		for _, r := range []string{requests()[c.Name], c.Name + markup.Separator + "US" + markup.Separator + c.Inputs[0].Name + markup.Separator + "1,5"} {
			calls, want = append(calls, ask("calculate", r)), append(want, markup.Reply(said, r))
		}
	}
	agree(t, calls, want)
}

// TestModuleKeepsItsMemory: an afternoon of typing does not fill the page.
func TestModuleKeepsItsMemory(t *testing.T) {
	request := requests()["degas"]
	few := run(t, []call{{"calculate", []byte(request), 20}})
	many := run(t, []call{{"calculate", []byte(request), 3000}})
	if many.Memory > 2*few.Memory {
		t.Errorf("%.1f MB after 20 answers, %.1f MB after 3000", few.Memory/1e6, many.Memory/1e6)
	}
}

// BenchmarkSums times each calculator in the module and natively in the same
// run, from request to HTML, and gives their ratio. An answer may take 16 ms.
func BenchmarkSums(b *testing.B) {
	for _, c := range calculators.All() {
		request := requests()[c.Name]
		b.Run(c.Name, func(b *testing.B) {
			var module float64
			for b.Loop() {
				module = run(b, []call{{"calculate", []byte(request), 60}}).Replies[0].Time
			}
			native := float64(median(60, func() { markup.Reply(nil, request) }))
			b.ReportMetric(module/1e6, "module-ms")
			b.ReportMetric(native/1e6, "native-ms")
			b.ReportMetric(module/native, "ratio")
			b.ReportMetric(testing.AllocsPerRun(5, func() { markup.Reply(nil, request) }), "allocs")
			b.ReportMetric(0, "ns/op")
			if module > 16e6 {
				b.Errorf("an answer takes %.1f ms", module/1e6)
			}
		})
	}
}

// median time of a number of runs.
func median(times int, f func()) time.Duration {
	taken := make([]time.Duration, times)
	for i := range taken {
		start := time.Now()
		f()
		taken[i] = time.Since(start)
	}
	slices.Sort(taken)
	return taken[times/2]
}
