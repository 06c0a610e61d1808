package live

import (
	"fmt"
	"html"
	"html/template"
	"strings"

	"scarph/notebook"
)

// stick is the journal's time as a marked batten.
type stick struct {
	Marks template.HTML // a list item for each entry
	// At is the entry as of which the journal is shown, from 1.
	At, Last int
	Now      bool
}

// maxLabels is how many labels stand beside the stick; closer they could not be hit.
const maxLabels = 24

// stick marks the entries; of many, labels stand at some only. Every page carries a mark
// of every entry, so they are written here, without a template.
func (s *visit) stick(g *glance, here string) stick {
	entries := s.book.Entries()
	z := stick{At: g.Number, Last: len(entries), Now: g.Number == 0}
	if z.Now {
		z.At = z.Last
	}
	every := 1 + (len(entries)-1)/maxLabels
	month := ""
	var b strings.Builder
	for i, e := range entries {
		href, title, label := html.EscapeString(g.To(href(e))), html.EscapeString(e.Title), html.EscapeString(shortDay(e))
		class, current := "", ""
		switch {
		case e.Key == here:
			class, current = "here ", ` aria-current="date"`
		case len(e.Date) == 10 && e.Date[:7] != month:
			class = "long "
		}
		if len(e.Date) == 10 {
			month = e.Date[:7]
		}
		if i >= z.At {
			class += "later"
		}
		fmt.Fprintf(&b, "\n<li class=\"%s\" data-number=\"%d\" data-day=\"%s\" data-title=\"%s\" data-label=\"%s\" data-href=\"%s\">", strings.TrimRight(class, " "), i+1, html.EscapeString(notebook.Day(e.Date)), title, label, href)
		if i%every == 0 || current != "" {
			b.WriteString(`<a href="` + href + `"` + current + ` title="` + title + `">` + label + `</a>`)
		}
		b.WriteString("</li>")
	}
	z.Marks = template.HTML(b.String())
	return z
}

func shortDay(e *notebook.Entry) string {
	f := strings.Fields(notebook.Day(e.Date))
	if len(f) == 3 && len(e.Date) == 10 {
		return f[0] + " " + f[1][:3]
	}
	if e.Front {
		return "title"
	}
	t := []rune(e.Title)
	if len(t) > 10 {
		return string(t[:9]) + "…"
	}
	return string(t)
}
