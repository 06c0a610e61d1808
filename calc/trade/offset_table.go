package trade

import (
	"math"

	"scarph/calc"
)

// positionNames are the names under which a table of offsets gives the places of
// its stations.
var positionNames = []string{"x", "position", "positions", "station", "stations", "distance", "distances"}

func tableParam() *Param {
	return &Param{Name: "table", Kind: Any, Doc: "a data table with a row named x, position or station, or a list of positions"}
}

func lineParam() *Param {
	return &Param{Name: "line", Kind: Any, Doc: "the name of a row between quotes, or a list of lengths"}
}

// line is a line of the table of offsets, station by station; stations without a
// value are left out.
type line struct {
	names  []string
	xs, ys []float64
}

// lineOf puts together the line of arguments i, a data table or its positions, and
// j, the name of a row or its values. Where the table has a row a station, the
// columns are its lines.
func lineOf(c *Call, i, j int) (*line, error) {
	table := c.Value(i)
	positions := table
	if table.Kind() == calc.Record {
		found := false
		for _, name := range positionNames {
			if positions, found = rowOrColumn(table, name); found {
				break
			}
		}
		if !found {
			return nil, calc.Errorf(calc.CodeTable, "the table does not say where its stations stand").
				WithHint("give it a row named x, of the distances from the bow")
		}
	}
	values := c.Value(j)
	if values.Kind() == calc.Text {
		if table.Kind() != calc.Record {
			return nil, calc.Errorf(calc.CodeKind, "%q names a row, but no table is given", values.Text()).
				WithHint("give the table's name first, or two lists: positions and lengths")
		}
		row, found := rowOrColumn(table, values.Text())
		if !found {
			e := calc.Errorf(calc.CodeUnknownItem, "the table has no line %s", values.Text())
			if near := calc.Nearest(values.Text(), lineNames(table)); near != "" {
				return nil, e.WithHint("did you mean %s?", near)
			}
			return nil, e
		}
		values = row
	}
	return pairUp(positions, values)
}

// rowOrColumn finds a row of the table, or a column put together from its rows.
func rowOrColumn(table calc.Value, name string) (calc.Value, bool) {
	if row, ok := table.Member(name); ok {
		return row, true
	}
	var items []calc.Value
	for _, row := range table.Items() {
		cell, ok := row.Member(name)
		if !ok {
			return calc.Value{}, false
		}
		items = append(items, cell)
	}
	return calc.Labelled(table.Labels(), items), len(items) > 0
}

func lineNames(table calc.Value) []string {
	names := append([]string(nil), table.Labels()...)
	if rows := table.Items(); len(rows) > 0 {
		names = append(names, rows[0].Labels()...)
	}
	return names
}

// pairUp makes a line of two lists of lengths.
func pairUp(positions, values calc.Value) (*line, error) {
	for _, v := range [2]calc.Value{positions, values} {
		if v.Kind() != calc.List {
			return nil, calc.Errorf(calc.CodeKind, "a line wants a list of lengths; this is %s", v.What())
		}
	}
	xs, ys := positions.Items(), values.Items()
	labels := values.Labels()
	if labels == nil {
		labels = positions.Labels()
	}
	if len(xs) != len(ys) {
		return nil, unequalLists(len(xs), len(ys))
	}
	l := &line{}
	for k := range xs {
		name := "station at " + calc.Style{}.Text(xs[k])
		if labels != nil {
			name = calc.Words(labels[k])
		}
		if ys[k].Kind() == calc.Missing {
			continue
		}
		for _, v := range [2]calc.Value{xs[k], ys[k]} {
			switch {
			case v.Kind() == calc.Missing:
				return nil, calc.Errorf(calc.CodeMissing, "%s has no position", name)
			case !v.IsQuantity():
				return nil, calc.Errorf(calc.CodeKind, "%s: a length is wanted; this is %s", name, v.What())
			case v.D.IsNumber():
				return nil, calc.Errorf(calc.CodeBareNumber, "%s: a length is wanted", name).WithHint("%s", calc.WhatUnit(v, calc.DimLength))
			case v.D != calc.DimLength:
				return nil, calc.Errorf(calc.CodeDimension, "%s: a length is wanted; this is %s", name, v.D.A())
			}
		}
		l.names = append(l.names, name)
		l.xs, l.ys = append(l.xs, xs[k].V), append(l.ys, ys[k].V)
	}
	return l, nil
}

// flag remarks when x lies between two stations, where nothing was measured.
func (l *line) flag(c *Call, x float64, way string) {
	span := l.xs[len(l.xs)-1] - l.xs[0]
	for k, at := range l.xs {
		if math.Abs(x-at) <= 1e-9*span {
			return
		}
		if x < at {
			c.Warn("between stations: %s lies between %s and %s, and is read off a %s", In(x), l.names[k-1], l.names[k], wayWord(way))
			return
		}
	}
}

func wayWord(way string) string {
	if way == "straight" {
		return "straight line"
	}
	return way
}

func offsetTable() []Function {
	return []Function{
		{
			Name: "offset_at", Summary: "a line of the table of offsets at any place along the boat",
			Params:  []*Param{tableParam(), lineParam(), length("position").orZero(), fit("batten")},
			Result:  "length, flagged when it lies between stations",
			Formula: "a natural batten through the line's stations, or straight lines between them",
			Limits:  "inside the line's first and last station; empty cells are passed over",
			Source:  "common practice (lofting)",
			Checks: []Check{
				{Call: "offset_at([0 in, 24 in, 48 in, 72 in], [0 in, 9 in, 14 in, 16 in], 60 in)", Want: "15.2 in"},
				{Call: `offset_at([0 in, 24 in, 48 in, 72 in], [0 in, 9 in, 14 in, 16 in], 60 in, "straight")`, Want: "15 in", Source: "midway of 14 and 16"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				l, err := lineOf(c, 0, 1)
				if err != nil {
					return calc.Value{}, err
				}
				x, way := c.Number(2), c.Text(3)
				f, err := fitted(l.xs, l.ys, way, 2)
				if err != nil {
					return calc.Value{}, err
				}
				if err := inside(f, x); err != nil {
					return calc.Value{}, err
				}
				l.flag(c, x, way)
				return calc.Length(f.At(x)), nil
			},
		},
	}
}
