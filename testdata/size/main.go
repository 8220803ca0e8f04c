// Command size prints the files of an edition with their bytes as they are, with gzip and with brotli: each asset, and the pages together;
// and the browser's modules as such, before they are packed and written in letters as parcels. Of modules built with names in a second
// folder it prints what each is made of.
package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/andybalholm/brotli"

	"tankside/builder/edition"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: size EDITION MODULES")
		os.Exit(2)
	}
	err := run(os.Args[1])
	if err == nil {
		err = parts(os.Args[2], os.Stdout)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

type row struct{ raw, gzip, brotli int64 }

func (r *row) add(o row) { r.raw += o.raw; r.gzip += o.gzip; r.brotli += o.brotli }

func run(dir string) error {
	list, err := edition.ReadList(os.DirFS(dir))
	if err != nil {
		return err
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 8, 2, ' ', tabwriter.AlignRight)
	print := func(name string, r row) { fmt.Fprintf(w, "%d\t%d\t%d\t  %s\n", r.raw, r.gzip, r.brotli, name) }
	fmt.Fprintln(w, "bytes\tgzip\tbrotli\t  file")
	var pages, all row
	largest, of := row{}, ""
	count := 0
	for _, f := range list.Files {
		r, err := sizes(dir, f)
		if err != nil {
			return err
		}
		all.add(r)
		if path.Ext(f.Path) == ".html" {
			pages.add(r)
			count++
			if r.brotli > largest.brotli {
				largest, of = r, f.Path
			}
			continue
		}
		print(f.Path, r)
	}
	print(fmt.Sprintf("%d pages together", count), pages)
	print("the heaviest page: "+of, largest)
	print("the whole edition", all)
	if err := modules(print); err != nil {
		return err
	}
	return w.Flush()
}

// modules measures the WASM modules that make has built, with the best levels.
func modules(print func(string, row)) error {
	names, err := filepath.Glob("themes/wasm/*.wasm")
	if err != nil {
		return err
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var g, b bytes.Buffer
		zg, err := gzip.NewWriterLevel(&g, gzip.BestCompression)
		if err != nil {
			return err
		}
		zb := brotli.NewWriterLevel(&b, brotli.BestCompression)
		for _, w := range []io.WriteCloser{zg, zb} {
			if _, err := w.Write(data); err != nil {
				return err
			}
			if err := w.Close(); err != nil {
				return err
			}
		}
		print("module "+name, row{int64(len(data)), int64(g.Len()), int64(b.Len())})
	}
	return nil
}

// sizes gives a file's bytes on the disk; one without a compressed neighbour counts as the next best.
func sizes(dir string, f edition.File) (row, error) {
	r := row{f.Bytes, f.Bytes, f.Bytes}
	size := func(ext string) (int64, error) {
		info, err := os.Stat(filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(f.Path, "/"))+ext))
		if err != nil {
			return 0, err
		}
		return info.Size(), nil
	}
	var err error
	if f.Gzip != "" {
		if r.gzip, err = size(".gz"); err != nil {
			return r, err
		}
		r.brotli = r.gzip // what a reader that takes both gets
	}
	if f.Brotli != "" {
		r.brotli, err = size(".br")
	}
	return r, err
}
