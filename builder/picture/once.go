package picture

import (
	"crypto/sha256"
	"runtime"
	"sync"
)

// ready are the last very large pictures that were made ready. Who reads a manual has each decoded to find damage, and who publishes it right after has it decoded
// again: of fifty million pixels that is a second each time.
var ready struct {
	sync.Mutex
	made map[[sha256.Size]byte]Picture
}

// mostReady is how many are remembered; each is the size that a page shows.
const mostReady = 8

// muchHeld are the bytes from which a decoded picture is very large: a photograph of forty million pixels, a screenshot of sixteen.
const muchHeld = 64 << 20

// huge tells whether decoding takes so much memory and time that it is done once.
func (r *raster) huge() bool { return float64(r.width)*float64(r.height)*r.bytesEach > muchHeld }

// once makes a very large picture ready, or gives what was made of the same bytes before.
func (r *raster) once(data []byte) (Picture, *Problem) {
	key := sha256.Sum256(data)
	ready.Lock()
	defer ready.Unlock()
	if p, has := ready.made[key]; has {
		return p, nil
	}
	p, problem := r.prepare(keptWidth, keptHeight)
	runtime.GC() // its memory is collected at once: while the next is decoded, twice its size would be held
	if problem != nil {
		return Picture{}, problem
	}
	if ready.made == nil || len(ready.made) == mostReady {
		ready.made = make(map[[sha256.Size]byte]Picture, mostReady)
	}
	ready.made[key] = p
	return p, nil
}
