package notebook

import (
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/calc/lang"
	"scarph/calc/trade"
	"scarph/kernel"
)

// FlatShape is a flat shape of the journal that can be laid down at true size.
type FlatShape struct {
	Name string
	Flat draw.Flat
	// Cautions are those of what it is drawn from, as bits from A = 1.
	Cautions uint8
	// Place is, of a shape without a name of its own, the line that draws it.
	Place kernel.Place
}

// Shapes lists the flat shapes as of an entry, in the journal's order: those among the
// named values and in the lists among them, then those that a line or a slot draws
// without naming them. These go by their function: tick_strip, tick_strip_2.
func (n *Notebook) Shapes(asOf int) []FlatShape {
	var list []FlatShape
	var seen []calc.Value
	for _, d := range n.Session.Dimensions(asOf) {
		if d.Result.OK() {
			list = append(list, flats(d.Name, d.Result.Value, d.Result.Cautions)...)
			seen = append(seen, pictures(d.Result.Value)...)
		}
	}
	times := map[string]int{}
	for _, f := range list {
		times[f.Name]++
	}
	for k, e := range n.Entries() {
		if k > asOf {
			break // not yet written on that day
		}
		for _, o := range n.Session.Outcomes(e.Key, asOf) {
			st := o.Line.Stmt
			if st == nil || st.Kind != lang.Answer || !o.Result.OK() || o.Result.Value.Kind() == calc.Quantity || shownAlready(o.Result.Value, seen) {
				continue
			}
			name := drawnBy(st.Text)
			if times[name]++; times[name] > 1 {
				name += "_" + strconv.Itoa(times[name])
			}
			for _, f := range flats(name, o.Result.Value, o.Result.Cautions) {
				f.Place = o.Line.Place
				list = append(list, f)
			}
			seen = append(seen, pictures(o.Result.Value)...)
		}
	}
	return list
}

// drawnBy is the function that a line calls first of all, which names what it draws.
func drawnBy(text string) string {
	name, _, _ := strings.Cut(text, "(")
	if f, ok := trade.Find(strings.TrimSpace(name)); ok {
		return f.Name
	}
	return "drawing"
}

// shownAlready reports whether all that a value draws is drawn already.
func shownAlready(v calc.Value, seen []calc.Value) bool {
	for _, p := range pictures(v) {
		again := false
		for _, q := range seen {
			again = again || calc.Same(p, q)
		}
		if !again {
			return false
		}
	}
	return true
}

// pictures lists the drawings in a value.
func pictures(v calc.Value) []calc.Value {
	if v.Kind() == calc.Picture {
		return []calc.Value{v}
	}
	var list []calc.Value
	for _, it := range v.Items() {
		list = append(list, pictures(it)...)
	}
	return list
}

func flats(name string, v calc.Value, cautions uint8) []FlatShape {
	if v.Kind() == calc.Picture {
		if f, ok := v.X.Drawing.(draw.Flat); ok {
			return []FlatShape{{Name: name, Flat: f, Cautions: cautions}}
		}
		return nil
	}
	var list []FlatShape
	labels := v.Labels()
	for i, it := range v.Items() {
		label := calc.Style{}.Text(calc.Number(float64(i + 1)))
		if labels != nil {
			label = labels[i]
		}
		list = append(list, flats(name+"."+label, it, cautions)...)
	}
	return list
}
