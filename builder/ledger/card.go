package ledger

import (
	"crypto/sha256"
	"encoding/binary"
)

// The code of a card has cardLength characters, the last of them the check character: 23⁴, 280 thousand, codes for the cards that one place ever has.
const cardLength = 5

// CardCode is the code of a card that says a text and hangs at a place, such as “7KQ2M”. Its check character holds for that place alone: a code that was read off another
// tank's card does not pass there, but by one chance in 23.
func CardCode(says []byte, place string) string {
	sum := sha256.Sum256(says)
	n := binary.BigEndian.Uint64(sum[:])
	var at [cardLength]int
	for i := range cardLength - 1 {
		at[i] = int(n % uint64(modulus))
		n /= uint64(modulus)
	}
	at[cardLength-1] = (modulus - (CardStart(place)+weighed(cardLength, at[:cardLength-1]))%modulus) % modulus
	code := make([]byte, cardLength)
	for i, v := range at {
		code[i] = Letters[v]
	}
	return string(code)
}

// CardStart is the number with which the sum of a card's code begins at a place. The sum of that, and of the place in Letters of each character by its weight, 5 to 1,
// is a multiple of 23.
func CardStart(place string) int {
	sum := sha256.Sum256([]byte(place))
	return int(binary.BigEndian.Uint64(sum[:]) % uint64(modulus))
}
