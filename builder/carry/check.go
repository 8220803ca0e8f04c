package carry

import (
	"archive/zip"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"tankside/builder/edition"
)

// The bounds of a file that carries an edition. Those of size are far above what editions have: the demo manual's file has 8 MB and 530 entries, its largest entry 2 MB,
// and of all its pages the one that packs best is 19 times as large unpacked.
const (
	largestFile      = 1 << 30  // bytes
	largestDirectory = 24 << 20 // bytes
	mostEntries      = 1<<16 - 2
	largestEntry     = 128 << 20 // bytes, unpacked
	largestUnpacked  = 4 << 30   // bytes, all together
	mostTimes        = 200       // unpacked to packed, of what has more than smallEntry
	smallEntry       = 64 << 10  // bytes
)

// RefusedError says why a file is not opened.
type RefusedError struct {
	Why string // half a sentence
	Err error  // what a library said, or nil
}

// Error gives the sentence.
func (e *RefusedError) Error() string {
	return "this file carries no edition that can be trusted: " + e.Why
}

// Unwrap gives what a library said.
func (e *RefusedError) Unwrap() error { return e.Err }

func refused(form string, args ...any) error {
	return &RefusedError{Why: fmt.Sprintf(form, args...)}
}

// The end record of a ZIP archive: PKWARE's APPNOTE.TXT 6.3.10, 4.3.16.
const (
	endLength    = 22
	endSignature = 0x06054b50
)

// checkEnd bounds what there is to be read before anything is: the directory ends where the end record begins, so that whoever reads it entry by entry comes to an
// end. It has no comment and is none of the large archives of 64 bits, which no edition needs.
func checkEnd(r io.ReaderAt, size int64) (directory int64, err error) {
	if size < endLength {
		return 0, refused("it is no ZIP archive")
	}
	if size > largestFile {
		return 0, refused("it has more than %d bytes", int64(largestFile))
	}
	var end [endLength]byte
	if _, err := r.ReadAt(end[:], size-endLength); err != nil && !errors.Is(err, io.EOF) {
		return 0, err
	}
	word := func(at int) int64 { return int64(binary.LittleEndian.Uint32(end[at:])) }
	half := func(at int) int { return int(binary.LittleEndian.Uint16(end[at:])) }
	length, begin := word(12), word(16)
	switch {
	case word(0) != endSignature || half(20) != 0:
		return 0, refused("it is no ZIP archive as this program writes it, or it was cut off")
	case half(4) != 0 || half(6) != 0 || half(8) != half(10):
		return 0, refused("it is a part of an archive that has several")
	case half(10) > mostEntries || length == 1<<16-1: // of either a reader thinks that it stands elsewhere, in 64 bits
		return 0, refused("it has more than %d entries, or is of the archives of 64 bits", mostEntries)
	case begin+length != size-endLength:
		return 0, refused("its directory does not stand where it says")
	case length > largestDirectory:
		return 0, refused("its directory has more than %d bytes", largestDirectory)
	}
	return begin, nil
}

// unstorable are the signs, beside the strokes between folders, that Windows stores in no name (Microsoft: Naming Files, Paths, and Namespaces).
const unstorable = `<>:"\|?*`

// isStorable tells whether a character of a name can be seen and stored on every desk: a letter or digit of any script, a mark, a sign, the blank.
func isStorable(r rune) bool {
	return unicode.IsPrint(r) && !strings.ContainsRune(unstorable, r) && r != unicode.ReplacementChar
}

// device are names that Windows keeps for devices, whatever ending they have (Microsoft: Naming Files, Paths, and Namespaces).
var device = regexp.MustCompile(`(?i)^(?:con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³]) *(?:\.|$)`)

// longestPart bounds a name between two strokes, in bytes: NAME_MAX of Linux and macOS.
const longestPart = 255

// sameName is what two names share that are one on some desk: where capitals do not count, or an accent is a letter of its own or not (Unicode Standard Annex 15).
func sameName(name string) string {
	return norm.NFC.String(cases.Fold().String(norm.NFD.String(name)))
}

// units are the characters of a name as Windows counts them, in UTF-16.
func units(name string) (n int) {
	for _, r := range name {
		n += utf16.RuneLen(r)
	}
	return n
}

// checkName tells what is wrong with the name of an entry. The error begins a sentence.
func checkName(name string) error {
	shown := fmt.Sprintf("%q", name)
	if short := []rune(shown); len(short) > longestName {
		shown = string(short[:longestName]) + "…"
	}
	switch {
	case !utf8.ValidString(name):
		return fmt.Errorf("the name %s is not in UTF-8", shown)
	case units(name) > longestName:
		return fmt.Errorf("the name %s has more than %d characters", shown, longestName)
	case strings.HasPrefix(name, "/") || len(name) > 1 && name[1] == ':':
		return fmt.Errorf("the name %s leads to a place of its own", shown)
	case strings.Contains(name, `\`):
		return fmt.Errorf("the name %s has a backslash in it", shown)
	case !fs.ValidPath(name) || name == ".":
		return fmt.Errorf("the name %s leads out of the archive, or to a folder", shown)
	case strings.ContainsFunc(name, func(r rune) bool { return !isStorable(r) }):
		return fmt.Errorf("the name %s has letters that not every system unpacks alike", shown)
	}
	for part := range strings.SplitSeq(name, "/") {
		switch {
		case device.MatchString(part):
			return fmt.Errorf("the name %s has a part that Windows keeps for a device", shown)
		case strings.HasPrefix(part, " ") || strings.HasSuffix(part, " ") || strings.HasSuffix(part, "."):
			return fmt.Errorf("the name %s has a part that begins or ends with a blank, or ends with a full stop, which Windows drops", shown)
		case len(part) > longestPart:
			return fmt.Errorf("the name %s has a part of more than %d bytes", shown, longestPart)
		}
	}
	return nil
}

// isASCII tells whether a name reads the same in every code page.
func isASCII(name string) bool {
	return !strings.ContainsFunc(name, func(r rune) bool { return r >= utf8.RuneSelf })
}

// encrypted are the flags of an entry that cannot be read without a key, or is a change to another: APPNOTE.TXT, 4.4.4, bits 0, 5, 6 and 13.
const encrypted = 1<<0 | 1<<5 | 1<<6 | 1<<13

// checkEntries refuses what no edition's file has, all but what needs the list.
func checkEntries(r io.ReaderAt, files []*zip.File, directory int64) error {
	if len(files) > mostEntries {
		return refused("it has more than %d entries", mostEntries)
	}
	seen := make(map[string]string, len(files))
	all := uint64(0)
	for _, f := range files {
		if err := checkName(f.Name); err != nil {
			return refused("%v", err)
		}
		if f.NonUTF8 && !isASCII(f.Name) { // APPNOTE.TXT, 4.4.4, bit 11
			return refused("%q does not say that its name is in UTF-8, so each system would read another", f.Name)
		}
		same := sameName(f.Name)
		if other, twice := seen[same]; twice && other == f.Name {
			return refused("it has %q twice", f.Name)
		} else if twice {
			return refused("%q and %q are one file where capitals or the spelling of accents do not count", other, f.Name)
		}
		seen[same] = f.Name
		switch {
		case f.Flags&encrypted != 0:
			return refused("%q is encrypted", f.Name)
		case !f.Mode().IsRegular():
			return refused("%q is a link, or no file", f.Name)
		case f.Method != zip.Deflate && f.Method != zip.Store:
			return refused("%q is packed in another way than browsers and desks know", f.Name)
		case f.UncompressedSize64 > largestEntry:
			return refused("%q has more than %d bytes", f.Name, largestEntry)
		case f.UncompressedSize64 > smallEntry && f.UncompressedSize64 > mostTimes*f.CompressedSize64:
			return refused("%q unpacks to more than %d times its size", f.Name, mostTimes)
		}
		if all += f.UncompressedSize64; all > largestUnpacked {
			return refused("it unpacks to more than %d bytes", int64(largestUnpacked))
		}
	}
	for name := range seen {
		for at := strings.LastIndexByte(name, '/'); at > 0; at = strings.LastIndexByte(name[:at], '/') {
			if _, file := seen[name[:at]]; file {
				return refused("%q is a file and a folder", seen[name[:at]])
			}
		}
	}
	return checkHeads(r, files, directory)
}

// What stands before the bytes of an entry, and behind them where bit 3 of the flags says so: APPNOTE.TXT, 4.3.7 and 4.3.9.
const (
	headLength        = 30
	headSignature     = 0x04034b50
	behindLength      = 16
	behindSignature   = 0x08074b50
	sizesBehind       = 1 << 3
	flagsAndMethod    = 6
	lengthOfName      = 26
	lengthOfExtension = 28
)

// checkHeads refuses an archive of which programs that read it from front to back, as some that unpack do, see something else than those that read its directory: each
// entry begins where the one before ends, and says the same of itself as the directory.
func checkHeads(r io.ReaderAt, files []*zip.File, directory int64) error {
	type placed struct {
		*zip.File
		data int64 // where its bytes begin
	}
	list := make([]placed, 0, len(files))
	for _, f := range files {
		data, err := f.DataOffset()
		if err != nil {
			return &RefusedError{fmt.Sprintf("%q is not where the directory says", f.Name), err}
		}
		list = append(list, placed{f, data})
	}
	slices.SortFunc(list, func(a, b placed) int { return cmp.Compare(a.data, b.data) })
	at := int64(0)
	for i, f := range list {
		if i > 0 && f.data < at {
			return refused("%q and %q share bytes", list[i-1].Name, f.Name)
		}
		if f.CompressedSize64 > uint64(directory) || f.data+int64(f.CompressedSize64) > directory {
			return refused("%q reaches beyond the entries", f.Name)
		}
		head := make([]byte, headLength+len(f.Name))
		if _, err := r.ReadAt(head, at); err != nil {
			return err
		}
		half := func(at int) uint16 { return binary.LittleEndian.Uint16(head[at:]) }
		begins := at + headLength + int64(half(lengthOfName)) + int64(half(lengthOfExtension))
		switch {
		case binary.LittleEndian.Uint32(head) != headSignature || begins != f.data:
			return refused("something that its directory does not name stands before %q", f.Name)
		case int(half(lengthOfName)) != len(f.Name) || string(head[headLength:]) != f.Name:
			return refused("%q has another name where it stands", f.Name)
		case half(flagsAndMethod) != f.Flags || half(flagsAndMethod+2) != f.Method:
			return refused("%q is packed in another way than the directory says", f.Name)
		}
		at = f.data + int64(f.CompressedSize64)
		if f.Flags&sizesBehind == 0 {
			continue
		}
		var behind [behindLength]byte
		if _, err := r.ReadAt(behind[:], at); err != nil {
			return err
		}
		word := func(at int) uint32 { return binary.LittleEndian.Uint32(behind[at:]) }
		if word(0) != behindSignature || word(4) != f.CRC32 || uint64(word(8)) != f.CompressedSize64 || uint64(word(12)) != f.UncompressedSize64 {
			return refused("%q is not as large as the directory says", f.Name)
		}
		at += behindLength
	}
	if at != directory {
		return refused("something that its directory does not name stands before it")
	}
	return nil
}

// checkListed refuses entries that the list does not name, and such as are not as large as it says.
func checkListed(files []*zip.File, l *edition.List) error {
	sizes := make(map[string]int64, len(l.Files))
	for _, f := range l.Files {
		sizes[Folder+f.Path] = f.Bytes
	}
	for _, f := range files {
		switch f.Name {
		case First, Folder + edition.ListName, Folder + signatureOfList:
			if f.UncompressedSize64 > largestApart && f.Name != Folder+edition.ListName {
				return refused("%q has more than %d bytes", f.Name, largestApart)
			}
			continue
		}
		size, listed := sizes[f.Name]
		if !listed || !edition.IsCarried(strings.TrimPrefix(f.Name, Folder)) {
			return refused("%q is not in its list", f.Name)
		}
		if f.UncompressedSize64 != uint64(size) {
			return refused("%q has %d bytes, and %d by its list", f.Name, f.UncompressedSize64, size)
		}
	}
	return nil
}

// largestApart bounds the first page and a signature, in bytes.
const largestApart = 256 << 10
