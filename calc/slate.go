package calc

// Slate is where a sum keeps the ± of its parts while it is worked out, so that only
// that of the whole is kept for good: what stands on it is of use until it is wiped,
// and must not be put into a list. A nil *Slate keeps everything for good. A Slate is
// used by one goroutine at a time, again and again.
type Slate struct {
	rows []*written
	used int
}

// written is one ± on a slate.
type written struct {
	Extra
	room []Term
}

// Mark is how much stands on the slate, for Wipe.
func (l *Slate) Mark() int { return l.used }

// Wipe takes away all that was written after the mark.
func (l *Slate) Wipe(mark int) { l.used = mark }

// next is a clean row with room for n terms.
func (l *Slate) next(n int) (*Extra, []Term) {
	if l.used == len(l.rows) {
		l.rows = append(l.rows, &written{})
	}
	r := l.rows[l.used]
	l.used++
	if cap(r.room) < n {
		r.room = make([]Term, 0, 2*n)
	}
	return &r.Extra, r.room[:0]
}

// few is room for the terms of most sums beside their Extra, one allocation for both.
type few struct {
	Extra
	terms [4]Term
}

// mix returns what a·x + b·y carries of the terms of two quantities, nil for none.
func (l *Slate) mix(a float64, x []Term, b float64, y []Term) *Extra {
	n := len(x) + len(y)
	if n == 0 {
		return nil
	}
	var e *Extra
	var z []Term
	switch {
	case l != nil:
		e, z = l.next(n)
	case n <= len(few{}.terms):
		f := new(few)
		e, z = &f.Extra, f.terms[:0]
	default:
		e, z = new(Extra), make([]Term, 0, n)
	}
	i, j := 0, 0
	for i < len(x) || j < len(y) {
		var t Term
		switch {
		case j == len(y) || i < len(x) && x[i].Source < y[j].Source:
			t = Term{x[i].Source, a * x[i].S}
			i++
		case i == len(x) || y[j].Source < x[i].Source:
			t = Term{y[j].Source, b * y[j].S}
			j++
		default:
			t = Term{x[i].Source, a*x[i].S + b*y[j].S}
			i, j = i+1, j+1
		}
		if t.S != 0 {
			z = append(z, t)
		}
	}
	if len(z) == 0 {
		return nil
	}
	e.Terms = z
	return e
}
