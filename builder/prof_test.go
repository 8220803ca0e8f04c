package builder

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"tankside/builder/rules"
)

func BenchmarkProf(b *testing.B) {
	folder, now := everyKind(b), time.Date(2026, 10, 20, 9, 0, 0, 0, time.UTC)
	m, _, err := Read(context.Background(), folder, now)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		count := map[string]int{}
		for _, f := range rules.Proof(m, now) {
			count[f.Rule]++
			if count[f.Rule] == 1 {
				fmt.Fprintln(os.Stderr, f.Place, f.Rule, f.Message)
			}
		}
		fmt.Fprintln(os.Stderr, count)
	}
}
