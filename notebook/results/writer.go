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
	// Marks gives every line its number in its entry, by which the browser build of a
	// published page finds it, and leaves out the names of files.
	Marks bool
	// Public leaves out what is private.
	Public bool
	// Hide leaves out kinds of lines: money, hours, …; nil leaves out none.
	Hide func(what string) bool
	// Href gives the address that tells more of a name, "" for none; it may be nil.
	Href func(name string) string
	// Entry gives the address of an entry, and in it of the row that names a value when
	// name is not ""; it may be nil.
	Entry func(key, name string) string
	// History gives the address of all readings of a value; nil where there is none.
	History func(name string) string
	// ListAt gives the address of one of the journal's lists; it may be nil.
	ListAt func(name string) string
	// IDPrefix begins every id.
	IDPrefix string
	// Kept are, in a what-if, the results that stand in place of the tried ones.
	Kept map[kernel.LineRef]*kernel.Result
	// Filled are, in a what-if, the workings with the tried numbers put in.
	Filled map[kernel.LineRef]string
	// Then are, on a published page, the lines of the entry as they stood when it was
	// written; values that have changed since say so.
	Then []kernel.Outcome
	// Yours is the key of the entry that holds a reader's numbers, "" for none.
	Yours string

	noted map[string]bool // names that have their note in the margin
}

// written is what a line came to when its entry was written, when that is shown
// otherwise than what it comes to now.
func (r *Writer) written(o *kernel.Outcome) (calc.Value, bool) {
	if o.Ref.Index >= len(r.Then) || r.Then[o.Ref.Index].Ref != o.Ref {
		return calc.Value{}, false
	}
	then := r.Then[o.Ref.Index].Result
	if !then.OK() || !o.Result.OK() || then.Value.Kind() != o.Result.Value.Kind() || then.Value.Kind() == calc.Picture {
		return calc.Value{}, false
	}
	return then.Value, r.Style.Text(then.Value) != r.Style.Text(o.Result.Value)
}

// when names an entry's day; a reader's numbers have none.
func (r *Writer) when(e kernel.EntryRef) string {
	if r.isYours(e) {
		return "your numbers"
	}
	return When(e)
}

func (r *Writer) isYours(e kernel.EntryRef) bool { return r.Yours != "" && e.Key == r.Yours }

func (r *Writer) hides(what string) bool { return r.Hide != nil && r.Hide(what) }
