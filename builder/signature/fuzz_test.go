package signature

import (
	"encoding/pem"
	"testing"
	"time"
)

// Whatever stands in the file of a signature, it is read or refused; it is never one of a text that it was not made for.
func FuzzRead(f *testing.F) {
	f.Add([]byte("SSHSIG\x00\x00\x00\x01\x00\x00\x00\x33\x00\x00\x00\x0bssh-ed25519\x00\x00\x00\x20"))
	f.Add([]byte("-----BEGIN SSH SIGNATURE-----\nU1NIU0lHAAAAAQ==\n-----END SSH SIGNATURE-----\n"))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, file := range [][]byte{data, pem.EncodeToMemory(&pem.Block{Type: armored, Bytes: data})} {
			s, err := Read(file)
			if (s == nil) == (err == nil) {
				t.Fatalf("%v, %v", s, err)
			}
			if err == nil && s.Of([]byte("a text that nobody has signed")) {
				t.Error("it holds for any text")
			}
		}
	})
}

// Whatever stands in the lists of signers, they are read whole or refused with the line.
func FuzzSigners(f *testing.F) {
	const key = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIAABAgMEBQYHCAkKCwwNDg8QERITFBUWFxgZGhscHR4f"
	f.Add([]byte("\"A. Renner\" namespaces=\"tankside-*\",valid-after=\"20260101Z\" "+key+"\n"), []byte(key+"\n"))
	f.Add([]byte("x\n# y\n\" z"), []byte("SSHKRL\n\x00"))
	f.Fuzz(func(t *testing.T, allowed, revoked []byte) {
		s, err := ReadSigners(allowed, revoked, time.UTC)
		if (s == nil) == (err == nil) {
			t.Errorf("%v, %v", s, err)
		}
		if s != nil {
			for _, one := range s.list {
				if one.who == "" || len(one.key) == 0 {
					t.Errorf("a signer without name or key: %+v", one)
				}
			}
		}
	})
}
