package live

import (
	"net"
	"net/http"
	"strings"
)

// guard lets through only requests that speak to this server by a name it was
// started under, and refuses changes that another site asks for.
func (s *Server) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	inner := cross.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; manifest-src 'self'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !s.knowsHost(r.Host) {
			http.Error(w, "this server does not go by that name", http.StatusMisdirectedRequest)
			return
		}
		inner.ServeHTTP(w, r)
	})
}

// knowsHost reports whether a Host header names this server: the address it listens
// on, or a loopback name with its port.
func (s *Server) knowsHost(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = host, "80"
	}
	if s.port != "" && port != s.port {
		return false
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	if name == "localhost" || strings.HasSuffix(name, ".localhost") {
		return true
	}
	ip := net.ParseIP(name)
	if ip == nil {
		return false
	}
	return ip.IsLoopback() || s.address != nil && (ip.Equal(s.address) || s.address.IsUnspecified())
}
