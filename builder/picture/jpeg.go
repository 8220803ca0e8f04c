package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/jpeg"
)

// Markers of a JPEG file. Source: ITU-T T.81 (1992), table B.1.
const (
	markSOF0 = 0xC0 // baseline DCT
	markSOF1 = 0xC1 // extended sequential DCT
	markSOF2 = 0xC2 // progressive DCT
	markDHT  = 0xC4
	markDAC  = 0xCC // conditions of arithmetic coding
	markRST0 = 0xD0 // to 0xD7
	markRST7 = 0xD7
	markSOI  = 0xD8
	markEOI  = 0xD9
	markSOS  = 0xDA
	markDQT  = 0xDB
	markDNL  = 0xDC // number of lines, for a frame that declares none
	markDRI  = 0xDD
	markDHP  = 0xDE // hierarchical
	markEXP  = 0xDF // hierarchical
	markAPP0 = 0xE0 // JFIF
	markAPP1 = 0xE1 // Exif, XMP
	markAPP2 = 0xE2 // colour profile
	markAPPE = 0xEE // Adobe's colour transform
)

// maxScans is more than any progressive picture has use for (T.81 G.1.1.1 makes it some 10). Every scan goes over all of it, so a large picture may have fewer:
// ten of fifty million pixels, as common encoders make them.
const (
	maxScans  = 100
	maxPassed = 10 * maxPixels
)

// Segments that tell the decoder how colours are stored, written anew so that nothing else comes along.
//
// Sources: JFIF 1.02 (ITU-T T.871), APP0 without density and thumbnail; ITU-T T.872 6.5.3, APP14: version 100, flags 0, transform.
var (
	segmentJFIF  = []byte("\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00")
	segmentAdobe = []byte("\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00") // one more byte: the transform
)

// jpegReader takes a JPEG file apart into what decoding needs and the rest.
type jpegReader struct {
	r     *raster
	kept  bytes.Buffer // the segments from the first that is no APPn
	jfif  bool
	adobe int // its transform, -1 without the segment
	frame bool
	scans int
	icc   map[byte][]byte // parts of the colour profile by number
	parts byte
}

func scanJPEG(data []byte) (*raster, *Problem) {
	j := jpegReader{r: &raster{turn: 1, photo: true, ext: ".jpg"}, adobe: -1, icc: make(map[byte][]byte)}
	j.kept.Grow(len(data))
	rest := data[2:]
	for {
		if len(rest) < 2 {
			return nil, brokenOff("the mark of its end is missing")
		}
		if rest[0] != 0xFF {
			return nil, damaged("there are bytes between its segments")
		}
		for len(rest) > 1 && rest[1] == 0xFF { // any marker may have fill bytes before it (T.81 B.1.1.2)
			rest = rest[1:]
		}
		if len(rest) < 2 {
			return nil, brokenOff("the mark of its end is missing")
		}
		mark := rest[1]
		rest = rest[2:]
		if mark == markEOI {
			break
		}
		if mark >= markRST0 && mark <= markRST7 {
			continue // a restart where there is nothing to restart
		}
		if mark == markSOI || mark <= 0x01 {
			return nil, damaged("it begins a second time, or holds a mark that means nothing")
		}
		if len(rest) < 2 {
			return nil, brokenOff("a segment has no length")
		}
		n := int(binary.BigEndian.Uint16(rest))
		if n < 2 {
			return nil, damaged("a segment is shorter than its own length")
		}
		if n > len(rest) {
			return nil, brokenOff("a segment is longer than the rest of the file")
		}
		if problem := j.segment(mark, rest[2:n]); problem != nil {
			return nil, problem
		}
		rest = rest[n:]
		if mark == markSOS {
			n := entropy(rest)
			j.kept.Write(rest[:n])
			rest = rest[n:]
		}
	}
	if !j.frame || j.scans == 0 {
		return nil, damaged("it has no picture data")
	}
	j.r.profile = j.profile()
	j.r.load = j.load
	return j.r, nil
}

// segment takes one segment, without marker and length.
func (j *jpegReader) segment(mark byte, body []byte) *Problem {
	switch mark {
	case markAPP0:
		j.jfif = j.jfif || bytes.HasPrefix(body, []byte("JFIF\x00"))
		return nil
	case markAPP1:
		if exif, is := bytes.CutPrefix(body, []byte("Exif\x00\x00")); is && j.r.turn == 1 {
			j.r.turn = orientation(exif)
		}
		return nil
	case markAPP2:
		if part, is := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00")); is && len(part) > 2 {
			j.icc[part[0]], j.parts = part[2:], part[1]
		}
		return nil
	case markAPPE:
		if len(body) >= 12 && bytes.HasPrefix(body, []byte("Adobe")) && j.scans == 0 {
			j.adobe = int(body[11])
		}
		return nil
	case markSOF0, markSOF1, markSOF2:
		if problem := j.readFrame(mark, body); problem != nil {
			return problem
		}
	case markDHT, markDQT, markDRI:
	case markSOS:
		if j.scans++; j.scans > maxScans {
			return damaged("it has more than 100 passes over the picture")
		}
		if float64(j.scans)*float64(j.r.width)*float64(j.r.height) > maxPassed {
			return &Problem{
				Message: fmt.Sprintf("The picture of %d × %d pixels is put together in more than %d passes, each over all of it.", j.r.width, j.r.height, j.scans-1),
				Remedy:  "Save it again as an ordinary JPEG (baseline), or smaller.",
			}
		}
	case markDNL, markDHP, markEXP, markDAC:
		return unusualJPEG()
	default:
		if mark > markSOF2 && mark < markRST0 {
			return unusualJPEG()
		}
		return nil // APPn, comments, reserved: not needed for decoding
	}
	j.kept.Write([]byte{0xFF, mark, byte((len(body) + 2) >> 8), byte(len(body) + 2)})
	j.kept.Write(body)
	return nil
}

// readFrame reads the size of the picture. Source: ITU-T T.81, B.2.2.
func (j *jpegReader) readFrame(mark byte, body []byte) *Problem {
	if j.frame {
		return damaged("it declares its size twice")
	}
	if len(body) < 6 || len(body) != 6+3*int(body[5]) {
		return damaged("its frame header has a wrong length")
	}
	j.frame = true
	j.r.height, j.r.width = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
	components := int(body[5])
	switch {
	case body[0] != 8:
		return unusualJPEG()
	case j.r.width == 0 || j.r.height == 0:
		return unusualJPEG() // the height follows in a DNL segment, which browsers do not read
	case components == 4:
		return &Problem{Message: "The picture is in printing colours (CMYK), which every browser shows differently.", Remedy: "Save it again in screen colours (RGB, sRGB)."}
	case components != 1 && components != 3:
		return unusualJPEG()
	}
	j.r.grey = components == 1
	share, most := 0, 1 // of all components, and of the most finely sampled
	for i := range components {
		sampling := int(body[7+3*i]>>4) * int(body[7+3*i]&15)
		share += sampling
		most = max(most, sampling)
	}
	j.r.bytesEach = float64(share) / float64(most)
	if mark == markSOF2 {
		j.r.bytesEach *= 5 // the coefficients, four bytes each, are kept from pass to pass
	}
	return nil
}

// entropy gives the length of the compressed data at the start: up to the next marker that is no restart.
// Source: ITU-T T.81, B.1.1.5 and F.1.2.3: a byte FF of the data is followed by 00.
func entropy(data []byte) int {
	at := 0
	for {
		i := bytes.IndexByte(data[at:], 0xFF)
		if i < 0 || at+i+1 >= len(data) {
			return len(data)
		}
		if next := data[at+i+1]; next != 0 && (next < markRST0 || next > markRST7) {
			return at + i
		}
		at += i + 2
	}
}

// profile puts the colour profile together, nil without one or with a part missing, which browsers leave aside as well.
// Source: ICC.1:2022, annex B.4: numbered from 1, each with the number of parts.
func (j *jpegReader) profile() []byte {
	var icc []byte
	for i := range j.parts {
		part, there := j.icc[i+1]
		if !there {
			return nil
		}
		icc = append(icc, part...)
	}
	return icc
}

func (j *jpegReader) load() (image.Image, func() ([]byte, error), error) {
	plain := make([]byte, 0, j.kept.Len()+40)
	plain = append(plain, 0xFF, markSOI)
	if j.jfif {
		plain = append(plain, segmentJFIF...)
	}
	if j.adobe >= 0 {
		plain = append(append(plain, segmentAdobe...), byte(j.adobe))
	}
	plain = append(append(plain, j.kept.Bytes()...), 0xFF, markEOI)
	img, err := jpeg.Decode(bytes.NewReader(plain))
	return img, asItIs(plain), err
}

func unusualJPEG() *Problem {
	return &Problem{Message: "The picture is of an unusual kind of JPEG that browsers do not show (arithmetic coding, lossless, more than 8 bits, or several layers).", Remedy: saveAgain}
}
