package rules

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"
)

// badPixels is a PNG that is whole by its chunks and checksums, and whose pixels cannot be unpacked.
func badPixels(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30))); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	at := bytes.Index(data, []byte("IDAT"))
	n := int(binary.BigEndian.Uint32(data[at-4:]))
	for i := at + 8; i < at+4+n; i++ {
		data[i] ^= 0x5a
	}
	binary.BigEndian.PutUint32(data[at+4+n:], crc32.ChecksumIEEE(data[at:at+4+n]))
	return data
}

// What would stop a publication is found by the proof: a picture that does not decode, words of the interface that cannot be read.
func TestProofFindsWhatPublishingWouldStumbleOver(t *testing.T) {
	base := folder(t, small)
	use := e("lessons/sound.md", "Bubbles collapse", "![A bath](../pictures/bath.png)\n\nBubbles collapse")
	for file, c := range map[string]struct {
		data []byte
		rule string
	}{
		"pictures/bath.png":              {badPixels(t), "unshowable-picture"},
		"theme/words/es.yaml":            {[]byte("\"Edition\": [1\n"), "unreadable-yaml"},
		"theme/words/de.yaml":            {[]byte("\"Edition\": {a: b}\n"), "wrong-value"},
		"theme/words/fr.yaml":            {[]byte("\"Edition\": a\n\"Edition\": b\n"), "duplicate-key"},
		"theme/words/calculators/x.yaml": {[]byte("- a\n"), "unreadable-yaml"},
		"theme/words/pt.yaml":            {[]byte("<<<<<<< HEAD\n\"Edition\": a\n=======\n\"Edition\": b\n>>>>>>> b\n"), "two-versions"},
		"theme/words/it.yaml":            {[]byte("\"Edition\": \"\xff\"\n"), "unreadable-file"},
		"theme/styles/large.css":         {bytes.Repeat([]byte("a{}\n"), 3<<20), "too-large"},
	} {
		files := edited(t, base, nil)
		if strings.HasPrefix(file, "pictures/") {
			files = edited(t, base, []edit{use})
		}
		files[file] = &fstest.MapFile{Data: c.data}
		list := proofread(t, files)
		if len(list) != 1 || string(list[0].Rule) != c.rule || list[0].File != file {
			t.Errorf("%s: want %s, got%s", file, c.rule, show(list))
		}
	}
	files := edited(t, base, nil)
	files["theme/words/nl.yaml"] = &fstest.MapFile{Data: []byte("\"Edition\": \"Uitgave\"\n")}
	files["theme/styles/own.css"] = &fstest.MapFile{Data: []byte("a{}\n")}
	if list := proofread(t, files); len(list) > 0 {
		t.Errorf("nothing is wrong: %s", show(list))
	}
}
