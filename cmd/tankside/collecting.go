package main

import (
	"math"
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// The garbage of a manual of a hundred articles is not worth collecting as often as Go does: that took a tenth of a proof.
const (
	lateGC   = 400       // per cent of what is in use that may be added to it before garbage is collected
	usualGC  = 100       // Go's own
	smallUse = 24 << 20  // bytes in use, up to which it is collected late
	mostHeld = 120 << 20 // bytes of garbage and all, at which it is collected in any case: one large picture comes all at once
)

// collectLate has garbage collected late in a command that ends soon and shows no pictures, as long as little is in use. Whoever sets GOGC or GOMEMLIMIT has what they set.
func collectLate() {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	debug.SetGCPercent(lateGC)
	debug.SetMemoryLimit(mostHeld)
	afterNextGC()
}

// afterNextGC looks after the next collection at what is in use: the collector tells by freeing what nobody holds.
func afterNextGC() {
	runtime.AddCleanup(new([16]byte), func(struct{}) {
		if inUse() > smallUse {
			debug.SetGCPercent(usualGC)
			debug.SetMemoryLimit(math.MaxInt64)
			return
		}
		afterNextGC()
	}, struct{}{})
}

// inUse is what the last collection found in use, in bytes.
func inUse() uint64 {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	return live[0].Value.Uint64()
}
