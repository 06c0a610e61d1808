package live

import (
	"net/url"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// place names a value with the address of its card; nil when nothing bears the name.
func (s *visit) place(g *glance, name string) *place {
	r, ok := s.book.Session.Value(name, g.at())
	if !ok {
		return nil
	}
	p := &place{Label: calc.Words(name), Name: name, Href: g.To("/card?name=" + url.QueryEscape(name)), Text: resultText(r, g.style)}
	if x, ok := s.whatIf(g).values[name]; ok {
		p.Text, p.Tried = resultText(x, g.style), true
	}
	return p
}

// lineHref is the address of a line in its entry.
func (s *visit) lineHref(g *glance, ref kernel.LineRef) string {
	e, ok := s.book.Entry(ref.Entry)
	if !ok {
		return g.To("/")
	}
	return g.To(href(e) + "#line-" + strconv.Itoa(ref.Index))
}

// lineRef reads ENTRY|INDEX.
func lineRef(at string) (kernel.LineRef, bool) {
	i := strings.LastIndexByte(at, '|')
	if i < 0 {
		return kernel.LineRef{}, false
	}
	n, err := strconv.Atoi(at[i+1:])
	return kernel.LineRef{Entry: at[:i], Index: n}, err == nil
}

func atText(ref kernel.LineRef) string { return ref.Entry + "|" + strconv.Itoa(ref.Index) }

// lineText is what a line without a name says: the expression alone.
func lineText(o *kernel.Outcome) string {
	if st := o.Line.Stmt; st != nil && st.Expr != nil {
		return st.Expr.Text
	}
	return strings.TrimSpace(o.Line.Text)
}

// dayOf says when an entry was: its day, or its title when it has none.
func dayOf(e kernel.EntryRef) string {
	if d := notebook.Day(e.Date); d != "" {
		return d
	}
	return e.Title
}

// today is the day that new readings are written under.
func (s *Server) today() string { return s.options.Now().Format("2006-01-02") }

func (s *visit) hasEntryOn(day string) bool {
	for _, e := range s.book.Entries() {
		if e.Date == day && !e.Front {
			return true
		}
	}
	return false
}
