package shops

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strconv"
	"strings"
)

// mostParts bounds into how many parts the shops are divided.
const mostParts = 100_000

// Part is one of several parts of the shops, so that several processes or machines each do some. The zero value is all of them. Which part a shop is in follows
// from the name of its folder alone, whatever other shops there are.
type Part struct{ Number, Of int }

// PartOf reads a part as it is written: 3/8 is the third of eight.
func PartOf(text string) (Part, error) {
	number, of, is := strings.Cut(text, "/")
	n, err := strconv.Atoi(number)
	m, err2 := strconv.Atoi(of)
	if !is || err != nil || err2 != nil || n < 1 || m < n || m > mostParts {
		return Part{}, fmt.Errorf("%q is no part; 3/8 is the third of eight, of at most %d", text, mostParts)
	}
	return Part{n, m}, nil
}

// Has tells whether a shop is in the part.
func (p Part) Has(shop string) bool {
	if p.Of == 0 {
		return true
	}
	sum := sha256.Sum256([]byte(shop)) // whose low bits, unlike those of quicker sums, are evenly spread over names that are alike
	return binary.BigEndian.Uint64(sum[:])%uint64(p.Of) == uint64(p.Number-1)
}
