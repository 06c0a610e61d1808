package results

import (
	"scarph/calc"
	"scarph/kernel"
)

// Writer writes results for one page. Its lines must be asked for in the order of
// their entry, for a name has its note in the margin once.
type Writer struct {
	Session *kernel.Session
	Style   calc.Style
	// AsOf is the order of the entry as of which values are shown; kernel.Now for
	// the journal as it stands.
	AsOf int
	// Live marks values with the places a script finds them by.
	Live bool
	// Public leaves out what is private.
	Public bool
	// Hide leaves out kinds of lines: money, hours, …; nil leaves out none.
	Hide func(what string) bool
	// Href gives the address that tells more of a name, "" for none; it may be nil.
	Href func(name string) string
	// IDPrefix begins every id.
	IDPrefix string
	// Kept are, in a what-if, the results that stand in place of the tried ones.
	Kept map[kernel.LineRef]*kernel.Result

	noted map[string]bool // names that have their note in the margin
}

func (r *Writer) hides(what string) bool { return r.Hide != nil && r.Hide(what) }
