package kernel

import (
	"math"

	"scarph/calc"
	"scarph/calc/lang"
)

// Recast is a record of what was made that reads otherwise than before an update: a number
// of its day was written anew. Whether the pieces were cut to the old figure or to the new
// one, nobody but their maker can know.
type Recast struct {
	Thing   string
	How     string  // made, or how it was settled: trimmed, packed, replaced
	Count   float64 // that the line says; 0 when it says none
	Entry   EntryRef
	Place   Place
	Ref     LineRef
	Sizes   []RecastSize
	Private bool
}

// RecastSize is a size as recorded before the update, and as it is read after it.
type RecastSize struct {
	Name    string
	Was, Is calc.Value
}

// Words says what reads otherwise: 2 thwart: length as made 3' before, now read as 3' 1".
func (x *Recast) Words(style calc.Style) string {
	text := calc.Words(x.Thing)
	if x.Count > 0 {
		text = style.Text(calc.Number(x.Count)) + " " + text
	}
	for i, z := range x.Sizes {
		if i == 0 {
			text += ": "
		} else {
			text += "; "
		}
		if z.Name != x.Thing {
			text += calc.Words(z.Name) + " "
		}
		text += "as " + x.How + " " + style.Text(z.Was) + " before, now read as " + style.Text(z.Is)
	}
	return text
}

// RecastAdvice says what to do about a record that reads otherwise.
const RecastAdvice = "A number that they were made to was changed where it stands. If they were really cut to the new figure, all is well. If they were cut to the old one, take the change back and write the new number as a reading in a later entry: the record then stays, and what is off is listed"

// record is what a made or settle line says that sizes were.
type record struct {
	sizes  []calc.Field
	within []calc.Value
}

// recasts lists the records that the update made to read otherwise, and remembers how
// each one that it touched reads now.
func (u *update) recasts() []Recast {
	var list []Recast
	for _, n := range u.order {
		if !n.nameless() || len(n.readings) == 0 {
			continue
		}
		r := n.readings[0]
		if k := r.kind(); k != lang.MadeLine && k != lang.Settle {
			continue
		}
		if z := u.s.recast(r); len(z.Sizes) > 0 {
			list = append(list, z)
		}
	}
	return list
}

// recast compares how a line reads with how it read when it was last touched. What is
// within the tolerance is no change, and is not remembered, lest many small ones pass.
func (s *Session) recast(r *statement) Recast {
	z := Recast{Thing: r.line.Stmt.Name, How: "made", Entry: r.entry.ref(), Place: r.line.Place, Ref: LineRef{r.entry.Key, r.index}, Private: r.line.Private}
	if r.kind() == lang.Settle {
		z.How = r.line.Stmt.How
	}
	is, count, ok := s.recordOf(r)
	if !ok {
		return z
	}
	z.Count = count
	if r.record == nil {
		r.record = is
		return z
	}
	now := sizes{sizes: is.sizes, within: is.within}
	for _, was := range r.record.sizes {
		k := now.index(was.Name)
		if k < 0 || was.Name == "" || now.sizes[k].Value.D != was.Value.D {
			continue
		}
		x := now.sizes[k].Value
		if math.Abs(x.V-was.Value.V) > now.tolerance(x.D, s.style).V*(1+1e-9) {
			z.Sizes = append(z.Sizes, RecastSize{was.Name, was.Value, x})
		}
	}
	if len(z.Sizes) > 0 || len(is.sizes) != len(r.record.sizes) {
		r.record = is
	}
	return z
}

// recordOf is what a made or settle line says that sizes were on its day, and of how many
// pieces; false when it says nothing of them.
func (s *Session) recordOf(r *statement) (*record, float64, bool) {
	v := s.viewAt(r.entry.order)
	if r.kind() == lang.MadeLine {
		z := s.sizesOf(r, v)
		return &record{z.sizes, z.within}, z.count, z.err == nil
	}
	if r.line.Stmt.How == "left" {
		return nil, 0, false
	}
	from := s.chronicle(r.line.Stmt.Name).lastMade(r)
	res := v.evaluate(r)
	if from == nil || !res.OK() {
		return nil, 0, false
	}
	z := s.sizesOf(from, v)
	done := settlementOf(r, res)
	for _, f := range done.Sizes {
		if k := z.index(f.Name); k >= 0 {
			z.sizes[k].Value = f.Value
		}
	}
	return &record{z.sizes, z.within}, done.Count, z.err == nil
}

// handed is what the lines recorded that an update took out, each for the line with the
// same words that it puts in its place.
type handed struct {
	epoch   int64
	records map[words]*record
}

// words are the words of a line, in its entry.
type words struct {
	entry *entry
	text  string
}

// handOver leaves what a line has recorded with the first value that it reads.
func (s *Session) handOver(r *statement) {
	n := r.firstRead()
	if n == nil || r.record == nil {
		return
	}
	if n.handed == nil || n.handed.epoch != s.epoch {
		n.handed = &handed{s.epoch, map[words]*record{}}
	}
	n.handed.records[words{r.entry, r.line.Text}] = r.record
}

// takeOver gives a new line what the one in whose place it stands has recorded.
func (s *Session) takeOver(r *statement) {
	n := r.firstRead()
	if n != nil && r.record == nil && n.handed != nil && n.handed.epoch == s.epoch {
		r.record = n.handed.records[words{r.entry, r.line.Text}]
	}
}

func (r *statement) firstRead() *node {
	for _, l := range r.links {
		if l.node != nil {
			return l.node
		}
	}
	return nil
}

// RecordsFrom lists what was made to sizes that hang on a value, by the reading from which
// it had its number on that day: what a correction of that reading would make to read
// otherwise.
func (s *Session) RecordsFrom(name string) map[LineRef][]Made {
	s.mu.Lock()
	defer s.mu.Unlock()
	n, _ := s.resolve(name)
	if n == nil {
		return nil
	}
	n = n.bearer()
	users := map[*node]bool{}
	for queue := []*node{n}; len(queue) > 0; queue = queue[1:] {
		if x := queue[0]; !users[x] {
			users[x] = true
			queue = append(queue, x.users...)
		}
	}
	from := map[LineRef]LineRef{}
	list := s.madeOf(s.now(), func(m *statement) bool {
		v := s.viewAt(m.entry.order)
		w := v.winner(n)
		if w == nil || !users[m.node] || !v.leansOn(m.sizeLinks(), w, users, map[*node]bool{}) {
			return false
		}
		from[LineRef{m.entry.Key, m.index}] = LineRef{w.entry.Key, w.index}
		return true
	})
	records := map[LineRef][]Made{}
	for _, m := range list {
		records[from[m.Ref]] = append(records[from[m.Ref]], m)
	}
	return records
}

// leansOn reports whether what is linked has its number, in the view, from a reading; it
// looks at those nodes only that may.
func (v *view) leansOn(links []link, reading *statement, may, seen map[*node]bool) bool {
	for _, l := range links {
		n := l.node
		if n == nil || !may[n] || seen[n] {
			continue
		}
		seen[n] = true
		if n.parts != nil && len(n.readings) == 0 {
			for _, p := range n.parts {
				if v.leansOn([]link{{need: asItStands, node: p}}, reading, may, seen) {
					return true
				}
			}
			continue
		}
		w := v.winner(n)
		if w == reading || w != nil && v.leansOn(w.sizeLinks(), reading, may, seen) {
			return true
		}
	}
	return false
}

// sizeLinks are the links of a statement, of a part, a made or a settle line without
// those of its count and its tolerance.
func (r *statement) sizeLinks() []link {
	switch r.kind() {
	case lang.PartLine, lang.MadeLine, lang.Settle:
		first := 0
		for _, e := range [...]*lang.Expr{r.line.Stmt.Expr, r.line.Stmt.Within} {
			if e != nil {
				first += len(e.Needs)
			}
		}
		return r.links[min(first, len(r.links)):]
	}
	return r.links
}
