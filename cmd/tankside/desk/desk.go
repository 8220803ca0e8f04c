package desk

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"tankside/builder"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/cmd/tankside/starter"
)

// Options are what a desk is served for, and what it can have done.
type Options struct {
	Manual, Edition string // folders
	Host            string // that is served: 127.0.0.1:7150
	Now             func() (time.Time, error)

	// Open opens a file with the system's own program: a text in an editor, a page in a browser.
	Open func(file string) error

	// Begin writes the files of a new manual into its folder, of which none is there.
	Begin func(folder string, files map[string][]byte) error

	// Finish brings a renaming to its end that was interrupted.
	Finish func(folder string) error

	// Carry makes one archive of the edition and gives its path; nil where this program makes none.
	Carry func(ctx context.Context, edition string) (string, error)

	// Stop ends the desk.
	Stop func()
}

// Desk is a desk that is served.
type Desk struct {
	Options
	guard *guard
	mu    sync.Mutex // one thing is done at a time
}

// New gives a desk.
func New(o Options) *Desk { return &Desk{Options: o, guard: newGuard(o.Host)} }

// Address is where the desk is opened, once.
func (d *Desk) Address() string { return "http://" + d.Host + "/?key=" + d.guard.key }

// mostForm is how many bytes a form may have.
const mostForm = 256 << 10

// Handler answers the browser that has the key.
func (d *Desk) Handler() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", d.home)
	m.HandleFunc("GET /desk.css", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/css; charset=utf-8")
		w.Write(style)
	})
	m.HandleFunc("GET /begin", d.ask)
	m.HandleFunc("POST /begin", d.ask)
	m.HandleFunc("POST /open", d.open)
	m.HandleFunc("POST /publish", d.publish)
	m.HandleFunc("POST /look", d.look)
	m.HandleFunc("POST /carry", d.carry)
	m.HandleFunc("POST /close", d.close)
	return d.guard.guarded(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, mostForm)
		d.mu.Lock()
		defer d.mu.Unlock()
		m.ServeHTTP(w, r)
	}))
}

//go:embed desk.css
var style []byte

//go:embed desk.html
var page string

// shown is what a page of the desk says.
type shown struct {
	Title    string
	Language string
	Folder   string
	Edition  string
	Said     string // what was just done, or ""
	Failed   bool   // it was not
	Here     *here
	Ask      *asked
	Closed   bool
	Carries  bool
}

// here is the manual as it lies there.
type here struct {
	Shop      string
	Articles  int
	Groups    []group
	Stops     int
	Findings  int
	Published bool
	Partial   string // why it cannot be read, or ""
}

// group is the findings of one sort.
type group struct {
	Heading string
	Gravest bool
	List    []row
}

type row struct{ File, Place, Message, Why, Remedy string }

func (d *Desk) write(w http.ResponseWriter, s shown) {
	s.Folder, s.Edition, s.Carries = d.Manual, d.Edition, d.Carry != nil
	words := wordsIn(s.Language)
	t, err := template.New("desk").Funcs(template.FuncMap{"say": words.say}).Parse(page)
	var b bytes.Buffer
	if err == nil {
		err = t.Execute(&b, s)
	}
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(b.Bytes())
}

// there tells whether there is a manual.
func (d *Desk) there() bool {
	_, err := os.Stat(filepath.Join(d.Manual, manual.ShopFile))
	return err == nil
}

func (d *Desk) home(w http.ResponseWriter, r *http.Request) { d.say(r.Context(), w, "", nil) }

// mostShown is how many findings of one sort a page has.
const mostShown = 200

// say shows the manual as it stands, with what was just done.
func (d *Desk) say(ctx context.Context, w http.ResponseWriter, said string, failed error) {
	s := shown{Said: said}
	if failed != nil {
		s.Said, s.Failed = failed.Error(), true
	}
	if !d.there() {
		d.write(w, s)
		return
	}
	s.Here = &here{}
	now, err := d.Now()
	var found []finding.Finding
	var m *manual.Manual
	if err == nil {
		err = d.Finish(d.Manual)
	}
	if err == nil {
		m, found, err = builder.Proof(ctx, d.Manual, now)
	}
	if err != nil {
		s.Here.Partial = err.Error()
		d.write(w, s)
		return
	}
	s.Language, s.Here.Shop, s.Here.Articles = m.OwnLanguage(), m.Shop.Name, m.Count()
	s.Here.Findings, s.Here.Stops = len(found), finding.Stopping(found)
	for _, v := range finding.Severities {
		g := group{Heading: v.Heading(), Gravest: v == finding.People}
		for _, f := range found {
			if f.Severity == v && len(g.List) < mostShown {
				g.List = append(g.List, row{f.File, f.Place.String(), f.Message, f.Why, f.Remedy})
			}
		}
		if len(g.List) > 0 {
			s.Here.Groups = append(s.Here.Groups, g)
		}
	}
	_, err = os.Stat(filepath.Join(d.Edition, "index.html"))
	s.Here.Published = err == nil
	d.write(w, s)
}

// open opens a file of the manual in the system's editor, and nothing else.
func (d *Desk) open(w http.ResponseWriter, r *http.Request) {
	file := r.PostFormValue("file")
	at, err := d.ofManual(file)
	if err == nil {
		err = d.Open(at)
	}
	d.say(r.Context(), w, fmt.Sprintf("%s %s", d.words().say("Opened in your editor:"), file), err)
}

// editable are the files that an editor of texts opens.
var editable = []string{".md", ".yaml", ".txt", ".csv"}

// ofManual gives the place of a text of the manual on the disk. What is no file itself, such as a symbolic link, is none of it.
func (d *Desk) ofManual(file string) (string, error) {
	if !filepath.IsLocal(filepath.FromSlash(file)) || path.Clean(file) != file || !slices.Contains(editable, path.Ext(file)) || slices.ContainsFunc(strings.Split(file, "/"), func(s string) bool { return strings.HasPrefix(s, ".") }) {
		return "", errors.New(d.words().say("This is no text of the manual."))
	}
	root, err := os.OpenRoot(d.Manual)
	if err != nil {
		return "", err
	}
	defer root.Close()
	at := ""
	for part := range strings.SplitSeq(file, "/") {
		at = path.Join(at, part)
		info, err := root.Lstat(filepath.FromSlash(at))
		if err != nil || info.Mode()&fs.ModeSymlink != 0 || at == file && !info.Mode().IsRegular() {
			return "", errors.New(d.words().say("This is no text of the manual."))
		}
	}
	return filepath.Abs(filepath.Join(d.Manual, filepath.FromSlash(file)))
}

func (d *Desk) words() words {
	s := ""
	if m, _, err := manual.Read(context.Background(), os.DirFS(d.Manual)); err == nil {
		s = m.OwnLanguage()
	}
	return wordsIn(s)
}

// publish proof-reads and writes the edition.
func (d *Desk) publish(w http.ResponseWriter, r *http.Request) {
	now, err := d.Now()
	if err != nil {
		d.say(r.Context(), w, "", err)
		return
	}
	got, err := builder.Publish(r.Context(), builder.Options{Manual: d.Manual, To: d.Edition, Now: now})
	switch {
	case errors.Is(err, builder.ErrStopped):
		d.say(r.Context(), w, "", errors.New(d.words().say("Nothing was published: findings stop it. An edition that is in place stays as it was.")))
	case err != nil:
		d.say(r.Context(), w, "", err)
	default:
		d.say(r.Context(), w, fmt.Sprintf("%s %s", d.words().say("Published:"), got.Mark), nil)
	}
}

// looks are the pages of the edition that are opened, by their words.
var looks = map[string]string{"edition": "index.html", "book": "book.html", "cards": "cards.html"}

// look opens a page of the edition in the browser.
func (d *Desk) look(w http.ResponseWriter, r *http.Request) {
	name, known := looks[r.PostFormValue("page")]
	if !known {
		refuse(w)
		return
	}
	at, err := filepath.Abs(filepath.Join(d.Edition, name))
	if err == nil {
		if _, err = os.Stat(at); err != nil {
			err = errors.New(d.words().say("There is no such page; publish first."))
		}
	}
	if err == nil {
		err = d.Open(at)
	}
	d.say(r.Context(), w, fmt.Sprintf("%s %s", d.words().say("Opened in your browser:"), at), err)
}

// carry makes one archive of the edition.
func (d *Desk) carry(w http.ResponseWriter, r *http.Request) {
	if d.Carry == nil {
		refuse(w)
		return
	}
	at, err := d.Carry(r.Context(), d.Edition)
	d.say(r.Context(), w, fmt.Sprintf("%s %s", d.words().say("The archive:"), at), err)
}

// close ends the desk.
func (d *Desk) close(w http.ResponseWriter, r *http.Request) {
	d.write(w, shown{Closed: true, Language: d.words().language})
	d.Stop()
}

// asked is a question of a new manual on its page.
type asked struct {
	Answers []string
	Q       *starter.Question
	Wrong   string
	Value   string
	Files   []string // that would be written, where nothing is to be asked any more
	Shop    string   // the shop file that would be
}

// ask asks for what a new manual has to know, with the questions of tankside start.
func (d *Desk) ask(w http.ResponseWriter, r *http.Request) {
	if d.there() {
		d.say(r.Context(), w, "", nil)
		return
	}
	if err := r.ParseForm(); err != nil {
		refuse(w)
		return
	}
	a := &asked{Answers: r.PostForm["given"]}
	doing := r.PostFormValue("do")
	switch {
	case doing == "back" && len(a.Answers) > 0:
		a.Value = a.Answers[len(a.Answers)-1]
		a.Answers = a.Answers[:len(a.Answers)-1]
	case doing == "next":
		a.Answers = append(a.Answers, r.PostFormValue("answer"))
	}
	shop, q, err := starter.Walk(starter.Shop{}, nil, a.Answers)
	if err != nil && len(a.Answers) > 0 {
		a.Wrong, a.Value = err.Error(), a.Answers[len(a.Answers)-1]
		a.Answers = a.Answers[:len(a.Answers)-1]
	}
	a.Q = q
	if q != nil {
		d.write(w, shown{Ask: a})
		return
	}
	now, err := d.Now()
	var files map[string][]byte
	if err == nil {
		files, err = shop.Files(now)
	}
	if err == nil && doing == "write" {
		if err = d.Begin(d.Manual, files); err == nil {
			d.say(r.Context(), w, d.words().say("The manual is begun. Nobody has approved its articles."), nil)
			return
		}
	}
	if err != nil {
		a.Wrong = err.Error()
	}
	for name := range files {
		a.Files = append(a.Files, name)
	}
	slices.Sort(a.Files)
	var lines []string
	for line := range strings.Lines(string(files[manual.ShopFile])) {
		if !strings.HasPrefix(strings.TrimSpace(line), "#") {
			lines = append(lines, line)
		}
	}
	a.Shop = strings.Join(lines, "")
	d.write(w, shown{Ask: a})
}
