package live

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/hex"
	"net"
	"net/http"
	"net/url"
	"strings"
)

// door decides who comes in. On this machine nobody needs a token; from any other
// address one does: it stands in the address that is handed over (or in the picture
// that a phone reads), and is left as a cookie. Whoever came in by the token reads;
// writing is a second permission. Every change also carries the key of this run in a
// header, which no other site can know.
type door struct {
	token string
	key   string
}

// keyHeader carries the key of the run with every change.
const keyHeader = "Scarph-Key"

func newDoor() door { return door{token: secret(), key: secret()} }

// secret is 130 bits of chance in letters that can be typed.
func secret() string {
	var b [17]byte
	_, _ = rand.Read(b[:])
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(b[:]))[:26]
}

// pass is what the cookie holds: it opens the door, and does not tell the token.
func (d *door) pass() string {
	sum := sha256.Sum256([]byte("pass " + d.token))
	return hex.EncodeToString(sum[:])
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// isHere reports whether a request comes from this machine.
func (s *Server) isHere(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return false
	}
	ip := net.ParseIP(host)
	if ip == nil {
		return false
	}
	if ip.IsLoopback() {
		return true
	}
	// who reaches the laptop by its own outward address sits at it too
	local, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	return ok && local.IP.Equal(ip)
}

// passName is the cookie's name: ports of one machine share their cookies.
func (s *Server) passName() string { return "scarph-pass-" + s.port }

func (s *Server) hasPass(r *http.Request) bool { return same(cookie(r, s.passName()), s.door.pass()) }

// mayWrite reports whether a reader may change the journal.
func (s *Server) mayWrite(r *http.Request) bool {
	return s.isHere(r) || s.options.OthersWrite && s.hasPass(r)
}

// admit lets in who sits at this machine or has the token. The token of an address is
// turned into a cookie, and taken out of the address bar.
func (s *Server) admit(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if t := r.URL.Query().Get("token"); t != "" && (r.Method == http.MethodGet || r.Method == http.MethodHead) {
			if !same(t, s.door.token) {
				s.stranger(w, r)
				return
			}
			http.SetCookie(w, &http.Cookie{Name: s.passName(), Value: s.door.pass(), Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 400 * 24 * 3600})
			q := r.URL.Query()
			q.Del("token")
			http.Redirect(w, r, (&url.URL{Path: "/" + strings.TrimLeft(r.URL.Path, "/"), RawQuery: q.Encode()}).String(), http.StatusSeeOther)
			return
		}
		if !s.isHere(r) && !s.hasPass(r) && r.URL.Path != strangersLook {
			s.stranger(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// strangersLook is the one file that strangers get: the look of the page that turns
// them away.
const strangersLook = "/assets/journal.css"

// stranger turns somebody away with words that help the owner's friends.
func (s *Server) stranger(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(http.StatusForbidden)
	_ = pages.ExecuteTemplate(w, "stranger", nil)
}

// byWriters lets through only what may write, with the key of this run, and bounds
// what is sent.
func (s *Server) byWriters(most int64, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !s.mayWrite(r) {
			refuse(w, http.StatusForbidden, "read-only", "this device reads the journal; it may not write in it")
			return
		}
		if !same(r.Header.Get(keyHeader), s.door.key) {
			refuse(w, http.StatusForbidden, "key", "the page is from an earlier run of the program")
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next(w, r)
	}
}

// giveKey tells the key of this run to a page that was open before it.
func (s *Server) giveKey(w http.ResponseWriter, r *http.Request) {
	if !s.mayWrite(r) {
		refuse(w, http.StatusForbidden, "read-only", "this device reads the journal; it may not write in it")
		return
	}
	answer(w, map[string]string{"key": s.door.key})
}
