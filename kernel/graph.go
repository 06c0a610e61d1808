package kernel

import (
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// statement is a line in the graph: a reading of a name, or a line without one.
type statement struct {
	line   *Line
	entry  *entry
	index  int // in its entry
	node   *node
	links  []link // one for each need of each expression, in order
	exprs  []*lang.Expr
	linked bool
	// refused is set when the statement gives no reading: a bare second naming, a
	// revision of nothing.
	refused *calc.Error
	sources [][]int32 // identities of the ± it writes, by expression; nil when it writes none
	record  *record   // of a made or settle line, the sizes that it was last known to record
}

// before orders statements by entry, then by position.
func (r *statement) before(o *statement) bool {
	if r.entry != o.entry {
		return r.entry.order < o.entry.order
	}
	return r.index < o.index
}

// later returns the later of two statements; nil is before all.
func later(a, b *statement) *statement {
	switch {
	case a == nil:
		return b
	case b == nil || a == unkeyed:
		return a
	case b == unkeyed || a.before(b):
		return b
	}
	return a
}

// unkeyed is the newest reading of a value that depends on more than the readings
// up to an entry (found(x), x as of entry 3): it is later than all, and a result is
// never kept under it.
var unkeyed = &statement{}

func (r *statement) kind() lang.Kind {
	if r.line.Stmt == nil {
		return lang.Answer
	}
	return r.line.Stmt.Kind
}

// link is a need resolved: the node it reads and the fields to take from it.
type link struct {
	need   *lang.Need
	node   *node // nil when nothing bears the name
	fields []string
}

// asItStands is the need of a value that no statement names.
var asItStands = &lang.Need{}

// node is a value of the graph.
type node struct {
	name     string       // "" for a line without a name
	readings []*statement // oldest first; of a nameless line, the one statement
	// succession is how they follow one another, nil before it is asked for.
	succession *succession
	// parts are the nodes a row, column or table is put together from, under labels.
	parts  []*node
	labels []string
	record bool // a table: its parts are fields
	// account is that of whose lines, in order, the node is put together.
	account *account
	// clash is set when the name is both a row and a column of its table.
	clash *calc.Error
	// stray is set when the name would be a cell's, but its table has no such row or column.
	stray *calc.Error

	users []*node // nodes that read this one, each as often as it reads it
	// Most values have one reading and few users, for whom there is room here.
	oneReading [1]*statement
	twoUsers   [2]*node
	// owner is the part of whose sizes the name would be one; it has this node among its users.
	owner  *node
	handed *handed // from made and settle lines that read it, in the update that took them out

	// The value as the journal stands now.
	result *Result
	newest *statement // the newest reading that bears on it
	winner *statement
	moved  int64 // the update in which the value last changed
	turn   int64 // the order of entries for which newest holds

	// past keeps results as of earlier entries, by the newest reading that bears on them.
	past     map[*statement]*Result
	pastTurn int64 // the order of entries for which past holds

	stale bool    // marked in the update that runs
	busy  bool    // on the way in the view of the journal as it stands
	prev  *Result // the result before it
	fresh bool    // its own statements changed
}

func (n *node) nameless() bool { return n.name == "" }

// bearer is the node that has the readings: for a cell's other name, the cell.
func (n *node) bearer() *node {
	if n.parts != nil && n.labels == nil && len(n.readings) == 0 && len(n.parts) == 1 {
		return n.parts[0]
	}
	return n
}

// lineNode is the node of a line without a name.
func lineNode(r *statement) *node {
	n := &node{}
	n.oneReading[0] = r
	n.readings = n.oneReading[:]
	return n
}

func (n *node) addUser(u *node) {
	if n.users == nil {
		n.users = n.twoUsers[:0]
	}
	n.users = append(n.users, u)
}

// removeUser takes one out of the users; the last that came is found first.
func (n *node) removeUser(u *node) {
	last := len(n.users) - 1
	for i := last; i >= 0; i-- {
		if n.users[i] == u {
			n.users[i] = n.users[last]
			n.users = n.users[:last]
			return
		}
	}
}

// addReading puts r in its place among the readings.
func (n *node) addReading(r *statement) {
	i := r.place(n.readings)
	if n.readings == nil {
		n.readings = n.oneReading[:0]
	}
	n.readings = append(n.readings, nil)
	copy(n.readings[i+1:], n.readings[i:])
	n.readings[i] = r
	n.succession = nil
}

// secondInEntry reports whether a reading of the same name and kind stands before this
// one in its entry.
func (r *statement) secondInEntry() bool {
	list := r.node.readings
	for i := r.place(list) - 1; i >= 0 && list[i].entry == r.entry; i-- {
		if list[i].kind() == r.kind() && !list[i].line.Empty {
			return true
		}
	}
	return false
}

func (n *node) removeReading(r *statement) {
	for i, x := range n.readings {
		if x == r {
			n.readings = append(n.readings[:i], n.readings[i+1:]...)
			n.succession = nil
			return
		}
	}
}

// judge decides which statements give readings: a value is named once without a
// word of its kind, only what exists can be revised, and what revises it is like it.
func (n *node) judge() {
	var first *statement
	var was calc.Value // the first constant among the readings
	constants := false
	named := false // by a word that is no guess
	var part *statement
	for _, r := range n.readings {
		r.refused = nil
		if r.refused = n.refusedByPart(r, part); r.refused != nil {
			continue
		}
		if n.stray != nil {
			e := *n.stray
			r.refused = e.At(r.line.Stmt.NameSpan)
			continue
		}
		switch k := r.kind(); k {
		case lang.Chosen, lang.PartLine:
			if named && !r.line.Empty {
				r.refused = calc.Errorf(calc.CodeTwice, "%s has a reading already", n.name).
					WithHint("to change it, write revise %s = …; to say where a number comes from, drawn, found or built", n.name).
					At(r.line.Stmt.NameSpan)
				if k == lang.PartLine {
					r.refused.Hint = "a part has one line; change that, or give this one another name"
				}
				continue
			}
		case lang.Revised:
			if first == nil {
				r.refused = calc.Errorf(calc.CodeNoReading, "%s has no reading yet that could be revised", n.name).
					WithHint("write %s = … for the first one", n.name).At(r.line.Stmt.NameSpan)
				if n.clash != nil {
					r.refused.Hint = "a table is revised cell by cell: revise offsets.half.st_3 = …"
				}
				continue
			}
		}
		if x, ok := n.constantAmong(r); ok {
			if !constants {
				was, constants = x, true
			} else if e := unlike(n.name, was, x); e != nil {
				r.refused = e.At(r.line.Stmt.Expr.Span)
				continue
			}
		}
		if first == nil {
			first = r
		}
		if r.kind() == lang.PartLine {
			part = r
		}
		named = named || r.kind() != lang.Guessed
	}
	n.succession = nil
	for _, x := range n.users {
		if x.owner == n { // its readings are refused or not by what the part line says
			x.judge()
			x.fresh = true
		}
	}
}

// latest returns the latest reading of one kind.
func (n *node) latest(kind lang.Kind, upTo int) *statement {
	for i := len(n.readings) - 1; i >= 0; i-- {
		r := n.readings[i]
		if r.entry.order <= upTo && r.refused == nil && r.kind() == kind {
			return r
		}
	}
	return nil
}

// link resolves the needs of a statement and enters it as a user of what it reads.
func (s *Session) link(r *statement) {
	r.exprs, r.linked = nil, true
	r.links = r.links[:0]
	if r.line.Stmt == nil {
		return
	}
	r.exprs = r.line.Stmt.Exprs()
	needs := 0
	for _, e := range r.exprs {
		needs += len(e.Needs)
	}
	if cap(r.links) < needs {
		r.links = make([]link, 0, needs)
	}
	for _, e := range r.exprs {
		for i := range e.Needs {
			need := &e.Needs[i]
			n, fields := s.read(need)
			r.links = append(r.links, link{need: need, node: n, fields: fields})
			if n != nil {
				n.addUser(r.node)
			}
			s.watch(need.Path, r)
		}
	}
	switch r.line.Stmt.Kind {
	case lang.MadeLine, lang.Settle:
		// a made line reads its part, whose sizes it freezes
		if n, f := s.resolve(r.line.Stmt.Name); n != nil {
			r.links = append(r.links, link{need: &lang.Need{Path: r.line.Stmt.Name, Span: r.line.Stmt.NameSpan}, node: n, fields: f})
			n.addUser(r.node)
		}
		s.watch(r.line.Stmt.Name, r)
		s.takeOver(r)
	}
	s.own(r)
	s.identify(r)
}

// identify gives each ± that a statement writes an identity, which it keeps.
func (s *Session) identify(r *statement) {
	if r.sources != nil {
		return
	}
	for k, e := range r.exprs {
		if e.Spreads == 0 {
			continue
		}
		if r.sources == nil {
			r.sources = make([][]int32, len(r.exprs))
		}
		ids := make([]int32, e.Spreads)
		for i := range ids {
			s.lastSource++
			ids[i] = s.lastSource
			s.sources[ids[i]] = r
		}
		r.sources[k] = ids
	}
}

// forget takes the identities of its ± back from a statement.
func (s *Session) forget(r *statement) {
	for _, ids := range r.sources {
		for _, id := range ids {
			delete(s.sources, id)
		}
	}
}

// unlink forgets what a statement reads; d is nil for one that leaves alone.
func (s *Session) unlink(r *statement, d *departures) {
	s.handOver(r)
	r.linked = false
	for _, l := range r.links {
		if l.node != nil {
			d.leave(l.node, r.node)
		}
		d.unwatch(s, l.need.Path, r)
	}
	if st := r.line.Stmt; st != nil && (st.Kind == lang.MadeLine || st.Kind == lang.Settle) {
		d.unwatch(s, st.Name, r)
	}
	r.links = r.links[:0]
}

// read finds the node that a need reads, and the fields to take from it.
func (s *Session) read(need *lang.Need) (*node, []string) {
	if need.Mode.OfLedger() {
		return s.account(need), nil
	}
	return s.resolve(need.Path)
}

// resolve finds the node that the longest part of a path names, and the fields
// that follow. A cell may be named row first or column first.
func (s *Session) resolve(path string) (*node, []string) {
	if n, ok := s.nodes[path]; ok {
		return n, nil
	}
	for end := len(path); ; {
		i := strings.LastIndexByte(path[:end], '.')
		if i < 0 {
			return nil, nil
		}
		if n, ok := s.nodes[path[:i]]; ok {
			return n, strings.Split(path[i+1:], ".")
		}
		end = i
	}
}

// family is the first word of a dotted name.
func family(path string) string {
	if i := strings.IndexByte(path, '.'); i >= 0 {
		return path[:i]
	}
	return path
}

// watch remembers that a statement speaks of a family of names, so that it is
// linked anew when a name of the family comes or goes.
func (s *Session) watch(path string, r *statement) {
	f := family(path)
	list := s.watchers[f]
	if n := len(list); n > 0 && list[n-1] == r {
		return // it speaks of the family more than once
	}
	s.watchers[f] = append(list, r)
}

// unwatch takes a statement from those that speak of a family; the last that came is
// found first.
func (s *Session) unwatch(family string, r *statement) {
	list := s.watchers[family]
	last := len(list) - 1
	for i := last; i >= 0; i-- {
		if list[i] == r {
			list[i] = list[last]
			list[last] = nil
			s.watchers[family] = list[:last]
			return
		}
	}
}
