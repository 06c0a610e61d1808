package kernel

import (
	"context"
	"slices"
	"sort"
	"sync"

	"scarph/calc"
	"scarph/calc/lang"
)

// Session is the evaluating kernel of one journal. Its methods may be called by
// several goroutines; each call sees the journal between two updates.
type Session struct {
	mu       sync.Mutex
	style    calc.Style
	onDemand bool // values are worked out when they are asked for

	entries  []*entry
	byKey    map[string]*entry
	nodes    map[string]*node // the named ones
	tables   map[string]*table
	watchers map[string][]*statement           // by family of names
	kinds    map[lang.Kind]map[*statement]bool // statements by kind, of those that lists are made of

	accounts map[account]*node // of the ledger, those that are read
	things   map[string]int    // how many lines "made x to …" there are of a name

	sources    map[int32]*statement // which statement wrote a ±
	lastSource int32

	epoch int64 // counts updates
	// meant keeps the names that mistyped ones were likely meant to be, in the epoch meantIn.
	meant   map[string]string
	meantIn int64
	slips   slips
	turn    int64 // counts changes of the entries' order
	views   map[int]*view
	// chronicles are those of the things made; nil before one is asked for.
	chronicles map[string]*chronicle
	// stopped are the nodes that an interrupted update left without a value.
	stopped []*node
	ctx     context.Context // of the evaluation that runs
	frames  []*lang.Frame   // that no evaluation is using
	way     []pending       // the nodes on the way to a result, and
	needed  []*node         // what each of them reads
	limits  limits          // of what is worked out while it is read

	work Work
	subs map[int]func(Ripple)
	next int
}

// Work counts what a session has done, for tests and for the curious.
type Work struct {
	Evaluated int // statements worked out
	Kept      int // statements looked at and found to hang on nothing that moved
	Linked    int // statements linked to what they read
}

// entry is an Entry in the session.
type entry struct {
	Entry
	order int
	stmts []*statement
	seen  int64 // the last update that had it
	made  int64 // the update that brought it
}

// New returns a session without entries.
func New(style calc.Style) *Session {
	return &Session{
		style: style, byKey: map[string]*entry{}, nodes: map[string]*node{}, tables: map[string]*table{},
		watchers: map[string][]*statement{}, kinds: map[lang.Kind]map[*statement]bool{}, accounts: map[account]*node{}, things: map[string]int{}, sources: map[int32]*statement{}, views: map[int]*view{}, subs: map[int]func(Ripple){}, limits: limits{most: MaxWork},
	}
}

// NewOnDemand returns a session that works a value out when it is first asked for, so
// that opening a journal costs no more than linking it: for a reader who looks at one
// page. Its updates tell of no ripple, and cannot be interrupted.
func NewOnDemand(style calc.Style) *Session {
	s := New(style)
	s.onDemand = true
	return s
}

// Style is how the journal shows its quantities.
func (s *Session) Style() calc.Style {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.style
}

// SetStyle changes how the journal shows its quantities; no value changes.
func (s *Session) SetStyle(style calc.Style) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.style = style
}

// Work returns the counts since the session was made.
func (s *Session) Work() Work {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.work
}

// Subscribe calls f with every ripple that moves something, after the update; the
// returned function ends it. f must not call the session.
func (s *Session) Subscribe(f func(Ripple)) (cancel func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.next
	s.next++
	s.subs[id] = f
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.subs, id)
	}
}

// Update makes the journal what the entries say, in their order, and returns what
// that moved. Entries with the same key and lines cost nothing. When ctx is cancelled,
// statements not yet worked out carry the error interrupted until the next update.
func (s *Session) Update(ctx context.Context, entries []Entry) Ripple {
	s.mu.Lock()
	u := &update{s: s}
	s.ctx = ctx
	s.epoch++
	if s.limits.cut {
		s.dropPast()
	}
	for _, n := range s.stopped {
		u.touch(n)
	}
	s.stopped = nil
	u.take(entries)
	u.balance()
	u.relink()
	u.markUsers()
	if s.onDemand {
		u.putOff()
		s.ctx = nil
		s.mu.Unlock()
		return Ripple{}
	}
	u.evaluate()
	ripple := u.ripple()
	s.ctx = nil
	subs := make([]func(Ripple), 0, len(s.subs))
	for _, f := range s.subs {
		subs = append(subs, f)
	}
	s.mu.Unlock()
	if !ripple.Empty() {
		for _, f := range subs {
			f(ripple)
		}
	}
	return ripple
}

// update is one run of Update.
type update struct {
	s       *Session
	dirty   []*node // nodes whose own statements changed
	order   []*node // dirty and all that hangs on them, in the order they were met
	names   map[string]bool
	tables  bool
	ledger  bool           // a line of it has come or gone
	struck  map[*node]bool // its lines that have gone from an account
	days    bool           // entries have come, gone, or another place or day
	all     bool           // the entries have changed places: look at every node
	removed []gone
	leaving departures
}

// gone is a name that the update took away.
type gone struct {
	name   string
	result *Result
}

func (u *update) touch(n *node) {
	if !n.fresh {
		n.fresh = true
		u.dirty = append(u.dirty, n)
	}
}

// changedName notes that a name has come or gone.
func (u *update) changedName(name string) {
	if u.names == nil {
		u.names = map[string]bool{}
	}
	u.names[family(name)] = true
	u.s.slips = slips{}
}

// take compares the entries with those of the session, statement by statement.
func (u *update) take(entries []Entry) {
	touched, placed := u.s.touched(entries)
	if !placed {
		u.place(entries)
		for i, e := range u.s.entries {
			if !e.untouched(&entries[i]) {
				touched = append(touched, i)
			}
		}
	}
	for _, i := range touched {
		e := u.s.entries[i]
		if e.Date != entries[i].Date {
			u.days = true
		}
		u.takeEntry(e, entries[i])
	}
}

// touched lists the entries that are not the very ones that the session has; false when
// they are others, or stand in another order. All entries are looked at in each update,
// but a second time only in one that changes their order.
func (s *Session) touched(entries []Entry) (list []int, placed bool) {
	if len(entries) != len(s.entries) {
		return nil, false
	}
	for i, e := range s.entries {
		if e.untouched(&entries[i]) {
			continue
		}
		if e.Key != entries[i].Key {
			return nil, false
		}
		list = append(list, i)
	}
	return list, true
}

// untouched reports whether an entry is the very one that the session has.
func (e *entry) untouched(now *Entry) bool {
	a, b := &e.Entry, now
	return len(a.Lines) == len(b.Lines) && len(e.stmts) == len(b.Lines) && len(b.Lines) > 0 && &a.Lines[0] == &b.Lines[0] &&
		len(a.Tables) == len(b.Tables) && (len(b.Tables) == 0 || &a.Tables[0] == &b.Tables[0]) &&
		a.Key == b.Key && a.Title == b.Title && a.Date == b.Date && a.Draft == b.Draft
}

// place makes the session's list of entries that which is given: some come, some go,
// some change places.
func (u *update) place(entries []Entry) {
	s := u.s
	list := make([]*entry, len(entries))
	known := 0
	for i := range entries {
		e := s.byKey[entries[i].Key]
		if e == nil {
			e = &entry{order: i, made: s.epoch}
			s.byKey[entries[i].Key] = e
		} else {
			known++
		}
		e.seen = s.epoch
		list[i] = e
	}
	if known < len(s.entries) {
		for _, e := range s.entries {
			if e.seen == s.epoch {
				continue
			}
			for _, r := range e.stmts {
				u.drop(r)
			}
			if len(e.Tables) > 0 {
				u.tables = true
			}
			delete(s.byKey, e.Key)
		}
	}
	u.reorder(list)
	u.days = true
	s.entries = list
}

// reorder gives the entries their new order. When entries have changed places
// among themselves, readings are sorted again and every node is looked at; an
// entry that comes or goes between others leaves what is kept in force.
func (u *update) reorder(list []*entry) {
	s := u.s
	last, swapped := -1, false
	for _, e := range list {
		if e.made != s.epoch {
			swapped = swapped || e.order < last
			last = e.order
		}
	}
	for i, e := range list {
		e.order = i
		for _, r := range e.stmts {
			if u.hangsOnPlace(r) {
				u.touch(r.node)
			}
		}
	}
	if !swapped {
		return
	}
	s.turn++
	u.all, u.tables = true, true // rows and columns stand in the order of the entries
	for _, n := range s.nodes {
		before := func(i, j int) bool { return n.readings[i].before(n.readings[j]) }
		if !sort.SliceIsSorted(n.readings, before) {
			sort.SliceStable(n.readings, before)
			n.succession = nil
			u.touch(n)
		}
	}
}

// hangsOnPlace reports whether the result of a statement may be another when entries come
// or go: it names an entry or a day, or is in a circle, or waits for one, that is closed
// while the entry is the last.
func (u *update) hangsOnPlace(r *statement) bool {
	res := r.node.result
	if res != nil && res.Err != nil && res.Err.Code == calc.CodeCircle {
		return true
	}
	for _, l := range r.links {
		switch l.need.Mode {
		case lang.AsOfEntry, lang.AsOfDate:
			return true
		case lang.Then:
			if res != nil && !res.OK() {
				return true
			}
		}
	}
	return false
}

func (u *update) takeEntry(e *entry, now Entry) {
	if !sameTables(e.Tables, now.Tables) {
		u.tables = true
	}
	old := e.stmts
	a, b := e.Lines, now.Lines
	if len(a) == len(b) && len(old) == len(b) && (len(b) == 0 || &a[0] == &b[0]) {
		e.Entry = now // the very same lines
		return
	}
	p := 0
	for p < len(old) && p < len(b) && sameLine(&a[p], &b[p]) {
		p++
	}
	q := 0
	for q < len(old)-p && q < len(b)-p && sameLine(&a[len(old)-1-q], &b[len(b)-1-q]) {
		q++
	}
	e.Entry = now
	if p == len(old) && p == len(b) {
		for i := range b { // places may have moved
			old[i].line = &e.Lines[i]
		}
		return
	}
	for _, r := range old[p : len(old)-q] {
		u.drop(r)
	}
	stmts := make([]*statement, 0, len(b))
	stmts = append(stmts, old[:p]...)
	fresh := make([]statement, len(b)-q-p)
	for i := range fresh {
		fresh[i].entry = e
		stmts = append(stmts, &fresh[i])
	}
	stmts = append(stmts, old[len(old)-q:]...)
	for i, r := range stmts {
		r.line, r.index = &e.Lines[i], i
	}
	e.stmts = stmts
	for i := p; i < len(b)-q; i++ {
		u.add(stmts[i])
	}
}

// drop takes a statement out of the graph.
func (u *update) drop(r *statement) {
	n := r.node
	u.s.unlink(r, &u.leaving)
	u.strike(r)
	u.noteThing(r, -1)
	delete(u.s.kinds[r.kind()], r)
	u.s.forget(r)
	n.removeReading(r)
	if n.nameless() {
		n.fresh = false
		n.readings = nil
		n.result = nil
		return
	}
	u.touch(n)
}

// add puts a statement into the graph, linked later when all names are known.
func (u *update) add(r *statement) {
	s := u.s
	st := r.line.Stmt
	if st != nil && isListed(st.Kind) {
		if s.kinds[st.Kind] == nil {
			s.kinds[st.Kind] = map[*statement]bool{}
		}
		s.kinds[st.Kind][r] = true
	}
	if st != nil && (st.Kind.IsReading() || st.Kind == lang.PartLine) {
		name := s.cellName(st.Name)
		n := s.nodes[name]
		if n == nil {
			n = &node{name: name}
			s.nodes[name] = n
			u.changedName(name)
			if r.line.Cell {
				u.tables = true
			}
		} else if n.parts != nil {
			u.tables = true
		}
		r.node = n
		n.addReading(r)
		u.touch(n)
	} else {
		r.node = lineNode(r)
		u.touch(r.node)
		u.post(r)
		u.noteThing(r, 1)
	}
}

// isListed reports whether lists are made of the statements of a kind.
func isListed(k lang.Kind) bool { return k > lang.Answer }

// relink links what is new, and what speaks of names that have come or gone.
func (u *update) relink() {
	s := u.s
	s.depart(&u.leaving)
	for name, n := range s.nodesOf(u.dirty) {
		if len(n.readings) == 0 && n.parts == nil {
			u.removed = append(u.removed, gone{name, n.result})
			delete(s.nodes, name)
			u.changedName(name)
		}
	}
	if u.tables || u.touchesTable() {
		u.rebuildTables()
	}
	for f := range u.names {
		for _, r := range slices.Clone(s.watchers[f]) {
			if r.linked {
				s.unlink(r, &u.leaving)
				u.touch(r.node)
			}
		}
	}
	s.depart(&u.leaving)
	for i := 0; i < len(u.dirty); i++ {
		for _, r := range u.dirty[i].readings {
			if !r.linked {
				s.link(r)
				s.work.Linked++
			}
		}
	}
}

func (s *Session) nodesOf(list []*node) map[string]*node {
	m := make(map[string]*node, len(list))
	for _, n := range list {
		if !n.nameless() {
			m[n.name] = n
		}
	}
	return m
}

// markUsers marks the changed nodes and all that hangs on them.
func (u *update) markUsers() {
	for _, n := range u.dirty {
		if n.nameless() || n.parts == nil {
			n.judge()
		}
		u.mark(n)
	}
	if u.all {
		for _, n := range u.s.nodes {
			u.mark(n)
		}
		for _, e := range u.s.entries {
			for _, r := range e.stmts {
				u.mark(r.node)
			}
		}
	}
	for i := 0; i < len(u.order); i++ {
		for _, user := range u.order[i].users {
			u.mark(user)
		}
	}
}

func (u *update) mark(n *node) {
	if n.stale {
		return
	}
	u.order = append(u.order, n)
	n.stale, n.prev, n.result, n.past = true, n.result, nil, nil
}

// noteStopped remembers a node that was interrupted, for the next update.
func (s *Session) noteStopped(n *node) {
	if r := n.result; r != nil && r.Err != nil && r.Err.Code == calc.CodeInterrupted {
		s.stopped = append(s.stopped, n)
	}
}

// beginDays drops what was worked out of earlier days and of things made.
func (s *Session) beginDays() {
	s.views, s.chronicles = map[int]*view{}, nil
}

// putOff leaves the marked nodes to those who will ask for them.
func (u *update) putOff() {
	u.s.beginDays()
	for _, n := range u.order {
		n.stale, n.fresh, n.prev = false, false, nil
	}
}

// evaluate works out the marked nodes, in the order of what hangs on what.
func (u *update) evaluate() {
	s := u.s
	s.beginDays()
	v := s.now()
	for _, n := range u.order {
		if len(n.readings) > 0 || n.parts != nil {
			v.result(n)
		}
	}
	for _, n := range u.order {
		n.stale, n.fresh = false, false
		s.noteStopped(n)
	}
}
