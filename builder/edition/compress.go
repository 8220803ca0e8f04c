package edition

import (
	"bytes"
	"compress/gzip"
	"path"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
)

// Below this size a compressed neighbour saves less than a packet.
const smallest = 860

func compressible(name string, size int) bool {
	switch path.Ext(name) {
	case ".html", ".css", ".js", ".json", ".svg", ".txt", ".webmanifest":
		return size >= smallest
	}
	return false
}

// Pages are many and small and written anew with every edition: they get quick levels. Assets are few, and sent to every reader:
// they get the best ones, but for the large ones. Those are packed already and written in letters; the best level takes a hundred times as
// long on them and gains under 1 %.
const (
	pageBrotli, pageGzip   = 4, 5
	assetBrotli, assetGzip = brotli.BestCompression, gzip.BestCompression
	largeAsset             = 128 << 10 // bytes
)

var (
	pageGzips   = sync.Pool{New: func() any { z, _ := gzip.NewWriterLevel(nil, pageGzip); return z }}
	pageBrotlis = sync.Pool{New: func() any { return brotli.NewWriterLevel(nil, pageBrotli) }}
)

func compress(name string, data []byte) (gz, br []byte, err error) {
	var g, b bytes.Buffer
	asset, large := strings.HasPrefix(name, "assets/"), len(data) >= largeAsset
	var zg *gzip.Writer
	var zb *brotli.Writer
	switch {
	case asset && !large:
		zg, err = gzip.NewWriterLevel(&g, assetGzip)
		zb = brotli.NewWriterLevel(&b, assetBrotli)
	case large: // not from the pool: what a brotli writer has learnt from a large file shows in what it writes next
		zg, err = gzip.NewWriterLevel(&g, pageGzip)
		zb = brotli.NewWriterLevel(&b, pageBrotli)
	default:
		zg = pageGzips.Get().(*gzip.Writer)
		defer pageGzips.Put(zg)
		zg.Reset(&g)
		zb = pageBrotlis.Get().(*brotli.Writer)
		defer pageBrotlis.Put(zb)
		zb.Reset(&b)
	}
	if err != nil {
		return nil, nil, err
	}
	if _, err = zg.Write(data); err == nil {
		err = zg.Close()
	}
	if err != nil {
		return nil, nil, err
	}
	if _, err = zb.Write(data); err == nil {
		err = zb.Close()
	}
	return g.Bytes(), b.Bytes(), err
}
