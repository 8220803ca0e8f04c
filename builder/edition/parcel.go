package edition

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// ErrDamaged says that a file of an edition is not what the checksum list says, or is missing.
var ErrDamaged = errors.New("the edition is damaged")

// largestParcel bounds what a parcel may unpack to, in bytes.
const largestParcel = 1 << 30

// Parcel gives the content of one of the parcels that scripts load on demand and that the list names: "search-segment" is the search
// index. In the edition a parcel is a script that hands over the content, compressed and written as text, because from a USB stick
// a page may add a script but not fetch a file.
//
// The file is compared with the checksum list first; where it differs or is missing, the error wraps ErrDamaged.
func Parcel(fsys fs.FS, l *List, name string) ([]byte, error) {
	path, known := l.Parcels[name]
	if !known {
		return nil, fmt.Errorf("the edition has no parcel %q", name)
	}
	file, err := l.Read(fsys, path)
	if err != nil {
		return nil, err
	}
	content, err := unpack(file, name)
	if err != nil {
		return nil, fmt.Errorf("%w: %s is no parcel: %w", ErrDamaged, path, err)
	}
	return content, nil
}

// Read gives a file of the edition if it is what the list says; otherwise the error wraps ErrDamaged.
func (l *List) Read(fsys fs.FS, path string) ([]byte, error) {
	for _, f := range l.Files {
		if f.Path != path {
			continue
		}
		data, err := fs.ReadFile(fsys, path)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%w: %s is missing", ErrDamaged, path)
		}
		if err != nil {
			return nil, err
		}
		if Sum(data) != f.SHA256 {
			return nil, fmt.Errorf("%w: %s is not as it was published", ErrDamaged, path)
		}
		return data, nil
	}
	return nil, fmt.Errorf("%w: the list has no checksum of %s", ErrDamaged, path)
}

// unpack reads `tankside.parcel("name","content");`.
func unpack(script []byte, name string) ([]byte, error) {
	quoted, err := json.Marshal(name)
	if err != nil {
		return nil, err
	}
	rest, ok := bytes.CutPrefix(script, append([]byte("tankside.parcel("), append(quoted, ',')...))
	if !ok {
		return nil, fmt.Errorf("it does not hand over %s", name)
	}
	if rest, ok = bytes.CutSuffix(bytes.TrimSpace(rest), []byte(");")); !ok {
		return nil, errors.New("its end is missing")
	}
	var text string
	if err := json.Unmarshal(rest, &text); err != nil {
		return nil, err
	}
	z, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, bytes.NewReader([]byte(text))))
	if err != nil {
		return nil, err
	}
	content, err := io.ReadAll(io.LimitReader(z, largestParcel+1))
	if err != nil {
		return nil, err
	}
	if len(content) > largestParcel {
		return nil, fmt.Errorf("it unpacks to more than %d bytes", largestParcel)
	}
	return content, z.Close()
}
