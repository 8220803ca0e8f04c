package page

import (
	"html/template"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// policy is each page's content security policy: everything comes from the edition itself, nothing runs or is styled inline.
// blob: lets the search run beside the page where the scheme allows no other worker; 'self' lets the offline worker in.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; " +
	"worker-src 'self' blob:; manifest-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'"

// frame is what page.html shows: what all pages have, with the page's own Content.
type frame struct {
	site *site

	Lang, Policy, Title, Summary, Shop, Note string
	Root, Address, Units                     string
	Style, SheetStyle, HeadScript, Mark      string
	Answers                                  string // parcel of the module that answers, where the page asks it anything
	Sums                                     bool   // the page has calculators
	SumsWords                                string // parcel of their words in the page's language, where it is not English
	FindWASM, FindIndex, FindWorker          string
	Scripts                                  []string
	Notes                                    bool   // the page offers to note something in the visit report
	Writing                                  string // what scripts know of the tanks, as JSON, where a number can be written down as a reading
	Line                                     []Stop
	Home                                     bool      // it is the first page
	Versions                                 []version // the page's languages, where there are several
	Written                                  string    // language of what shop and originals say, where it is not the page's
	Edition                                  string    // what the page says of its edition: number, date, code
	Code                                     string    // of the edition; "" while it is being written
	Ask                                      *served   // nil where nobody can be asked whether it is the current one
	Forward                                  string    // where the page leads at once, or ""
	Previewed                                bool      // findings keep the manual from being published
	Faults                                   []fault   // of those, the page's own
	Beside                                   []fault   // and those of them that stand beside their lines
	Content                                  any
}

// Stop is one station of the drawn line.
type Stop struct {
	Href, Name     string
	Drawing, State template.HTML
	Lang           string // of a name that the shop gave, where it is not the page's
	Current, Exact bool
	station        manual.Station
	tank           string // id of the tank, rinse or dryer
	at             string // its page, in the manual's own language
}

// Here names the stops of the line where the page belongs, for the bar that stands in the line's place on a phone.
func (f *frame) Here() string {
	var names []string
	for _, p := range f.Line {
		if p.Current {
			names = append(names, p.Name)
		}
	}
	return strings.Join(names, " · ")
}

// To is a page from the edition's root, in the page's language where there is one.
func (f *frame) To(page string) string { return f.Root + f.site.to(page) }

// Foreign is the language of a page that is not in this one's.
func (f *frame) Foreign(page string) string { return f.site.foreign(page) }

// frame begins a page, by its name in the manual's own language.
func (s *site) frame(base string) *frame {
	shop := &s.Manual.Shop
	at := s.name(base)
	f := &frame{
		site: s, Versions: s.versions(base), Written: s.written(),
		Lang: s.language, Policy: policyOf(shop.Address), Shop: shop.Name, Note: shop.Note,
		Summary: shop.Name + ": " + s.words.say("The manual of its cleaning line."),
		Root:    rootOf(at), Address: at, Units: s.system.String(),
		Style: s.style, HeadScript: s.head, Mark: s.mark(),
		FindWASM: s.parcels[searchModule], FindIndex: indexFile, FindWorker: s.parcels["find-worker"],
		Edition: s.edition(), Code: shownOf(s.Mark).Code, Ask: s.served(),
		Line: s.line(), Home: base == homePage,
	}
	s.faulty(f, base)
	s.script(f, "line.js")
	s.script(f, "module.js")
	s.script(f, "find.js")
	s.script(f, "units.js")
	s.script(f, "keep.js")
	if f.Ask != nil {
		s.script(f, "current.js")
	}
	return f
}

// script has the page load a script of the theme, once.
func (s *site) script(f *frame, name string) {
	if file := s.scripts[name]; !slices.Contains(f.Scripts, file) {
		f.Scripts = append(f.Scripts, file)
	}
}

// together has the page exchange the readings of a tank with a host that takes them.
func (s *site) together(f *frame) {
	s.script(f, "rows.js")
	s.script(f, "readings.js")
	s.script(f, "together.js")
}

// asking has the page ask the answers' module with a script of the theme.
func (s *site) asking(f *frame, script string) {
	f.Answers = s.parcels[answersModule]
	s.script(f, script)
}

// line draws the shop's stations in their order.
func (s *site) line() []Stop {
	shop := &s.Manual.Shop
	at := func(st manual.Station, name, href string) Stop {
		return Stop{Name: name, Href: s.to(href), at: href, Drawing: s.drawings[string(st)], station: st}
	}
	stops := []Stop{at("receive", s.words.say("Receive"), stationPage("receive"))}
	for i := range shop.Tanks {
		t := &shop.Tanks[i]
		p := at("wash", t.Name, tankPage(t.ID))
		p.tank, p.State, p.Lang = t.ID, s.tankState(t), s.written()
		stops = append(stops, p)
	}
	for i := range shop.Rinses {
		r := &shop.Rinses[i]
		p := at("rinse", r.Name, s.vesselPage(r.ID, "rinse"))
		p.tank, p.State, p.Lang = r.ID, s.shown(r.Temperature), s.written()
		stops = append(stops, p)
	}
	dry := at("dry", shop.Dryer.Name, s.vesselPage(shop.Dryer.ID, "dry"))
	dry.tank, dry.Lang = shop.Dryer.ID, s.written()
	if dry.Name == "" {
		dry.Name, dry.Lang = s.words.say("Dry"), ""
	}
	dry.State = s.shown(shop.Dryer.Temperature)
	return append(stops, dry,
		at("inspect", s.words.say("Inspect"), stationPage("inspect")),
		at("maintain", s.words.say("Care"), stationPage("maintain")))
}

// here marks the stops of a station: where some of its tanks or rinses are named, only these.
func (f *frame) here(st manual.Station, named ...string) {
	at := func(p Stop) bool { return p.station == st && p.tank != "" && slices.Contains(named, p.tank) }
	some := slices.ContainsFunc(f.Line, at)
	for i := range f.Line {
		p := &f.Line[i]
		p.Current = p.station == st && (!some || at(*p))
		p.Exact = p.Current && p.Href == f.Address
	}
}

// dark takes the mark from tanks into which what the page is about must not go.
func (f *frame) dark(tanks []string) {
	for i := range f.Line {
		if p := &f.Line[i]; slices.Contains(tanks, p.tank) {
			p.Current, p.Exact = false, false
		}
	}
}
