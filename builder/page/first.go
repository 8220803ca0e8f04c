package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"

	"tankside/builder/edition"
)

// What leads into an edition that is carried as one file: a page that stands by itself. Opened in the archive, as most desks do at a double click, it has no
// neighbours; so it needs none, runs nothing, and says how the archive is unpacked, in every language of the manual.

// CarriedFolder is where the edition lies beside that page.
const CarriedFolder = edition.CarriedFolder

// firstStyle is how it looks.
const firstStyle = "html{color-scheme:light dark;font:118.75%/1.55 system-ui,sans-serif;background:#f7f6f1;color:#16232b}" +
	"body{max-width:34em;margin:0 auto;padding:1.5rem 1.1rem;overflow-wrap:anywhere}h1{font-size:1.9rem;line-height:1.2;margin:.6rem 0}h2{font-size:1.15rem;margin:1.4rem 0 .3rem}" +
	".open{display:block;border:.16rem solid;padding:.8rem 1.1rem;color:inherit;font-size:1.5rem;font-weight:700;line-height:1.3}ul{padding-left:1.2rem}li{margin:.3rem 0}" +
	"section+section{border-top:.12rem solid;margin-top:2rem;padding-top:.6rem}" +
	"@media(prefers-color-scheme:dark){html{background:#11181c;color:#edf1ef}}"

var firstPage = template.Must(template.New("first").Parse(`<!doctype html>
<html lang="{{(index .Languages 0).Tag}}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src '{{.Allowed}}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Shop}}</title>
<style>{{.Style}}</style>
</head>
<body>
<h1>{{.Shop}}</h1>
{{range .Languages}}<section lang="{{.Tag}}">
<p>{{.Edition}}</p>
<p><a class="open" href="{{.Href}}">{{.Open}}</a></p>
<h2>{{.Nowhere}}</h2>
<p>{{.Inside}}</p>
<ul>
{{range .Ways}}<li>{{.}}</li>
{{end}}</ul>
{{with .Phone}}<p>{{.}}</p>
{{end}}</section>
{{end}}</body>
</html>
`))

// first makes the page.
func (s *site) first() ([]byte, error) {
	type spoken struct {
		Tag, Edition, Href, Open, Nowhere, Inside string
		Ways                                      []string
		Phone                                     string
	}
	sum := sha256.Sum256([]byte(firstStyle))
	content := struct {
		Shop      string
		Style     template.CSS
		Allowed   string
		Languages []spoken
	}{Shop: s.Manual.Shop.Name, Style: firstStyle, Allowed: "sha256-" + base64.StdEncoding.EncodeToString(sum[:])}
	for _, one := range s.all {
		in := spoken{
			Tag: one.language, Edition: one.edition(), Href: CarriedFolder + one.to(homePage), Open: one.words.say("Open the manual"),
			Nowhere: one.words.say("If that leads nowhere"),
			Inside:  one.words.say("Then this page was opened inside the archive, where it has no neighbours. Unpack the whole archive to a folder, and open OPEN-ME.html there."),
			Ways: []string{
				one.words.say("Windows: right-click the archive, “Extract All…”."),
				one.words.say("macOS: double-click the archive; a folder appears beside it."),
				one.words.say("Linux: right-click the archive, “Extract Here”."),
				one.words.say("Android: touch the archive in Files and extract it. Files shows one page at a time: to follow its links, open the folder's address in a browser."),
			},
		}
		if strings.HasPrefix(s.Manual.Shop.Address, "https:") { // over http no browser keeps it
			in.Phone = fmt.Sprintf(one.words.say("On a phone or a tablet it is easiest to open %s once: after that the manual is kept there and needs no network."), s.Manual.Shop.Address)
		}
		content.Languages = append(content.Languages, in)
	}
	var b bytes.Buffer
	err := firstPage.Execute(&b, content)
	return b.Bytes(), err
}
