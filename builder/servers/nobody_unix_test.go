//go:build unix

package servers

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// nobody is the user of that name on Debian.
const nobody = 65534

// asNobody has a program run as an ordinary user where the test runs as root.
func asNobody(cmd *exec.Cmd) {
	if os.Getuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
}

// give gives a folder with all that is in it to whoever the server runs as.
func (n *nginx) give(dir string) {
	n.t.Helper()
	if os.Getuid() != 0 {
		return
	}
	err := filepath.WalkDir(dir, func(name string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		return os.Chown(name, nobody, nobody)
	})
	if err != nil {
		n.t.Fatal(err)
	}
}

// writePair writes a certificate and its key.
func writePair(t *testing.T, dir string, c tls.Certificate) {
	t.Helper()
	key, err := x509.MarshalPKCS8PrivateKey(c.PrivateKey)
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "manual.crt"), string(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c.Certificate[0]})))
	write(t, filepath.Join(dir, "manual.key"), string(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: key})))
}
