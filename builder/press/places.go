package press

import (
	"bytes"
	"fmt"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Document is what is known of a printed document.
type Document struct {
	Sheets int
	Places map[string]Place // each place to which a link in the document leads
}

// Place is where something stands: its sheet, from 1, and how far down on it, from 0 at the top edge to 1.
type Place struct {
	Sheet int
	Down  float64
}

// Read reads a document: its named destinations (ISO 32000-1:2008, 12.3.2.3) are the addresses in the page.
func Read(pdf []byte) (Document, error) {
	api.DisableConfigDir() // the library would make a folder in the user's home
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationRelaxed
	ctx, err := api.ReadContext(bytes.NewReader(pdf), conf)
	if err != nil {
		return Document{}, fmt.Errorf("the printed document cannot be read: %w", err)
	}
	if err := ctx.EnsurePageCount(); err != nil {
		return Document{}, fmt.Errorf("the printed document cannot be counted: %w", err)
	}
	d := Document{Sheets: ctx.PageCount, Places: map[string]Place{}}
	named, err := ctx.DereferenceDict(ctx.RootDict["Dests"])
	if err != nil || named == nil {
		return d, err
	}
	sizes, err := ctx.PageDims()
	if err != nil {
		return d, err
	}
	sheets := make(map[int]int, d.Sheets) // by object
	for n := 1; n <= d.Sheets; n++ {
		ref, err := ctx.PageDictIndRef(n)
		if err != nil {
			return d, err
		}
		sheets[ref.ObjectNumber.Value()] = n
	}
	for name, value := range named {
		to, err := ctx.DereferenceArray(value)
		if err != nil {
			return d, err
		}
		if at, is := place(to, sheets, sizes); is {
			d.Places[name] = at
		}
	}
	return d, nil
}

// place reads an explicit destination of the kind XYZ: sheet, kind, left, top.
func place(to types.Array, sheets map[int]int, sizes []types.Dim) (Place, bool) {
	if len(to) < 4 {
		return Place{}, false
	}
	ref, is := to[0].(types.IndirectRef)
	n := sheets[ref.ObjectNumber.Value()]
	if !is || n == 0 || sizes[n-1].Height <= 0 {
		return Place{}, false
	}
	var top float64
	switch v := to[3].(type) {
	case types.Float:
		top = v.Value()
	case types.Integer:
		top = float64(v.Value())
	default:
		return Place{}, false
	}
	return Place{n, 1 - top/sizes[n-1].Height}, true
}
