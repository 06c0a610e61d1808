package kernel

import (
	"math"
	"sort"
	"strconv"

	"scarph/calc"
	"scarph/calc/lang"
)

// Reading is one statement that gave a value its number.
type Reading struct {
	Kind   string
	Entry  EntryRef
	Place  Place
	Text   string // as written, without the note
	Note   string
	Result *Result
	Counts bool // the one that counts
	Ref    LineRef
	// Until is the entry in which another took its place, nil while it counts or
	// when it never did.
	Until *EntryRef
	Cell  bool
}

// History is a value with all its readings, oldest first.
type History struct {
	Name     string
	Kind     string
	Result   *Result
	Readings []Reading
}

func (s *Session) readingOf(r *statement, v *view) *Reading {
	z := &Reading{Kind: r.kind().Word(), Entry: r.entry.ref(), Place: r.line.Place, Text: r.line.Text, Result: s.lineResult(r, v), Ref: LineRef{r.entry.Key, r.index}, Cell: r.line.Cell}
	if isDerived(r) && r.kind() == lang.Chosen {
		z.Kind = "derived"
	}
	if st := r.line.Stmt; st != nil {
		z.Text, z.Note = st.Text, st.Note
	}
	return z
}

// readingUntil is a reading with the entry in which another took its place.
func (s *Session) readingUntil(n *node, r *statement, v *view) *Reading {
	z := s.readingOf(r, v)
	z.Until = s.until(n, r, v)
	return z
}

// History returns the readings of a name as of an entry; false when nothing bears it.
func (s *Session) History(name string, asOf int) (History, bool) {
	s.enter()
	defer s.mu.Unlock()
	n, fields := s.resolve(name)
	if n == nil || len(fields) > 0 {
		return History{}, false
	}
	return s.history(n, s.viewAt(asOf)), true
}

func (s *Session) history(n *node, v *view) History {
	if n.labels == nil && len(n.readings) == 0 && len(n.parts) == 1 {
		n = n.parts[0]
	}
	h := History{Name: n.name, Kind: s.kindOf(n, v), Result: v.result(n).Result}
	w := v.winner(n)
	for _, r := range n.readings {
		if r.entry.order > v.upTo {
			break
		}
		z := s.readingOf(r, v)
		z.Counts = r == w
		if r != w && r.refused == nil {
			z.Until = s.until(n, r, v)
		}
		h.Readings = append(h.Readings, *z)
	}
	return h
}

// until is the entry of the reading that took the place of r, when r counted.
func (s *Session) until(n *node, r *statement, v *view) *EntryRef {
	x := n.successor(r, v)
	if x == nil {
		return nil
	}
	ref := x.entry.ref()
	return &ref
}

// Histories lists the values that have had more than one reading, in the journal's order.
func (s *Session) Histories(asOf int) []History {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var list []History
	for _, n := range s.inOrder(func(n *node) bool { return len(n.readings) > 1 }) {
		if h := s.history(n, v); len(h.Readings) > 1 {
			list = append(list, h)
		}
	}
	return list
}

// inOrder lists named nodes in the journal's order.
func (s *Session) inOrder(want func(*node) bool) []*node {
	var list []*node
	for _, n := range s.nodes {
		if want(n) {
			list = append(list, n)
		}
	}
	sort.Slice(list, func(i, j int) bool { return nodeBefore(list[i], list[j]) })
	return list
}

func (s *Session) kindOf(n *node, v *view) string {
	if len(n.readings) == 0 {
		return "table"
	}
	w := v.winner(n)
	if w == nil {
		return ""
	}
	if isDerived(w) {
		return "derived"
	}
	return w.kind().Word()
}

// Dimension is a named value for the table of dimensions.
type Dimension struct {
	Name   string
	Kind   string
	Result *Result
	Place  Place
	Entry  EntryRef
	Note   string
	Cell   bool // a cell of a data table
	Row    bool // a row of a data table
	Part   bool
	// Sum is, when a reading has displaced a derived value, what the sum would give.
	Sum *Result
	// Readings counts them.
	Readings int
	Private  bool
}

// Dimensions lists the named values as of an entry: values in the journal's order,
// rows of tables, then cells.
func (s *Session) Dimensions(asOf int) []Dimension {
	s.enter()
	defer s.mu.Unlock()
	v := s.viewAt(asOf)
	var list, cells []Dimension
	for _, n := range s.inOrder(func(n *node) bool { return len(n.readings) > 0 }) {
		w := v.winner(n)
		if w == nil {
			continue
		}
		d := Dimension{Name: n.name, Kind: s.kindOf(n, v), Result: v.result(n).Result, Place: w.line.Place, Entry: w.entry.ref(), Cell: s.isCellName(n.name), Part: w.kind() == lang.PartLine, Private: w.line.Private}
		if w.line.Stmt != nil {
			d.Note = w.line.Stmt.Note
		}
		for _, r := range n.readings {
			if r.entry.order <= v.upTo {
				d.Readings++
				if r != w && isDerived(r) && r.refused == nil && !isDerived(w) {
					d.Sum = v.evaluate(r)
				}
			}
		}
		if d.Cell {
			cells = append(cells, d)
		} else {
			list = append(list, d)
		}
	}
	for _, t := range s.tablesInOrder() {
		for _, row := range t.rows {
			if n := s.nodes[t.name+"."+row]; n != nil && len(n.readings) == 0 && v.given(n) {
				list = append(list, Dimension{Name: n.name, Kind: "table", Result: v.result(n).Result, Place: s.placeOf(n), Row: true})
			}
		}
	}
	return append(list, cells...)
}

// given reports whether a cell of a row has a reading up to the view's entry.
func (v *view) given(n *node) bool {
	for _, p := range n.parts {
		if v.winner(p) != nil {
			return true
		}
	}
	return false
}

func (s *Session) placeOf(n *node) Place {
	for _, p := range n.parts {
		if len(p.readings) > 0 {
			return p.readings[0].line.Place
		}
	}
	return Place{}
}

func (s *Session) tablesInOrder() []*table {
	var list []*table
	seen := map[string]bool{}
	for _, e := range s.entries {
		for _, d := range e.Tables {
			if !seen[d.Name] {
				seen[d.Name] = true
				list = append(list, s.tables[d.Name])
			}
		}
	}
	return list
}

// Cause is a reading that a ± comes from, and how much of it.
type Cause struct {
	Name    string
	Reading Reading
	Part    calc.Value // its contribution, with sign
}

// Why lists where the ± of a value comes from, the largest part first.
func (s *Session) Why(r *Result) []Cause {
	s.enter()
	defer s.mu.Unlock()
	return s.why(r)
}

func (s *Session) why(r *Result) []Cause {
	if r == nil || !r.OK() {
		return nil
	}
	var list []Cause
	for _, t := range r.Value.Terms() {
		from := s.sources[t.Source]
		if from == nil {
			continue
		}
		name := from.node.name
		if name == "" {
			name = "this line"
		}
		list = append(list, Cause{Name: name, Reading: *s.readingOf(from, s.now()), Part: calc.Of(t.S, r.Value.D)})
	}
	sort.SliceStable(list, func(i, j int) bool { return math.Abs(list[i].Part.V) > math.Abs(list[j].Part.V) })
	return list
}

// whyResult is why(x) as a value: a list of contributions under the names of the
// readings they come from.
func (s *Session) whyResult(r *Result) *Result {
	if !r.OK() {
		return r
	}
	var labels []string
	var items []calc.Value
	add := func(x *Result, before string) {
		for _, c := range s.why(x) {
			labels = append(labels, before+c.Name)
			items = append(items, calc.Of(math.Abs(c.Part.V), c.Part.D))
		}
	}
	if list := r.Value.Items(); len(list) > 0 {
		for i, x := range list {
			of := "element " + strconv.Itoa(i+1)
			if names := r.Value.Labels(); names != nil {
				of = names[i]
			}
			add(&Result{Value: x}, of+" from ")
		}
	} else {
		add(r, "")
	}
	return &Result{Value: calc.Labelled(labels, items), Cautions: r.Cautions}
}
