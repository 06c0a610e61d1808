package kernel

import (
	"context"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// Sheet is scratch paper beside a journal. Its lines are worked out in the
// journal's scope; a name that a line gives is known to the lines after it, and "it"
// is the answer before. A line that begins with drawn, found, built, guess or revise and
// names a value of the journal tries another number: what hangs on it follows, on this
// sheet alone. The journal keeps nothing of it.
//
// A Sheet may be used by several goroutines.
type Sheet struct {
	s       *Session
	names   map[string]*jotting
	last    *jotting
	spreads []*statement // lines that wrote a ±
}

// jotting is a value on the sheet.
type jotting struct {
	name   string
	node   *node // of a name of the sheet's own
	result *Result
	// tries is set when the name is one of the journal's.
	tries bool
}

// NewSheet returns an empty sheet.
func (s *Session) NewSheet() *Sheet { return &Sheet{s: s, names: map[string]*jotting{}} }

// Answer is a line of a sheet, worked out.
type Answer struct {
	Line   int    // from 1, in the block it stands in
	Source string // as it came, its lines joined by spaces; spans of errors lie in it
	Text   string // as written, without the note
	Note   string
	Kind   string // answer, check, part, or the kind of a reading
	Name   string // of a line that names a value
	Result *Result
	// Left, Right and Sign are the sides of a check that is one comparison.
	Left, Right *Result
	Sign        string
	// Tries is set when the line tried another number for a value of the journal.
	Tries bool
	// System is the family of the lengths that the line writes.
	System calc.System
}

// Block works out the lines of a text, one after the other, as of an entry. A line
// whose bracket is open goes on in the next. A line that cannot be read has its error
// in its result, and the lines after it are worked out all the same.
func (h *Sheet) Block(ctx context.Context, text string, asOf int) []Answer {
	var list []Answer
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		first, line := i, lines[i]
		for lang.Unclosed(line) && i+1 < len(lines) && len(line) < lang.MaxSource {
			i++
			line += "\n" + lines[i]
		}
		if a, ok := h.Line(ctx, line, asOf); ok {
			a.Line = first + 1
			list = append(list, a)
		}
	}
	return list
}

// Line works out one statement as of an entry; false when there is none, but an
// empty line or a note. An error's span lies in the text.
func (h *Sheet) Line(ctx context.Context, text string, asOf int) (Answer, bool) {
	flat := strings.NewReplacer("\r", " ", "\n", " ").Replace(text)
	st, err := lang.ParseScratch(flat)
	if st == nil && err == nil {
		return Answer{}, false
	}
	h.s.enter()
	defer h.s.mu.Unlock()
	h.s.ctx = ctx
	defer func() { h.s.ctx = nil }()
	a := Answer{Source: flat, Text: strings.TrimSpace(flat), Kind: lang.Answer.Word()}
	if err != nil {
		a.Result = &Result{Err: err}
		return a, true
	}
	a.Text, a.Note, a.Kind, a.Sign = st.Text, st.Note, st.Kind.Word(), st.Sign
	if st.Expr != nil {
		a.System = st.Expr.System
	}
	if err := h.refuse(st); err != nil {
		a.Result = &Result{Err: err}
		return a, true
	}
	h.workOut(st, asOf, &a)
	return a, true
}

// workOut evaluates a statement and keeps what it gives.
func (h *Sheet) workOut(st *lang.Stmt, asOf int, a *Answer) {
	r := &statement{line: &Line{Text: st.Text, Stmt: st}, entry: &entry{Entry: Entry{Title: "this sheet"}, order: h.s.viewAt(asOf).upTo}}
	j := &jotting{node: lineNode(r)}
	r.node = j.node
	h.link(r) // before the view: an account that is first read here is among what hangs on a number tried
	v := h.view(asOf)
	j.result = v.evaluate(r)
	h.suggest(r, j.result)
	a.Result = j.result
	if st.Kind == lang.Check && st.Left != nil && j.result.OK() {
		side := func(i int) *Result {
			res := &Result{Reading: r}
			res.Value = (&evaluation{v: v, r: r, res: res}).run(i)
			return res
		}
		a.Left, a.Right = side(1), side(2)
	}
	if !j.result.OK() {
		return
	}
	if st.Kind.IsReading() || st.Kind == lang.PartLine {
		a.Name = st.Name
		if err := h.keep(st, j); err != nil {
			a.Result = &Result{Err: err}
			return
		}
		a.Tries = j.tries
	}
	h.last = j
}

// refuse reports why a statement cannot stand on a sheet, or nil.
func (h *Sheet) refuse(st *lang.Stmt) *calc.Error {
	whole := calc.Span{Start: 0, End: len(st.Text)}
	switch st.Kind {
	case lang.MadeLine, lang.Settle, lang.Work, lang.Spend, lang.Stock:
		return calc.Errorf(calc.CodeSyntax, "%s is a record; scratch paper keeps none", st.Kind.Word()).At(whole).
			WithHint("write the line into an entry of the journal")
	case lang.Chosen, lang.PartLine:
		if n, _ := h.s.resolve(st.Name); n != nil && n.name == st.Name && len(n.readings) > 0 && h.names[st.Name] == nil {
			e := calc.Errorf(calc.CodeTwice, "%s has a reading in the journal already", st.Name).At(st.NameSpan)
			if st.Kind == lang.PartLine {
				return e.WithHint("give this part another name")
			}
			return e.WithHint("to try another number on this sheet, write revise %s = …", st.Name)
		}
	case lang.Revised:
		if n, _ := h.s.resolve(st.Name); n == nil && h.names[st.Name] == nil {
			return h.s.unknown(lang.Need{Path: st.Name}).At(st.NameSpan)
		}
	}
	return nil
}

// keep enters a named value; a value of the journal must be one that has readings,
// and stay of its dimension.
func (h *Sheet) keep(st *lang.Stmt, j *jotting) *calc.Error {
	j.name, j.node.name = st.Name, st.Name
	if n, fields := h.s.resolve(st.Name); n != nil && len(fields) == 0 && !h.isOwn(st.Name) {
		n = n.bearer()
		if len(n.readings) == 0 {
			return calc.Errorf(calc.CodeTable, "%s is put together from others", st.Name).At(st.NameSpan).WithHint("try another number for one of its cells")
		}
		if err := h.s.fits(n, j.result.Value, st.Expr.Text); err != nil {
			err.Span = st.Expr.Span
			return err
		}
		j.tries = true
	}
	h.names[st.Name] = j
	return nil
}

func (h *Sheet) isOwn(name string) bool { j := h.names[name]; return j != nil && !j.tries }

// view is the journal as of an entry with the sheet's values laid over it.
func (h *Sheet) view(asOf int) *view {
	base := h.s.viewAt(asOf)
	v := &view{s: h.s, upTo: base.upTo, now: base.now, memo: map[*node]dated{}, busy: map[*node]bool{}, over: map[*node]*Result{}, base: base, hit: map[*node]bool{}}
	for _, j := range h.names {
		if !j.tries {
			v.over[j.node] = j.result
			continue
		}
		if n, fields := h.s.resolve(j.name); n != nil && len(fields) == 0 {
			n = n.bearer()
			v.over[n] = j.result
			v.mark(n)
		}
	}
	if h.last != nil {
		v.over[h.last.node] = h.last.result
	}
	return v
}

// link resolves the needs of a line: names of the sheet come first.
func (h *Sheet) link(r *statement) {
	s := h.s
	r.exprs, r.linked = r.line.Stmt.Exprs(), true
	for _, e := range r.exprs {
		for i := range e.Needs {
			need := &e.Needs[i]
			n, fields := h.read(need)
			r.links = append(r.links, link{need: need, node: n, fields: fields})
		}
	}
	if s.identify(r); r.sources != nil {
		h.spreads = append(h.spreads, r)
	}
}

func (h *Sheet) read(need *lang.Need) (*node, []string) {
	if need.Mode.OfLedger() {
		return h.s.read(need)
	}
	return h.resolve(need.Path)
}

func (h *Sheet) resolve(path string) (*node, []string) {
	word, rest, dotted := strings.Cut(path, ".")
	if word == "it" && h.last != nil {
		if dotted {
			return h.last.node, strings.Split(rest, ".")
		}
		return h.last.node, nil
	}
	for end := len(path); end > 0; end = strings.LastIndexByte(path[:end], '.') {
		if h.isOwn(path[:end]) {
			if end == len(path) {
				return h.names[path].node, nil
			}
			return h.names[path[:end]].node, strings.Split(path[end+1:], ".")
		}
	}
	return h.s.resolve(path)
}

// suggest betters the error of an unknown name by what the sheet knows.
func (h *Sheet) suggest(r *statement, res *Result) {
	if res.Err == nil || res.Err.Code != calc.CodeUnknownName {
		return
	}
	for _, l := range r.links {
		if l.node != nil {
			continue
		}
		e := *res.Err
		if word := family(l.need.Path); word == "it" {
			e.Message, e.Hint = "there is no answer before this one", "it is the answer before; inside map, filter and the like it is the element"
		} else if near := calc.Nearest(l.need.Path, h.ownNames()); near != "" {
			e.Hint = "did you mean " + near + "?"
		} else if known := h.s.helped(res); known.Err != res.Err {
			e = *known.Err
		}
		res.Err = &e
		return
	}
}

// Clear makes the sheet empty.
func (h *Sheet) Clear() {
	h.s.enter()
	defer h.s.mu.Unlock()
	for _, r := range h.spreads {
		h.s.forget(r)
	}
	h.names, h.last, h.spreads = map[string]*jotting{}, nil, nil
}

// Names lists the names that the sheet gives, sorted.
func (h *Sheet) Names() []string {
	h.s.enter()
	defer h.s.mu.Unlock()
	return h.ownNames()
}

func (h *Sheet) ownNames() []string {
	list := make([]string, 0, len(h.names))
	for name := range h.names {
		list = append(list, name)
	}
	sort.Strings(list)
	return list
}

// Value is a value that the sheet gives or tries; false when it has none of the name.
func (h *Sheet) Value(name string) (*Result, bool) {
	h.s.enter()
	defer h.s.mu.Unlock()
	j := h.names[name]
	if j == nil {
		return nil, false
	}
	return j.result, true
}
