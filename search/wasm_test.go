package search_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tankside/search"
)

// module builds the browser's module the way make does, once, and gives the
// gzipped file's name. It goes to the system's temporary folder, not the test's,
// since tests share it.
var module = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "tankside-search")
	if err != nil {
		return "", err
	}
	file := filepath.Join(folder, "search.wasm")
	if err := moduleFile(folder); err != nil {
		return "", err
	}
	build := exec.Command("go", "build", "-buildmode=c-shared", "-ldflags=-s -w", "-trimpath", "-buildvcs=false",
		"-modfile="+filepath.Join(folder, "browser.mod"), "-gcflags=all=-l", "-o", file, "./search/wasm")
	build.Dir = ".."
	build.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm", "GOWORK=off", "GOFLAGS=")
	if said, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("building the module: %w\n%s", err, said)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	return file + ".gz", os.WriteFile(file+".gz", zip(data), 0o600)
})

// moduleFile writes the module file of the browser's part the way make does: the command's own, in which a stand-in has the place of bbolt.
func moduleFile(folder string) error {
	edit := exec.Command("go", "mod", "edit", "-replace=go.etcd.io/bbolt=./search/wasm/absent", "-print", "go.mod")
	edit.Dir = ".."
	file, err := edit.Output()
	if err != nil {
		return fmt.Errorf("writing the browser's module file: %w", err)
	}
	sums, err := os.ReadFile("../go.sum")
	if err != nil {
		return err
	}
	return errors.Join(os.WriteFile(filepath.Join(folder, "browser.mod"), file, 0o600), os.WriteFile(filepath.Join(folder, "browser.sum"), sums, 0o600))
}

func zip(data []byte) []byte {
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err == nil {
		_, err = z.Write(data)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		panic(err) // a buffer takes everything
	}
	return out.Bytes()
}

// told is what testdata/ask.mjs prints.
type told struct {
	Open    float64         `json:"open"` // milliseconds
	Answers []search.Answer `json:"answers"`
	Times   []float64       `json:"times"`
	Memory  float64         `json:"memory"` // bytes of the module at the end
}

// askNode asks the browser's module, run by node, through the browser's worker.
func askNode(t testing.TB, blobs [][]byte, questions []search.Question, rounds int) told {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed, and nothing else here runs the browser's module")
	}
	wasm, err := module()
	if err != nil {
		t.Fatal(err)
	}
	args := []string{"testdata/ask.mjs", "../themes/scripts/module.js", "../themes/scripts/find-worker.js", wasm}
	for i, blob := range blobs {
		index := filepath.Join(t.TempDir(), fmt.Sprint("index-", i))
		if err := os.WriteFile(index, blob, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, index)
	}
	input, err := json.Marshal(map[string]any{"questions": questions, "rounds": rounds})
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command(node, args...)
	run.Stdin = bytes.NewReader(input)
	var said bytes.Buffer
	run.Stderr = &said
	output, err := run.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, said.String())
	}
	var reply told
	if err := json.Unmarshal(output, &reply); err != nil {
		t.Fatal(err)
	}
	return reply
}

// several hundred questions: pieces of the manual's own text, with and without
// typing errors, and the hostile ones.
func manyQuestions(docs []search.Document) (questions []search.Question) {
	ask := func(words string) { questions = append(questions, search.Question{Words: words, Limit: 20}) }
	for i, d := range docs {
		words := strings.Fields(d.Text)
		if i%(1+len(docs)/60) != 0 || len(words) < 8 {
			continue
		}
		ask(d.Title)
		ask(d.Section + " ")
		ask(strings.Join(words[2:5], " "))
		ask(words[5][:(len(words[5])+1)/2])
		if long := slices.MaxFunc(words, func(a, b string) int { return len(a) - len(b) }); len(long) > 6 {
			ask(long[:3] + long[4:])
		}
		questions = append(questions, search.Question{Words: words[3] + " " + words[7], Kind: d.Kind, Station: d.Station})
	}
	for _, words := range hostile {
		if json.Valid([]byte(`"` + words + `"`)) { // JSON carries no broken UTF-8
			ask(words)
		}
	}
	return questions
}

// The browser's module gives the native answers to the last bit of each score.
func TestBrowserAnswersTheSame(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("building the browser's module takes long")
	}
	docs := invented(150)
	blob, err := search.Index(docs, sayings)
	if err != nil {
		t.Fatal(err)
	}
	questions := manyQuestions(docs)
	if len(questions) < 300 {
		t.Fatalf("only %d questions", len(questions))
	}
	for _, blobs := range [][][]byte{{blob}, inPieces(t, docs, sayings, 3)} {
		f, err := search.Open(blobs...)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		reply := askNode(t, blobs, questions, 1)
		for i, q := range questions {
			want := asJSON(t, ask(t, f, q))
			if got := reply.Answers[i]; !reflect.DeepEqual(got, want) {
				t.Errorf("%.60q in %d pieces:\nbrowser %+v\nnative  %+v", q.Words, len(blobs), got, want)
			}
		}
	}
}

// inPieces makes the index in pieces.
func inPieces(t *testing.T, docs []search.Document, synonyms []search.Synonym, n int) [][]byte {
	t.Helper()
	words, err := search.Words([]string{""}, synonyms)
	if err != nil {
		t.Fatal(err)
	}
	blobs := [][]byte{words}
	for i := range n {
		var own []search.Document
		for _, d := range docs {
			if page, _, _ := strings.Cut(d.Path, "#"); search.PieceOf(page, n) == i {
				own = append(own, d)
			}
		}
		made, err := search.Part(own)
		if err != nil {
			t.Fatal(err)
		}
		blobs = append(blobs, made)
	}
	return blobs
}

// asJSON sends an answer the way the browser's goes, so that nil and empty
// lists compare alike.
func asJSON(t testing.TB, a search.Answer) (b search.Answer) {
	t.Helper()
	data, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &b); err != nil {
		t.Fatal(err)
	}
	return b
}

// BenchmarkBrowser asks the same questions natively and in the browser's module
// in one run, and reports the median of each, their ratio and the time to open.
func BenchmarkBrowser(b *testing.B) {
	for _, n := range []int{150, 2000, 10000} {
		b.Run(fmt.Sprintf("%d-articles", n), func(b *testing.B) {
			docs := invented(n)
			blob, err := search.Index(docs, sayings)
			if err != nil {
				b.Fatal(err)
			}
			f, err := search.Open(blob)
			if err != nil {
				b.Fatal(err)
			}
			defer f.Close()
			questions := manyQuestions(docs)
			questions = questions[:len(questions)-len(hostile)]
			for b.Loop() {
				var native []float64
				for range 3 {
					for _, q := range questions {
						start := time.Now()
						ask(b, f, q)
						native = append(native, time.Since(start).Seconds()*1e3)
					}
				}
				reply := askNode(b, [][]byte{blob}, questions, 3)
				slices.Sort(native)
				slices.Sort(reply.Times)
				middle, high := len(native)/2, len(native)*95/100
				b.ReportMetric(native[middle], "native-ms")
				b.ReportMetric(reply.Times[middle], "browser-ms")
				b.ReportMetric(reply.Times[high], "browser-p95-ms")
				b.ReportMetric(reply.Times[middle]/native[middle], "ratio")
				b.ReportMetric(reply.Open, "open-ms")
				b.ReportMetric(float64(len(blob)), "index-bytes")
				b.ReportMetric(reply.Memory/(1<<20), "module-MiB")
			}
		})
	}
}

// Two indices of the same documents give the same answers. TANKSIDE_ANSWERS names a file to write them to, which tells whether another version of
// bleve gives them too: make newest.
func TestAnswersRepeat(t *testing.T) {
	docs := invented(150)
	var before []byte
	for range 2 {
		f := open(t, docs, sayings)
		var answers []search.Answer
		for _, q := range manyQuestions(docs) {
			answers = append(answers, ask(t, f, q))
		}
		written, err := json.MarshalIndent(answers, "", "\t")
		if err != nil {
			t.Fatal(err)
		}
		if before != nil && !bytes.Equal(before, written) {
			t.Error("another index of the same documents gives other answers")
		}
		before = written
	}
	if file := os.Getenv("TANKSIDE_ANSWERS"); file != "" {
		if err := os.WriteFile(file, before, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
