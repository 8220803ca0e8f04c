package page

import (
	"cmp"
	"encoding/json"
	"path"
	"strings"
)

// InstalledFile says how the manual stands on a device on which it is installed (Web Application Manifest, W3C). The script that keeps the edition on a device
// names it: a browser may not read it from a folder.
const InstalledFile = "manual.webmanifest"

// drawn are the pictures that can be a mark of an application, by ending. One that is drawn has any size.
var drawn = map[string]string{".svg": "image/svg+xml", ".png": "image/png", ".webp": "image/webp"}

// installed gives that file. It has no times and no code: devices take it for the same application from edition to edition.
func (s *site) installed() ([]byte, error) {
	type icon struct {
		Source string `json:"src"`
		Sizes  string `json:"sizes"`
		Type   string `json:"type"`
	}
	icons := []icon{}
	for _, mark := range []string{s.mark(), s.pics["drawings/mark.svg"]} { // the shop's own mark may have no kind or size that devices take
		if kind := drawn[strings.ToLower(path.Ext(mark))]; kind != "" && (len(icons) == 0 || icons[0].Source != mark) {
			icons = append(icons, icon{mark, "any", kind})
		}
	}
	return json.MarshalIndent(struct {
		Name    string `json:"name"`
		Lang    string `json:"lang"`
		Start   string `json:"start_url"`
		Scope   string `json:"scope"`
		Display string `json:"display"` // without the browser's own bars, but with a way back
		Icons   []icon `json:"icons"`
	}{cmp.Or(s.Manual.Shop.Name, "Tankside"), s.manualLanguage(), homePage, "./", "minimal-ui", icons}, "", " ")
}
