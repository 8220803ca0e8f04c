package desk

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"sync"
)

// cookie is the name under which a browser that has used the key is known.
const cookie = "tankside-desk"

// guard lets one browser in.
type guard struct {
	host string // that is served, with its port

	mu      sync.Mutex
	key     string // "" once it was used
	session string
}

func newGuard(host string) *guard { return &guard{host: host, key: secret(), session: secret()} }

// secret is a number of 256 bits that nobody guesses.
func secret() string {
	var b [32]byte
	rand.Read(b[:])
	return base64.RawURLEncoding.EncodeToString(b[:])
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// use takes a key, which counts once.
func (g *guard) use(key string) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.key == "" || !same(key, g.key) {
		return false
	}
	g.key = ""
	return true
}

// ServeHTTP would be of no use without what is guarded; see guarded.
func (g *guard) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'")
		h.Set("Cache-Control", "no-store")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		switch {
		case r.Host != g.host: // another name that leads to this machine, as a page of the web may have one
			refuse(w)
		case r.Method != http.MethodGet && r.Method != http.MethodPost:
			refuse(w)
		case r.Method == http.MethodPost && r.Header.Get("Origin") != "http://"+g.host:
			refuse(w)
		case r.Method == http.MethodGet && r.URL.Path == "/" && r.URL.Query().Has("key"):
			if !g.use(r.URL.Query().Get("key")) {
				refuse(w)
				return
			}
			http.SetCookie(w, &http.Cookie{Name: cookie, Value: g.session, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
			http.Redirect(w, r, "/", http.StatusSeeOther)
		case !g.known(r):
			refuse(w)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// known tells whether a request comes from the browser that has used the key.
func (g *guard) known(r *http.Request) bool {
	c, err := r.Cookie(cookie)
	return err == nil && same(c.Value, g.session)
}

func refuse(w http.ResponseWriter) {
	http.Error(w, "This desk belongs to somebody else, or its address was used already. Close it in its window, and open tankside again.", http.StatusForbidden)
}
