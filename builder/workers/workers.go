// Package workers does one job many times on every core.
package workers

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do with every number from 0 up to n, from as many goroutines as there are processors, and returns when all calls have ended.
// After the first error, or when the context ends, no further calls are begun; Each returns that error. A panic in do is raised again in
// the goroutine that called Each, so that whoever guards that one also guards the workers.
func Each(ctx context.Context, n int, do func(i int) error) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var next atomic.Int64
	var panicked atomic.Value
	one := func(i int) {
		defer func() {
			if fault := recover(); fault != nil {
				panicked.CompareAndSwap(nil, fmt.Sprint(fault))
				cancel(context.Canceled)
			}
		}()
		if err := do(i); err != nil {
			cancel(err)
		}
	}
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				one(i)
			}
		})
	}
	wait.Wait()
	if fault := panicked.Load(); fault != nil {
		panic(fault)
	}
	return context.Cause(ctx)
}
