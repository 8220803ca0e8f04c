package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/shops"
)

// usualEditions is the folder of the editions of many shops where none is named.
const usualEditions = "editions"

// manyShops is what is asked of publish for many shops.
type manyShops struct {
	base, folder, to, part string
	asJSON                 bool
	entering               *builder.Entering
}

// shopTold is what --json gives of a shop.
type shopTold struct {
	Shop     string            `json:"shop"` // its folder
	State    shops.State       `json:"state"`
	Edition  int               `json:"edition"` // 0 where it is not entered, or there is none
	Code     string            `json:"code,omitempty"`
	Pages    int               `json:"pages,omitempty"` // with published alone
	Bytes    int64             `json:"bytes,omitempty"`
	Seconds  float64           `json:"seconds"`
	Problem  string            `json:"problem,omitempty"` // of failed
	Findings []finding.Finding `json:"findings"`          // those that the base by itself has not
}

// publishShops publishes an edition for each shop of a folder.
func (c *console) publishShops(ctx context.Context, m manyShops) error {
	part, err := m.apart()
	if err == nil {
		err = c.finishRenaming(m.base)
	}
	if err != nil {
		return err
	}
	o := shops.Options{Base: m.base, Shops: m.folder, To: m.to, Part: part, Enter: m.entering}
	if o.Now, err = c.now(); err != nil {
		return err
	}
	if o.Program, err = thisProgram(); err != nil {
		return err
	}
	debug.SetGCPercent(shops.GarbagePercent)
	told := struct {
		OK     bool                `json:"ok"`
		Base   []finding.Finding   `json:"base"` // what was found in the base by itself
		Shops  []shopTold          `json:"shops"`
		Others int                 `json:"others"` // shops of other parts
		Count  map[shops.State]int `json:"count"`
	}{Base: []finding.Finding{}, Shops: []shopTold{}}
	o.Progress = func(shop, doing string, done, total int) { c.tell(shop+": "+doing, done, total) }
	o.Begun = func(b *builder.Base, n int) {
		told.Base = append(told.Base, b.Findings...)
		if !m.asJSON && len(b.Findings) > 0 {
			c.note("Found in the base by itself, with its own shop file; not told again of each shop:\n")
			writeFindings(c.err, m.base, b.Findings, func(s string) string { return s })
		}
	}
	begin := time.Now()
	o.Done = func(r shops.Result) {
		seconds := time.Since(begin).Seconds()
		begin = time.Now()
		c.endProgress()
		if m.asJSON {
			told.Shops = append(told.Shops, tellOf(r, seconds))
			return
		}
		c.tellShop(m, r, seconds)
	}
	sum, err := shops.Publish(ctx, o)
	c.endProgress()
	if err != nil {
		return err
	}
	if m.asJSON {
		told.OK, told.Others, told.Count = sum.Fine(), sum.Elsewhere, sum.Count
		err = c.json(told)
	} else {
		c.tellShops(m, sum)
	}
	if err == nil && !sum.Fine() {
		err = status(exitFindings)
	}
	return err
}

// apart refuses folders that lie in each other, and gives the part.
func (m manyShops) apart() (part shops.Part, err error) {
	if m.part != "" {
		if part, err = shops.PartOf(m.part); err != nil {
			return part, err
		}
	}
	base, of, to := resolve(m.base), resolve(m.folder), resolve(m.to)
	for _, two := range [][2]string{{base, of}, {base, to}, {of, to}} {
		if two[0] == two[1] || below(two[0], two[1]) || below(two[1], two[0]) {
			return part, fmt.Errorf("the base %q, the folder of shops %q and the folder of editions %q have to lie beside each other, none in another", m.base, m.folder, m.to)
		}
	}
	return part, nil
}

// thisProgram is a digest of the program that runs.
func thisProgram() (string, error) {
	at, err := os.Executable()
	if err != nil {
		return "", err
	}
	return edition.SumOf(os.DirFS(filepath.Dir(at)), filepath.Base(at))
}

func tellOf(r shops.Result, seconds float64) shopTold {
	t := shopTold{Shop: r.Shop, State: r.State, Edition: r.Report.Mark.Edition, Code: r.Report.Mark.Code, Seconds: math.Round(seconds*1000) / 1000, Findings: orEmpty(r.Own)}
	if r.State == shops.Published {
		t.Pages, t.Bytes = r.Report.Pages, r.Report.Bytes
	}
	if r.Err != nil {
		t.Problem = r.Err.Error()
	}
	return t
}

// tellShop says what became of a shop, and names it with what was found in it.
func (c *console) tellShop(m manyShops, r shops.Result, seconds float64) {
	name := shown(r.Shop)
	if len(r.Own) > 0 {
		c.note("Shop %s:\n", name)
		writeFindings(c.err, "", placed(m, r), func(s string) string { return s })
	}
	switch r.State {
	case shops.Published:
		fmt.Fprintf(c.out, "%s: %s, %s, %s, in %.1f s\n", name, r.Report.Mark, count(r.Report.Pages, "page", "pages"), size(r.Report.Bytes), seconds)
		c.tellKept(r.Report.Told)
	case shops.Current:
		fmt.Fprintf(c.out, "%s: %s, in place already\n", name, r.Report.Mark)
	case shops.Stopped:
		fmt.Fprintf(c.out, "%s: STOPPED by %s\n", name, count(finding.Stopping(r.Report.Findings), "finding", "findings"))
	case shops.Failed:
		fmt.Fprintf(c.out, "%s: FAILED: %s\n", name, shown(sentence(r.Err)))
	}
}

// placed gives the findings of a shop with the files where they are: in the shop's folder, or in the base's.
func placed(m manyShops, r shops.Result) []finding.Finding {
	folder := filepath.Join(m.folder, r.Shop)
	at := func(p finding.Place) finding.Place {
		if shops.FileIn(folder, p.File) {
			return within(folder, p)
		}
		return within(m.base, p)
	}
	list := make([]finding.Finding, len(r.Own))
	for i, f := range r.Own {
		f.Place = at(f.Place)
		also := make([]finding.Place, len(f.Also))
		for j, p := range f.Also {
			also[j] = at(p)
		}
		f.Also = also
		list[i] = f
	}
	return list
}

// tellShops sums a run up.
func (c *console) tellShops(m manyShops, sum shops.Summary) {
	text := fmt.Sprintf("%s: %d published, %d in place already, %d stopped, %d failed", count(sum.Count[shops.Published]+sum.Count[shops.Current]+sum.Count[shops.Stopped]+sum.Count[shops.Failed], "shop", "shops"),
		sum.Count[shops.Published], sum.Count[shops.Current], sum.Count[shops.Stopped], sum.Count[shops.Failed])
	if sum.Elsewhere > 0 {
		text += fmt.Sprintf("; %d in other parts", sum.Elsewhere)
	}
	fmt.Fprintln(c.out, text+".")
	if !sum.Fine() {
		c.note("Where a shop was stopped or failed, the edition that is in place stays as it was.")
	}
	c.noteNames("No shops, since they are no folders, in "+shown(m.folder), sum.NoShops)
	c.noteNames("Of no shop, and left alone, in "+shown(m.to), sum.Nobodys)
}

// noteNames names the first of some files or folders.
func (c *console) noteNames(what string, names []string) {
	if len(names) == 0 {
		return
	}
	more := ""
	if n := len(names); n > mostKept {
		names, more = names[:mostKept], fmt.Sprintf(", %d more", n-mostKept)
	}
	c.note("%s: %s%s.", what, shown(strings.Join(names, ", ")), more)
}
