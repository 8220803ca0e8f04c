//go:build !wasip1

package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"
	"go.yaml.in/yaml/v3"

	"tankside/builder/language"
	"tankside/calculators"
	"tankside/calculators/markup"
	"tankside/themes"
)

// build builds the module with the flags of the package's documentation.
func build(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "calculators.wasm")
	cmd := exec.Command("go", "build", "-buildmode=c-shared", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l", "-o", path, ".")
	cmd.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return path
}

type call struct {
	What    string `json:"what"`
	Request string `json:"request"`
	Times   int    `json:"times"`
}

type result struct {
	Start   float64 // ns until the module is ready
	Memory  float64 // bytes in the end
	Replies []struct {
		Reply string
		Time  float64 // ns, median
	}
}

// run makes calls under Node.
func run(t testing.TB, path string, calls []call) result {
	t.Helper()
	input, err := json.Marshal(map[string]any{"path": path, "calls": calls})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", filepath.Join("testdata", "run.mjs"))
	cmd.Stdin = bytes.NewReader(input)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, complaints.String())
	}
	var r result
	if err := json.Unmarshal(out, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Replies) != len(calls) {
		t.Fatalf("%d replies to %d calls", len(r.Replies), len(calls))
	}
	return r
}

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

// TestModuleAgrees: what a page shows after a key press is to the byte what was
// published.
func TestModuleAgrees(t *testing.T) {
	path := build(t)
	var calls []call
	var want []string
	for _, c := range calculators.All() {
		request := requests()[c.Name]
		for _, r := range []string{request, strings.Replace(request, "SI", "US", 1), strings.ToValidUTF8(request[:len(request)/2], ""), c.Name} {
			calls, want = append(calls, call{"answer", r, 1}), append(want, markup.Reply(nil, r))
		}
	}
	for _, r := range []string{"", "\x1f\x1f\x1f", "\u20ac\U0001f9fd\x1fSI", strings.Repeat("9", 100000)} {
		calls, want = append(calls, call{"answer", r, 1}), append(want, markup.Reply(nil, r))
	}
	for _, r := range [][]string{{"dilution", "volume", "120 L", "US gal"}, {"heat-up", "start", "14 °F", "°C"}, {"heat-up", "start", "warm", "°C"}, {""}} {
		joined := strings.Join(r, markup.Separator)
		calls, want = append(calls, call{"convert", joined, 1}), append(want, markup.Convert(joined))
	}
	said := spanish(t)
	calls, want = append(calls, call{"speak", said.Pack(), 1}), append(want, "")
	for _, c := range calculators.All() {
		for _, r := range []string{requests()[c.Name], c.Name + markup.Separator + "US" + markup.Separator + c.Inputs[0].Name + markup.Separator + "1,5"} {
			calls, want = append(calls, call{"answer", r, 1}), append(want, markup.Reply(said, r))
		}
	}
	for i, got := range run(t, path, calls).Replies {
		if got.Reply != want[i] {
			t.Errorf("%q in the module is\n%s\nwant\n%s", calls[i].Request, got.Reply, want[i])
		}
	}
}

// TestModuleKeepsItsMemory: an afternoon of typing does not fill the page.
func TestModuleKeepsItsMemory(t *testing.T) {
	path := build(t)
	request := requests()["degas"]
	few := run(t, path, []call{{"answer", request, 20}})
	many := run(t, path, []call{{"answer", request, 3000}})
	if many.Memory > 2*few.Memory {
		t.Errorf("%.1f MB after 20 answers, %.1f MB after 3000", few.Memory/1e6, many.Memory/1e6)
	}
}

// TestModuleSize keeps the module below 540 kB as browsers fetch it. An empty
// Go program built like this takes 392 kB; what decides about harm, the margin to
// a flash point, what drips into a rinse, a second end point, took it from
// 490 to 519 kB.
func TestModuleSize(t *testing.T) {
	module, err := os.ReadFile(build(t))
	if err != nil {
		t.Fatal(err)
	}
	var zipped, small bytes.Buffer
	g, err := gzip.NewWriterLevel(&zipped, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	b := brotli.NewWriterLevel(&small, brotli.BestCompression)
	for _, w := range []interface {
		Write([]byte) (int, error)
		Close() error
	}{g, b} {
		if _, err := w.Write(module); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d bytes, gzip %d, brotli %d", len(module), zipped.Len(), small.Len())
	if small.Len() >= 540_000 {
		t.Errorf("the module takes %d bytes with brotli, 540 000 are allowed", small.Len())
	}
}

// BenchmarkModule times each calculator in the module and natively in the same
// run, from request to HTML, and gives their ratio. An answer may take 16 ms.
func BenchmarkModule(b *testing.B) {
	path := build(b)
	for _, c := range calculators.All() {
		request := requests()[c.Name]
		b.Run(c.Name, func(b *testing.B) {
			var module float64
			for b.Loop() {
				module = run(b, path, []call{{"answer", request, 60}}).Replies[0].Time
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
