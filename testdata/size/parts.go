package main

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// parts prints what each module in a folder is made of. Beside NAME.wasm, built with the names of its functions, stands NAME.packages:
// import paths of all its packages, each with its Go module, where it has one.
func parts(folder string, out io.Writer) error {
	names, err := filepath.Glob(filepath.Join(folder, "*.wasm"))
	if err != nil {
		return err
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		list, err := os.ReadFile(strings.TrimSuffix(name, ".wasm") + ".packages")
		if err != nil {
			return err
		}
		p, err := partsOf(data, readPackages(list))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		total := 0
		for _, n := range p {
			total += n
		}
		fmt.Fprintf(out, "\n%s, %d bytes before compression, the names of its functions left out\n", filepath.Base(name), total)
		groups := slices.SortedFunc(maps.Keys(p), func(a, b string) int { return cmp.Or(p[b]-p[a], strings.Compare(a, b)) })
		rest, small := 0, 0
		for _, g := range groups {
			if p[g] < total/500 { // a fifth of a percent
				rest += p[g]
				small++
				continue
			}
			fmt.Fprintf(out, "%9d %5.1f %%  %s\n", p[g], 100*float64(p[g])/float64(total), g)
		}
		fmt.Fprintf(out, "%9d %5.1f %%  %d smaller parts\n", rest, 100*float64(rest)/float64(total), small)
	}
	return nil
}

// readPackages gives, for each package as the linker writes it in names, the part that it counts for.
func readPackages(list []byte) map[string]string {
	groups := map[string]string{}
	for line := range strings.Lines(string(list)) {
		path, module, _ := strings.Cut(strings.TrimSpace(line), " ")
		group := path
		switch {
		case module != "" && module != "tankside":
			group = module
		case module != "":
		case path == "runtime" || strings.HasPrefix(path, "internal/runtime/") || strings.HasPrefix(path, "runtime/"):
			group = "Go: runtime"
		default:
			first, _, _ := strings.Cut(path, "/")
			group = "Go: " + map[bool]string{true: first, false: path}[first == "internal" || first == "crypto" || first == "vendor"]
		}
		groups[unwritable.ReplaceAllString(path, "_")] = group
	}
	return groups
}

// unwritable is what Go's linker writes as _ in the names of functions.
var unwritable = regexp.MustCompile(`[^\w.]`)

// groupOf finds the part that a function belongs to: that of the longest package its name begins with.
func groupOf(function string, groups map[string]string) string {
	function = strings.TrimPrefix(strings.TrimPrefix(function, "type_.eq."), "type_.hash.")
	for at := len(function); at > 0; at = strings.LastIndexByte(function[:at], '.') {
		if group, ok := groups[function[:at]]; ok {
			return group
		}
	}
	return "functions of no package"
}

// Numbers of WebAssembly's sections and kinds (WebAssembly Core Specification 2.0, 5.5.2 Sections and 5.5.5 Import Section; the names
// of functions: appendix Custom Sections, Name Section).
const (
	customSection, importSection, codeSection, dataSection = 0, 2, 10, 11
	functionKind, functionNames                            = 0, 1
)

// partsOf adds up the bytes of a module by parts.
func partsOf(module []byte, groups map[string]string) (map[string]int, error) {
	if !bytes.HasPrefix(module, []byte("\x00asm\x01\x00\x00\x00")) {
		return nil, errors.New("not a WebAssembly module of version 1")
	}
	r := reader{bufio.NewReader(bytes.NewReader(module[8:])), nil}
	sum := map[string]int{}
	var bodies []int // bytes of each function
	names := map[int]string{}
	imported := 0
	for r.err == nil {
		id := r.byte()
		if r.err == io.EOF {
			break
		}
		body := r.bytes(r.number())
		in := reader{bufio.NewReader(bytes.NewReader(body)), nil}
		switch id {
		case codeSection:
			for range in.number() {
				n := in.number()
				in.bytes(n)
				bodies = append(bodies, n)
			}
		case dataSection:
			sum["data: tables of the runtime, types, texts, constants"] += len(body)
		case customSection:
			if string(in.bytes(in.number())) == "name" {
				in.names(names)
				break
			}
			sum["the module's own tables"] += len(body)
		case importSection:
			for range in.number() {
				in.bytes(in.number())
				in.bytes(in.number())
				if kind := in.byte(); kind != functionKind {
					return nil, fmt.Errorf("an import of kind %d, where Go imports functions alone", kind)
				}
				in.number()
				imported++
			}
			fallthrough
		default:
			sum["the module's own tables"] += len(body)
		}
		if in.err != nil && in.err != io.EOF {
			return nil, in.err
		}
	}
	if r.err != io.EOF {
		return nil, r.err
	}
	if len(names) == 0 {
		return nil, errors.New("the names of its functions have been left out")
	}
	for i, n := range bodies {
		sum[groupOf(names[imported+i], groups)] += n
	}
	return sum, nil
}

// reader reads a module's numbers (unsigned LEB128) and runs of bytes; after an error all else is zero.
type reader struct {
	in  *bufio.Reader
	err error
}

func (r *reader) byte() byte {
	if r.err != nil {
		return 0
	}
	var b byte
	b, r.err = r.in.ReadByte()
	return b
}

func (r *reader) number() int {
	if r.err != nil {
		return 0
	}
	var n uint64
	n, r.err = binary.ReadUvarint(r.in)
	return int(n)
}

func (r *reader) bytes(n int) []byte {
	if r.err != nil {
		return nil
	}
	b, err := io.ReadAll(io.LimitReader(r.in, int64(n)))
	if err == nil && len(b) < n {
		err = io.ErrUnexpectedEOF
	}
	r.err = err
	return b
}

// names reads the functions' names out of the name section.
func (r *reader) names(into map[int]string) {
	for r.err == nil {
		kind := r.byte()
		part := reader{bufio.NewReader(bytes.NewReader(r.bytes(r.number()))), nil}
		if kind != functionNames {
			continue
		}
		for range part.number() {
			i := part.number()
			into[i] = string(part.bytes(part.number()))
		}
		if part.err != nil {
			r.err = part.err
		}
	}
}
