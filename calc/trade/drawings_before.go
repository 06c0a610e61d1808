package trade

import (
	"scarph/calc"
	"scarph/calc/draw"
)

func spreadDrawing(c *Call) (calc.Value, error) {
	v := c.Value(0)
	if v.Kind() != calc.List {
		return calc.Value{}, calc.Errorf(calc.CodeKind, "spread_drawing wants what a ± comes from; it was given %s", v.What()).WithHint("write spread_drawing(why(beam))")
	}
	name, err := nameOf(c, 1)
	if err != nil {
		return calc.Value{}, err
	}
	d := &draw.Sensitivity{Of: name}
	for k, it := range v.Items() {
		label := calc.Words(labelAt(v.Labels(), k))
		if !it.IsQuantity() || it.D != v.Items()[0].D {
			return calc.Value{}, calc.Errorf(calc.CodeDimension, "spread_drawing: %s is %s, and the first part %s", label, it.What(), v.Items()[0].What()).WithHint("write spread_drawing(why(beam))")
		}
		d.Items = append(d.Items, draw.Influence{Name: label, Part: calc.Of(it.V, it.D)})
	}
	return drawn(d)
}

func beforeAndAfter(c *Call) (calc.Value, error) {
	before, after := flattened("", c.Value(0)), flattened("", c.Value(1))
	if len(before) != len(after) {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "before has %s but after has %d", several(len(before), "value"), len(after)).WithHint("give the same values, before and after")
	}
	names := make([]string, len(after))
	for k := range names {
		if names[k] = after[k].name; names[k] == "" {
			names[k] = "value"
			if len(names) > 1 {
				names[k] += " " + trim(float64(k+1))
			}
		}
	}
	if !left(c, 2) {
		list := c.Value(2).Items()
		if c.Value(2).Kind() == calc.Text {
			list = []calc.Value{c.Value(2)}
		}
		if len(list) != len(names) {
			return calc.Value{}, calc.Errorf(calc.CodeShape, "names has %s for %d", several(len(list), "name"), len(names)).WithHint("give one for each")
		}
		for k, n := range list {
			if n.Kind() != calc.Text {
				return calc.Value{}, calc.Errorf(calc.CodeKind, "before_and_after wants text for names; it was given %s", n.What())
			}
			names[k] = n.Text()
		}
	}
	d := &draw.Ripple{}
	for k := range names {
		d.Items = append(d.Items, draw.Moved{Name: names[k], Before: before[k].value, After: after[k].value})
	}
	return drawn(d)
}

// part is one value of a list or a table, with its name in it.
type part struct {
	name  string
	value calc.Value
}

// flattened takes lists, records and tables apart: sheer half, st 3.
func flattened(name string, v calc.Value) []part {
	if v.Kind() != calc.List && v.Kind() != calc.Record {
		return []part{{name, v.Plain()}}
	}
	var out []part
	for k, it := range v.Items() {
		label := name
		if v.Labels() != nil {
			if label != "" {
				label += ", "
			}
			label += calc.Words(v.Labels()[k])
		}
		out = append(out, flattened(label, it)...)
	}
	return out
}
