package languageserver

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Pause is how long nothing may come before findings are looked for: longer than between two letters of somebody who types.
const Pause = 200 * time.Millisecond

// Compare adds to what was found in the manual of a folder what has changed since an earlier edition.
type Compare func(folder string, m *manual.Manual, found []finding.Finding, today time.Time) []finding.Finding

// Options is what a server needs of the machine.
type Options struct {
	Now     func() time.Time                                 // gives the rules their today
	After   func(time.Duration) <-chan time.Time             // fires once after a time
	Folder  func(file string) (string, bool)                 // of the manual to which a file or folder belongs
	Open    func(folder string) (fs.FS, func() error, error) // opens it
	Compare Compare                                          // or nil
	Manual  string                                           // folder of a manual to begin with, absolute; "" where the editor says it
}

// server is one conversation.
type server struct {
	options  Options
	out      io.Writer
	encoding encoding
	related  bool // the client shows other places of a finding
	watches  bool // the client can be asked to watch files
	versions bool // the client takes edits of texts of a version
	makes    bool // the client makes files
	renames  bool // the client renames files

	begun, ending bool
	folders       []string // of the editor's workspace

	desks map[string]*desk     // by folder
	open  map[string]*document // by path of the file
	bytes int                  // of all open texts
	rest  <-chan time.Time     // fires when nothing has come for a while
	waits func() bool          // tells whether a message waits
	asked int                  // requests that were sent
}

// errNoShutdown says that the other side went away without saying so.
var errNoShutdown = errors.New("the editor ended the conversation without asking for the end first")

// incoming is what the reading goroutine hands over.
type incoming struct {
	content []byte
	err     error
}

// Serve holds one conversation, until the other side ends it or ctx is done. The error says why it ended otherwise than by “shutdown” and
// “exit”, or by the end of ctx.
func Serve(ctx context.Context, in io.Reader, out io.Writer, o Options) error {
	s := &server{options: o, out: out, encoding: utf16, desks: map[string]*desk{}, open: map[string]*document{}}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	messages := make(chan incoming, 1)
	s.waits = func() bool { return len(messages) > 0 }
	go read(ctx, in, messages)
	err := s.converse(ctx, messages)
	for _, d := range s.desks {
		err = errors.Join(err, d.close())
	}
	return err
}

// read hands over one message after the other; after an error there is none.
func read(ctx context.Context, in io.Reader, messages chan<- incoming) {
	r := bufio.NewReader(in)
	for {
		content, err := readFrame(r)
		select {
		case messages <- incoming{content, err}:
		case <-ctx.Done():
			return
		}
		if err != nil && !errors.Is(err, errTooLong) {
			return
		}
	}
}

func (s *server) converse(ctx context.Context, messages <-chan incoming) error {
	for {
		rest := s.rest
		if s.waits() {
			rest = nil // a message goes before
		}
		select {
		case <-ctx.Done():
			return nil
		case <-rest:
			s.rest = nil
			if err := s.proofAll(ctx); err != nil {
				return err
			}
		case m := <-messages:
			if done, err := s.take(ctx, m); done || err != nil {
				return err
			}
		}
	}
}

// proofAll publishes what is found in every manual that is worked on. Where a change touches many texts, it publishes what is found in the changed ones, and the
// rest as soon as nothing else has come. Where that takes long, a message that comes meanwhile is answered first.
func (s *server) proofAll(ctx context.Context) error {
	begin := time.Now()
	stop := func() bool { return s.waits() && time.Since(begin) > patience }
	for _, d := range s.desks {
		again, err := s.publishFirst(ctx, d)
		if err == nil && !again {
			again, err = s.publishUnless(ctx, stop, d)
		}
		if err != nil {
			return err
		}
		if again {
			s.rest = s.options.After(0)
		}
	}
	return nil
}

// patience is how long a message waits for findings to be found. What is quicker is done at one go, however often messages come.
const patience = 100 * time.Millisecond

// later has findings looked for after a pause.
func (s *server) later() { s.rest = s.options.After(Pause) }

// take answers one message; done tells that it was the last.
func (s *server) take(ctx context.Context, in incoming) (done bool, err error) {
	switch {
	case errors.Is(in.err, errTooLong):
		return false, s.fail(null, &problem{codeInvalidRequest, in.err.Error()})
	case errors.Is(in.err, io.EOF) && s.ending:
		return true, nil
	case errors.Is(in.err, io.EOF):
		return true, errNoShutdown
	case in.err != nil:
		return true, in.err
	}
	var m message
	if err := json.Unmarshal(in.content, &m); err != nil {
		code := codeInvalidRequest
		if !json.Valid(in.content) {
			code = codeParse
		}
		return false, s.fail(null, &problem{code, "the message cannot be read: " + err.Error()})
	}
	switch {
	case m.Method == "exit":
		if !s.ending {
			err = errNoShutdown
		}
		return true, err
	case m.Method == "": // a response to what was sent; nothing depends on it
		return false, nil
	case len(m.ID) == 0:
		return false, s.heed(ctx, m)
	}
	return false, s.respond(ctx, m)
}

// respond answers a request.
func (s *server) respond(ctx context.Context, m message) error {
	answer, known := requests[m.Method]
	var result any
	var err error
	switch {
	case !s.begun && m.Method != "initialize":
		err = &problem{codeNotInitialized, "“initialize” has to come first"}
	case s.ending:
		err = &problem{codeInvalidRequest, "after “shutdown” there is nothing to ask"}
	case !known:
		err = &problem{codeUnknownMethod, "there is no method “" + m.Method + "”"}
	default:
		result, err = answer(ctx, s, m.Params)
	}
	if err != nil {
		var p *problem
		if !errors.As(err, &p) {
			p = &problem{codeRequestFailed, err.Error()}
		}
		return s.fail(m.ID, p)
	}
	return s.send(response{"2.0", m.ID, result})
}

// heed does what a notification says. What cannot be read is told to the user; there is nobody to answer.
func (s *server) heed(ctx context.Context, m message) error {
	act, known := notifications[m.Method]
	if !known || !s.begun || s.ending {
		return nil
	}
	if err := act(ctx, s, m.Params); err != nil {
		return s.show("tankside: " + m.Method + ": " + err.Error())
	}
	return nil
}

func (s *server) send(v any) error {
	content, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return writeFrame(s.out, content)
}

func (s *server) fail(id json.RawMessage, p *problem) error { return s.send(failure{"2.0", id, p}) }

func (s *server) notify(method string, params any) error {
	return s.send(notification{"2.0", method, params})
}

func (s *server) show(text string) error {
	return s.notify("window/showMessage", showMessageParams{severityWarning, text})
}

// request asks the other side for something whose answer nothing depends on.
func (s *server) request(method string, params any) error {
	s.asked++
	return s.send(request{"2.0", s.asked, method, params})
}

// deskOf gives the manual to which a file or folder belongs, opened if it was not; nil where it belongs to none.
func (s *server) deskOf(file string) (*desk, error) {
	folder, ok := s.options.Folder(file)
	if !ok {
		return nil, nil
	}
	folder = filepath.Clean(folder)
	if d := s.desks[folder]; d != nil {
		return d, nil
	}
	files, closes, err := s.options.Open(folder)
	if err != nil {
		return nil, fmt.Errorf("the manual in %s cannot be opened: %w", folder, err)
	}
	d := newDesk(folder, files, closes)
	s.desks[folder] = d
	return d, nil
}

// openAt gives the open text of a file of a manual, or nil.
func (s *server) openAt(d *desk, path string) *document {
	return s.open[filepath.Join(d.folder, filepath.FromSlash(path))]
}
