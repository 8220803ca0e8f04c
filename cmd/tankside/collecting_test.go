package main

import (
	"math"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"testing"
	"time"
)

// What is in use decides: a large manual is collected as every program is.
func TestGarbageIsCollectedLateWhileLittleIsInUse(t *testing.T) {
	t.Setenv("GOGC", "")
	t.Setenv("GOMEMLIMIT", "")
	before := debug.SetGCPercent(usualGC)
	defer debug.SetGCPercent(before)
	percent := func() uint64 {
		now := []metrics.Sample{{Name: "/gc/gogc:percent"}}
		metrics.Read(now)
		return now[0].Value.Uint64()
	}
	collectLate()
	if got := percent(); got != lateGC {
		t.Fatalf("%d %%", got)
	}
	large := make([]byte, 2*smallUse)
	for deadline := time.Now().Add(time.Minute); percent() != usualGC; time.Sleep(time.Millisecond) {
		if runtime.GC(); time.Now().After(deadline) {
			t.Fatalf("%d bytes are in use, and garbage is collected at %d %%", inUse(), percent())
		}
	}
	runtime.KeepAlive(large)
	if limit := debug.SetMemoryLimit(-1); limit != math.MaxInt64 {
		t.Errorf("no more than %d bytes are to be held", limit)
	}
	t.Setenv("GOGC", "50")
	if collectLate(); percent() != usualGC {
		t.Error("what was set was set over")
	}
}
