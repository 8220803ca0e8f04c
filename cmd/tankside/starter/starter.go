// Package starter makes a new manual: the shop file from a few answers, and some short articles that are true of every shop, from which
// a trainer goes on. [Walk] asks for it, question by question; [Read] takes it from an answers file, [Shop.Read] from what stands on a type plate. [Shop.Files] gives the files.
package starter

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"strings"
	"text/template"
	"time"
)

//go:embed manual
var files embed.FS

// Files gives the files of a new manual by their paths in it. Nobody has approved its articles, and they are to be looked at again half a
// year after the day given, by when the shop will have made them its own.
func (s Shop) Files(today time.Time) (map[string][]byte, error) {
	if len(s.Tanks) == 0 {
		return nil, fmt.Errorf("a shop has a tank at least")
	}
	if s.Name == "" {
		s.Name = Unnamed
	}
	if s.Altitude == "" {
		s.Altitude = s.units("0 m", "0 ft")
	}
	data := struct {
		Shop
		ReviewBy string
		First    Tank
	}{s, today.AddDate(0, 6, 0).Format(time.DateOnly), Tank{}}
	data.Tanks = make([]Tank, len(s.Tanks))
	for i, t := range s.Tanks {
		t.ID = fmt.Sprintf("wash-%d", i+1)
		data.Tanks[i] = t
	}
	data.Rinses = make([]Rinse, len(s.Rinses))
	for i, r := range s.Rinses {
		r.ID = fmt.Sprintf("rinse-%d", i+1)
		data.Rinses[i] = r
	}
	data.First = data.Tanks[0]
	made := make(map[string][]byte)
	err := fs.WalkDir(files, "manual", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := files.ReadFile(path)
		if err != nil {
			return err
		}
		t, err := template.New(path).Funcs(template.FuncMap{"units": s.units, "quote": quote, "plain": plainly}).Parse(string(text))
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := t.Execute(&b, data); err != nil {
			return err
		}
		made[strings.TrimPrefix(path, "manual/")] = b.Bytes()
		return nil
	})
	return made, err
}

// units picks the text in the shop's units.
func (s Shop) units(si, us string) string { return either(si, us)(s.System()) }

// quote writes a text as YAML does between double quotes; setName and quantity.Parse have seen to it that it is one line.
func quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// plainly writes a text into markdown so that every character stands for itself (CommonMark 0.31.2, section 2.4).
func plainly(text string) string {
	var b strings.Builder
	for _, r := range text {
		if strings.ContainsRune("\\`*_{}[]<>#&|~!", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
