package signature

import (
	"bytes"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/pem"
	"errors"
	"fmt"

	"golang.org/x/crypto/ssh"
)

// What is signed says under which of these names it was signed, so that a signature of one sort is none of the other.
const (
	OfApproval = "tankside-approval" // of an article's file
	OfEdition  = "tankside-edition"  // of an edition's checksum list
)

// Extension is what the file of a signature is called behind the name of what was signed, as ssh-keygen calls it.
const Extension = ".sig"

// Largest bounds a signature's file, in bytes: that of the longest RSA key has some 3 kB.
const Largest = 16 << 10

// armored is the type of the armour around a signature.
const armored = "SSH SIGNATURE"

// magic begins a signature, and what it is of (PROTOCOL.sshsig, sections 2 and 3).
const magic = "SSHSIG"

// Signature is a signature as it was read. It holds for nothing yet.
type Signature struct {
	Key       ssh.PublicKey
	Namespace string
	hash      string
	made      ssh.Signature
}

// blob is a signature's own form behind its magic (PROTOCOL.sshsig, section 2).
type blob struct {
	Version                              uint32
	Key                                  []byte
	Namespace, Reserved, Hash, Signature string
}

// Read reads the file of a signature.
func Read(data []byte) (*Signature, error) {
	block, rest := pem.Decode(data)
	if block == nil || block.Type != armored || len(bytes.TrimSpace(rest)) > 0 || len(block.Headers) > 0 {
		return nil, errors.New("it is no signature that ssh-keygen has made")
	}
	if !alike(data, pem.EncodeToMemory(&pem.Block{Type: armored, Bytes: block.Bytes})) {
		return nil, errors.New("it is damaged")
	}
	body, is := bytes.CutPrefix(block.Bytes, []byte(magic))
	var b blob
	if !is || ssh.Unmarshal(body, &b) != nil {
		return nil, errors.New("it is damaged")
	}
	if b.Version != 1 {
		return nil, fmt.Errorf("it has version %d of the form, and version 1 alone is known", b.Version)
	}
	s := &Signature{Namespace: b.Namespace, hash: b.Hash}
	var err error
	if s.Key, err = ssh.ParsePublicKey(b.Key); err != nil {
		return nil, errors.New("its key cannot be read")
	}
	if _, certified := s.Key.(*ssh.Certificate); certified {
		return nil, errors.New("it was made with a certificate; sign with a key that the list of signers names")
	}
	if err := ssh.Unmarshal([]byte(b.Signature), &s.made); err != nil {
		return nil, errors.New("it is damaged")
	}
	if s.made.Format == ssh.KeyAlgoRSA || s.made.Format == "ssh-dss" { // PROTOCOL.sshsig, section 3: RSA with SHA-2 alone
		return nil, fmt.Errorf("it was made by %s, which is not safe", s.made.Format)
	}
	return s, nil
}

// alike tells whether two texts differ in white space alone. Decoding overlooks the bits that fill up the last letter of
// base64, and what stands before the armour: a signature's file with a letter changed would be none the worse for it, and
// ssh-keygen, which overlooks neither, would call it damaged.
func alike(a, b []byte) bool {
	return bytes.Equal(bytes.Join(bytes.Fields(a), nil), bytes.Join(bytes.Fields(b), nil))
}

// Of tells whether the signature is of a text.
func (s *Signature) Of(text []byte) bool {
	var sum []byte
	switch s.hash {
	case "sha256":
		h := sha256.Sum256(text)
		sum = h[:]
	case "sha512":
		h := sha512.Sum512(text)
		sum = h[:]
	default:
		return false // PROTOCOL.sshsig knows these two
	}
	signed := append([]byte(magic), ssh.Marshal(struct{ Namespace, Reserved, Hash, Sum string }{s.Namespace, "", s.hash, string(sum)})...)
	return s.Key.Verify(signed, &s.made) == nil
}

// OfLines tells whether the signature is of a text, whichever ends its lines have: version control and editors change them on the way.
func (s *Signature) OfLines(text []byte) bool {
	if s.Of(text) {
		return true
	}
	plain := bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	return s.Of(plain) || s.Of(bytes.ReplaceAll(plain, []byte("\n"), []byte("\r\n")))
}
