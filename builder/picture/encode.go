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

// encodePNG gives a PNG file with the given chunks about its colours.
func encodePNG(img image.Image, colours []byte) ([]byte, error) {
	var b bytes.Buffer
	encoder := imagepng.Encoder{CompressionLevel: imagepng.BestCompression}
	if err := encoder.Encode(&b, img); err != nil {
		return nil, err
	}
	const header = len(signaturePNG) + 12 + 13
	data := b.Bytes()
	if len(colours) == 0 {
		return data, nil
	}
	whole := make([]byte, 0, len(data)+len(colours))
	return append(append(append(whole, data[:header]...), colours...), data[header:]...), nil
}
