package page

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"

	"tankside/builder/changes"
	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/understood"
	"tankside/themes"
)

// The sheets on which people sign that they have read and understood what concerns them stand by themselves, one role after the other: who signs on paper has no edition open.

const readingStyle = "html{font:10.5pt/1.35 system-ui,\"Noto Sans\",\"DejaVu Sans\",sans-serif;color:#16232b;background:#fff}body{max-width:46em;margin:1rem auto;padding:0 1rem}" +
	"h1{font-size:18pt;margin:0}h2{font-size:13pt;margin:5mm 0 1mm}h3{font-size:11pt;margin:0}p{margin:1mm 0}ul{margin:1mm 0;padding-left:5mm}.path{color:#4d5b63;font-size:9pt}" +
	".role{break-after:page}.role:last-child{break-after:auto}.person{border-top:.4mm solid;padding:2mm 0 3mm;break-inside:avoid-page}.long{columns:2;font-size:9pt}" +
	"table{border-collapse:collapse;width:calc(100% - .4mm);margin:2mm 0}td,th{border:.2mm solid;padding:1.5mm;text-align:left;height:7mm;font-weight:400}th{height:auto;font-size:9pt}td:first-child,th:first-child{width:34%}td:nth-child(2),th:nth-child(2){width:22%}" +
	"@page{margin:14mm}@media print{body{max-width:none;margin:0;padding:0}}"

var readingSheet = template.Must(template.New("understood").Parse(`<!doctype html>
<html lang="{{.Lang}}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}} · {{.Shop}}</title>
<style>{{.Style}}</style>
</head>
<body>
{{range $role := .Roles}}<section class="role">
<h1>{{$.Title}}: {{.Name}}</h1>
<p>{{$.Shop}} · {{$.Edition}} · {{$.Day}}</p>
{{range .Remarks}}<p><strong>{{.}}</strong></p>
{{end}}{{range .People}}<section class="person">
<h2>{{.Who}}</h2>
<p>{{.Says}}</p>
{{if .Reads}}<ul{{if .Long}} class="long"{{end}}>
{{range .Reads}}<li>{{.Title}}{{with .State}} ({{.}}){{end}} <span class="path">{{.Path}}</span>{{with .Parts}}: {{.}}{{end}}</li>
{{end}}</ul>
{{end}}{{with .Blanks}}<p>{{$.Sign}}</p>
<table><thead><tr><th>{{$.NameHead}}</th><th>{{$.DateHead}}</th><th>{{$.SignHead}}</th></tr></thead>
{{range .}}<tr><td>{{.}}</td><td></td><td></td></tr>
{{end}}</table>
{{end}}</section>
{{end}}</section>
{{end}}</body>
</html>
`))

// readingSheets is what the template shows.
type readingSheets struct {
	Lang, Title, Shop, Edition, Day    string
	Sign, NameHead, DateHead, SignHead string
	Style                              template.CSS
	Roles                              []readingRole
}

type readingRole struct {
	Name    string
	Remarks []string
	People  []readingPerson
}

type readingPerson struct {
	Who, Says string
	Long      bool
	Reads     []readingItem
	Blanks    []string // names, or "" for somebody's
}

type readingItem struct{ Title, Path, State, Parts string }

// newcomers is how many blank lines there are for those who have signed nothing yet.
const newcomers = 4

// ReadingSheet makes one page, to be printed, of what everybody has to read since the edition that they signed, with room for their signatures. day is that of the sheet.
func ReadingSheet(m *manual.Manual, theme themes.Theme, mark edition.Mark, list []understood.Role, day string) ([]byte, error) {
	s := &site{Input: Input{Manual: m, Theme: theme, Mark: mark}}
	s.language = s.manualLanguage()
	var err error
	if s.words, err = interfaceWords(theme, s.language); err != nil {
		return nil, err
	}
	sheets := readingSheets{
		Lang: s.language, Title: s.words.say("Read and understood"), Shop: m.Shop.Name, Edition: s.edition(), Day: day, Style: readingStyle,
		Sign:     s.words.say("I have read what stands above and understood it; what I did not understand I have asked."),
		NameHead: s.words.say("Name"), DateHead: s.words.say("Date"), SignHead: s.words.say("Signature"),
	}
	for _, role := range list {
		one := readingRole{Name: role.Role}
		if role.Unknown {
			one.Remarks = append(one.Remarks, s.words.say("The shop file has no such role."))
		}
		if len(role.People) == 1 {
			one.Remarks = append(one.Remarks, s.words.say("Nobody has signed in this role yet."))
		}
		for _, p := range role.People {
			one.People = append(one.People, s.readingOf(p))
		}
		sheets.Roles = append(sheets.Roles, one)
	}
	var b bytes.Buffer
	err = readingSheet.Execute(&b, sheets)
	return b.Bytes(), err
}

// readingOf says what a person has to read.
func (s *site) readingOf(p understood.Person) readingPerson {
	one := readingPerson{Who: p.Who, Blanks: []string{p.Who}}
	if p.Who == "" {
		one.Who, one.Blanks = s.words.say("Whoever has signed nothing yet"), slices.Repeat([]string{""}, newcomers)
	}
	for _, r := range p.Reads {
		if p.Who != "" && p.Why != understood.OnlyChanges {
			break // all that the role reads stands once, at its end
		}
		item := readingItem{Title: r.Title, Path: r.Path}
		if r.Title == "" {
			item.Title = s.words.say("Values of the shop file")
		}
		switch r.State {
		case understood.New:
			item.State = s.words.say("new")
		case understood.Gone:
			item.State = s.words.say("taken out: work by it no longer")
		}
		for i, part := range r.Parts {
			if i > 0 {
				item.Parts += "; "
			}
			item.Parts += s.partOf(part)
		}
		one.Reads = append(one.Reads, item)
	}
	one.Says = s.says(p)
	one.Long = p.Why != understood.OnlyChanges
	if p.Why == understood.OnlyChanges && len(p.Reads) == 0 {
		one.Blanks = nil
	}
	return one
}

// says says what was signed, and why what is to be read.
func (s *site) says(p understood.Person) string {
	signed := ""
	if p.Signed != nil {
		signed = fmt.Sprintf(s.words.say("Signed edition %s on %s, %s days ago."), fmt.Sprint(p.Signed.Edition), p.Signed.Date, fmt.Sprint(p.Days)) + " "
	}
	switch {
	case p.Why == understood.NeverSigned:
		return s.words.say("Reads everything that this role reads.")
	case p.Why == understood.LongAgo:
		return signed + s.words.say("That is more than a year ago: everything is to be read again.") + " " + s.words.say("The list stands at the end.")
	case p.Why == understood.NotToBeHad:
		return signed + s.words.say("What has changed since cannot be told, because that edition is not to be had: everything is to be read again.") + " " + s.words.say("The list stands at the end.")
	case len(p.Reads) == 0:
		return signed + s.words.say("Nothing that this role reads has changed since.")
	}
	return signed + s.words.say("Reads what has changed since:")
}

// partOf says what has happened to a piece of an article.
func (s *site) partOf(p understood.Part) string {
	name := p.Heading
	if name == "" {
		name = s.words.say("before the first heading")
	}
	if p.Before != "" || p.After != "" {
		return name + " " + orDash(p.Before) + " → " + orDash(p.After)
	}
	switch p.Kind {
	case changes.Added:
		return name + " (" + s.words.say("new") + ")"
	case changes.Removed:
		return name + " (" + s.words.say("taken out") + ")"
	case changes.Renamed:
		return name + " (" + s.words.say("renamed") + ")"
	case changes.Moved:
		return name + " (" + s.words.say("moved") + ")"
	}
	return name
}

func orDash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}
