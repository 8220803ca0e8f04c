package inboth

import (
	"bytes"
	"testing"
)

// What a page of 60 kB costs with and without amounts, in bytes a second.
func BenchmarkHTML(b *testing.B) {
	page := bytes.Repeat([]byte(`<p>Bring it to <a href="../tanks/wash-1.html">60 °C</a>, 3 °C below the set-point; add 4.8 L for each of 120 loads, `+
		`on 2026-11-29, and keep it there until all of it is as it should be, which takes until 12 o'clock or thereabouts.</p>`), 250)
	b.SetBytes(int64(len(page)))
	for b.Loop() {
		HTML(page)
	}
}
