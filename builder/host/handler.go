package host

import (
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"path"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"tankside/builder/carry"
	"tankside/builder/edition"
)

// Options says how an edition is served.
type Options struct {
	// Loopback refuses requests that were not addressed to this machine by a name of its own. Without it a page from anywhere could
	// have its own name point here and read the manual through the reader's browser.
	Loopback bool

	// Changes, where it is not nil, has open pages follow the edition.
	Changes *Changes

	// Records, where it is not nil, has readings of paired devices taken.
	Records *Records
}

// Handler serves the edition in a folder. It is safe for use by several goroutines at once.
type Handler struct {
	dir    string
	packed *packed // the edition is carried as one file; otherwise nil
	o      Options
	shelf  atomic.Pointer[shelf]
	shared shared
}

// New makes a Handler for the edition in dir. The folder need not be there yet. Where dir is a file, the edition is read in it, unopened.
func New(dir string, o Options) *Handler {
	h := &Handler{dir: dir, o: o}
	if carry.IsArchive(dir) {
		h.packed = &packed{path: dir}
	}
	return h
}

// policy repeats each page's own content security policy and adds what a page cannot say: that nobody may frame it.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; " +
	"worker-src 'self' blob:; manifest-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// policy is the policy for the pages of the edition: with the one picture that they may ask elsewhere which edition is served.
func (h *Handler) policy() string {
	if s := h.shelf.Load(); s != nil && s.ask != "" {
		return strings.Replace(policy, "img-src 'self' data:", "img-src 'self' data: "+s.ask, 1)
	}
	return policy
}

// drawingPolicy is for a drawing that is opened by itself: it may have styles of its own, without which it is black, and nothing else.
const drawingPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox; frame-ancestors 'none'"

// Assets carry a hash of their content in their names; everything else is asked for again each time and mostly answered with 304.
const (
	cacheAsset = "public, max-age=31536000, immutable"
	cachePage  = "no-cache"
	cacheNot   = "no-store"
)

func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("Content-Security-Policy", policy)
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("Referrer-Policy", "no-referrer")
	head.Set("Cross-Origin-Opener-Policy", "same-origin")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
	if r.ContentLength != 0 {
		head.Set("Connection", "close")
		if err := http.NewResponseController(w).SetReadDeadline(time.Now().Add(longestBody)); err != nil && !errors.Is(err, errors.ErrUnsupported) {
			h.refuse(w, r, http.StatusInternalServerError, "This server cannot end a request that does not come to its end.")
			return
		}
	}
	if h.o.Loopback && !namesLoopback(r.Host) {
		h.refuse(w, r, http.StatusMisdirectedRequest, "This manual is served to its own machine only.")
		return
	}
	if h.o.Records != nil && h.o.Records.handle(w, r) {
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		head.Set("Allow", "GET, HEAD")
		h.refuse(w, r, http.StatusMethodNotAllowed, "A manual is read: only GET and HEAD are answered.")
		return
	}
	if h.o.Changes != nil && h.follow(w, r) {
		return
	}
	h.file(w, r)
}

// nameOf is the file of an address.
func nameOf(address string) string {
	name := strings.TrimPrefix(address, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	return name
}

// file answers with a file of the edition.
func (h *Handler) file(w http.ResponseWriter, r *http.Request) {
	name := nameOf(r.URL.Path)
	grows := h.o.Changes != nil && path.Ext(name) == ".html" // the script is added to it
	var accepted []string
	if !grows {
		accepted = codings(r)
	}
	got, err := h.take(r.Context(), name, accepted)
	switch {
	case errors.Is(err, edition.ErrNotEdition):
		h.refuse(w, r, http.StatusServiceUnavailable, "There is no edition here yet.")
		return
	case errors.Is(err, errNoSuchFile):
		h.refuse(w, r, http.StatusNotFound, "This edition has no page or file of that name.")
		return
	case errors.Is(err, fs.ErrNotExist):
		h.refuse(w, r, http.StatusInternalServerError, "This edition is damaged: the file is in its list but not in its folder. Run tankside verify.")
		return
	case err != nil:
		h.refuse(w, r, http.StatusInternalServerError, "This file of the edition cannot be read. Run tankside verify.")
		return
	}
	defer got.close() // it was read alone
	if grows {
		if err := got.read(); err != nil {
			h.refuse(w, r, http.StatusInternalServerError, "This file of the edition cannot be read. Run tankside verify.")
			return
		}
	}
	head := w.Header()
	head.Set("Content-Security-Policy", h.policy())
	head.Set("Content-Type", contentType(name))
	if path.Ext(name) == ".svg" {
		head.Set("Content-Security-Policy", drawingPolicy)
	}
	head.Set("Cache-Control", cachePage)
	switch {
	case strings.HasPrefix(name, "assets/"):
		head.Set("Cache-Control", cacheAsset)
	case name == edition.CurrentFile: // copies ask for it from sticks and from other servers
		head.Set("Cache-Control", cacheNot)
		head.Set("Cross-Origin-Resource-Policy", "cross-origin")
	}
	if grows {
		got.data = withScript(got.data, got.sum)
		head.Set("Cache-Control", cacheNot)
	} else {
		head.Set("ETag", strconv.Quote(got.sum))
		if got.varies {
			head.Set("Vary", "Accept-Encoding")
		}
	}
	if got.coding != "" {
		head.Set("Content-Encoding", got.coding)
		head.Set("Content-Length", strconv.FormatInt(got.size, 10))
	}
	http.ServeContent(w, r, "", time.Time{}, got.body())
	runtime.KeepAlive(got.keep) // until then others are sent the same copy
}

// longestBody is how long a request may take to send a body, which nothing reads.
const longestBody = 5 * time.Second

// refusedStyle is how such a page looks: it has to stand by itself, since what is missing may be the edition's own style.
const refusedStyle = "html{color-scheme:light dark;font:118.75%/1.55 system-ui,sans-serif;background:#f7f6f1;color:#16232b}" +
	"body{max-width:34em;margin:0 auto;padding:3rem 1.1rem}h1{font-size:1.5rem;line-height:1.25}" +
	"a{display:inline-block;min-height:48px;padding:.6rem 0;color:inherit;font-weight:700;text-underline-offset:.18em}" +
	"@media(prefers-color-scheme:dark){html{background:#11181c;color:#edf1ef}}"

// refusedPolicy lets that style in and no other.
var refusedPolicy = strings.Replace(policy, "style-src 'self'", "style-src 'sha256-"+hashOf(refusedStyle)+"'", 1)

func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return base64.StdEncoding.EncodeToString(sum[:])
}

// refuse answers with a short page that says why.
func (h *Handler) refuse(w http.ResponseWriter, r *http.Request, status int, why string) {
	page := fmt.Appendf(nil, "<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>%[1]s</title><style>%[2]s</style></head>\n"+
		"<body>\n<h1>%[1]s</h1>\n<p><a href=\"/\">Go to the first page</a></p>\n</body>\n</html>\n", html.EscapeString(why), refusedStyle)
	if h.o.Changes != nil && (status == http.StatusServiceUnavailable || status == http.StatusNotFound) {
		shown := ""
		if status == http.StatusNotFound {
			shown = noPage
		}
		page = withScript(page, shown)
	}
	head := w.Header()
	head.Set("Content-Type", contentType(".html"))
	head.Set("Content-Length", strconv.Itoa(len(page)))
	head.Set("Cache-Control", cacheNot)
	head.Set("Content-Security-Policy", refusedPolicy)
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		w.Write(page) // a reader that has gone away is nobody's error
	}
}

// types are set here and not asked of the system, whose answers differ: on some Windows desks a script is plain text, and is not run.
var types = map[string]string{
	".css":         "text/css; charset=utf-8",
	".gif":         "image/gif",
	".html":        "text/html; charset=utf-8",
	".ics":         "text/calendar; charset=utf-8",
	".jpeg":        "image/jpeg",
	".jpg":         "image/jpeg",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".pdf":         "application/pdf",
	".png":         "image/png",
	".svg":         "image/svg+xml",
	".txt":         "text/plain; charset=utf-8",
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json",
	".webp":        "image/webp",
	".zip":         "application/zip",
	".zst":         "application/zstd",
}

func contentType(name string) string {
	if t, known := types[path.Ext(name)]; known {
		return t
	}
	return "application/octet-stream"
}
