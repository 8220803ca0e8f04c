package picture

import (
	"errors"
	"image"
	"io"
	"strings"
)

// raster is what the structure of a photograph or screenshot says before it is decoded.
type raster struct {
	width, height int     // as stored
	bytesEach     float64 // that decoding takes for each pixel
	turn          int     // Exif orientation, 1 to 8
	grey          bool
	photo         bool   // stored with loss and without transparency, so JPEG is what it becomes when it is encoded again
	studio        bool   // its luminance goes from 16 to 235, as in television, and not from 0 to 255
	moving        bool   // it shows several images one after the other
	profile       []byte // the colour profile (ICC), nil without one
	colours       []byte // PNG chunks that say what the values mean and stay with them

	ext  string                                              // of the plain file
	load func() (image.Image, func() ([]byte, error), error) // the picture, and what makes its plain file: the same pixels and nothing else

	convert *conversion // to sRGB, nil when the values are sRGB; set by refuse
}

// refuse says why the picture cannot be shown, as far as that is known before it is decoded.
func (r *raster) refuse() *Problem {
	if r.moving {
		return &Problem{
			Message: "The picture moves: it holds several images. On paper it would be one of them, and nobody could stop it.",
			Remedy:  "Save the image that matters as a PNG, or show the steps as pictures one below the other.",
		}
	}
	if problem := tooLarge(r.width, r.height, r.bytesEach); problem != nil {
		return problem
	}
	var problem *Problem
	r.convert, problem = readProfile(r.profile, r.grey)
	return problem
}

// asItIs gives a plain file that is there already.
func asItIs(plain []byte) func() ([]byte, error) {
	return func() ([]byte, error) { return plain, nil }
}

// prepare gives the picture without anything but itself, upright, in sRGB and not larger than that.
func (r *raster) prepare(maxW, maxH int) (Picture, *Problem) {
	img, plain, err := r.load()
	if err != nil {
		return Picture{}, undecodable(err)
	}
	w, h := r.width, r.height
	if lies(r.turn) {
		w, h = h, w
	}
	keptW, keptH := fit(w, h, maxW, maxH)
	same := r.turn == 1 && r.convert == nil
	if same && keptW == w && keptH == h {
		data, err := plain()
		if err != nil {
			return Picture{}, undecodable(err)
		}
		return made(r.ext, data, w, h), nil
	}
	again, ext, err := encode(develop(r, img, keptW, keptH), r)
	if err != nil {
		return Picture{}, undecodable(err)
	}
	if same && w <= untouched*maxW && h <= untouched*maxH {
		if data, err := plain(); err != nil {
			return Picture{}, undecodable(err)
		} else if len(data) <= len(again) {
			return made(r.ext, data, w, h), nil
		}
	}
	return made(ext, again, keptW, keptH), nil
}

// made is a picture of that size in pixels.
func made(ext string, data []byte, w, h int) Picture {
	w, h = fit(w, h, shownWidth, shownHeight)
	return Picture{Ext: ext, Data: data, Width: w, Height: h}
}

// undecodable is the problem of a picture whose decoder gave up.
func undecodable(err error) *Problem {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return brokenOff("the picture data is not complete")
	}
	_, reason, found := strings.Cut(err.Error(), ": ")
	if !found {
		reason = err.Error()
	}
	return damaged("its data cannot be decoded (" + reason + ")")
}
