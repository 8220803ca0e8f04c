package picture

import (
	"bytes"
	"strings"
)

// sort is a sort of picture that a manual may hold, by the usual ending of its name.
type sort string

const (
	jpg  sort = "jpg"
	png  sort = "png"
	gif  sort = "gif"
	webp sort = "webp"
	svg  sort = "svg"
)

var sortOfExtension = map[string]sort{".jpg": jpg, ".jpeg": jpg, ".png": png, ".gif": gif, ".webp": webp, ".svg": svg}

// beginnings are how files begin, at an offset. Those without a sort are files that people mistake for pictures, or that this
// program cannot show.
//
// Sources: JPEG ITU-T T.81 B.1.1.3; PNG (W3C 2003) 5.2; GIF89a specification (1990) 17; WebP RFC 9649 2.4; ISO/IEC 14496-12 (ftyp);
// TIFF 6.0 section 2; PDF ISO 32000-1 7.5.2; gzip RFC 1952 2.3.1; the rest from memory.
var beginnings = []struct {
	at    int
	bytes string
	sort  sort
	words string
}{
	{0, "\xff\xd8\xff", jpg, "a JPEG picture"},
	{0, "\x89PNG\r\n\x1a\n", png, "a PNG picture"},
	{0, "GIF87a", gif, "a GIF picture"},
	{0, "GIF89a", gif, "a GIF picture"},
	{8, "WEBP", webp, "a WebP picture"},
	{4, "ftyphei", "", "a HEIC photograph as telephones store it"},
	{4, "ftypmif1", "", "a HEIC photograph as telephones store it"},
	{4, "ftypavif", "", "an AVIF picture"},
	{4, "ftyp", "", "a film"},
	{0, "BM", "", "a bitmap of Windows (BMP)"},
	{0, "II*\x00", "", "a TIFF picture"},
	{0, "MM\x00*", "", "a TIFF picture"},
	{0, "%PDF-", "", "a PDF document"},
	{0, "PK\x03\x04", "", "a ZIP archive or an office document"},
	{0, "\x1f\x8b", "", "a compressed file (gzip)"},
}

// look tells what a file holds by how it begins: its sort if a manual may hold it, and words for it.
func look(data []byte) (sort, string) {
	for _, b := range beginnings {
		if len(data) > b.at && bytes.HasPrefix(data[b.at:], []byte(b.bytes)) {
			return b.sort, b.words
		}
	}
	text := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\ufeff")), " \t\r\n")
	start := strings.ToLower(string(text[:min(len(text), 4096)]))
	switch {
	case len(data) == 0:
		return "", "nothing"
	case !strings.HasPrefix(start, "<"):
		return "", "something else"
	case strings.HasPrefix(start, "<!doctype html"), strings.HasPrefix(start, "<html"), strings.HasPrefix(start, "<head"), strings.HasPrefix(start, "<body"), strings.HasPrefix(start, "<script"):
		return "", "a web page"
	case strings.Contains(start, "<svg"), strings.Contains(start, ":svg"):
		return svg, "an SVG drawing"
	}
	return "", "a text in angle brackets"
}

// sortOf gives the sort of a picture, and the problem of one whose content is not what its name says.
func sortOf(name string, data []byte) (sort, *Problem) {
	ext := extension(name)
	want, known := sortOfExtension[ext]
	if !known {
		return "", &Problem{
			Message: "A file that ends in “" + clip(ext, 20) + "” is no picture of a manual.",
			Remedy:  "Save it as .svg, .png, .jpg, .webp or .gif.",
		}
	}
	is, words := look(data)
	switch {
	case is == want:
		return want, nil
	case len(data) == 0:
		return "", &Problem{Message: "The file is empty.", Remedy: copyAgain}
	case is != "":
		return "", &Problem{
			Message: "The name ends in " + ext + ", but the file holds " + words + ".",
			Remedy:  "Rename it to end in ." + string(is) + ", and write that name in the articles that show it.",
		}
	case want == svg && words == "something else", want == svg && strings.HasPrefix(words, "a text"):
		return svg, nil // the reader of drawings says more exactly what is wrong with it
	}
	return "", &Problem{Message: "The name ends in " + ext + ", but the file holds " + words + ".", Remedy: saveAgain}
}
