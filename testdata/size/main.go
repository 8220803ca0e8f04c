// Command size prints the files of an edition with their bytes as they are, with gzip and with brotli: each asset, and the pages together.
package main

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"tankside/builder/edition"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: size EDITION")
		os.Exit(2)
	}
	if err := run(os.Args[1]); err != nil {
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
	return w.Flush()
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
