package kernel

import "slices"

// departures are what leaves long lists in an update. Half a journal may hang on one value:
// those that leave are taken out together, each list gone through once.
type departures struct {
	users    map[*node]map[*node]int // of nodes; how often each leaves
	watchers map[string]bool         // families which statements no longer speak of
}

// few is the length to which a list is searched for each that leaves it.
const few = 50

// leave takes a user from a node, at once where they are few or there are no departures to
// enter it in.
func (d *departures) leave(n, user *node) {
	if d == nil || len(n.users) <= few {
		n.removeUser(user)
		return
	}
	if d.users == nil {
		d.users = map[*node]map[*node]int{}
	}
	if d.users[n] == nil {
		d.users[n] = map[*node]int{}
	}
	d.users[n][user]++
}

// unwatch takes an unlinked statement from those that speak of a family, in the same way.
func (d *departures) unwatch(s *Session, path string, r *statement) {
	f := family(path)
	if d == nil || len(s.watchers[f]) <= few {
		s.unwatch(f, r)
		return
	}
	if d.watchers == nil {
		d.watchers = map[string]bool{}
	}
	d.watchers[f] = true
}

// depart takes out what has been entered.
func (s *Session) depart(d *departures) {
	for n, times := range d.users {
		n.users = slices.DeleteFunc(n.users, func(x *node) bool {
			if times[x] == 0 {
				return false
			}
			times[x]--
			return true
		})
	}
	for f := range d.watchers {
		s.watchers[f] = slices.DeleteFunc(s.watchers[f], func(r *statement) bool { return !r.linked })
	}
	*d = departures{}
}
