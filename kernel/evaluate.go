package kernel

import (
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/lang"
)

// view is the journal as of one entry: only readings up to it count. The view of
// the last entry is the journal as it stands, whose results the nodes keep.
type view struct {
	s    *Session
	upTo int // entry order
	now  bool
	memo map[*node]dated
	busy map[*node]bool // on the way, where the nodes themselves do not say so
	// over displaces the readings of some nodes, and base is what is not touched by
	// that: a what-if.
	over map[*node]*Result
	base *view
	hit  map[*node]bool // what hangs on the displaced nodes
	// spent is set when working it out took too long.
	spent bool
}

// dated is a result with the newest reading that bears on it.
type dated struct {
	*Result
	newest *statement
}

// now is the journal as it stands.
func (s *Session) now() *view {
	return s.viewAt(len(s.entries) - 1)
}

// viewAt is the journal as of the entry with the given order.
func (s *Session) viewAt(order int) *view {
	last := len(s.entries) - 1
	if order > last {
		order = last
	}
	v := s.views[order]
	if v == nil {
		v = &view{s: s, upTo: order, now: order == last, memo: map[*node]dated{}, busy: map[*node]bool{}}
		s.views[order] = v
	}
	return v
}

func (v *view) get(n *node) (dated, bool) {
	if v.over != nil {
		if r, ok := v.over[n]; ok {
			return dated{r, nil}, true
		}
		if !v.hit[n] {
			return v.base.result(n), true
		}
	} else if v.now {
		if n.result != nil {
			return dated{n.result, n.newest}, true
		}
		return dated{}, false
	}
	d, ok := v.memo[n]
	return d, ok
}

func (v *view) set(n *node, d dated) {
	if v.over == nil && v.now {
		n.result, n.newest, n.turn = d.Result, d.newest, v.s.turn
		return
	}
	v.memo[n] = d
}

// pending is a node on the way: what it reads stands from next to end among the
// session's needed nodes, and what stands before next has been seen to.
type pending struct {
	n         *node
	first     int
	next, end int
}

// await puts a node on the way.
func (v *view) await(n *node) {
	s := v.s
	p := pending{n: n, first: len(s.needed), next: len(s.needed)}
	s.needed = v.deps(n, s.needed)
	p.end = len(s.needed)
	s.way = append(s.way, p)
	v.setBusy(n, true)
}

// arrived takes the last node off the way.
func (v *view) arrived() {
	s := v.s
	last := s.way[len(s.way)-1]
	v.setBusy(last.n, false)
	clear(s.needed[last.first:])
	s.needed = s.needed[:last.first]
	s.way = s.way[:len(s.way)-1]
}

// result works out a node and all it hangs on, without recursion, so that a chain
// of any length fits the stack.
func (v *view) result(n *node) dated {
	if d, ok := v.get(n); ok {
		return d
	}
	if v.isBusy(n) {
		return dated{v.circle([]*node{n}), unkeyed}
	}
	s := v.s
	start := len(s.way) // to work a statement out may lead here again
	for v.await(n); len(s.way) > start; {
		top := &s.way[len(s.way)-1]
		if _, ok := v.get(top.n); ok {
			v.arrived()
			continue
		}
		if top.next == top.end {
			x := top.n
			v.set(x, v.compute(x))
			v.arrived()
			continue
		}
		d := s.needed[top.next]
		top.next++
		if _, ok := v.get(d); ok {
			continue
		}
		if v.isBusy(d) {
			v.breakCircle(start, d)
			continue
		}
		v.await(d)
	}
	d, _ := v.get(n)
	return d
}

func (v *view) isBusy(n *node) bool {
	if v.now && v.over == nil {
		return n.busy
	}
	return v.busy[n]
}

func (v *view) setBusy(n *node, on bool) {
	switch {
	case v.now && v.over == nil:
		n.busy = on
	case on:
		v.busy[n] = true
	default:
		delete(v.busy, n)
	}
}

// deps adds the nodes that a node reads in this view.
func (v *view) deps(n *node, deps []*node) []*node {
	if n.parts != nil && len(n.readings) == 0 {
		return append(deps, v.partsOf(n)...)
	}
	r := v.winner(n)
	if r == nil {
		return deps
	}
	return v.needs(r, deps, 0)
}

// needs adds the nodes that a statement reads in this very view, by whatever
// reading of them; what it reads in earlier views cannot close a circle.
func (v *view) needs(r *statement, deps []*node, depth int) []*node {
	for _, l := range r.links {
		if l.node == nil {
			continue
		}
		switch l.need.Mode {
		case lang.Then, lang.AsOfEntry, lang.AsOfDate:
			if v.orderOf(l.need, r) != v.upTo {
				continue
			}
		case lang.Drawn, lang.Found, lang.Built:
			deps = v.needsOfKind(l.node, l.need.Mode, deps, depth)
			continue
		}
		deps = append(deps, l.node)
	}
	return deps
}

func (v *view) needsOfKind(n *node, mode lang.Mode, deps []*node, depth int) []*node {
	if depth > 8 {
		return deps
	}
	for _, p := range n.parts {
		deps = v.needsOfKind(p, mode, deps, depth+1)
	}
	r := n.latest(kindOfMode[mode], v.upTo)
	switch {
	case r == nil:
	case v.winner(n) == r:
		deps = append(deps, n)
	default:
		deps = v.needs(r, deps, depth+1)
	}
	return deps
}

// orderOf is the entry as of which a need is read by a statement in this view.
func (v *view) orderOf(n *lang.Need, r *statement) int {
	switch n.Mode {
	case lang.Then:
		return min(r.entry.order, v.upTo)
	case lang.AsOfEntry:
		return min(n.Entry-1, v.upTo)
	case lang.AsOfDate:
		return min(v.s.orderOn(n.Date), v.upTo)
	}
	return v.upTo
}

func (v *view) winner(n *node) *statement {
	if n.nameless() {
		if len(n.readings) == 0 || n.readings[0].entry.order > v.upTo {
			return nil
		}
		return n.readings[0]
	}
	return n.reading(v.upTo)
}

// breakCircle names the whole circle that closes at d, of those on the way from start, and
// fails its nodes. One that leads through the ledger fails the lines of it that count
// themselves, and nothing else: the account goes on without them.
func (v *view) breakCircle(start int, d *node) {
	s := v.s
	way := s.way[start:]
	from := 0
	for i := range way {
		if way[i].n == d {
			from = i
		}
	}
	ring := make([]*node, 0, len(way)-from)
	for _, f := range way[from:] {
		ring = append(ring, f.n)
	}
	if lines := countingThemselves(ring); len(lines) > 0 && ring[0] == d {
		v.failCircle(lines, ring)
		for s.way[len(s.way)-1].n.account == nil {
			v.arrived()
		}
		return
	}
	v.failCircle(ring, ring)
}

// countingThemselves are the lines of the accounts in a circle by which it leads.
func countingThemselves(ring []*node) (lines []*node) {
	for i, n := range ring {
		if n.account != nil {
			lines = append(lines, ring[(i+1)%len(ring)])
		}
	}
	return lines
}

// failCircle gives nodes the error of the circle they are in.
func (v *view) failCircle(list, ring []*node) {
	for _, n := range list {
		res := v.circle(ring)
		if r := v.winner(n); r != nil {
			res.Reading = r
			res.Err.Span = calc.Span{Start: 0, End: len(r.line.Text)}
			if r.line.Stmt != nil && r.line.Stmt.NameSpan != (calc.Span{}) {
				res.Err.Span = r.line.Stmt.NameSpan
			}
		}
		if n.stale && v.now && v.over == nil {
			n.moved = v.s.epoch
		}
		v.set(n, dated{res, unkeyed})
	}
}

// circle is the error of a ring of values; it begins with the first by name, so
// that it reads the same wherever it was met.
func (v *view) circle(ring []*node) *Result {
	names := make([]string, 0, len(ring)+1)
	hint := "one of them must be given a number of its own"
	for _, n := range ring {
		switch {
		case n.account != nil:
			hint = "the line would count itself; sum other subjects in it, or give it a number"
			names = append(names, n.account.String())
		case !n.nameless():
			names = append(names, n.name)
		}
	}
	if len(names) == 0 {
		names = []string{"this line"}
	}
	first := 0
	for i := range names {
		if names[i] < names[first] {
			first = i
		}
	}
	names = append(names[first:], names[:first]...)
	var text string
	const most = 12
	if len(names) > most {
		text = strings.Join(names[:most], " needs ") + " … " + names[len(names)-1]
	} else {
		text = strings.Join(names, " needs ")
	}
	e := calc.Errorf(calc.CodeCircle, "%s needs %s: a circle", text, names[0])
	return &Result{Err: e.WithHint("%s", hint)}
}

// compute works out one node whose needs are met.
func (v *view) compute(n *node) dated {
	r := v.winner(n)
	if n.clash != nil {
		return v.settle(n, &Result{Err: n.clash, Reading: r}, unkeyed)
	}
	if n.parts != nil && len(n.readings) == 0 {
		return v.gather(n)
	}
	if r == nil {
		return v.settle(n, v.unread(n), nil)
	}
	newest, moved := v.newest(n, r)
	moved = moved || n.overWorked(r) != nil // what it displaced is looked at again
	if v.now && v.over == nil && n.stale && !n.fresh && n.prev != nil && !moved && n.prev.Reading == r {
		v.s.work.Kept++
		n.winner = r
		return dated{n.prev, newest}
	}
	if v.over == nil && !v.now {
		if n.result != nil && n.newest == newest && n.winner == r && n.turn == v.s.turn && newest != unkeyed {
			return dated{n.result, newest}
		}
		if p := n.past[newest]; p != nil && n.pastTurn == v.s.turn {
			return dated{p, newest}
		}
	}
	res := v.alike(n, r, v.evaluate(r))
	switch {
	case v.over != nil:
	case v.now:
		if n.stale && n.prev != nil && n.prev.same(res) {
			if n.prev.Reading == res.Reading {
				res = n.prev
			}
		} else {
			n.moved = v.s.epoch
		}
		n.winner = r
	case newest != unkeyed:
		if n.past == nil || n.pastTurn != v.s.turn {
			n.past, n.pastTurn = map[*statement]*Result{}, v.s.turn
		}
		n.past[newest] = res
	}
	return dated{res, newest}
}

// newest is the newest reading that bears on a node, and whether something it
// reads has moved in the update that runs.
func (v *view) newest(n *node, r *statement) (*statement, bool) {
	newest, moved := r, false
	for _, l := range r.links {
		if l.node == nil {
			continue
		}
		if l.need.Mode != lang.Now && !l.need.Mode.OfLedger() {
			moved = true // readings of the past are looked up again
			if l.need.Mode != lang.Then {
				newest = unkeyed
			}
			continue
		}
		d, _ := v.get(l.node)
		newest = later(newest, d.newest)
		moved = moved || l.node.moved == v.s.epoch
	}
	return newest, moved
}

// unread is the result of a name without a reading up to the view's entry.
func (v *view) unread(n *node) *Result {
	for _, r := range n.readings {
		if r.refused != nil && r.entry.order <= v.upTo {
			return &Result{Err: r.refused, Reading: r}
		}
	}
	if len(n.readings) > 0 {
		r := n.readings[0]
		e := calc.Errorf(calc.CodeNoReading, "%s has no reading yet; its first is in the entry of %s", n.name, dateOf(r.entry))
		return &Result{Err: e, Waits: nil}
	}
	return &Result{Value: calc.NoValue()}
}

func dateOf(e *entry) string {
	if e.Date != "" {
		return e.Date
	}
	return e.Title
}

// gather puts a row, a column, a table or another name of a cell together.
func (v *view) gather(n *node) dated {
	if n.account != nil {
		res, newest := v.reckon(n)
		return v.settle(n, res, newest)
	}
	if len(n.parts) == 0 {
		return v.settle(n, &Result{Value: calc.NoValue()}, nil)
	}
	res := &Result{}
	var newest *statement
	items := make([]calc.Value, len(n.parts))
	for i, p := range n.parts {
		d, _ := v.get(p)
		newest = later(newest, d.newest)
		res.Cautions |= d.Cautions
		if !d.OK() {
			res.Waits = addNames(res.Waits, roots(p, d.Result))
			continue
		}
		items[i] = d.Value
	}
	switch {
	case n.labels == nil:
		res.Value = items[0]
	case n.record:
		fields := make([]calc.Field, len(items))
		for i := range items {
			fields[i] = calc.Field{Name: n.labels[i], Value: items[i]}
		}
		res.Value = calc.Fields(fields...)
	default:
		res.Value = calc.Labelled(n.labels, items)
	}
	return v.settle(n, res, newest)
}

func (v *view) settle(n *node, res *Result, newest *statement) dated {
	if v.now && v.over == nil {
		if n.prev != nil && n.stale && n.prev.same(res) {
			if n.prev.Reading == res.Reading { // else it is the same, said by another line
				res = n.prev
			}
		} else {
			n.moved = v.s.epoch
		}
	}
	return dated{res, newest}
}

// roots names what a failed node waits for: itself, or what it waits for.
func roots(n *node, r *Result) []string {
	if r.Err != nil || len(r.Waits) == 0 {
		if n.nameless() {
			return []string{"this line"}
		}
		return []string{n.name}
	}
	return r.Waits
}

func addNames(list, more []string) []string {
	for _, m := range more {
		if !contains(list, m) {
			list = append(list, m)
		}
	}
	sort.Strings(list)
	return list
}
