package kernel

import (
	"slices"
	"sync"

	"scarph/calc"
)

// KeptRipples is how many ripples a log keeps.
const KeptRipples = 200

// Log numbers the ripples of a session from 1 and keeps the latest, so that someone
// who looked away can be told what has moved since.
type Log struct {
	mu    sync.Mutex
	last  int
	list  []Ripple // the latest, the newest last
	heard func(number int, r Ripple)
	end   func()
}

// NewLog begins a log. Heard, if not nil, is called with each ripple when it is
// entered; it must not call the session.
func (s *Session) NewLog(heard func(number int, r Ripple)) *Log {
	l := &Log{heard: heard}
	l.end = s.Subscribe(l.enter)
	return l
}

func (l *Log) enter(r Ripple) {
	l.mu.Lock()
	l.last++
	l.list = append(l.list, r)
	if len(l.list) > KeptRipples {
		l.list = append([]Ripple(nil), l.list[1:]...)
	}
	number := l.last
	l.mu.Unlock()
	if l.heard != nil {
		l.heard(number, r)
	}
}

// Close ends the log.
func (l *Log) Close() { l.end() }

// Last is the number of the latest ripple, 0 when there was none.
func (l *Log) Last() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.last
}

// Since puts together what moved after the ripple with the given number: each value
// from what it was then to what it is now. It returns the number of the latest ripple,
// and false when the log does not reach back so far.
func (l *Log) Since(number int) (Ripple, int, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	first := l.last - len(l.list) // the number before the oldest kept
	if number < first || number > l.last {
		return Ripple{}, l.last, false
	}
	return together(l.list[number-first:]), l.last, true
}

// together makes one ripple of several that followed one another.
func together(list []Ripple) Ripple {
	var z Ripple
	names := map[string]int{}
	checks, lines := map[LineRef]int{}, map[LineRef]bool{}
	for _, r := range list {
		for _, m := range r.Moved {
			if i, ok := names[m.Name]; ok {
				z.Moved[i] = moved(m.Name, z.Moved[i].From, m.To)
				continue
			}
			names[m.Name] = len(z.Moved)
			z.Moved = append(z.Moved, m)
		}
		for _, c := range r.Checks {
			z.Checks = put(z.Checks, checks, c.Ref, c)
		}
		z.Made = putMade(z.Made, r.Made)
		z.Recast = putRecasts(z.Recast, r.Recast)
		for _, l := range r.Lines {
			if !lines[l] {
				lines[l] = true
				z.Lines = append(z.Lines, l)
			}
		}
	}
	kept := z.Moved[:0:0]
	for _, m := range z.Moved {
		if !m.From.same(m.To) { // there and back again is no move
			kept = append(kept, m)
		}
	}
	z.Moved = kept
	return z
}

// putMade enters what was made in place of what was said before of the same lines.
func putMade(list, more []Made) []Made {
	said := map[LineRef]bool{}
	for _, m := range more {
		said[m.Ref] = true
	}
	list = slices.DeleteFunc(slices.Clone(list), func(m Made) bool { return said[m.Ref] })
	return append(list, more...)
}

// putRecasts enters records that read otherwise: each size from what it was at first. What
// reads as it did at first is none.
func putRecasts(list, more []Recast) []Recast {
	list = slices.Clone(list)
	for _, x := range more {
		i := slices.IndexFunc(list, func(y Recast) bool { return y.Ref == x.Ref })
		if i < 0 {
			list = append(list, x)
			continue
		}
		x.Sizes = fromFirst(list[i].Sizes, x.Sizes)
		list[i] = x
	}
	return slices.DeleteFunc(list, func(x Recast) bool { return len(x.Sizes) == 0 })
}

func fromFirst(old, more []RecastSize) []RecastSize {
	list := slices.Clone(old)
	for _, z := range more {
		if i := slices.IndexFunc(list, func(y RecastSize) bool { return y.Name == z.Name }); i >= 0 {
			list[i].Is = z.Is
		} else {
			list = append(list, z)
		}
	}
	return slices.DeleteFunc(list, func(z RecastSize) bool { return calc.Same(z.Was, z.Is) })
}

// put enters x, in place of an earlier one with the same key.
func put[T any](list []T, at map[LineRef]int, key LineRef, x T) []T {
	if i, ok := at[key]; ok {
		list[i] = x
		return list
	}
	at[key] = len(list)
	return append(list, x)
}
