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
