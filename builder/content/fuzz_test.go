package content

import (
	"encoding/binary"
	"errors"
	"runtime"
	"slices"
	"testing"

	"github.com/klauspost/compress/zstd"
)

// Whatever lies in a file that holds content, as it is and behind its compression, it is read as Pack has written it, or called damaged.
func FuzzUnpack(f *testing.F) {
	packed, err := Pack([]Doc{DocOf("soils/wax.md", true, []Part{{Name: "title", Text: "Wax"}, {Name: "", Text: ""}})})
	if err != nil {
		f.Fatal(err)
	}
	f.Add(packed)
	f.Add([]byte("\x01a\x04\x01b\x01c\x00\x00"))
	f.Add([]byte("\x00\xff\xff\xff\xff\xff\xff\xff\xff\x7f"))
	z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(make([]byte, 64<<10))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, packed := range [][]byte{data, z.EncodeAll(data, nil)} {
			docs, err := Unpack(packed)
			if err != nil {
				if !errors.Is(err, errDamaged) {
					t.Error(err)
				}
				continue
			}
			again, err := Pack(docs)
			if err != nil {
				t.Fatal(err)
			}
			same, err := Unpack(again)
			if err != nil || !slices.EqualFunc(docs, same, func(a, b Doc) bool { return a.Path == b.Path && a.Sum == b.Sum }) {
				t.Errorf("packed again it is otherwise: %v", err)
			}
		}
	})
}

// A file of some hundred bytes that stands for millions of files, or of parts of one, is refused before there is room for them.
func TestPackedBombIsRefused(t *testing.T) {
	z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1))
	if err != nil {
		t.Fatal(err)
	}
	many := slices.Repeat([]byte("\x01a\x00"), mostDocs+1)
	parts := append([]byte("\x01a"), binary.AppendUvarint(nil, uint64(mostParts+1)<<1)...)
	for name, text := range map[string][]byte{"no names": make([]byte, 32<<20), "files": many, "parts": append(parts, make([]byte, 2*mostParts+2)...)} {
		packed := z.EncodeAll(text, nil)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if docs, err := Unpack(packed); !errors.Is(err, errDamaged) {
			t.Errorf("%s: %d files of %d bytes, %v", name, len(docs), len(packed), err)
		}
		runtime.ReadMemStats(&after)
		if taken := after.TotalAlloc - before.TotalAlloc; taken > 256<<20 {
			t.Errorf("%s: %d bytes took %d MiB", name, len(packed), taken>>20)
		}
	}
	if docs, err := Unpack(z.EncodeAll(many[:3*mostDocs], nil)); err != nil || len(docs) != mostDocs {
		t.Errorf("as many files as there may be: %d, %v", len(docs), err)
	}
}
