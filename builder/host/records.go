package host

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"tankside/builder/logbook"
	"tankside/builder/record"
)

// Records has the host take readings of paired devices and give everybody the same charts. Everybody who reaches it may read; a key of a paired device is
// needed to add a row, and nothing else can be written.
type Records struct {
	Book    *logbook.Book
	Pairing *logbook.Pairing
	Live    Live             // or nil: the pages stay as they were published
	Today   func() time.Time // by which a reading is too late

	asks, sends, rows *logbook.Pace
	busy              chan struct{}
}

// Live makes pages as the readings are now.
type Live interface {
	// Page gives a page of the edition with its SHA-256 in hexadecimal; false where it shows no readings, or is as it was published.
	Page(ctx context.Context, name string) (data []byte, sum string, is bool)
}

// How often and how many at once.
const (
	askEvery, askBurst   = 2 * time.Second, 10          // of an address, to be paired
	sendEvery, sendBurst = 100 * time.Millisecond, 100  // of a device, to send rows
	rowEvery, rowBurst   = 500 * time.Millisecond, 5000 // rows of a device
	mostAtOnce           = 16                           // requests that bring something
	longestSending       = 30 * time.Second
	longestPairing       = 1 << 10 // bytes
)

// RecordsHeader is a header of every answer of a host that takes readings; pages look for it.
const RecordsHeader = "Tankside-Records"

const (
	recordsPath = "/records/"
	livePath    = "/-/live/" // pages as the readings are now; no article can have such an address
)

// NewRecords makes it ready. now is the clock that paces devices.
func NewRecords(book *logbook.Book, pairing *logbook.Pairing, live Live, now, today func() time.Time) *Records {
	return &Records{Book: book, Pairing: pairing, Live: live, Today: today,
		asks: logbook.NewPace(now, askEvery, askBurst), sends: logbook.NewPace(now, sendEvery, sendBurst), rows: logbook.NewPace(now, rowEvery, rowBurst),
		busy: make(chan struct{}, mostAtOnce)}
}

// handle answers what is about records, and says whether it did.
func (c *Records) handle(w http.ResponseWriter, r *http.Request) bool {
	w.Header().Set(RecordsHeader, "taken")
	if page, is := strings.CutPrefix(r.URL.Path, livePath); is && readOnly(r) {
		if !c.live(w, r, nameOf(page)) {
			w.WriteHeader(http.StatusNoContent) // it is as it was published
		}
		return true
	}
	name, is := strings.CutPrefix(r.URL.Path, recordsPath)
	switch {
	case !is && readOnly(r) && strings.HasPrefix(r.URL.Path, "/assets/"): // what such a page loads, under a name of its own
		return c.live(w, r, nameOf(r.URL.Path))
	case !is:
		return readOnly(r) && c.instead(r) && c.live(w, r, nameOf(r.URL.Path))
	case readOnly(r) && name == "":
		c.list(w)
	case readOnly(r) && strings.HasSuffix(name, ".csv"):
		c.record(w, r, strings.TrimSuffix(name, ".csv"))
	case readOnly(r):
		return c.instead(r) && c.live(w, r, nameOf(r.URL.Path))
	case r.Method != http.MethodPost || name == "" || strings.ContainsAny(name, "./"):
		return false
	default:
		c.post(w, r, name)
	}
	return true
}

func readOnly(r *http.Request) bool { return r.Method == http.MethodGet || r.Method == http.MethodHead }

// instead tells whether a page may be given in the place of the edition's own. The offline worker takes the edition as its list has it, and asks for no
// page to show; a browser that says nothing of what it asks for has no such worker, since both take a secure connection.
func (c *Records) instead(r *http.Request) bool {
	dest := r.Header.Get("Sec-Fetch-Dest")
	return dest == "" || dest == "document"
}

// live answers with a page as the readings are now.
func (c *Records) live(w http.ResponseWriter, r *http.Request, name string) bool {
	if c.Live == nil {
		return false
	}
	page, sum, is := c.Live.Page(r.Context(), name)
	if !is {
		return false
	}
	w.Header().Set("Content-Type", contentType(name))
	w.Header().Set("Cache-Control", cachePage)
	w.Header().Set("ETag", strconv.Quote(sum))
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(page))
	return true
}

// problem is why something was not done.
type problem struct {
	Error string `json:"error"`
}

// answer writes an answer for a program.
func answer(w http.ResponseWriter, status int, what any) {
	data, err := json.Marshal(what)
	if err != nil {
		status, data = http.StatusInternalServerError, []byte(`{"error":"The answer cannot be written."}`)
	}
	w.Header().Set("Content-Type", contentType(".json"))
	w.Header().Set("Cache-Control", cacheNot)
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	w.WriteHeader(status)
	w.Write(data) // a device that has gone away sends again
}

// listed is what the list says of a tank.
type listed struct {
	Tank  string `json:"tank"`
	Bytes int64  `json:"bytes"` // of its record
}

// list answers with the tanks.
func (c *Records) list(w http.ResponseWriter) {
	list := []listed{}
	for _, id := range c.Book.Tanks() {
		one := listed{Tank: id}
		info, err := c.Book.State(id)
		if err != nil {
			answer(w, http.StatusInternalServerError, problem{"The record of " + id + " cannot be read."})
			return
		}
		if info != nil {
			one.Bytes = info.Size()
		}
		list = append(list, one)
	}
	answer(w, http.StatusOK, list)
}

// record answers with the whole record of a tank.
func (c *Records) record(w http.ResponseWriter, r *http.Request, id string) {
	f, info, err := c.Book.Read(id)
	switch {
	case errors.Is(err, logbook.ErrNoTank):
		answer(w, http.StatusNotFound, problem{"The shop has no tank of that name."})
		return
	case err != nil:
		answer(w, http.StatusInternalServerError, problem{"The record cannot be read."})
		return
	case f == nil:
		w.WriteHeader(http.StatusNoContent)
		return
	}
	defer f.Close() // it was read alone
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+id+`.csv"`)
	w.Header().Set("Cache-Control", cachePage)
	w.Header().Set("ETag", fmt.Sprintf(`"%x-%x"`, info.Size(), info.ModTime().UnixNano()))
	http.ServeContent(w, r, "", time.Time{}, io.NewSectionReader(f, 0, info.Size()))
}

// sameSite tells whether a request that brings something comes from a page of this host, or from a program that is no browser. A browser names the origin of
// every such request (Fetch standard, “origin” header), and what it names cannot be chosen by a page.
func sameSite(r *http.Request) bool {
	if site := r.Header.Get("Sec-Fetch-Site"); site != "" && site != "same-origin" {
		return false
	}
	origins := r.Header.Values("Origin")
	if len(origins) == 0 {
		return true
	}
	u, err := url.Parse(origins[0])
	scheme := err == nil && (u.Scheme == "https" || u.Scheme == "http" && r.TLS == nil) // before a server that encrypts there may be another that does
	return scheme && len(origins) == 1 && u.Host != "" && strings.EqualFold(u.Host, r.Host)
}

// post takes what a device brings.
func (c *Records) post(w http.ResponseWriter, r *http.Request, name string) {
	if !sameSite(r) {
		answer(w, http.StatusForbidden, problem{"Only a page of this host may bring something."})
		return
	}
	select {
	case c.busy <- struct{}{}:
		defer func() { <-c.busy }()
	default:
		wait(w, http.StatusServiceUnavailable)
		return
	}
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch {
	case err == nil && kind == "application/json" && name == "pair":
		c.pair(w, r)
	case err == nil && kind == "text/csv":
		c.take(w, r, name)
	default:
		answer(w, http.StatusUnsupportedMediaType, problem{"Readings are text/csv; to be paired, send application/json to records/pair."})
	}
}

// wait answers that it is to be tried again.
func wait(w http.ResponseWriter, status int) {
	w.Header().Set("Retry-After", "5")
	answer(w, status, problem{"Too much at once; try again in a few seconds."})
}

// address is where a request comes from, without the port.
func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// pair has a code shown, or takes the code and gives a key.
func (c *Records) pair(w http.ResponseWriter, r *http.Request) {
	if !c.asks.Allow(address(r), 1) {
		wait(w, http.StatusTooManyRequests)
		return
	}
	var asked struct {
		Code string `json:"code"`
		Name string `json:"name"`
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, longestPairing))
	if err == nil {
		err = json.Unmarshal(body, &asked)
	}
	if err != nil {
		answer(w, http.StatusBadRequest, problem{"To be paired, send a name, and the code where you have it."})
		return
	}
	if asked.Code == "" {
		if err := c.Pairing.Ask(asked.Name, address(r)); err != nil {
			wait(w, http.StatusTooManyRequests)
			return
		}
		answer(w, http.StatusAccepted, struct {
			Digits  int `json:"digits"`
			Seconds int `json:"seconds"`
		}{logbook.CodeDigits, int(logbook.CodeHolds.Seconds())})
		return
	}
	key, err := c.Pairing.Try(asked.Code, asked.Name)
	switch {
	case errors.Is(err, logbook.ErrCode):
		answer(w, http.StatusForbidden, problem{"That is not the code on the host's screen, or its time is over."})
	case err != nil:
		answer(w, http.StatusInternalServerError, problem{"The device could not be entered."})
	default:
		answer(w, http.StatusOK, struct {
			Key string `json:"key"`
		}{key})
	}
}

// keyOf is the key that a request brings (RFC 6750, section 2.1).
func keyOf(r *http.Request) string {
	scheme, key, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") || len(key) > 100 {
		return ""
	}
	return key
}

// answered is what has become of the rows.
type answered struct {
	Kept    []string          `json:"kept"`
	Refused []logbook.Refusal `json:"refused"`
}

// take adds rows to the record of a tank.
func (c *Records) take(w http.ResponseWriter, r *http.Request, tank string) {
	device, known, err := c.Book.Holder(keyOf(r))
	switch {
	case err != nil:
		answer(w, http.StatusInternalServerError, problem{"The list of devices cannot be read."})
		return
	case !known:
		w.Header().Set("WWW-Authenticate", `Bearer realm="records"`)
		answer(w, http.StatusUnauthorized, problem{"This device is not paired, or not any more."})
		return
	case !c.sends.Allow(device, 1):
		wait(w, http.StatusTooManyRequests)
		return
	}
	if err := http.NewResponseController(w).SetReadDeadline(time.Now().Add(longestSending)); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		answer(w, http.StatusInternalServerError, problem{"This server cannot end a request that does not come to its end."})
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, logbook.MaxBody))
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		answer(w, http.StatusRequestEntityTooLarge, problem{fmt.Sprintf("More than %d KiB at once; send the rows in parts.", logbook.MaxBody>>10)})
		return
	case err != nil:
		answer(w, http.StatusBadRequest, problem{"The rows did not come whole."})
		return
	}
	batch, err := record.ReadBatch(body, logbook.MaxRows)
	if err != nil {
		answer(w, http.StatusBadRequest, problem{sentenceOf(err)})
		return
	}
	if !c.rows.Allow(device, len(batch.Rows)) {
		wait(w, http.StatusTooManyRequests)
		return
	}
	kept, refused, err := c.Book.Add(tank, batch, c.Today())
	switch {
	case errors.Is(err, logbook.ErrNoTank):
		answer(w, http.StatusNotFound, problem{"The shop has no tank of that name."})
	case errors.Is(err, logbook.ErrUnfit):
		answer(w, http.StatusConflict, problem{sentenceOf(err)})
	case err != nil:
		answer(w, http.StatusInsufficientStorage, problem{"The rows could not be written to the disk; send them again."})
	default:
		t := answered{Kept: kept, Refused: refused}
		if t.Kept == nil {
			t.Kept = []string{}
		}
		if t.Refused == nil {
			t.Refused = []logbook.Refusal{}
		}
		answer(w, http.StatusOK, t)
	}
}

// sentenceOf makes a sentence of an error.
func sentenceOf(err error) string {
	text := err.Error()
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}
