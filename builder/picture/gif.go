package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/draw"
	imagegif "image/gif"
)

// scanGIF goes through the blocks of a GIF file. Source: Graphics Interchange Format, Version 89a (1990), 15 to 27.
func scanGIF(data []byte) (*raster, *Problem) {
	r := &raster{turn: 1, ext: ".png"}
	if len(data) < 13 {
		return nil, brokenOff("its header is not complete")
	}
	r.width, r.height = int(binary.LittleEndian.Uint16(data[6:])), int(binary.LittleEndian.Uint16(data[8:]))
	if r.width == 0 || r.height == 0 {
		return nil, damaged("it says that it has no pixels")
	}
	r.bytesEach = 5 // one byte each, and four when it lies within a larger screen
	at := 13 + tableSize(data[10])
	for images := 0; ; {
		if at >= len(data) {
			return nil, brokenOff("the mark of its end is missing")
		}
		switch data[at] {
		case 0x3B: // trailer
			if images == 0 {
				return nil, damaged("it has no picture data")
			}
			r.load = func() (image.Image, func() ([]byte, error), error) { return loadGIF(data, r.width, r.height) }
			return r, nil
		case 0x21: // extension: label, sub-blocks
			at += 2
		case 0x2C: // image: 9 bytes, its colour table, the size of codes, sub-blocks
			if images++; images > 1 {
				r.moving = true
			}
			if at+10 > len(data) {
				return nil, brokenOff("the description of the image is not complete")
			}
			at += 11 + tableSize(data[at+9])
		default:
			return nil, damaged("it holds a block of no known kind")
		}
		for {
			if at >= len(data) {
				return nil, brokenOff("a block is longer than the rest of the file")
			}
			n := int(data[at])
			at += 1 + n
			if n == 0 {
				break
			}
		}
	}
}

// tableSize is how many bytes the colour table takes that a field announces. Source: GIF89a, 18 c viii.
func tableSize(field byte) int {
	if field&0x80 == 0 {
		return 0
	}
	return 3 << (field&7 + 1)
}

// loadGIF gives the picture of a GIF, and what makes a PNG file with the same pixels.
func loadGIF(data []byte, w, h int) (image.Image, func() ([]byte, error), error) {
	img, err := imagegif.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, nil, err
	}
	if screen := image.Rect(0, 0, w, h); img.Bounds() != screen {
		whole := image.NewNRGBA(screen)
		draw.Draw(whole, img.Bounds(), img, img.Bounds().Min, draw.Src)
		img = whole
	}
	return img, func() ([]byte, error) { return encodePNG(img, nil) }, nil
}
