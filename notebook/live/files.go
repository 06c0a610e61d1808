package live

import (
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// pictures are the kinds of files that are served from the journal.
var pictures = map[string]string{".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".gif": "image/gif", ".webp": "image/webp", ".avif": "image/avif", ".pdf": "application/pdf"}

// file serves a picture of the journal; nothing else of the disk is reachable.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	p := r.PathValue("path")
	kind, ok := pictures[strings.ToLower(path.Ext(p))]
	if strings.EqualFold(path.Ext(p), ".svg") {
		kind, ok = "image/svg+xml", true
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; sandbox")
	}
	if !ok || !filepath.IsLocal(filepath.FromSlash(p)) || strings.Contains("/"+p, "/.") || strings.Contains("/"+p, "/_") {
		http.NotFound(w, r)
		return
	}
	root, err := os.OpenRoot(s.sides.book().Root())
	if err != nil {
		http.NotFound(w, r)
		return
	}
	defer root.Close()
	f, err := root.Open(filepath.FromSlash(p))
	if err != nil {
		http.NotFound(w, r)
		return
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", info.ModTime(), f)
}
