package edition

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/klauspost/compress/gzip"
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
	_, br, err := compressed("assets/noise.svg", data)
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

// A small asset that was packed before comes out the same; another of the same name does not.
func TestSmallAssetsArePackedOnce(t *testing.T) {
	one, other := bytes.Repeat([]byte("one script\n"), 100), bytes.Repeat([]byte("another script\n"), 100)
	var packed [3][]byte
	for i, data := range [][]byte{one, other, one} {
		gz, br, err := compressed("assets/one.js", data)
		if err != nil || len(gz) == 0 {
			t.Fatalf("%d bytes, %v", len(gz), err)
		}
		back, err := io.ReadAll(brotli.NewReader(bytes.NewReader(br)))
		if err != nil || !bytes.Equal(back, data) {
			t.Errorf("%.20s comes back as %.20s: %v", data, back, err)
		}
		packed[i] = br
	}
	if &packed[0][0] != &packed[2][0] {
		t.Error("the same asset is packed again")
	}
}

// What is packed already and written in letters is packed quickly, and hardly larger than with pains; a script of the same size is packed with pains.
func TestParcelsArePackedQuickly(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	packed := make([]byte, 30_000)
	for i := range packed {
		packed[i] = byte(random.Uint32())
	}
	parcel := fmt.Appendf(nil, "tankside.parcel(%q,%q);\n", "search-segment", base64.StdEncoding.EncodeToString(append([]byte{0x1f, 0x8b, 8}, packed...)))
	for data, want := range map[string]levels{
		string(parcel): {gzip.HuffmanOnly, 1},
		"tankside.parcel(\"find-worker\",\"const a = 1\");": {gzip.BestCompression, brotli.BestCompression},
		"\n" + string(parcel):                               {gzip.BestCompression, brotli.BestCompression},
	} {
		if got := levelsOf("assets/x.js", []byte(data)); got != want {
			t.Errorf("%.60q: %v, not %v", data, got, want)
		}
	}
	_, br, err := compressed("assets/x.js", parcel)
	if err != nil {
		t.Fatal(err)
	}
	if most := len(packed) * 102 / 100; len(br) > most {
		t.Errorf("%d random bytes take %d", len(packed), len(br))
	}
}
