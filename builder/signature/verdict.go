package signature

import (
	"fmt"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"
)

// State is what became of a signature.
type State string

// The states. Only with the first has somebody who may sign signed what lies there.
const (
	Holds          State = "signed"
	Changed        State = "changed since"
	UnknownKey     State = "unknown key"
	Revoked        State = "revoked key"
	NotValid       State = "key not valid" // expired, not yet valid, or for something else
	WrongNamespace State = "signed as something else"
	Unreadable     State = "unreadable"
)

// Verdict is what there is to say of a signature.
type Verdict struct {
	State State  `json:"state"`
	Who   string `json:"who"` // by the list of signers; "" where it does not know the key
	Key   string `json:"key"` // fingerprint of the key, as ssh-keygen -l prints it
	Says  string `json:"says"`
}

// Check says whether a signature, read from the bytes of its file, holds for a text: made under that name, by somebody who may, at that time.
// The time is that of the look: a signature does not say when it was made. isOf is how the text is compared.
func (s *Signers) Check(file []byte, namespace string, isOf func(*Signature) bool, now time.Time) Verdict {
	sig, err := Read(file)
	if err != nil {
		return Verdict{State: Unreadable, Says: "The signature cannot be read: " + err.Error() + "."}
	}
	known, may, why := s.who(sig.Key, namespace, now)
	v := Verdict{Key: ssh.FingerprintSHA256(sig.Key), Who: strings.Join(known, ", ")}
	by := v.Who
	if by == "" {
		by = "somebody whose key " + SignersFile + " does not name"
	}
	switch {
	case s.isRevoked(sig.Key):
		v.State, v.Says = Revoked, fmt.Sprintf("The key of %s has been revoked; its signature counts for nothing.", by)
	case sig.Namespace != namespace:
		v.State, v.Says = WrongNamespace, fmt.Sprintf("%s signed this as “%s”, and not as “%s”.", upper(by), printable(sig.Namespace), namespace)
	case !isOf(sig):
		v.State, v.Says = Changed, fmt.Sprintf("Changed since %s signed it.", by)
	case len(known) == 0:
		v.State, v.Says = UnknownKey, fmt.Sprintf("Signed with a key that %s does not name.", SignersFile)
	case len(may) == 0:
		v.State, v.Says = NotValid, fmt.Sprintf("Signed with the key of %s, which does not count: %s.", by, why)
	default:
		v.State, v.Who = Holds, strings.Join(may, ", ")
		v.Says = "Signed by " + v.Who + "."
	}
	return v
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// printable leaves out of what stands in a signature what a terminal would obey.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7F || r > 0x7E {
			return '?'
		}
		return r
	}, text[:min(len(text), 80)])
}
