package edition

import (
	"bytes"
	"io"
	"math/rand/v2"
	"testing"

	"github.com/andybalholm/brotli"
)

// A window reaches back 16 bytes less than its power of two, by RFC 7932, section 9.1, “Format of the Stream Header”.
func TestWindowReachesToTheBeginningOfTheFile(t *testing.T) {
	for _, size := range []int{0, 860, 1<<10 - 16, 1<<10 - 15, 5000, 1<<16 - 16, 1<<16 - 15, 1 << 17, 1<<22 - 16} {
		bits := window(size)
		if reach := 1<<bits - 16; reach < size || bits > 10 && reach/2-8 >= size {
			t.Errorf("a file of %d bytes has a window of %d bits, which reaches back %d bytes", size, bits, reach)
		}
	}
	if bits := window(50 << 20); bits != 22 {
		t.Errorf("the window of a large file has %d bits", bits)
	}
}

// What stands at the end as at the beginning is found again by a window of the file's size, and the file comes out as it went in.
func TestBrotliFindsTheBeginningOfTheFile(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	noise := make([]byte, 2000)
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	middle := make([]byte, 60_000)
	for i := range middle {
		middle[i] = byte(random.Uint32())
	}
	data := bytes.Join([][]byte{noise, middle, noise}, nil)
	_, br, err := compress("assets/noise.svg", data)
	if err != nil {
		t.Fatal(err)
	}
	if len(br) > len(noise)+len(middle)+200 {
		t.Errorf("%d bytes are packed into %d: the second %d were not found to be the first", len(data), len(br), len(noise))
	}
	back, err := io.ReadAll(brotli.NewReader(bytes.NewReader(br)))
	if err != nil || !bytes.Equal(back, data) {
		t.Errorf("%d bytes come back as %d: %v", len(data), len(back), err)
	}
}
