package signature

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// desk is a folder with keys that ssh-keygen has made: make tools sees to it that it is there.
type desk struct {
	t   *testing.T
	dir string
}

func newDesk(t *testing.T) desk {
	d := desk{t, t.TempDir()}
	for who, kind := range map[string][]string{"renner": {"-t", "ed25519"}, "okello": {"-t", "rsa", "-b", "2048"}, "lindh": {"-t", "ecdsa"}, "stranger": {"-t", "ed25519"}} {
		d.run(append([]string{"-q", "-N", "", "-C", who, "-f", d.at(who)}, kind...)...)
	}
	return d
}

func (d desk) at(name string) string { return filepath.Join(d.dir, name) }

func (d desk) run(args ...string) {
	d.t.Helper()
	if out, err := exec.Command("ssh-keygen", args...).CombinedOutput(); err != nil {
		d.t.Fatalf("ssh-keygen %s: %v\n%s", strings.Join(args, " "), err, out)
	}
}

func (d desk) write(name, text string) {
	d.t.Helper()
	if err := os.WriteFile(d.at(name), []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
}

func (d desk) read(name string) []byte {
	d.t.Helper()
	data, err := os.ReadFile(d.at(name))
	if err != nil {
		d.t.Fatal(err)
	}
	return data
}

// sign has somebody sign a text under a name.
func (d desk) sign(who, namespace, text string, more ...string) []byte {
	d.t.Helper()
	d.write("text", text)
	os.Remove(d.at("text.sig"))
	d.run(append(append([]string{"-q", "-Y", "sign"}, more...), "-f", d.at(who), "-n", namespace, d.at("text"))...)
	return d.read("text.sig")
}

// agrees tells whether ssh-keygen takes a signature of somebody for good, too.
func (d desk) agrees(sig []byte, namespace, text string, extra ...string) bool {
	d.t.Helper()
	d.write("checked.sig", string(sig))
	for _, who := range []string{"renner", "okello", "lindh"} {
		cmd := exec.Command("ssh-keygen", append([]string{"-Y", "verify", "-f", d.at(SignersFile), "-I", who, "-n", namespace, "-s", d.at("checked.sig")}, extra...)...)
		cmd.Stdin = strings.NewReader(text)
		if cmd.Run() == nil {
			return true
		}
	}
	return false
}

// What ssh-keygen signs holds here exactly where it holds for ssh-keygen, and each thing that can be wrong is said.
func TestSignaturesOfSSHKeygen(t *testing.T) {
	d := newDesk(t)
	key := func(who string) string { return strings.TrimSpace(string(d.read(who + ".pub"))) }
	const text = "---\ntitle: Wax\n---\nWarm it.\n"
	now := time.Date(2026, 12, 1, 12, 0, 0, 0, time.UTC)
	plain := "# who may sign\nrenner " + key("renner") + "\n\nokello namespaces=\"tankside-*,!tankside-edition\" " + key("okello") + "\n\"lindh\" valid-after=\"20260101Z\",valid-before=\"20270101Z\" " + key("lindh") + "\n"
	for name, c := range map[string]struct {
		signers, revoked string
		sig              []byte
		text             string
		at               time.Time
		want             State
		says             string
	}{
		"ed25519":             {plain, "", d.sign("renner", OfApproval, text), text, now, Holds, "Signed by renner."},
		"RSA":                 {plain, "", d.sign("okello", OfApproval, text), text, now, Holds, "Signed by okello."},
		"ECDSA":               {plain, "", d.sign("lindh", OfApproval, text), text, now, Holds, "Signed by lindh."},
		"by SHA-256":          {plain, "", d.sign("renner", OfApproval, text, "-O", "hashalg=sha256"), text, now, Holds, "Signed by renner."},
		"a word changed":      {plain, "", d.sign("renner", OfApproval, text), strings.Replace(text, "Warm", "Boil", 1), now, Changed, "Changed since renner signed it."},
		"stranger":            {plain, "", d.sign("stranger", OfApproval, text), text, now, UnknownKey, "does not name"},
		"stranger's, changed": {plain, "", d.sign("stranger", OfApproval, text), "x", now, Changed, "does not name"},
		"another name":        {plain, "", d.sign("renner", "file", text), text, now, WrongNamespace, "as “file”"},
		"an edition's":        {plain, "", d.sign("renner", OfEdition, text), text, now, WrongNamespace, "tankside-edition"},
		"expired":             {plain, "", d.sign("lindh", OfApproval, text), text, now.AddDate(0, 2, 0), NotValid, "expired: it could sign until 2027-01-01"},
		"not yet valid":       {plain, "", d.sign("lindh", OfApproval, text), text, now.AddDate(-1, 0, 0), NotValid, "from 2026-01-01"},
		"for something else":  {"renner namespaces=\"git\" " + key("renner"), "", d.sign("renner", OfApproval, text), text, now, NotValid, "may sign git"},
		"revoked":             {plain, key("renner"), d.sign("renner", OfApproval, text), text, now, Revoked, "revoked"},
		"another revoked":     {plain, "# gone\n" + key("stranger") + "\n", d.sign("renner", OfApproval, text), text, now, Holds, ""},
		"nobody may":          {"", "", d.sign("renner", OfApproval, text), text, now, UnknownKey, ""},
	} {
		t.Run(name, func(t *testing.T) {
			d := desk{t, d.dir}
			s, err := ReadSigners([]byte(c.signers), []byte(c.revoked), time.UTC)
			if err != nil {
				t.Fatal(err)
			}
			v := s.Check(c.sig, OfApproval, func(g *Signature) bool { return g.Of([]byte(c.text)) }, c.at)
			if v.State != c.want || !strings.Contains(v.Says, c.says) || v.Key == "" {
				t.Errorf("want %s, got %+v", c.want, v)
			}
			d.write(SignersFile, c.signers)
			extra := []string{"-O", "verify-time=" + c.at.Format("20060102150405") + "Z"}
			if c.revoked != "" {
				d.write(RevokedFile, c.revoked)
				extra = append(extra, "-r", d.at(RevokedFile))
			}
			if theirs := d.agrees(c.sig, OfApproval, c.text, extra...); theirs != (v.State == Holds) {
				t.Errorf("ssh-keygen says %v, and we %s", theirs, v.State)
			}
		})
	}
}

// A namespace that the list excludes is none, also here.
func TestExcludedNamespace(t *testing.T) {
	d := newDesk(t)
	signers := "okello namespaces=\"tankside-*,!tankside-edition\" " + string(d.read("okello.pub"))
	s, err := ReadSigners([]byte(signers), nil, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	sig := d.sign("okello", OfEdition, "list")
	v := s.Check(sig, OfEdition, func(g *Signature) bool { return g.Of([]byte("list")) }, time.Now())
	d.write(SignersFile, signers)
	if v.State != NotValid || d.agrees(sig, OfEdition, "list") {
		t.Errorf("got %+v", v)
	}
}

// Line ends are changed by version control and editors; a signature of the one holds for the other.
func TestLineEnds(t *testing.T) {
	d := newDesk(t)
	const plain, windows = "a\nb\n", "a\r\nb\r\n"
	for _, c := range [][2]string{{plain, windows}, {windows, plain}, {plain, plain}, {windows, windows}} {
		sig, err := Read(d.sign("renner", OfApproval, c[0]))
		if err != nil {
			t.Fatal(err)
		}
		if !sig.OfLines([]byte(c[1])) || sig.OfLines([]byte(c[1]+"c")) {
			t.Errorf("signed %q, compared with %q", c[0], c[1])
		}
	}
}

// No byte of a signature can be another and the signature still hold, and nothing that is read ends the program. Every letter
// is tried in the last places: bits that fill up the last letter of base64 are in no byte that it stands for (RFC 4648, 3.5).
func TestDamagedSignatures(t *testing.T) {
	d := newDesk(t)
	const text = "text"
	good := d.sign("renner", OfApproval, text)
	s, err := ReadSigners([]byte("renner "+string(d.read("renner.pub"))), nil, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	check := func(sig []byte) Verdict {
		return s.Check(sig, OfApproval, func(g *Signature) bool { return g.Of([]byte(text)) }, time.Now())
	}
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/="
	first, end := bytes.IndexByte(good, '\n')+1, bytes.LastIndex(good, []byte("\n-----END"))
	for at := first; at < end; at++ {
		others := "AB"
		if at >= end-4 {
			others = letters
		}
		for _, other := range []byte(others) {
			bad := bytes.Clone(good)
			if bad[at] = other; bytes.Equal(bad, good) {
				continue
			}
			if v := check(bad); v.State == Holds {
				t.Errorf("%q in place of %q, %d before the end: %+v", other, good[at], end-at, v)
			}
		}
	}
	for _, bad := range [][]byte{nil, []byte("x"), good[:len(good)/2], append(bytes.Clone(good), good...), append([]byte("text before\n"), good...), []byte("-----BEGIN SSH SIGNATURE-----\nAAAA\n-----END SSH SIGNATURE-----\n")} {
		if v := check(bad); v.State != Unreadable || v.Says == "" {
			t.Errorf("%q: %+v", bad, v)
		}
	}
}

// A list that cannot be read as a whole is no list: nobody is let in by half a line.
func TestUnreadableSigners(t *testing.T) {
	const key = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIIWm5kYBZ5yVtMDcL0pN0CbHw0n1OZK1AHFo9jcn8x7V"
	for line, want := range map[string]string{
		"renner":                                 "line 1",
		"renner ssh-ed25519 AAAA":                "line 1",
		"# a\n\nrenner cert-authority " + key:    "line 3",
		"renner valid-before=\"soon\" " + key:    "no time",
		"renner valid-until=\"20270101\" " + key: "no option",
		"\"renner " + key:                        "not closed",
	} {
		if _, err := ReadSigners([]byte(line), nil, time.UTC); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: want %q, got %v", line, want, err)
		}
	}
	if _, err := ReadSigners(nil, []byte("SSHKRL\n\x00..."), time.UTC); err == nil {
		t.Error("a binary list of revoked keys is taken for one of keys")
	}
	if _, err := ReadSigners(nil, []byte("SHA256:abc"), time.UTC); err == nil {
		t.Error("a line that is no key is passed over")
	}
}
