package carry

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"tankside/builder/edition"
)

const firstPage = "<!doctype html><p>open manual/index.html"

// published makes a small edition with a file that is worth being packed.
func published(t testing.TB, more map[string]string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "edition")
	w, err := edition.BeginIn(nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{"index.html": strings.Repeat("<p>Wash 1</p>", 500), "soils/wax.html": "wax", "assets/a.1.css": "p{}", "content/part-1.zst": "packed"}
	for name, text := range more {
		files[name] = text
	}
	for name, text := range files {
		if err := w.Add(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := w.Commit(edition.List{Shop: "A shop", Mark: edition.Mark{Code: "234-567-89A"}, First: edition.Sum([]byte(firstPage)), Articles: []edition.Article{}}, []byte("// worker")); err != nil {
		t.Fatal(err)
	}
	return dir
}

func carried(t testing.TB, folder string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "a.zip")
	if _, err := Write(t.Context(), folder, to, []byte(firstPage)); err != nil {
		t.Fatal(err)
	}
	return to
}

// The same edition is the same file, from another folder as well; in it is what a reader can use, and nothing else.
func TestOneEditionIsOneFile(t *testing.T) {
	t.Parallel()
	a, b := carried(t, published(t, nil)), carried(t, published(t, nil))
	x, err := os.ReadFile(a)
	y, err2 := os.ReadFile(b)
	if err := errors.Join(err, err2); err != nil || !bytes.Equal(x, y) {
		t.Errorf("two files of one edition differ (%v)", err)
	}
	z, err := zip.OpenReader(a)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
		if !f.Modified.Equal(unchanging) || f.Comment != "" {
			t.Errorf("%s is of %s", f.Name, f.Modified)
		}
	}
	if got, want := strings.Join(names, " "), "OPEN-ME.html manual/assets/a.1.css manual/edition.json manual/index.html manual/offline.js manual/soils/wax.html"; got != want {
		t.Errorf("the file holds %s, not %s", got, want)
	}
	// Written over itself it is the same; over anything else it is not written.
	if _, err := Write(t.Context(), published(t, nil), a, []byte(firstPage)); err != nil {
		t.Error(err)
	}
	other := filepath.Join(t.TempDir(), "holiday.zip")
	if err := os.WriteFile(other, []byte("pictures"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Write(t.Context(), published(t, nil), other, []byte(firstPage)); err == nil || !strings.Contains(err.Error(), "it is not replaced") {
		t.Errorf("somebody's file: %v", err)
	}
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(other), ".tankside*")); err != nil || len(left) > 0 {
		t.Errorf("%v is left (%v)", left, err)
	}
}

// What was changed, is missing or cannot be unpacked is told; and an edition that is not as it was published is not carried.
func TestVerifyInTheFile(t *testing.T) {
	t.Parallel()
	folder := published(t, nil)
	path := carried(t, folder)
	a, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if r, err := a.Verify(t.Context()); err != nil || !r.OK || r.Files != 5 {
		t.Errorf("%+v, %v", r, err)
	}
	for what, c := range map[string]struct {
		change  func(*entry) bool // false leaves the entry out
		damaged string
		missing string
	}{
		"a page changed": {func(e *entry) bool {
			if e.name == "manual/soils/wax.html" {
				e.data = []byte("WAX")
			}
			return true
		}, "[soils/wax.html]", "[]"},
		"a page gone": {func(e *entry) bool { return e.name != "manual/soils/wax.html" }, "[]", "[soils/wax.html]"},
		"another to open": {func(e *entry) bool {
			e.data = bytes.Replace(e.data, []byte("open manual"), []byte("open poison"), 1)
			return true
		}, "[../OPEN-ME.html]", "[]"},
		"none to open": {func(e *entry) bool { return e.name != First }, "[]", "[../OPEN-ME.html]"},
	} {
		a, err := open(archived(t, path, c.change))
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		r, err := a.Verify(t.Context())
		if err != nil || r.OK || fmt.Sprint(r.Damaged) != c.damaged || fmt.Sprint(r.Missing) != c.missing {
			t.Errorf("%s: %+v, %v", what, r, err)
		}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(data, []byte("manual/soils/wax.html")) + len("manual/soils/wax.html") + 9 // and the field of the time
	data[at] ^= 0x18                                                                            // in the packed bytes
	b, err := open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if r, err := b.Verify(t.Context()); err != nil || fmt.Sprint(r.Damaged) != "[soils/wax.html]" {
		t.Errorf("bytes changed: %+v, %v", r, err)
	}
	if _, err := b.Read(edition.File{Path: "soils/wax.html", Bytes: 3, SHA256: edition.Sum([]byte("wax"))}); !errors.Is(err, edition.ErrDamaged) {
		t.Errorf("a damaged page is read: %v", err)
	}

	if err := os.WriteFile(filepath.Join(folder, "soils", "wax.html"), []byte("not wax"), 0o600); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "b.zip")
	if _, err := Write(t.Context(), folder, to, []byte(firstPage)); err == nil || !strings.Contains(err.Error(), "not as it was published") {
		t.Errorf("a damaged edition: %v", err)
	}
	if _, err := os.Stat(to); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("half a file is there: %v", err)
	}
}

// entry is one of an archive that a test makes.
type entry struct {
	name   string
	data   []byte
	method uint16
	mode   fs.FileMode
	flags  uint16
	raw    *zip.FileHeader // sizes that are not true
}

// archived makes an archive of the entries of another, each changed, and of more.
func archived(t testing.TB, path string, change func(*entry) bool, more ...entry) (io.ReaderAt, int64) {
	t.Helper()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	var list []entry
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		e := entry{name: f.Name, data: data, method: zip.Deflate}
		if change == nil || change(&e) {
			list = append(list, e)
		}
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range append(list, more...) {
		h := &zip.FileHeader{Name: e.name, Method: e.method, Flags: e.flags}
		if e.mode != 0 {
			h.SetMode(e.mode)
		}
		var to io.Writer
		if e.raw != nil {
			h.CRC32, h.CompressedSize64, h.UncompressedSize64 = e.raw.CRC32, e.raw.CompressedSize64, e.raw.UncompressedSize64
			to, err = w.CreateRaw(h)
		} else {
			to, err = w.CreateHeader(h)
		}
		if err != nil {
			t.Fatal(err)
		}
		if _, err := to.Write(e.data); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return bytes.NewReader(b.Bytes()), int64(b.Len())
}

// zeros are packed bytes of so many zeros, about a thousandth of them.
func zeros(t *testing.T, n int64) []byte {
	t.Helper()
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.CopyN(w, endless{}, n); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

type endless struct{}

func (endless) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// What no edition's file has is refused, with a sentence that says what and, where there is one, the entry.
func TestRefusals(t *testing.T) {
	t.Parallel()
	path := carried(t, published(t, nil))
	small := []byte("x")
	bomb := zeros(t, 32<<20)
	for want, e := range map[string]entry{
		`"manual/../../x.html" leads out`:       {name: "manual/../../x.html", data: small},
		`"../x.html" leads out`:                 {name: "../x.html", data: small},
		`"/etc/passwd" leads to a place`:        {name: "/etc/passwd", data: small},
		`"C:/x.html" leads to a place`:          {name: "C:/x.html", data: small},
		`"manual\\x.html" has a backslash`:      {name: `manual\x.html`, data: small},
		`"manual/" leads out of`:                {name: "manual/"},
		`"manual//x.html" leads out`:            {name: "manual//x.html", data: small},
		`"manual/a\x00.html" has letters`:       {name: "manual/a\x00.html", data: small},
		`has letters that not every`:            {name: "manual/ex\u202elmth.html", data: small},
		`"manual/a?.html" has letters`:          {name: "manual/a?.html", data: small},
		`"manual/größe.html" is not in its`:     {name: "manual/größe.html", data: small},
		`is not in UTF-8`:                       {name: "manual/gr\xf6\xdfe.html", data: small},
		`"manual/NUL .css" has a part that Win`: {name: "manual/NUL .css", data: small},
		`"manual/com1/x.html" has a part that`:  {name: "manual/com1/x.html", data: small},
		`"manual/a./x.html" has a part that be`: {name: "manual/a./x.html", data: small},
		`"manual/x.html " has a part that begi`: {name: "manual/x.html ", data: small},
		`has a part of more than 255 bytes`:     {name: "manual/" + strings.Repeat("水", 90), data: small},
		`has more than 200 characters`:          {name: "manual/" + strings.Repeat("a", 200), data: small},
		`it has "manual/index.html" twice`:      {name: "manual/index.html", data: small},
		`"manual/INDEX.html" are one file`:      {name: "manual/INDEX.html", data: small},
		`"manual/index.html" is a file and a`:   {name: "manual/index.html/x", data: small},
		`"manual/link.html" is a link`:          {name: "manual/link.html", data: small, mode: fs.ModeSymlink | 0o777},
		`"manual/pipe.html" is a link, or no`:   {name: "manual/pipe.html", data: small, mode: fs.ModeNamedPipe | 0o644},
		`"manual/secret.html" is encrypted`:     {name: "manual/secret.html", data: small, flags: 1},
		`"manual/secret2.html" is encrypted`:    {name: "manual/secret2.html", data: small, flags: 1 << 13},
		`"manual/more.html" is not in its`:      {name: "manual/more.html", data: small},
		`"README.txt" is not in its list`:       {name: "README.txt", data: small},
		`"manual/content/part-1.zst" is not`:    {name: "manual/content/part-1.zst", data: []byte("packed")},
		`"manual/bomb.html" unpacks to more`:    {name: "manual/bomb.html", data: bomb, method: zip.Deflate, raw: &zip.FileHeader{CompressedSize64: uint64(len(bomb)), UncompressedSize64: 32 << 20}},
		`"manual/huge.html" has more than`:      {name: "manual/huge.html", data: small, raw: &zip.FileHeader{CompressedSize64: 1, UncompressedSize64: 1 << 40}},
		`"manual/long.html" reaches beyond`:     {name: "manual/long.html", data: small, raw: &zip.FileHeader{CompressedSize64: 1 << 20, UncompressedSize64: 1 << 20}},
		`"manual/odd.html" is packed in`:        {name: "manual/odd.html", data: small, method: 12, raw: &zip.FileHeader{CompressedSize64: 1, UncompressedSize64: 1}},
		`"manual/edition.json.sig" has more`:    {name: "manual/edition.json.sig", data: make([]byte, largestApart+1), method: zip.Store},
		`"manual/soils/wax.html.br" is not in`:  {name: "manual/soils/wax.html.br", data: small},
	} {
		_, err := open(archived(t, path, nil, e))
		var told *RefusedError
		if !errors.As(err, &told) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, and not %q", e.name, err, want)
		}
	}
	for _, twins := range [][2]string{{"manual/Düse.html", "manual/DÜSE.html"}, {"manual/Du\u0308se.html", "manual/Düse.html"}, {"manual/mass.html", "manual/maß.html"}} {
		if _, err := open(archived(t, path, nil, entry{name: twins[0], data: small}, entry{name: twins[1], data: small})); err == nil || !strings.Contains(err.Error(), "are one file where capitals or the spelling") {
			t.Errorf("%q: %v", twins, err)
		}
	}
	if _, err := open(archived(t, path, nil, entry{name: "manual/edition.json.sig", data: small})); err != nil {
		t.Errorf("a signature of the list: %v", err)
	}
	for want, change := range map[string]func(*entry) bool{
		"the folder has no edition.json": func(e *entry) bool { return e.name != "manual/edition.json" },
		"edition.json is damaged": func(e *entry) bool {
			e.data = bytes.Replace(e.data, []byte("A shop"), []byte("Another"), 1)
			return true
		},
		`"manual/soils/wax.html" has 4 bytes, and 3 by its`: func(e *entry) bool {
			if e.name == "manual/soils/wax.html" {
				e.data = []byte("waxy")
			}
			return true
		},
		`"manual/index.html" has 6499 bytes, and 6500 by its list`: func(e *entry) bool {
			if e.name == "manual/index.html" {
				e.data = e.data[1:]
			}
			return true
		},
	} {
		if _, err := open(archived(t, path, change)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, and not %q", err, want)
		}
	}
}

// An archive whose directory lies about itself is refused before it is read.
func TestDirectoriesThatLie(t *testing.T) {
	t.Parallel()
	whole, err := os.ReadFile(carried(t, published(t, nil)))
	if err != nil {
		t.Fatal(err)
	}
	end := len(whole) - endLength
	directory := int(binary.LittleEndian.Uint32(whole[end+16:]))
	entryAt := func(n int) int { // where the directory has its nth entry
		at := directory
		for range n {
			at += 46 + int(binary.LittleEndian.Uint16(whole[at+28:])) + int(binary.LittleEndian.Uint16(whole[at+30:])) + int(binary.LittleEndian.Uint16(whole[at+32:]))
		}
		return at
	}
	set16 := func(at int, v uint16) func([]byte) []byte {
		return func(b []byte) []byte { binary.LittleEndian.PutUint16(b[at:], v); return b }
	}
	for what, c := range map[string]struct {
		change func([]byte) []byte
		want   string
	}{
		"nothing":       {func([]byte) []byte { return nil }, "no ZIP archive"},
		"a text":        {func([]byte) []byte { return []byte(strings.Repeat("text ", 20)) }, "no ZIP archive"},
		"cut off":       {func(b []byte) []byte { return b[:len(b)-1] }, "cut off"},
		"more behind":   {func(b []byte) []byte { return append(b, 0) }, "cut off"},
		"more before":   {func(b []byte) []byte { return append([]byte("#!/bin/sh\n"), b...) }, "does not stand where it says"},
		"many disks":    {set16(end+4, 1), "a part of an archive"},
		"64 bits":       {func(b []byte) []byte { return set16(end+8, 0xffff)(set16(end+10, 0xffff)(b)) }, "more than 65534 entries"},
		"fewer entries": {func(b []byte) []byte { return set16(end+8, 2)(set16(end+10, 2)(b)) }, "directory cannot be read"},
		"one place for two": {func(b []byte) []byte { // the second entry has the first one's data
			copy(b[entryAt(1)+42:entryAt(1)+46], b[entryAt(0)+42:entryAt(0)+46])
			return b
		}, "share bytes"},
		"another name before the bytes": {func(b []byte) []byte { // for programs that read from front to back
			copy(b[headLength:], "../../x.html")
			return b
		}, "has another name where it stands"},
		"another size behind the bytes": {func(b []byte) []byte {
			b[bytes.Index(b, []byte("PK\x07\x08"))+12]++
			return b
		}, "is not as large as the directory says"},
		"an entry without its line": {func(b []byte) []byte { // between two others
			next := int(binary.LittleEndian.Uint32(b[entryAt(1)+42:]))
			hidden := bytes.Clone(b[:next]) // the first entry again
			out := append(append(bytes.Clone(b[:next]), hidden...), b[next:]...)
			for n, at := 0, directory+next; n < 6; n++ {
				if n > 0 {
					binary.LittleEndian.PutUint32(out[at+42:], binary.LittleEndian.Uint32(out[at+42:])+uint32(next))
				}
				at += 46 + int(binary.LittleEndian.Uint16(out[at+28:])) + int(binary.LittleEndian.Uint16(out[at+30:])) + int(binary.LittleEndian.Uint16(out[at+32:]))
			}
			binary.LittleEndian.PutUint32(out[len(out)-endLength+16:], uint32(directory+next))
			return out
		}, "something that its directory does not name"},
		"beyond": {func(b []byte) []byte {
			binary.LittleEndian.PutUint32(b[entryAt(1)+42:], uint32(directory))
			return b
		}, "is not where the directory says"},
	} {
		b := c.change(bytes.Clone(whole))
		if _, err := open(bytes.NewReader(b), int64(len(b))); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, and not %q", what, err, c.want)
		}
	}
}

// A large edition is packed and compared a piece at a time.
func TestLittleMemoryIsTaken(t *testing.T) {
	large := map[string]string{}
	for i := range 12 {
		var b strings.Builder
		for j := range 60_000 {
			fmt.Fprintf(&b, "%d %d ", i*j*7919, j)
		}
		large[fmt.Sprintf("assets/%d.png", i)] = b.String() // some 900 kB each
	}
	folder := published(t, large)
	large = nil
	to := filepath.Join(t.TempDir(), "a.zip")
	most := func(do func()) uint64 {
		runtime.GC()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		do()
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc // all that was taken, given back or not
	}
	if n := most(func() {
		if _, err := Write(t.Context(), folder, to, []byte(firstPage)); err != nil {
			t.Fatal(err)
		}
	}); n > 6<<20 { // the files have 11 MB
		t.Errorf("packing took %d bytes", n)
	}
	if n := most(func() {
		a, err := Open(to)
		if err != nil {
			t.Fatal(err)
		}
		defer a.Close()
		if r, err := a.Verify(t.Context()); err != nil || !r.OK {
			t.Fatal(r, err)
		}
	}); n > 6<<20 {
		t.Errorf("comparing took %d bytes", n)
	}
}

// Names of every script are carried: they are marked as UTF-8, those of plain letters are as they were, and all are found again, unopened.
func TestNamesOfEveryScriptAreCarried(t *testing.T) {
	t.Parallel()
	more := map[string]string{"soils/flugrost-größe.html": "Größe", "assets/Düse.1.png": "png", "soils/окалина.html": "окалина", "soils/水垢.html": "水垢", "soils/it's 50% [new]!.html": "new"}
	path := carried(t, published(t, more))
	a, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	if r, err := a.Verify(t.Context()); err != nil || !r.OK {
		t.Errorf("%+v, %v", r, err)
	}
	const utf8Names = 1 << 11 // APPNOTE.TXT, 4.4.4
	for _, f := range a.zip.File {
		if marked := f.Flags&utf8Names != 0; marked == isASCII(f.Name) {
			t.Errorf("%q marked as UTF-8: %v", f.Name, marked)
		}
	}
	for name, text := range more {
		if got, err := fs.ReadFile(a.FS(), name); err != nil || string(got) != text {
			t.Errorf("%q: %q, %v", name, got, err)
		}
	}
	// The same name without the mark is read in another way by every system.
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for at := 0; ; at++ {
		found := bytes.Index(data[at:], []byte("PK\x01\x02"))
		if found < 0 {
			break
		}
		at += found
		data[at+9] &^= utf8Names >> 8
	}
	if _, err := open(bytes.NewReader(data), int64(len(data))); err == nil || !strings.Contains(err.Error(), "does not say that its name is in UTF-8") {
		t.Errorf("without the mark: %v", err)
	}
}

// FuzzOpen: whatever a file holds, opening it ends, takes little, and gives an edition or a sentence; and what is opened can be compared.
func FuzzOpen(f *testing.F) {
	whole, err := os.ReadFile(carried(f, published(f, nil)))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole)
	f.Add(whole[:len(whole)/2])
	f.Add([]byte("PK\x05\x06" + strings.Repeat("\x00", 18)))
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := open(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			var told *RefusedError
			if !errors.As(err, &told) {
				t.Fatalf("%v is no sentence", err)
			}
			return
		}
		for _, file := range a.zip.File {
			if err := checkName(file.Name); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := a.Verify(t.Context()); err != nil {
			t.Fatal(err)
		}
	})
}
