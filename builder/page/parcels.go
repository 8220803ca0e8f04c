package page

import (
	"bytes"
	"compress/gzip"
	"io"
)

// addParcel writes a parcel that hands over a content, packed with gzip.
func (a *assets) addParcel(name string, content []byte) error {
	return a.addParcelAs(name, name, content)
}

// addParcelAs is addParcel for a parcel of which there are several: key tells them apart, and scripts ask each for the same name.
func (a *assets) addParcelAs(key, name string, content []byte) error {
	return a.addPackedParcel(key, name, func(w io.Writer) error {
		z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
		if err != nil {
			return err
		}
		if _, err := z.Write(content); err != nil {
			return err
		}
		return z.Close()
	})
}

// addPackedParcel is addParcelAs for a content that packed writes with gzip.
func (a *assets) addPackedParcel(key, name string, packed func(io.Writer) error) error {
	var script bytes.Buffer
	if err := parcel(&script, name, packed); err != nil {
		return err
	}
	var err error
	a.parcels[key], err = a.put(key+".js", script.Bytes())
	return err
}
