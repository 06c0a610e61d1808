package live

import (
	"bytes"
	"html"
	"html/template"
	"net/http"

	"scarph/notebook"
)

// list writes one of the lists.
func (s *Server) list(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	for _, l := range lists {
		if l.name == name {
			var b bytes.Buffer
			b.WriteString("<h1>" + html.EscapeString(l.label) + "</h1>")
			b.WriteString(s.book.RenderList(name, notebook.Page{AsOf: asOf(r), Live: true}))
			s.write(w, r, page{Title: l.label + " · " + s.book.Title(), Main: template.HTML(b.String())}, "list:"+name)
			return
		}
	}
	s.missing(w, r, "There is no such list.")
}
