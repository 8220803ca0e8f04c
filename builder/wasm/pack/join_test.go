package main

import (
	"bytes"
	"encoding/binary"
	"slices"
	"testing"
)

// module writes a module by hand after the WebAssembly Core Specification 2.0, 5.5: a custom section, then data.
func module(pieces ...piece) []byte {
	out := []byte(header + "\x00\x03\x02ab")
	data := writeData(pieces)
	out = append(out, dataSection)
	out = binary.AppendUvarint(out, uint64(len(data)))
	return append(out, data...)
}

// memory is what a module's data sets the first bytes of a memory to, read by the specification and not by join.
func memory(t *testing.T, module []byte) (bytes []byte, pieces int) {
	t.Helper()
	bytes = make([]byte, 1<<16)
	r := reader{rest: module[len(header)+5:]}
	if r.byte() != dataSection {
		t.Fatal("no data")
	}
	r = reader{rest: r.bytes(r.unsigned())}
	pieces = int(r.unsigned())
	for range pieces {
		r.bytes(2)
		at := r.signed()
		r.byte()
		copy(bytes[at:], r.bytes(r.unsigned()))
	}
	if r.err != nil || len(r.rest) > 0 {
		t.Fatalf("%v, %d bytes are left", r.err, len(r.rest))
	}
	return bytes, pieces
}

func TestJoinedDataIsTheSameMemory(t *testing.T) {
	long := slices.Repeat([]byte("x"), 300)
	for name, c := range map[string]struct {
		pieces []piece
		want   int
	}{
		"none":             {nil, 0},
		"one":              {[]piece{{64, []byte("a")}}, 1},
		"touching":         {[]piece{{0, []byte("ab")}, {2, []byte("cd")}}, 1},
		"a short run":      {[]piece{{1000, []byte("ab")}, {1002 + gap, []byte("cd")}}, 1},
		"a long run":       {[]piece{{1000, []byte("ab")}, {1003 + gap, []byte("cd")}}, 2},
		"out of order":     {[]piece{{5000, long}, {4990, []byte("before")}, {60000, []byte("z")}}, 2},
		"between two":      {[]piece{{100, []byte("a")}, {120, []byte("c")}, {110, []byte("b")}}, 1},
		"an empty one":     {[]piece{{100, []byte("a")}, {101, nil}, {101, []byte("b")}}, 1},
		"a sign in a byte": {[]piece{{63, []byte("a")}, {8191, []byte("b")}, {16384, []byte("c")}}, 3},
	} {
		given := module(c.pieces...)
		want, _ := memory(t, given)
		out, err := join(given)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got, pieces := memory(t, out)
		if !bytes.Equal(got, want) {
			t.Errorf("%s: the memory is another", name)
		}
		if pieces != c.want {
			t.Errorf("%s: %d pieces, not %d", name, pieces, c.want)
		}
		if again, err := join(out); err != nil || !bytes.Equal(again, out) {
			t.Errorf("%s: joined twice it is another (%v)", name, err)
		}
	}
}

func TestWhatIsNoModuleIsNotJoined(t *testing.T) {
	good := module(piece{1000, []byte("ab")}, piece{2000, []byte("cd")})
	for cut := range good {
		if cut == len(header) || cut == len(header)+5 {
			continue // whole without its last sections
		}
		if _, err := join(good[:cut]); err == nil {
			t.Errorf("the first %d of %d bytes are taken for a module", cut, len(good))
		}
	}
	if _, err := join(module(piece{1000, []byte("abc")}, piece{1002, []byte("d")})); err == nil {
		t.Error("two pieces for one place are joined")
	}
	passive := bytes.Clone(good)
	passive[bytes.IndexByte(passive, i32Const)-1] = 1
	if _, err := join(passive); err == nil {
		t.Error("a piece without a place is joined")
	}
	if _, err := join(append(slices.Clone(good), dataSection, 2, 0, 0)); err == nil {
		t.Error("bytes behind the last piece are dropped")
	}
}

func TestSignedNumbers(t *testing.T) {
	// WebAssembly Core Specification 2.0, 5.2.2; the bytes of the two examples there, and where a byte more is needed.
	for v, want := range map[int64]string{0: "\x00", 3: "\x03", -2: "\x7e", 63: "\x3f", 64: "\xc0\x00", -64: "\x40", -65: "\xbf\x7f", 624485: "\xe5\x8e\x26", 1 << 62: "\x80\x80\x80\x80\x80\x80\x80\x80\xc0\x00"} {
		out := appendSigned(nil, v)
		r := reader{rest: out}
		if got := r.signed(); got != v || string(out) != want || r.err != nil || len(r.rest) > 0 {
			t.Errorf("%d is % x, not % x, and is read as %d, %v", v, out, want, got, r.err)
		}
	}
}
