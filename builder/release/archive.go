package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"cmp"
	"compress/flate"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"slices"
	"time"
)

// file is one file of an archive.
type file struct {
	name string // within the archive's folder
	data []byte
	runs bool // somebody may run it
}

// unchanging is the time of every file: the first that a zip archive can say.
var unchanging = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// archive puts the files, by name, into one folder of an archive: zip for Windows, tar.gz for the others. The same files, in whatever order, are the same bytes.
func archive(version string, t target, files []file) (name string, data []byte, err error) {
	folder := "tankside-" + version + "-" + t.String()
	files = slices.SortedFunc(slices.Values(files), func(a, b file) int { return cmp.Compare(a.name, b.name) })
	if t.system == "windows" {
		data, err = zipped(folder, files)
		return folder + ".zip", data, err
	}
	data, err = tarred(folder, files)
	return folder + ".tar.gz", data, err
}

func zipped(folder string, files []file) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestCompression) })
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: unchanging})
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(f.data); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return b.Bytes(), err
}

// tarred writes a plain tar (POSIX.1-1988, ustar) without owners, in gzip without name and time.
func tarred(folder string, files []file) ([]byte, error) {
	var b bytes.Buffer
	g, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	w := tar.NewWriter(g)
	for _, f := range files {
		mode := int64(0o644)
		if f.runs {
			mode = 0o755
		}
		h := tar.Header{Typeflag: tar.TypeReg, Name: folder + "/" + f.name, Mode: mode, Size: int64(len(f.data)), ModTime: unchanging, Format: tar.FormatUSTAR}
		if err := w.WriteHeader(&h); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.data); err != nil {
			return nil, err
		}
	}
	err = errors.Join(w.Close(), g.Close())
	return b.Bytes(), err
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}
