package host

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"sync"
	"time"

	"tankside/builder/edition"
)

// Changes tells open pages what becomes of the manual. Make it with [NewChanges].
type Changes struct {
	mu    sync.Mutex
	say   string
	ahead map[string]taken // pages of the edition that is coming
	wake  chan struct{}    // closed when there is something new
}

// NewChanges makes Changes that have nothing to tell yet.
func NewChanges() *Changes { return &Changes{wake: make(chan struct{})} }

// Tell has every open page see whether it is still as the edition has it, and show say in a line below the page;
// an empty say takes that line away.
func (c *Changes) Tell(say string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.say, c.ahead = say, nil
	c.news()
}

// Instead has files served in the place of the edition's, with say below each page, until something else is told.
func (c *Changes) Instead(files map[string][]byte, say string) {
	ahead := make(map[string]taken, len(files))
	for path, data := range files {
		sum := sha256.Sum256(data)
		ahead[path] = taken{data: data, sum: hex.EncodeToString(sum[:])}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.say, c.ahead = say, ahead
	c.news()
}

// Show has a page of the edition that is coming served before that edition is whole, until something is told of it.
func (c *Changes) Show(path string, page []byte) {
	sum := sha256.Sum256(page)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.ahead == nil {
		c.ahead = map[string]taken{}
	}
	c.ahead[path] = taken{data: page, sum: hex.EncodeToString(sum[:])}
	c.news()
}

func (c *Changes) news() {
	close(c.wake)
	c.wake = make(chan struct{})
}

// page is a page of the edition that is coming.
func (c *Changes) page(path string) (taken, bool) {
	if c == nil {
		return taken{}, false
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	t, ahead := c.ahead[path]
	return t, ahead
}

func (c *Changes) now() (say string, wake <-chan struct{}) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.say, c.wake
}

// What is served beside the edition while pages follow it. No article can have such an address: "-" is no folder of an edition.
const (
	changesPath = "/-/changes"
	scriptPath  = "/-/changed.js"
)

//go:embed changed.js
var changedScript []byte

//go:embed retire.js
var retireScript []byte

// follow answers what is not of the edition, and says whether it did.
func (h *Handler) follow(w http.ResponseWriter, r *http.Request) bool {
	script := changedScript
	switch r.URL.Path {
	case changesPath:
		h.changes(w, r)
		return true
	case scriptPath:
	case "/" + edition.WorkerName:
		script = retireScript
	default:
		return false
	}
	w.Header().Set("Content-Type", contentType(".js"))
	w.Header().Set("Cache-Control", cacheNot)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(script))
	return true
}

// withScript adds the script to a page, before the end of its body, with the checksum of the page.
func withScript(page []byte, sum string) []byte {
	tag := fmt.Appendf(nil, "<script src=\"%s\" data-shown=\"%s\"></script>\n", scriptPath, sum)
	at := bytes.LastIndex(page, []byte("</body>"))
	if at < 0 {
		at = len(page)
	}
	return slices.Concat(page[:at], tag, page[at:])
}

// stillHere is how often an idle page is written to, so that one that has gone is noticed.
const stillHere = 20 * time.Second

// changes keeps the page whose address is asked for told of its checksum, as server-sent events (WHATWG HTML, section 9.2).
func (h *Handler) changes(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", cacheNot)
	out := http.NewResponseController(w)
	if err := out.SetWriteDeadline(time.Time{}); err != nil && r.Method != http.MethodHead {
		h.refuse(w, r, http.StatusInternalServerError, "This server cannot keep a page told.")
		return
	}
	if r.Method == http.MethodHead {
		return
	}
	beat := time.NewTicker(stillHere)
	defer beat.Stop()
	for {
		say, wake := h.o.Changes.now()
		news, err := json.Marshal(struct {
			Page string `json:"page"`
			Say  string `json:"say"`
		}{h.page(nameOf(r.URL.Query().Get("page"))), say})
		if err != nil {
			return // two strings always marshal
		}
		if !send(w, out, fmt.Sprintf("data: %s\n\n", news)) {
			return
		}
		for waiting := true; waiting; {
			select {
			case <-r.Context().Done():
				return
			case <-wake:
				waiting = false
			case <-beat.C:
				if !send(w, out, ":\n\n") {
					return
				}
			}
		}
	}
}

// send says whether the page is still there.
func send(w http.ResponseWriter, out *http.ResponseController, text string) bool {
	if _, err := w.Write([]byte(text)); err != nil {
		return false
	}
	return out.Flush() == nil
}
