package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The programs that are handed out do their work where they are for, or where this machine can play that: the edition of the demo manual is the same to the byte, and is
// found whole. Of systems that nothing here plays it is said that they were not tried. make release builds the programs and runs this.
func TestReleasedProgramsPublishTheDemo(t *testing.T) {
	built := os.Getenv("TANKSIDE_BUILT")
	if built == "" {
		t.Skip("the programs that are handed out are tried by make release, which builds them")
	}
	want := publishedBy(t, nil, filepath.Join(built, "linux-amd64", "tankside"))
	for system, player := range map[string]func(t *testing.T) []string{
		"windows-amd64/tankside.exe": onWindows, "linux-arm64/tankside": onARM,
		"windows-arm64/tankside.exe": nil, "darwin-amd64/tankside": nil, "darwin-arm64/tankside": nil,
	} {
		t.Run(filepath.Dir(system), func(t *testing.T) {
			program := filepath.Join(built, filepath.FromSlash(system))
			if _, err := os.Stat(program); err != nil {
				t.Fatal(err)
			}
			if player == nil {
				t.Skip("it was built and not tried: nothing here runs it")
			}
			if got := publishedBy(t, player(t), program); !bytes.Equal(got, want) {
				t.Errorf("the edition is another than the one that Linux makes: %d bytes of the list, not %d", len(got), len(want))
			}
		})
	}
}

// publishedBy has a program, run by another, publish the demo manual, look at the edition and find in it, and gives the list of the edition.
func publishedBy(t *testing.T, player []string, program string) []byte {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(filepath.Join(folder, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) string {
		t.Helper()
		line := append(append(append([]string{}, player...), program), args...)
		c := exec.Command(line[0], line[1:]...)
		c.Dir, c.Env = folder, append(os.Environ(), "SOURCE_DATE_EPOCH=1796083200", "WINEDEBUG=-all") // 1 December 2026
		out, err := c.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %v\n%.2000s", line, err, out)
		}
		return string(out)
	}
	run("publish", "content", "--to", "edition")
	if got := run("verify", "edition"); !strings.Contains(got, "all as they were published") {
		t.Errorf("%s", got)
	}
	if got := strings.ReplaceAll(run("find", "white", "spots"), `\`, "/"); !strings.Contains(got, "edition/symptoms/") {
		t.Errorf("%s", got)
	}
	list, err := os.ReadFile(filepath.Join(folder, "edition", "edition.json"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// onARM runs programs for 64-bit ARM.
func onARM(t *testing.T) []string {
	for _, name := range []string{"qemu-aarch64", "qemu-aarch64-static"} {
		if path, err := exec.LookPath(name); err == nil {
			return []string{path}
		}
	}
	t.Skip("nothing here runs programs for ARM. Install it with: apt-get install qemu-user")
	return nil
}

// onWindows runs programs for Windows, in a new home of theirs.
func onWindows(t *testing.T) []string {
	path, err := exec.LookPath("wine")
	if err != nil {
		t.Skip("nothing here runs programs for Windows. Install it with: apt-get install wine64")
	}
	t.Setenv("WINEPREFIX", t.TempDir())
	t.Cleanup(func() { // its server stays for some seconds, and writes as it ends
		if out, err := exec.Command("wineserver", "--wait").CombinedOutput(); err != nil {
			t.Errorf("the server of the Windows programs has not ended: %v %s", err, out)
		}
	})
	system := filepath.Join(os.Getenv("WINEPREFIX"), "drive_c", "windows", "system32")
	if out, err := exec.Command(path, "cmd", "/c", "ver").CombinedOutput(); err != nil {
		t.Skipf("programs for Windows do not run here: %v %s", err, out)
	}
	// Go asks this library of Windows 10 for random bytes (ProcessPrng), which Debian 12's stand-in for Windows lacks: its older function is given under the newer name.
	const library = "bcryptprimitives.dll"
	if _, err := os.Stat(filepath.Join(system, library)); errors.Is(err, os.ErrNotExist) {
		if err := os.WriteFile(filepath.Join(system, library), forwarding("ProcessPrng", "advapi32.SystemFunction036"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return []string{path}
}

// forwarding is a library for 64-bit Windows without any code, whose one function is another library's (Microsoft, PE Format, revision 2024, “The .edata Section (Image
// Only)”: an address within the export section is that of the forwarder's name).
func forwarding(name, to string) []byte {
	const at, raw = 0x1000, 0x200 // where the section lies in memory, and in the file
	le := binary.LittleEndian
	b := make([]byte, 2*raw)
	put := func(offset int, values ...any) {
		for _, v := range values {
			n, err := binary.Encode(b[offset:], le, v)
			if err != nil {
				panic(err) // only numbers of a size are put
			}
			offset += n
		}
	}
	copy(b, "MZ")
	put(0x3c, uint32(0x40))
	copy(b[0x40:], "PE\x00\x00")
	put(0x44, uint16(0x8664), uint16(1), uint32(0), uint32(0), uint32(0), uint16(0xf0), uint16(0x2022))
	put(0x58, uint16(0x20b), uint16(0), uint32(0), uint32(raw), uint32(0), uint32(0), uint32(at), uint64(0x180000000), uint32(0x1000), uint32(raw),
		uint16(6), uint16(0), uint16(0), uint16(0), uint16(6), uint16(0), uint32(0), uint32(0x2000), uint32(raw), uint32(0), uint16(3), uint16(0x100),
		uint64(0x100000), uint64(0x1000), uint64(0x100000), uint64(0x1000), uint32(0), uint32(16), uint32(at), uint32(raw))
	copy(b[0x148:], ".edata")
	put(0x150, uint32(raw), uint32(at), uint32(raw), uint32(raw), uint32(0), uint32(0), uint32(0), uint32(0x40000040))
	const names = 0x40 // in the section: what stands before is the directory and its tables
	copy(b[raw+names:], name+"\x00"+to+"\x00")
	put(raw, uint32(0), uint32(0), uint32(0), uint32(at+names), uint32(1), uint32(1), uint32(1), uint32(at+0x28), uint32(at+0x2c), uint32(at+0x30))
	put(raw+0x28, uint32(at+names+len(name)+1), uint32(at+names), uint16(0))
	return b
}
