package kernel

// Uses lists the lines that read a value directly, in the journal's order: sums,
// slots, checks, parts. A row, a column and a table are used where their cells are.
func (s *Session) Uses(name string) []LineRef {
	s.enter()
	defer s.mu.Unlock()
	n, _ := s.resolve(name)
	if n == nil {
		return nil
	}
	reads := map[*node]bool{}
	for _, u := range n.users {
		reads[u] = true
	}
	var list []LineRef
	for _, e := range s.entries {
		for i, r := range e.stmts {
			if !reads[r.node] {
				continue
			}
			for _, l := range r.links {
				if l.node == n {
					list = append(list, LineRef{e.Key, i})
					break
				}
			}
		}
	}
	return list
}
