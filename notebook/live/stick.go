package live

import (
	"strings"

	"scarph/notebook"
)

// stick is the journal's time as a marked batten.
type stick struct {
	Marks []stickMark
	// At is the entry as of which the journal is shown, from 1.
	At, Last int
	Now      bool
}

// stickMark is the mark of an entry.
type stickMark struct {
	Href, Label, Day, Title string
	Number                  int
	Class                   string // here, long, later
	Link                    bool   // it carries a label that leads to the entry
	Here                    bool
}

// maxLabels is how many labels stand beside the stick; closer they could not be hit.
const maxLabels = 24

// stick marks the entries; of many, labels stand at some only.
func (s *visit) stick(g *glance, here string) stick {
	entries := s.book.Entries()
	z := stick{At: g.Number, Last: len(entries), Now: g.Number == 0}
	if z.Now {
		z.At = z.Last
	}
	every := 1 + (len(entries)-1)/maxLabels
	month := ""
	for i, e := range entries {
		m := stickMark{Href: g.To(href(e)), Label: shortDay(e), Day: notebook.Day(e.Date), Title: e.Title, Number: i + 1, Here: e.Key == here}
		var class []string
		switch {
		case m.Here:
			class = append(class, "here")
		case len(e.Date) == 10 && e.Date[:7] != month:
			class = append(class, "long")
		}
		if len(e.Date) == 10 {
			month = e.Date[:7]
		}
		if m.Number > z.At {
			class = append(class, "later")
		}
		m.Class = strings.Join(class, " ")
		m.Link = i%every == 0 || m.Here
		z.Marks = append(z.Marks, m)
	}
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
