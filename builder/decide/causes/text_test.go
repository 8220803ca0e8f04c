package causes

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// What goes through the text is explained as what does not.
func TestTextGivesTheSameAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		m := some(r, 12)
		looks := someLooks(r, m)
		got, err := Reply(m.Text() + "\n" + looksText(looks))
		if err != nil {
			t.Fatal(err)
		}
		answer := m.Explain(looks)
		if want := answer.Text(); got != want {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	}
}

func TestTextThatIsNone(t *testing.T) {
	for _, text := range []string{
		"", "o\t1\n", "\n\n", "x\n\n", "o\t0\n\n-", "o\tNaN\n\n-", "o\t1\nc\t" + bits(0) + "\t0\n\n-", "o\t1\nc\t" + bits(1) + "\t0\t1:" + bits(0.5) + "\n\n-", "o\t1\nc\t" + bits(1) + "\t0\t0:" + bits(1) + "\n\n-",
		"o\t1.\n\n-", "o\t.5\n\n-", "o\t1234567890123456\n\n-", "o\t1e3\n\n-", "o\t1\nc\t1\t0\n\n-", "o\t1\nc\t" + bits(1) + "0\t0\n\n-", "o\t1\nc\t" + bits(1) + "\t0\t0.5:" + bits(0.5) + "\n\n-",
		"o\t1\nc\t" + bits(1) + "\t0\t0:" + bits(0.5) + "\t0:" + bits(0.5) + "\n\n-", "o\t1\nc\t" + bits(1) + "\t0\t-1:" + bits(0.5) + "\n\n-", "o\t1\nc\t" + bits(1) + "\t0\n\n--",
		"o\t1\nc\t" + bits(1) + "\t0\n\nx", "o\t1\nc\t" + bits(math.Inf(1)) + "\t0\n\n-",
	} {
		if got, err := Reply(text); err == nil {
			t.Errorf("%q: %q", text, got)
		}
	}
}

func FuzzReply(f *testing.F) {
	f.Add("o\t1\no\t5.5\nc\t" + bits(0.8) + "\t1\t0:" + bits(0.8) + "\t1:" + bits(0.05) + "\nc\t" + bits(0.3) + "\t0\n\ns-")
	f.Add("o\t0.00000000000001\nc\t" + bits(1e300) + "\t0\t0:" + bits(1e-300) + "\n\nn")
	f.Fuzz(func(t *testing.T, question string) {
		answer, err := Reply(question)
		if err != nil {
			return
		}
		model, looks, _ := strings.Cut(question, "\n\n")
		m, err := read(model)
		if err != nil {
			t.Fatal(err)
		}
		var list []Look
		for _, c := range strings.TrimSpace(looks) {
			list = append(list, Look(strings.IndexRune("-sn", c)))
		}
		a := m.Explain(list)
		sum := 0.0
		for _, set := range a.Sets {
			sum += set.Probability
		}
		if !(sum > 0 && sum < 1+1e-9) || strings.Contains(answer, "NaN") {
			t.Errorf("the probabilities sum to %v:\n%s", sum, answer)
		}
	})
}

// looksText writes looks as in a question.
func looksText(looks []Look) string {
	b := make([]byte, len(looks))
	for i, l := range looks {
		b[i] = "-sn"[min(l, NotSeen)]
	}
	return string(b)
}
