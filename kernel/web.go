package kernel

import (
	"slices"

	"scarph/calc/lang"
)

// Web tells which values of a journal bear on which, by numbers: what a reader of the
// journal must read to know one of them. What bears on a value is what its lines read and
// all that is looked at to say what is to be said of them.
type Web struct {
	Names []string // of the values; "" for a line that names none
	Reads [][]int  // by value, those that bear on it, in order
	Of    [][]int  // by entry and line, the value that the line is of
}

// Web weaves the web of the journal as it stands.
func (s *Session) Web() Web {
	s.enter()
	defer s.mu.Unlock()
	w := weaver{s: s, number: map[*node]int{}, things: map[string]*node{}, stock: &node{}}
	of := make([][]int, len(s.entries))
	for k, e := range s.entries {
		of[k] = make([]int, len(e.stmts))
		for i, r := range e.stmts {
			of[k][i] = w.of(r.node)
			switch r.kind() {
			case lang.MadeLine, lang.Settle:
				thing := r.line.Stmt.Name
				if w.things[thing] == nil {
					w.things[thing] = &node{}
				}
				w.things[thing].parts = append(w.things[thing].parts, r.node)
			case lang.Stock:
				w.stock.parts = append(w.stock.parts, r.node)
			}
		}
	}
	for _, name := range s.gathered() {
		w.of(s.nodes[name])
	}
	z := Web{Of: of}
	for i := 0; i < len(w.nodes); i++ { // they grow by what stands for several
		z.Names = append(z.Names, w.nodes[i].name)
		z.Reads = append(z.Reads, w.reads(w.nodes[i]))
	}
	return z
}

// gathered names the rows, columns and tables.
func (s *Session) gathered() []string {
	var names []string
	for name, n := range s.nodes {
		if n.labels != nil {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

type weaver struct {
	s      *Session
	nodes  []*node
	number map[*node]int
	// Lines that bear on one another, as parts of a value that is none: those that say what
	// was made and done, by the thing; and the rack.
	things map[string]*node
	stock  *node
}

// of is the number of a node.
func (w *weaver) of(n *node) int {
	k, ok := w.number[n]
	if !ok {
		k = len(w.nodes)
		w.number[n] = k
		w.nodes = append(w.nodes, n)
	}
	return k
}

func (w *weaver) reads(n *node) []int {
	var list []int
	add := func(x *node) {
		if x != nil && x != n {
			list = append(list, w.of(x))
		}
	}
	for _, p := range n.parts {
		add(p)
	}
	add(n.owner)
	for _, r := range n.readings {
		for _, l := range r.links {
			add(l.node)
		}
		switch r.kind() {
		case lang.MadeLine, lang.Settle:
			add(w.things[r.line.Stmt.Name])
		case lang.PartLine: // its wood is looked for among those of the rack
			add(w.stock)
		}
	}
	if !n.nameless() && len(n.users) == 0 {
		for _, o := range w.s.slipsOf(n) {
			add(o)
			add(w.user(o))
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// user is one of those that read a node, nil where none does.
func (w *weaver) user(n *node) *node {
	var first *node
	for _, u := range n.users {
		if k, ok := w.number[u]; ok && (first == nil || k < w.number[first]) {
			first = u
		}
	}
	return first
}
