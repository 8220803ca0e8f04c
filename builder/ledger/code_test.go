package ledger

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"testing"
)

// Every single wrong character and every exchange of two characters, of codes that have each character at each place, is noticed: by the check
// alone, since a character that no code has is refused before.
func TestCodeNoticesEveryMistake(t *testing.T) {
	t.Parallel()
	wrong, swapped := 0, 0
	for n := range 400 {
		sum := sha256.Sum256([]byte{byte(n), byte(n >> 8)})
		code := Code(hex.EncodeToString(sum[:]))
		if got, err := ParseCode(code); err != nil || got != code {
			t.Fatalf("%s: %v", code, err)
		}
		plain := strings.ReplaceAll(code, "-", "")
		for i := range plain {
			for _, r := range Letters {
				if byte(r) == plain[i] {
					continue
				}
				wrong++
				if _, err := ParseCode(plain[:i] + string(r) + plain[i+1:]); err == nil {
					t.Fatalf("%s with %c at %d is a code", code, r, i+1)
				}
			}
			for j := i + 1; j < len(plain); j++ {
				if plain[i] == plain[j] {
					continue
				}
				swapped++
				b := []byte(plain)
				b[i], b[j] = b[j], b[i]
				if _, err := ParseCode(string(b)); err == nil {
					t.Fatalf("%s with characters %d and %d exchanged is a code", code, i+1, j+1)
				}
			}
		}
	}
	if wrong < 75_000 || swapped < 12_000 {
		t.Errorf("only %d wrong characters and %d exchanges were tried", wrong, swapped)
	}
}

// The same without examples: the sum is changed by every difference of two characters at every weight, and by every difference at every two weights.
func TestWeightsNoticeEveryDifference(t *testing.T) {
	t.Parallel()
	for d := 1; d < modulus; d++ {
		for i := range codeLength {
			if (codeLength-i)*d%modulus == 0 {
				t.Errorf("place %d does not notice a difference of %d", i, d)
			}
			for j := range codeLength {
				if i != j && (i-j)*d%modulus == 0 {
					t.Errorf("places %d and %d may exchange what differs by %d", i, j, d)
				}
			}
		}
	}
	for p := 2; p < modulus; p++ {
		if modulus%p == 0 {
			t.Errorf("%d characters are no prime", modulus)
		}
	}
}

func TestCodeHasNothingThatIsTakenForSomethingElse(t *testing.T) {
	t.Parallel()
	for _, group := range []string{"0ODQ", "1IL", "2Z", "5S", "6G", "8B", "UVY"} {
		n := 0
		for _, r := range group {
			if strings.ContainsRune(Letters, r) {
				n++
			}
		}
		if n > 1 {
			t.Errorf("of %s a code may have %d", group, n)
		}
	}
	for _, written := range []string{"7e8 d8b", "o0o-000-000", "234567891", ""} {
		if _, err := ParseCode(written); err == nil {
			t.Errorf("%q is a code", written)
		}
	}
	code := Code(fmt.Sprintf("%064x", 12345678901234))
	for _, written := range []string{strings.ToLower(code), strings.ReplaceAll(code, "-", ""), " " + strings.ReplaceAll(code, "-", " ")} {
		if got, err := ParseCode(written); err != nil || got != code {
			t.Errorf("%q: %q, %v", written, got, err)
		}
	}
	if Code("") != "" || Code("xyz") != "" {
		t.Error("what is no digest has a code")
	}
}

// Of a card's code every single wrong character and every exchange of two is noticed as well, and that it is another tank's, but by one chance in 23.
func TestCodeOfACard(t *testing.T) {
	t.Parallel()
	passes, codes := 0, map[string]bool{}
	for n := range 2000 {
		code := CardCode([]byte{byte(n), byte(n >> 8)}, "wash-1")
		codes[code] = true
		if !isCardCode(code, "wash-1") {
			t.Fatalf("%s is no code at its own tank", code)
		}
		if isCardCode(code, "wash-2") {
			passes++
		}
		for i := range code {
			for _, r := range Letters + "0IO" {
				if byte(r) != code[i] && isCardCode(code[:i]+string(r)+code[i+1:], "wash-1") {
					t.Fatalf("%s with %c at %d is a code", code, r, i+1)
				}
			}
			for j := i + 1; j < len(code); j++ {
				b := []byte(code)
				if b[i], b[j] = b[j], b[i]; b[i] != b[j] && isCardCode(string(b), "wash-1") {
					t.Fatalf("%s with characters %d and %d exchanged is a code", code, i+1, j+1)
				}
			}
		}
	}
	if len(codes) < 1980 {
		t.Errorf("2000 cards have %d codes", len(codes))
	}
	if passes > 2000/23+40 {
		t.Errorf("%d of 2000 codes of Wash 1 pass at Wash 2", passes)
	}
	for _, text := range []string{"", "ABCD", "ABCDEF", "abcde", "🙂A", "-----"} {
		if isCardCode(text, "wash-1") {
			t.Errorf("%q is a code", text)
		}
	}
}

// isCardCode tells whether a text can be the code of a card at a place, as themes/scripts/card.js does.
func isCardCode(text, place string) bool {
	if len(text) != cardLength {
		return false
	}
	at := make([]int, cardLength)
	for i := range text {
		if at[i] = strings.IndexByte(Letters, text[i]); at[i] < 0 {
			return false
		}
	}
	return (CardStart(place)+weighed(cardLength, at))%modulus == 0
}
