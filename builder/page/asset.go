package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"github.com/alecthomas/chroma/v2/formatters/html"

	"tankside/themes"
)

// assets are the files that pages share, under names that carry a hash of their content.
type assets struct {
	add        Sink
	style      string
	sheetStyle string            // what pages that are sheets of paper load besides
	head       string            // script that runs before the page is drawn
	scripts    map[string]string // scripts/NAME → file
	pics       map[string]string // swatches and the manual's pictures: path → file
	sizes      map[string]string // size attributes of the manual's pictures
	parcels    map[string]string

	keep  func(file string) (bool, error) // see Input
	files []string                        // that were written
}

func newAssets(in Input, add Sink) (*assets, error) {
	a, err := commonAssets(in, add)
	if err != nil {
		return nil, err
	}
	return a, errors.Join(a.add(visitSchemaFile, visitSchema), a.causeParcels(in))
}

// put writes an asset under its hashed name and returns that name.
func (a *assets) put(name string, data []byte) (string, error) {
	file := hashed(name, data)
	return file, a.add(file, data)
}

// hashed is the name of an asset with a hash of its content.
func hashed(name string, data []byte) string {
	sum := sha256.Sum256(data)
	ext := path.Ext(name)
	return "assets/" + strings.TrimSuffix(path.Base(name), ext) + "." + hex.EncodeToString(sum[:5]) + ext
}

// onSheets are the style sheets of pages that are sheets of paper: cards, forms, the book. Other pages do not wait for them.
var onSheets = map[string]bool{"93-whole.css": true, "94-handouts.css": true}

// styles joins the theme's style sheets, in the order of their names, and the classes of listings. What pages of sheets load besides begins with the first that is for them
// alone and repeats what comes after it, so that there as well the later name decides.
func (a *assets) styles(in Input) error {
	names, err := in.Theme.List("styles")
	if err != nil {
		return err
	}
	var all, sheets bytes.Buffer
	for _, name := range names {
		data, err := in.Theme.Read(name)
		if err != nil {
			return err
		}
		if onSheets[path.Base(name)] || sheets.Len() > 0 {
			sheets.Write(data)
		}
		if !onSheets[path.Base(name)] {
			all.Write(data)
		}
	}
	if err := listingStyles(&all); err != nil {
		return err
	}
	look, err := lookStyles(all.Bytes(), in.Manual.Shop.Look)
	if err != nil {
		return err
	}
	all.WriteString(look)
	sheets.WriteString(look)
	if a.style, err = a.put("tankside.css", withoutComments(all.Bytes())); err != nil {
		return err
	}
	a.sheetStyle, err = a.put("sheets.css", withoutComments(sheets.Bytes()))
	return err
}

// listingStyles writes the classes of listings, for light and for dark paper.
func listingStyles(w *bytes.Buffer) error {
	f := html.New(html.WithClasses(true), html.WithCSSComments(false))
	if err := f.WriteCSS(w, listingStyle); err != nil {
		return err
	}
	// The formatter's own ground would cover the listing's.
	w.WriteString(".listing .chroma, .listing .bg { background: none; color: inherit; }\n@media (prefers-color-scheme: dark) { .listing .chroma * { color: inherit; } }\n")
	return nil
}

// The script that runs in the head, and those that are not put into pages as they are.
const headScript = "parcel.js"

var apart = map[string]bool{"offline.js": true, "find-worker.js": true}

func (a *assets) scriptFiles(in Input) error {
	names, err := in.Theme.List("scripts")
	if err != nil {
		return err
	}
	for _, name := range names {
		base := path.Base(name)
		if apart[base] || path.Ext(base) != ".js" {
			continue
		}
		data, err := in.Theme.Read(name)
		if err != nil {
			return err
		}
		if a.scripts[base], err = a.put(base, data); err != nil {
			return err
		}
	}
	a.head = a.scripts[headScript]
	return nil
}

func (a *assets) pictures(in Input) error {
	names, err := in.Theme.List("drawings/swatches")
	if err != nil {
		return err
	}
	for _, name := range append(names, "drawings/mark.svg") {
		data, err := in.Theme.Read(name)
		if err != nil {
			return err
		}
		if a.pics[name], err = a.put(name, data); err != nil {
			return err
		}
	}
	for _, p := range in.Manual.Pictures {
		made, err := prepare(p)
		if err != nil {
			return err
		}
		name := strings.TrimSuffix(p.Path, path.Ext(p.Path)) + made.Ext
		if a.pics[p.Path], err = a.put(name, made.Data); err != nil {
			return err
		}
		a.sizes[p.Path] = fmt.Sprintf(` width="%d" height="%d"`, made.Width, made.Height)
	}
	return nil
}

// The parcels of the WASM modules.
const (
	searchModule  = "search-wasm"
	answersModule = "answers-wasm" // sums, “may it go in?”, causes
)

// parcelFiles writes what scripts load on demand, all but the search index. From a USB stick a page may not fetch its neighbours, but
// it may add a script; so each parcel is a script that hands over its content as text.
func (a *assets) parcelFiles(in Input) error {
	for _, parcel := range []string{searchModule, answersModule} {
		zipped, err := themes.WASM(strings.TrimSuffix(parcel, "-wasm"))
		if err != nil {
			return err
		}
		if err := a.addPackedParcel(parcel, parcel, func(w io.Writer) error { _, err := w.Write(zipped); return err }); err != nil {
			return err
		}
	}
	worker, err := in.Theme.Read("scripts/find-worker.js")
	if err != nil {
		return err
	}
	a.parcels["find-worker"], err = a.put("find-worker.js", worker) // hands itself over
	return err
}

// parcel writes the script that hands over a content, packed with gzip, in the letters of base64.
func parcel(script *bytes.Buffer, name string, packed func(io.Writer) error) error {
	fmt.Fprintf(script, `tankside.parcel(%q,"`, name)
	letters := base64.NewEncoder(base64.StdEncoding, script)
	if err := packed(letters); err != nil {
		return err
	}
	if err := letters.Close(); err != nil {
		return err
	}
	_, err := script.WriteString("\");\n")
	return err
}
