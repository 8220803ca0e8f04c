package workers

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"
)

func TestEachDoesEveryOneOnce(t *testing.T) {
	for _, n := range []int{0, 1, 7, 10_000} {
		seen := make([]atomic.Int32, n)
		if err := Each(context.Background(), n, func(i int) error { seen[i].Add(1); return nil }); err != nil {
			t.Fatal(err)
		}
		for i := range seen {
			if got := seen[i].Load(); got != 1 {
				t.Fatalf("%d of %d was done %d times", i, n, got)
			}
		}
	}
}

func TestEachStopsAtAnError(t *testing.T) {
	wrong := errors.New("wrong")
	var done atomic.Int64
	err := Each(context.Background(), 1_000_000, func(i int) error {
		done.Add(1)
		if i == 10 {
			return wrong
		}
		return nil
	})
	if !errors.Is(err, wrong) || done.Load() == 1_000_000 {
		t.Errorf("%v after %d", err, done.Load())
	}
}

func TestEachStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	err := Each(ctx, 1_000_000, func(i int) error {
		if i == 10 {
			cancel()
		}
		return nil
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestEachRaisesAPanicWhereItWasCalled(t *testing.T) {
	defer func() {
		if fault, _ := recover().(string); !strings.Contains(fault, "boom") {
			t.Errorf("recovered %q", fault)
		}
	}()
	err := Each(context.Background(), 100, func(i int) error {
		if i == 50 {
			panic("boom")
		}
		return nil
	})
	t.Errorf("Each returned %v", err)
}
