package notebook

import (
	"sort"
	"strings"

	"scarph/calc"
	"scarph/notebook/results"
)

// oldValue is a value that a later reading displaced.
type oldValue struct {
	name  string
	v     calc.Value
	until string
	place int // among all of them
}

// oldValues are all of them, those of a dimension in the order of their size: there may be
// as many as there are numbers in the text, and each of those is looked for.
type oldValues struct{ of map[calc.Dimension][]oldValue }

func (n *Notebook) oldValues(asOf int) *oldValues {
	z := &oldValues{map[calc.Dimension][]oldValue{}}
	place := 0
	for _, h := range n.Session.Histories(asOf) {
		for _, r := range h.Readings {
			if r.Until == nil || !r.Result.OK() || !r.Result.Value.IsQuantity() || r.Cell {
				continue
			}
			if h.Result.OK() && calc.Same(h.Result.Value.Plain(), r.Result.Value.Plain()) {
				continue
			}
			v := r.Result.Value
			z.of[v.D] = append(z.of[v.D], oldValue{h.Name, v, when(*r.Until), place})
			place++
		}
	}
	for _, list := range z.of {
		sort.SliceStable(list, func(i, j int) bool { return list[i].v.V < list[j].v.V })
	}
	return z
}

// like is the first old value that equals a typed number, nil where none does. A number
// without a unit is taken for inches or millimetres when it has two digits or more and is
// no day of a month.
func (z *oldValues) like(x typedNumber) *oldValue {
	v, d := x.value.V, x.value.D
	if !d.IsNumber() {
		return z.near(v, d, nil)
	}
	if v < 10 || isDay(x.rest) {
		return nil
	}
	o := z.near(v, d, nil)
	if strings.HasSuffix(x.text, "%") {
		return o
	}
	return z.near(v/1000, calc.DimLength, z.near(v*0.0254, calc.DimLength, o))
}

// near is the first of those values that equal v and of another one, if there is another.
func (z *oldValues) near(v float64, d calc.Dimension, other *oldValue) *oldValue {
	const off = 1e-9
	list := z.of[d]
	for i := sort.Search(len(list), func(i int) bool { return v-list[i].v.V < off }); i < len(list) && list[i].v.V-v < off; i++ {
		if other == nil || list[i].place < other.place {
			other = &list[i]
		}
	}
	return other
}

func isDay(rest string) bool {
	rest = strings.TrimLeft(rest, " ")
	for _, m := range results.Months {
		if strings.HasPrefix(rest, m) || strings.HasPrefix(rest, m[:3]) {
			return true
		}
	}
	return strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, ":")
}
