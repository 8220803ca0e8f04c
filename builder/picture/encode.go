package picture

import (
	"bytes"
	"image"
	"image/jpeg"
	imagepng "image/png"
)

// quality is that of JPEG pictures which are encoded again. They are shown at half their size on most screens.
const quality = 85

// encode gives a developed picture as a file, and how its name ends.
func encode(img image.Image, r *raster) (data []byte, ext string, err error) {
	if r.photo {
		data, err = encodeJPEG(img)
		return data, ".jpg", err
	}
	data, err = encodePNG(img, r.colours)
	if err != nil || len(r.colours) > 0 || !opaque(img) {
		return data, ".png", err
	}
	// A photograph that was saved as PNG takes many times the room of a JPEG; a drawing or a screenshot does not.
	const worthIt = 4
	asJPEG, err := encodeJPEG(img)
	if err == nil && worthIt*len(asJPEG) <= len(data) {
		return asJPEG, ".jpg", nil
	}
	return data, ".png", err
}

func opaque(img image.Image) bool {
	o, can := img.(interface{ Opaque() bool })
	return can && o.Opaque()
}

func encodeJPEG(img image.Image) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}

// encodePNG gives a PNG file with the given chunks about its colours, laid out like any other that has been made ready.
func encodePNG(img image.Image, colours []byte) ([]byte, error) {
	var b bytes.Buffer
	if err := imagepng.Encode(&b, img); err != nil {
		return nil, err
	}
	p, problem := readPNG(b.Bytes())
	if problem != nil {
		return nil, problem
	}
	p.r.colours = colours
	return p.file(p.pixels.Bytes()), nil
}
