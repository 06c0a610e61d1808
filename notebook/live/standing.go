package live

import (
	"net/http"
	"net/url"
	"strconv"
	"sync"

	"scarph/kernel"
)

// standing is what of the journal wants a look: every page says so in its head.
type standing struct {
	Failing int // checks that do not hold
	Off     int // things made that are off and not settled
	wrong   []wrongPlace
}

// wrongPlace is a line that is wrong, or, with an index of −1, what is wrong with the
// head or a table of an entry's file.
type wrongPlace struct {
	ref   kernel.LineRef
	order int // of the entry
}

// Wrong is how many lines are wrong.
func (z *standing) Wrong() int { return len(z.wrong) }

// standings keeps how the journal stands, by the entry as of which, until it moves.
type standings struct {
	mu    sync.Mutex
	sheet int
	list  map[int]*standing
}

// standing works out how the journal stands as of an entry, once for each ripple; sheet
// is the number of the last one when the request came in.
func (s *visit) standing(asOf, sheet int) *standing {
	c := &s.standings
	c.mu.Lock()
	if c.list == nil || sheet > c.sheet {
		c.sheet, c.list = sheet, map[int]*standing{}
	}
	z := c.list[asOf]
	known := z != nil && c.sheet == sheet
	c.mu.Unlock()
	if known {
		return z
	}
	z = &standing{Off: len(s.book.Session.Rework(asOf))}
	z.wrong, z.Failing = s.wrongPlaces(asOf)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.sheet == sheet {
		c.list[asOf] = z
	}
	return z
}

// wrongPlaces lists what is wrong, in the journal's order: each line once, however many
// slots of it are wrong. It counts the checks that do not hold as well.
func (s *visit) wrongPlaces(asOf int) (list []wrongPlace, failing int) {
	lines, failing := s.book.Session.Wrong(asOf)
	files := map[string]bool{}
	for order, e := range s.book.Entries() {
		if order > asOf {
			break
		}
		if path := e.File.Path; !files[path] {
			files[path] = true
			for range s.book.FileProblems(path) {
				list = append(list, wrongPlace{kernel.LineRef{Entry: e.Key, Index: -1}, order})
			}
		}
		last := 0
		for len(lines) > 0 && lines[0].Order == order {
			if x := lines[0]; x.Place.Line != last {
				last = x.Place.Line
				list = append(list, wrongPlace{x.Ref, order})
			}
			lines = lines[1:]
		}
	}
	return list, failing
}

// nextWrong leads to the next line that is wrong after a place, ?after=ENTRY|INDEX, and
// after the last to the first.
func (s *visit) nextWrong(w http.ResponseWriter, r *http.Request) {
	g := s.glance(r)
	list := s.standing(g.at(), asked(r)).wrong
	if len(list) == 0 {
		s.missing(w, r, "No line is wrong.")
		return
	}
	next := list[0]
	if ref, ok := lineRef(r.URL.Query().Get("after")); ok {
		if e, ok := s.book.Entry(ref.Entry); ok {
			at := s.number(e) - 1
			for _, x := range list {
				if x.order > at || x.order == at && x.ref.Index > ref.Index {
					next = x
					break
				}
			}
		}
	}
	http.Redirect(w, r, s.wrongHref(&g, next.ref), http.StatusSeeOther)
}

// wrongHref is where a wrong line is seen; what is wrong with the head of a file is seen
// where it is written.
func (s *visit) wrongHref(g *glance, ref kernel.LineRef) string {
	if e, ok := s.book.Entry(ref.Entry); ok && ref.Index < 0 {
		if g.Writes && g.Number == 0 {
			return "/write/" + (&url.URL{Path: e.Slug}).EscapedPath()
		}
		return g.To(href(e))
	}
	return s.lineHref(g, ref)
}

// remark is something that wants a look, with where it is seen.
type remark struct{ Class, Href, Text string }

// remarks says how the journal stands; nothing where all is well.
func (s *visit) remarks(g *glance, here string, sheet int) []remark {
	z := s.standing(g.at(), sheet)
	var list []remark
	add := func(n int, class, href, one, many string) {
		if n == 1 {
			list = append(list, remark{class, g.To(href), "1 " + one})
		} else if n > 1 {
			list = append(list, remark{class, g.To(href), strconv.Itoa(n) + " " + many})
		}
	}
	after := "/wrong"
	if e, ok := s.book.Entry(here); ok {
		after += "?after=" + url.QueryEscape(e.Key+"|-2")
	}
	add(z.Wrong(), "to-mend", after, "line is wrong", "lines are wrong")
	add(z.Failing, "to-check", "/list/checks", "check does not hold", "checks do not hold")
	add(z.Off, "to-settle", "/list/rework", "thing made is off", "things made are off")
	return list
}
