package kernel

import (
	"sort"

	"scarph/calc/lang"
)

// PartsFirst orders what a ripple moved as people read it: what is cut first, then the
// journal's order; what is gone comes last.
func (s *Session) PartsFirst(list []Moved) []Moved {
	s.enter()
	defer s.mu.Unlock()
	list = append([]Moved(nil), list...)
	nodes := make(map[string]*node, len(list))
	for _, m := range list {
		if n, _ := s.resolve(m.Name); n != nil {
			nodes[m.Name] = n.bearer()
		}
	}
	cut := func(m Moved) bool {
		n := nodes[m.Name]
		return n != nil && (s.things[n.name] > 0 || len(n.readings) > 0 && n.readings[0].kind() == lang.PartLine)
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if cut(a) != cut(b) {
			return cut(a)
		}
		x, y := nodes[a.Name], nodes[b.Name]
		if x == nil || y == nil {
			return x != nil && y == nil
		}
		return x != y && nodeBefore(x, y)
	})
	return list
}
