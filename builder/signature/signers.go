package signature

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"
)

// Files of a manual that say who may sign, by the names that ssh-keygen(1) has for them.
const (
	SignersFile = "allowed_signers"
	RevokedFile = "revoked_keys" // public keys, one a line
)

// Signers are those who may sign, and the keys that may no longer.
type Signers struct {
	list    []signer
	revoked [][]byte
}

// signer is a line of the list: who, with which key, for what and when.
type signer struct {
	who           string
	key           []byte
	namespaces    string // a list of patterns, "" for all
	after, before time.Time
}

// ReadSigners reads the list of those who may sign, and that of the keys that may not any more, which may be nil. Times without a zone are those of a place.
func ReadSigners(allowed, revoked []byte, place *time.Location) (*Signers, error) {
	s := &Signers{}
	for number, line := range lines(allowed) {
		one, err := readSigner(line, place)
		if err != nil {
			return nil, fmt.Errorf("line %d of %s cannot be read: %w", number, SignersFile, err)
		}
		s.list = append(s.list, one)
	}
	if bytes.HasPrefix(revoked, []byte("SSHKRL\n\x00")) {
		return nil, fmt.Errorf("%s is a binary list; list the public keys that may no longer sign, one a line", RevokedFile)
	}
	for number, line := range lines(revoked) {
		key, _, _, _, err := ssh.ParseAuthorizedKey([]byte(line))
		if err != nil {
			return nil, fmt.Errorf("line %d of %s is no public key", number, RevokedFile)
		}
		s.revoked = append(s.revoked, key.Marshal())
	}
	return s, nil
}

// lines ranges over the lines that say something, with their numbers.
func lines(text []byte) func(func(int, string) bool) {
	return func(yield func(int, string) bool) {
		for i, line := range strings.Split(strings.TrimPrefix(string(text), "\uFEFF"), "\n") {
			if line = strings.TrimSpace(line); line != "" && line[0] != '#' && !yield(i+1, line) {
				return
			}
		}
	}
}

func readSigner(line string, place *time.Location) (signer, error) {
	var one signer
	var rest string
	if quoted, is := strings.CutPrefix(line, `"`); is {
		one.who, rest, is = strings.Cut(quoted, `"`)
		if !is {
			return one, errors.New("a quotation mark is not closed")
		}
	} else if at := strings.IndexAny(line, " \t"); at > 0 {
		one.who, rest = line[:at], line[at:]
	}
	key, _, options, _, err := ssh.ParseAuthorizedKey([]byte(strings.TrimSpace(rest)))
	if err != nil || one.who == "" {
		return one, errors.New("it is not who, options and a public key, parted by blanks")
	}
	one.key = key.Marshal()
	for _, option := range options {
		name, value, _ := strings.Cut(option, "=")
		value = strings.Trim(value, `"`)
		switch strings.ToLower(name) {
		case "namespaces":
			one.namespaces = value
		case "valid-after":
			one.after, err = moment(value, place)
		case "valid-before":
			one.before, err = moment(value, place)
		case "cert-authority":
			err = errors.New("certificates are not read; name the key of each person")
		default:
			err = fmt.Errorf("there is no option %q", name)
		}
		if err != nil {
			return one, err
		}
	}
	return one, nil
}

// moment reads a time as ssh-keygen(1) has it: YYYYMMDD or YYYYMMDDHHMM[SS], with Z for UTC.
func moment(text string, place *time.Location) (time.Time, error) {
	digits, utc := strings.CutSuffix(text, "Z")
	if utc {
		place = time.UTC
	}
	forms := map[int]string{8: "20060102", 12: "200601021504", 14: "20060102150405"}
	t, err := time.ParseInLocation(forms[len(digits)], digits, place)
	if err != nil || forms[len(digits)] == "" {
		return t, fmt.Errorf("%q is no time: write YYYYMMDD", text)
	}
	return t, nil
}

// who gives those of a key, and those of them who may sign under a name at a time; of the first who may not, why.
func (s *Signers) who(key ssh.PublicKey, namespace string, now time.Time) (known, may []string, why string) {
	raw := key.Marshal()
	for _, one := range s.list {
		if !bytes.Equal(one.key, raw) {
			continue
		}
		known = append(known, one.who)
		problem := ""
		switch {
		case one.namespaces != "" && !matches(one.namespaces, namespace):
			problem = fmt.Sprintf("this key may sign %s, and not %s", one.namespaces, namespace)
		case !one.after.IsZero() && now.Before(one.after):
			problem = "this key may sign from " + one.after.Format("2006-01-02 15:04") + " on"
		case !one.before.IsZero() && !now.Before(one.before):
			problem = "this key has expired: it could sign until " + one.before.Format("2006-01-02 15:04")
		}
		if problem == "" {
			may = append(may, one.who)
		} else if why == "" {
			why = problem
		}
	}
	return known, may, why
}

func (s *Signers) isRevoked(key ssh.PublicKey) bool {
	raw := key.Marshal()
	return slices.ContainsFunc(s.revoked, func(k []byte) bool { return bytes.Equal(k, raw) })
}

// matches tells whether a text is one of a list of patterns, in which * is any characters and ? one; one that begins with ! says what is none.
func matches(patterns, text string) bool {
	found := false
	for pattern := range strings.SplitSeq(patterns, ",") {
		not, is := strings.CutPrefix(strings.TrimSpace(pattern), "!")
		if matchesOne(not, text) {
			if is {
				return false
			}
			found = true
		}
	}
	return found
}

func matchesOne(pattern, text string) bool {
	for pattern != "" {
		switch {
		case pattern[0] == '*':
			for i := 0; i <= len(text); i++ {
				if matchesOne(pattern[1:], text[i:]) {
					return true
				}
			}
			return false
		case text == "" || pattern[0] != '?' && pattern[0] != text[0]:
			return false
		}
		pattern, text = pattern[1:], text[1:]
	}
	return text == ""
}
