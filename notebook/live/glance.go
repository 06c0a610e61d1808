package live

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// glance is how one reader looks at the journal: as of which entry, trying which
// numbers, in which units. It comes from the address; what is a habit of the reader
// and not of the page comes from cookies that the page's own script sets.
type glance struct {
	Number int // the entry as of which, from 1; 0 for now
	trials []trial
	style  calc.Style
	// other is set when the units are not the journal's own.
	other bool
	Large bool // large targets
	Stark bool // high contrast
	// Writes is set when this reader may write.
	Writes bool
	// would is what the trials would move; nil until it is asked for.
	would *whatIf
}

// trial is a number that is tried and not kept.
type trial struct{ Name, Text string }

// maxTrials is how many numbers are tried at once.
const maxTrials = 12

func (s *visit) glance(r *http.Request) glance {
	g := glance{style: s.book.Session.Style(), Writes: s.mayWrite(r)}
	q := r.URL.Query()
	if n, err := strconv.Atoi(q.Get("as-of")); err == nil && n >= 1 && n < len(s.book.Entries()) {
		g.Number = n
	}
	if g.Number == 0 {
		for _, t := range q["try"] {
			name, text, ok := strings.Cut(t, "=")
			name, text = strings.TrimSpace(name), strings.TrimSpace(text)
			if ok && name != "" && text != "" && len(g.trials) < maxTrials {
				g.trials = append(g.trials, trial{name, s.tried(name, text)})
			}
		}
	}
	units := q.Get("units")
	if units == "" {
		units = cookie(r, "scarph-units")
	}
	if units == "metric" && g.style.System != calc.Metric || units == "feet-inches" && g.style.System == calc.Metric {
		g.style, g.other = g.style.Other(), true
	}
	g.Large = cookie(r, "scarph-targets") == "large"
	g.Stark = cookie(r, "scarph-contrast") == "high"
	return g
}

func cookie(r *http.Request, name string) string {
	c, err := r.Cookie(name)
	if err != nil {
		return ""
	}
	return c.Value
}

// at is the order of the entry as of which the journal is shown.
func (g glance) at() int {
	if g.Number == 0 {
		return kernel.Now
	}
	return g.Number - 1
}

// values are the trials as the kernel takes them.
func (g glance) values() map[string]string {
	m := make(map[string]string, len(g.trials))
	for _, t := range g.trials {
		m[t.Name] = t.Text
	}
	return m
}

// To is the address of a page, under which the reader goes on looking the same way.
func (g glance) To(path string) string {
	path, fragment, _ := strings.Cut(path, "#")
	q := url.Values{}
	if g.Number > 0 {
		q.Set("as-of", strconv.Itoa(g.Number))
	}
	for _, t := range g.trials {
		q.Add("try", t.Name+"="+t.Text)
	}
	if len(q) > 0 {
		sign := "?"
		if strings.Contains(path, "?") {
			sign = "&"
		}
		path += sign + q.Encode()
	}
	if fragment != "" {
		path += "#" + fragment
	}
	return path
}

// page is how entries and lists are shown to this reader.
func (g glance) page() notebook.Page {
	return notebook.Page{AsOf: g.at(), Live: true, Style: &g.style, List: func(name string) string { return g.To("/list/" + name) }}
}

// Units says in which family the reader sees lengths.
func (g glance) Units() string {
	if g.style.System == calc.Metric {
		return "metric"
	}
	return "feet-inches"
}
