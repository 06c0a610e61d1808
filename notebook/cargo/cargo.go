// Package cargo is what a published journal carries for its readers' browsers: the
// statements, slots and cells that may be read, without the text around them, from
// which the browser build works everything out again.
//
// It travels as JSON. The reading and writing is by hand, for the standard library's
// would weigh more in the browser build than the whole of this package.
package cargo

import (
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook/results"
)

// Journal is a published journal.
type Journal struct {
	// Values and History are the addresses of the pages with all values and with all
	// readings, below the root of the site, up to the # and with it.
	Values, History string
	Style           calc.Style
	Buying          results.Buying
	Hide            []string
	Entries         []Entry
	// Names and Reads are those of the journal's values, as in [kernel.Web]: from them it
	// is told which lines must be read to try a number.
	Names []string
	Reads [][]int
}

// Entry is an entry; one that is not told of is empty and stands in its place.
type Entry struct {
	Key, Title, Date string
	At               string // the address of its page, below the root of the site
	Prefix           string // of the ids in it
	Lines            []Line
	Of               []int // by line, the value that it is of
	Tables           []kernel.Table
}

// Kind says what a line is.
type Kind string

// The kinds of lines.
const (
	Statement Kind = ""
	Slot      Kind = "slot"
	Cell      Kind = "cell"      // with a literal
	SlotCell  Kind = "slot cell" // whose text is a slot's
)

// Line is one line of an entry.
type Line struct {
	Text string
	Kind Kind
	// Plain slots stand in a heading or a link.
	Plain bool
	// Name, Reading and Unit are those of a cell: its full name, the word of its kind,
	// the unit of a bare number.
	Name, Reading, Unit string
	// Seals are the values whose working is not told.
	Seals []lang.Seal
}

// Line reads the line again.
func (l *Line) Line(p *lang.Parser) kernel.Line {
	k := kernel.Line{Text: l.Text, Slot: l.Kind == Slot, Cell: l.Kind == Cell || l.Kind == SlotCell}
	switch l.Kind {
	case Slot:
		k.Stmt, k.Err = p.ParseSlot(l.Text)
	case Cell:
		kind, _ := lang.KindOf(l.Reading)
		k.Stmt, k.Err = lang.ParseCell(kind, l.Name, l.Text, l.Unit)
		k.Empty = lang.EmptyCell(l.Text)
	case SlotCell:
		kind, _ := lang.KindOf(l.Reading)
		k.Stmt, k.Err = p.ParseSlotCell(kind, l.Name, l.Text)
	default:
		k.Stmt, k.Err = p.Parse(l.Text)
	}
	if k.Err != nil {
		k.Stmt = nil
	} else if l.Seals != nil {
		k.Stmt = k.Stmt.Sealed(l.Seals)
	}
	return k
}

// Places are the addresses of the site, for the writers of its pages.
type Places struct {
	journal *Journal
	at      map[string]*Entry
}

// Places finds the entries' addresses by their keys; those of the journal may still be
// changed, its list of entries not.
func (j *Journal) Places() *Places {
	p := &Places{j, make(map[string]*Entry, len(j.Entries))}
	for i := range j.Entries {
		p.at[j.Entries[i].Key] = &j.Entries[i]
	}
	return p
}

// Give gives a writer the addresses, for a page from which root leads to the top of the
// site.
func (p *Places) Give(w *results.Writer, root string) {
	j, session := p.journal, w.Session
	w.Href = func(name string) string {
		listed, _ := session.Listed(name)
		if listed == "" {
			return ""
		}
		return root + j.Values + "value-" + listed
	}
	w.Entry = func(key, name string) string {
		e := p.at[key]
		if e == nil || e.At == "" {
			return ""
		}
		if name == "" {
			return root + e.At
		}
		page, _, _ := strings.Cut(e.At, "#")
		return root + page + "#" + e.Prefix + "value-" + name
	}
	if j.History != "" {
		w.History = func(name string) string { return root + j.History + "history-" + name }
	}
}

// Encode writes the journal as JSON.
func (j *Journal) Encode() []byte {
	w := &writer{}
	w.object(func() {
		w.member("style", func() {
			w.object(func() {
				w.number("system", float64(j.Style.System))
				w.number("nearest", j.Style.Nearest)
				w.number("angle", float64(j.Style.Angle))
				w.truth("worst", j.Style.Worst)
			})
		})
		w.member("buying", func() {
			w.object(func() {
				w.number("waste", j.Buying.Waste)
				w.truth("added", j.Buying.OfAdded)
				w.number("kerf", j.Buying.Kerf)
			})
		})
		w.texts("hide", j.Hide)
		w.text("values", j.Values)
		w.text("history", j.History)
		if len(j.Names) > 0 {
			w.text("names", strings.Join(j.Names, " ")+" ") // of one that has none too
		}
		w.text("reads", joined(j.Reads))
		w.member("entries", func() {
			w.array(len(j.Entries), func(i int) { w.entry(&j.Entries[i]) })
		})
	})
	return append(w.out, '\n')
}

func (w *writer) entry(e *Entry) {
	w.object(func() {
		w.text("key", e.Key)
		w.text("title", e.Title)
		w.text("date", e.Date)
		w.text("at", e.At)
		w.text("prefix", e.Prefix)
		if len(e.Tables) > 0 {
			w.member("tables", func() {
				w.array(len(e.Tables), func(i int) {
					t := &e.Tables[i]
					w.object(func() {
						w.text("name", t.Name)
						w.texts("rows", t.Rows)
						w.texts("columns", t.Columns)
					})
				})
			})
		}
		if len(e.Lines) > 0 {
			w.text("of", joined([][]int{e.Of}))
			w.member("lines", func() {
				w.array(len(e.Lines), func(i int) { w.line(&e.Lines[i]) })
			})
		}
	})
}

func (w *writer) line(l *Line) {
	if l.Kind == Statement && l.Seals == nil {
		w.string(l.Text)
		return
	}
	w.object(func() {
		w.text("text", l.Text)
		w.text("kind", string(l.Kind))
		w.truth("plain", l.Plain)
		w.text("name", l.Name)
		w.text("reading", l.Reading)
		w.text("unit", l.Unit)
		if l.Seals != nil {
			w.member("seals", func() {
				w.array(len(l.Seals), func(i int) {
					w.object(func() {
						w.text("expr", strconv.Itoa(l.Seals[i].Expr))
						w.member("value", func() { w.value(l.Seals[i].Value) })
						if leans := l.Seals[i].Leans; leans != nil {
							w.member("leans", func() {
								w.array(len(leans), func(k int) {
									w.object(func() {
										w.text("name", leans[k].Name)
										w.member("value", func() { w.value(leans[k].Value) })
									})
								})
							})
						}
					})
				})
			})
		}
	})
}

// Decode reads a journal that Encode wrote; false when it is none.
func Decode(data string) (*Journal, bool) {
	v, ok := parse(data)
	top, isObject := v.(map[string]any)
	if !ok || !isObject {
		return nil, false
	}
	j := &Journal{Hide: texts(top["hide"]), Values: text(top["values"]), History: text(top["history"])}
	style, _ := top["style"].(map[string]any)
	j.Style = calc.Style{System: calc.System(number(style["system"])), Nearest: number(style["nearest"]), Angle: calc.AngleStyle(number(style["angle"])), Worst: style["worst"] == true}
	buying, _ := top["buying"].(map[string]any)
	j.Buying = results.Buying{Waste: number(buying["waste"]), OfAdded: buying["added"] == true, Kerf: number(buying["kerf"])}
	if names := text(top["names"]); names != "" {
		j.Names = strings.Split(strings.TrimSuffix(names, " "), " ")
		if j.Reads, ok = lists(text(top["reads"])); !ok || len(j.Reads) != len(j.Names) {
			return nil, false
		}
	}
	entries, _ := top["entries"].([]any)
	for _, x := range entries {
		e, ok := entryOf(x)
		if !ok {
			return nil, false
		}
		j.Entries = append(j.Entries, e)
	}
	return j, j.holds()
}

// holds reports whether every number of a value is that of one.
func (j *Journal) holds() bool {
	for _, list := range j.Reads {
		for _, v := range list {
			if v >= len(j.Names) {
				return false
			}
		}
	}
	for i := range j.Entries {
		e := &j.Entries[i]
		if len(e.Of) != len(e.Lines) {
			return false
		}
		for _, v := range e.Of {
			if v >= len(j.Names) {
				return false
			}
		}
	}
	return true
}

func entryOf(x any) (Entry, bool) {
	m, _ := x.(map[string]any)
	e := Entry{Key: text(m["key"]), Title: text(m["title"]), Date: text(m["date"]), At: text(m["at"]), Prefix: text(m["prefix"])}
	tables, _ := m["tables"].([]any)
	for _, x := range tables {
		t, _ := x.(map[string]any)
		e.Tables = append(e.Tables, kernel.Table{Name: text(t["name"]), Rows: texts(t["rows"]), Columns: texts(t["columns"])})
	}
	lines, _ := m["lines"].([]any)
	for _, x := range lines {
		if s, ok := x.(string); ok {
			e.Lines = append(e.Lines, Line{Text: s})
			continue
		}
		m, _ := x.(map[string]any)
		l := Line{Text: text(m["text"]), Kind: Kind(text(m["kind"])), Plain: m["plain"] == true, Name: text(m["name"]), Reading: text(m["reading"]), Unit: text(m["unit"])}
		seals, _ := m["seals"].([]any)
		for _, x := range seals {
			s, _ := x.(map[string]any)
			n, _ := strconv.Atoi(text(s["expr"]))
			seal := lang.Seal{Expr: n, Value: valueOf(s["value"])}
			leans, _ := s["leans"].([]any)
			for _, x := range leans {
				m, _ := x.(map[string]any)
				seal.Leans = append(seal.Leans, lang.Lean{Name: text(m["name"]), Value: valueOf(m["value"])})
			}
			l.Seals = append(l.Seals, seal)
		}
		e.Lines = append(e.Lines, l)
	}
	if len(e.Lines) == 0 {
		return e, true
	}
	of, ok := lists(text(m["of"]))
	if !ok || len(of) != 1 {
		return e, false
	}
	e.Of = of[0]
	return e, true
}

func text(x any) string { s, _ := x.(string); return s }

func number(x any) float64 { f, _ := x.(float64); return f }

func texts(x any) []string {
	list, _ := x.([]any)
	var out []string
	for _, it := range list {
		out = append(out, text(it))
	}
	return out
}
