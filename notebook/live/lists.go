package live

import (
	"html/template"
	"net/http"
)

// list writes one of the lists.
func (s *Server) list(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	name := r.PathValue("name")
	for _, l := range lists {
		if l.name == name {
			s.write(w, r, page{Title: l.label + " · " + s.book.Title(), Here: "list:" + name,
				Head: template.HTML("<h1>" + template.HTMLEscapeString(l.label) + "</h1>"),
				Main: template.HTML(`<div class="list" data-list="` + name + `">` + s.book.RenderList(name, g.page()) + `</div>`)})
			return
		}
	}
	s.missing(w, r, "There is no such list.")
}
