package main

import (
	"encoding/binary"
	"io"
)

// reader takes numbers (LEB128, signed and unsigned: WebAssembly Core Specification 2.0, 5.2.2) and runs of bytes off its rest. After an
// error all it gives is zero.
type reader struct {
	rest []byte
	err  error
}

// fail keeps the first error and drops the rest.
func (r *reader) fail(err error) {
	if r.err == nil {
		r.rest, r.err = nil, err
	}
}

func (r *reader) bytes(n uint64) []byte {
	if n > uint64(len(r.rest)) {
		r.fail(io.ErrUnexpectedEOF)
	}
	if r.err != nil {
		return nil
	}
	b := r.rest[:n:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) byte() byte {
	if b := r.bytes(1); b != nil {
		return b[0]
	}
	return 0
}

func (r *reader) unsigned() uint64 {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 {
		r.fail(io.ErrUnexpectedEOF)
		return 0
	}
	r.bytes(uint64(n))
	return v
}

// signed reads a number of at most 64 bits.
func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 64 && r.err == nil; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b < 0x80 {
			if b&0x40 != 0 && shift+7 < 64 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.fail(io.ErrUnexpectedEOF)
	return 0
}

func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}
