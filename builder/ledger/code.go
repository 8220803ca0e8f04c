package ledger

import (
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"strings"
)

// Letters are the characters of a code. Of each group of characters that are taken for each other in print or in handwriting there is one, or none:
// 0 O D Q, 1 I L, 2 Z, 5 S, 6 G, 8 B, U V.
const Letters = "23456789ACEFHJKMNPRTWXY"

// A code has codeLength characters, the last of them the check character, written in groups of three. There are 23⁸, 78 thousand million, of them: of
// a thousand editions of one manual two have the same with a probability of 6 in a million.
const (
	codeLength = 9
	groupOf    = 3
	modulus    = len(Letters) // a prime
)

// Code is the short name of an edition, made of the digest of its content, in hexadecimal: such as “7KQ-2M4-XNC”. It is empty for what is no digest.
//
// The check character is that of the ISBN of ten characters, a weighted sum modulo a prime (ISO 2108:1992, Information and documentation: International
// standard book numbering, the check digit: modulus 11 with the weights 10 to 2), with 23 characters in the place of 11 and the weights 9 to 2. Since
// the modulus is a prime and larger than every weight, every single wrong character is noticed, and every two that have changed places, neighbours
// or not: the sum is then off by a product of two numbers that 23 does not divide.
func Code(digest string) string {
	sum, err := hex.DecodeString(digest)
	if err != nil || len(sum) < 8 {
		return ""
	}
	n := binary.BigEndian.Uint64(sum)
	var at [codeLength]int
	for i := range codeLength - 1 {
		at[i] = int(n % uint64(modulus))
		n /= uint64(modulus)
	}
	at[codeLength-1] = (modulus - weighed(codeLength, at[:codeLength-1])%modulus) % modulus
	return written(at[:])
}

// weighed is the weighted sum of characters, by their places in Letters: the first has the greatest weight, and the check character 1.
func weighed(most int, at []int) int {
	sum := 0
	for i, v := range at {
		sum += (most - i) * v
	}
	return sum
}

func written(at []int) string {
	var b strings.Builder
	for i, v := range at {
		if i > 0 && i%groupOf == 0 {
			b.WriteByte('-')
		}
		b.WriteByte(Letters[v])
	}
	return b.String()
}

// ParseCode reads a code as people write it down, in small letters and with blanks as well, and gives it as it is printed. The error is a sentence.
func ParseCode(text string) (string, error) {
	var at []int
	for _, r := range strings.ToUpper(text) {
		if r == ' ' || r == '-' {
			continue
		}
		i := strings.IndexRune(Letters, r)
		if i < 0 {
			return "", fmt.Errorf("no code has the character %q: ask for it again, it may be another that looks or sounds alike", r)
		}
		at = append(at, i)
	}
	if len(at) != codeLength {
		return "", fmt.Errorf("a code has %d characters, and this has %d", codeLength, len(at))
	}
	if weighed(codeLength, at)%modulus != 0 {
		return "", fmt.Errorf("this is no code of an edition: a character is wrong, or two have changed places")
	}
	return written(at), nil
}
