package manual

import (
	"time"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/picture"
	"tankside/builder/record"
)

// Station is a place on the cleaning line.
type Station string

// Stations lists the stations in the order of the line.
var Stations = []Station{"receive", "wash", "rinse", "dry", "inspect", "maintain"}

// Manual is one folder of articles as read: everything that is later checked, drawn, printed and indexed.
// It is immutable once read.
type Manual struct {
	Shop     Shop
	Glossary []Term           // by term
	Pictures []File           // by path
	Records  []*record.Record // of baths, by path
	Spoken   []string         // languages for which the manual's own theme has words, by their file names
	Words    []WordsFile      // files of words of the manual's own theme, by path
	Theme    []ThemeFile      // all files of the manual's own theme, by path
	Texts    []Text           // the files beside the articles as they are written: shop file, glossary, vocabulary
	Ledger   ledger.Ledger
	Moved    []Moved // addresses that lead on to others
	Over     *Layer  // what a shop's manual lies over; nil of a manual that stands by itself

	// Undecided tells that version control has left two versions in a file: there is a finding about it, and nothing can be concluded from
	// the rest.
	Undecided bool

	articles     []*Article // by path
	translations []*Article // by path
	drafts       []*Article // by path: those that are left out; see Drafts
	named        []pending  // every name in headers and shop file
	rest         string     // digest of everything but the articles
	signals      ownSignals // that the manual's own words declare
	trace        *Trace     // where it is not nil, is told which articles are asked for
	indexes      *indexes   // of this manual, shared by those that are traced

	byPath  map[string]*Article
	byName  map[Kind]map[string]*Article
	byImage map[string]*File
	refused map[string]bool // files that are there but were not read, so that a link to one is not called broken as well
	faults  map[string][]fault
}

// File is a file of the manual that is not an article.
type File struct {
	Path   string // slash-separated, relative to the manual
	Data   []byte
	Damage *picture.Problem // what shows only when a picture is decoded, or nil
}

// ThemeFile is a file of the manual's own theme.
type ThemeFile struct {
	Name string // within the theme
	Data []byte // with line feeds for line ends; nil of a file of words, or of one that cannot be read
}

// Text is a file of the manual as it is written, with line feeds for line ends and without byte order mark.
type Text struct {
	Path string
	Data []byte
}

// Article is one markdown file.
type Article struct {
	Path  string // "soils/wax.md", slash-separated, relative to the manual
	Name  string // "wax"; a translation has the name of the original
	Kind  Kind
	Head  Head
	Body  []byte // the markdown below the header
	Start int    // line of the file on which Body begins, from 1

	// Partial tells that header or text could not be read: there is a finding about it, and nothing can be concluded from what is missing.
	Partial bool
	File    string   // the path as the file system spells it, which may write an accent as a character of its own
	Sum     string   // hexadecimal SHA-256 of the file
	Before  []Before // as it was before something was renamed, the latest first
	Content string   // hexadecimal SHA-256 of text and facts, without revision, approval, review and acceptances; "" where the article is Partial

	// Language is that of a translation, as a BCP 47 tag, and Original what it translates, or nil where there is no such article: header and
	// facts of a translation are the original's but for its words, and its Head.Revision is the revision of the original that it translates.
	Language string
	Original *Article
	wording  []Wording
	signals  signals // as the article's language knows them; nil for those of a manual that declares none

	// Header is what the article's own header says, key by key, as it is written, in the order of the keys' names.
	Header []Said

	firstAid []Ref     // see FirstAid
	names    []pending // see References

	// Of these, the one that Kind names is set.
	Soil      *SoilFacts
	Chemistry *ChemistryFacts
	Material  *MaterialFacts
	Part      *PartFacts
	Procedure *ProcedureFacts
	Lesson    *LessonFacts
	Symptom   *SymptomFacts

	// What the body holds, in its order.
	Sections []Section
	Links    []Link
	Marks    []Ref // of sources, by name: see SourceMark
	Pictures []Link
	Signals  []Signal
	Sums     []Sum
	Blocks   []Block // the running text; of a translation, none
}

// Head is the part of the header that every kind of article has.
type Head struct {
	Title      string
	Summary    string
	Station    Station
	Revision   string
	Approval   Approval // see Article.ApprovalState, which says whether it holds
	ReviewBy   time.Time
	Draft      bool // it is not finished
	Replaces   Replaced
	Sources    []string
	RestsOn    []Rest // which values rest on which source; see Article.SourcesOf
	AlsoCalled []string
	SeeAlso    []Ref
	Accept     []Acceptance

	// At gives the place of each header key that is present.
	At map[string]finding.Place
}

// Acceptance is a finding that the article's author accepts, with the reason that is printed in the article.
type Acceptance struct {
	Rule, Reason string
	At           finding.Place
}

// The facts that decide about a load are those of package fact, under the names that they have in a manual.
type (
	Ref            = fact.Ref
	Limit          = fact.Limit
	Window         = fact.Window
	SoilFacts      = fact.Soil
	Removal        = fact.Removal
	ChemistryFacts = fact.Chemistry
	MaterialFacts  = fact.Material
	Concession     = fact.Concession
	PartFacts      = fact.Part
	Step           = fact.Step
	Rest           = fact.Rest
	Tank           = fact.Tank
	Rinse          = fact.Rinse
	Dryer          = fact.Dryer
	Keyed          = fact.Keyed
)

// Jar is the vessel without heat and sound.
const Jar = fact.Jar

// ProcedureFacts is what the model knows of a procedure.
type ProcedureFacts struct {
	Time                Limit
	Equipment           []string
	Tanks, Chemistries  []Ref
	Hazards             []Ref
	ProtectiveEquipment []string
}

// LessonFacts is what the model knows of a lesson.
type LessonFacts struct {
	Order    int
	Duration Limit
	For      []string
	Needs    []Ref
}

// SymptomFacts is what the model knows of a symptom; its tree is read by package tree.
type SymptomFacts struct {
	Swatch  string
	Label   string // under the swatch; the title where it is empty
	SeenOn  string // part, bath, tank, people
	Affects []Ref

	Observations []Observation // what can be seen with it
}

// Section is a heading with the text under it, up to the next heading of any level: every word of the body is in one section.
// The text before the first heading is a Section of level 0 without heading.
type Section struct {
	Level   int // 0, 2, 3 …
	Heading string
	Anchor  string // unique within the article
	Text    string // plain text, for search; without code listings of calculators
	Leads   []Lead // the bold openings of its paragraphs, such as “Recheck.”
	Signs   *Signs // of a remedy that says with what its cause is seen
	At      finding.Place

	// Answers is the list that closes a section of level 2, its sub-sections included, when each item of the list ends in a link:
	// the answers of a step.
	Answers []Answer

	// Unlinked are the items without a link in a closing list that otherwise looks like answers; then Answers is empty.
	Unlinked []finding.Place
}

// Lead is the bold opening of a paragraph.
type Lead struct {
	Text string
	At   finding.Place
}

// Answer is one item of the list that closes a step.
type Answer struct {
	Text string // "Yes, it wipes off dry"
	Link Link
}

// Link is a link or picture of the body. Target is as written.
type Link struct {
	Target string
	Text   string // link text, or the picture's description
	At     finding.Place
}

// Signal is a safety message of the body.
type Signal struct {
	Word  string // DANGER, WARNING, CAUTION, NOTICE
	Shown string // as it is written, which may be in another language
	Text  string
	At    finding.Place
}

// Sum is a calculator in the body.
type Sum struct {
	Calculator string
	Inputs     []Input
	At         finding.Place
}

// Input is one input value of a Sum.
type Input struct {
	Name, Value string
	At          finding.Place
}

// Term is an entry of the glossary.
type Term struct {
	Term       string
	Means      string
	AlsoCalled []string
	Article    string // path, or ""
	At         finding.Place
}

// Shop is the shop file.
type Shop struct {
	Name, Note, Language string
	Address              string  // where the newest edition is served, as http or https, with a slash at its end; "" where the shop serves none
	Translations         []Ref   // languages into which articles are to be translated
	ReadingGrade         float64 // highest grade level of an English article; 0: none is set
	US                   bool    // units: US; otherwise SI stands first
	Altitude             Limit
	Currency             string
	EnergyPrice          float64 // per kWh
	Air                  Air
	Water                Water
	Tanks                []Tank
	Rinses               []Rinse
	Dryer                Dryer
	Roles                []string
	SeenMost             []Ref // symptoms, the commonest first
	Records              Charting
	Drafts               string // what becomes of drafts: LeaveOut, also where it is "", or Stamp
	Look                 Look

	At      map[string]finding.Place // of each key that is present
	Partial bool                     // it could not be read: there is a finding about it
}

// Look is what the shop has chosen for its pages.
type Look struct {
	Theme, Type      string // by name; "" is the usual one
	Accent           string // "#rrggbb", or "" for none
	Mark             string // path of a drawing of the manual, or "" for the usual mark
	AccentAt, MarkAt finding.Place
}

// Air is the room's air.
type Air struct{ Temperature, Humidity Limit }

// Water is the water that the shop fills with.
type Water struct {
	Temperature, Hardness, DissolvedSolids, Conductivity, PH, Alkalinity Limit
	RestsOn                                                              []Rest
}

// FirstAid gives the harms for which an article's text gives first aid.
func (a *Article) FirstAid() []Ref { return a.firstAid }

// Articles goes through all articles, with their numbers, in the order of their paths:
//
//	for _, a := range m.Articles {
func (m *Manual) Articles(yield func(int, *Article) bool) {
	m.trace.everything()
	for i, a := range m.articles {
		if !yield(i, a) {
			return
		}
	}
}

// Select gives the articles that fit, in the order of Articles. Whether one does may hang on that article alone: then what is made of the selection need be
// made again only where other articles fit than before.
func (m *Manual) Select(fits func(*Article) bool) []*Article {
	var list []*Article
	for _, a := range m.articles {
		if fits(a) {
			list = append(list, a)
		}
	}
	m.trace.selected(fits, list)
	return list
}

// Count is the number of articles.
func (m *Manual) Count() int {
	m.trace.everything()
	return len(m.articles)
}

// Translations ranges over the articles in other languages, by path. Everything that follows from the model follows from Articles alone.
func (m *Manual) Translations(yield func(int, *Article) bool) {
	m.trace.everything()
	for i, t := range m.translations {
		if !yield(i, t) {
			return
		}
	}
}

// At gives the article at a path of the manual, or nil.
func (m *Manual) At(path string) *Article {
	a := m.byPath[path]
	m.trace.asked("", path, a)
	return a
}

// Named gives the article of that kind and name, or nil.
func (m *Manual) Named(kind Kind, name string) *Article {
	a := m.byName[kind][name]
	m.trace.asked(kind, name, a)
	return a
}
