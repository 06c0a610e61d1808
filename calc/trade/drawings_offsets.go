package trade

import (
	"math"
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
)

// A row of a table of offsets says by its name what it is: sheer_half and
// sheer_height are the half-breadths and heights of the sheer; port or starboard in
// the name of a found row says the side.

// cellWords end the names of half-breadths and of heights.
var (
	halfWords   = []string{"half_breadths", "half_breadth", "halfbreadth", "half", "breadth"}
	heightWords = []string{"heights", "height"}
	// onCentre are lines that lie on the centreline where no half-breadth is given.
	onCentre = []string{"keel", "rabbet", "stem", "forefoot", "base", "centre", "center"}
)

// rowName is what the name of a row says.
type rowName struct {
	line   string
	half   bool
	height bool
	hand   draw.Hand
}

func readRowName(name string) rowName {
	var r rowName
	words := strings.Split(strings.ToLower(name), "_")
	kept := words[:0]
	for _, w := range words {
		switch w {
		case "port":
			r.hand = draw.Port
		case "starboard":
			r.hand = draw.Starboard
		default:
			kept = append(kept, w)
		}
	}
	r.line = strings.Join(kept, "_")
	for _, w := range halfWords {
		if base, ok := withoutWord(r.line, w); ok {
			r.line, r.half = base, true
			return r
		}
	}
	for _, w := range heightWords {
		if base, ok := withoutWord(r.line, w); ok {
			r.line, r.height = base, true
			return r
		}
	}
	return r
}

// withoutWord takes a word off the end of a name.
func withoutWord(name, word string) (string, bool) {
	if name == word {
		return "", true
	}
	return strings.CutSuffix(name, "_"+word)
}

// tableArgument reads argument i, a data table, or its rows written out as pairs of a
// name and a list.
func tableArgument(c *Call, i int) (calc.Value, error) {
	v := c.Value(i)
	if v.Kind() == calc.Record {
		return v, nil
	}
	var fields []calc.Field
	for _, it := range v.Items() {
		pair := it.Items()
		if v.Kind() != calc.List || len(pair) != 2 || pair[0].Kind() != calc.Text || pair[1].Kind() != calc.List {
			fields = nil
			break
		}
		fields = append(fields, calc.Field{Name: strings.ReplaceAll(pair[0].Text(), " ", "_"), Value: pair[1]})
	}
	if fields == nil {
		return v, calc.Errorf(calc.CodeKind, "%s wants a data table for %s; it was given %s", c.fn.Name, c.fn.Params[i].Name, v.What()).
			WithHint(`name a table of the journal, or write its rows: [["sheer_half", [9 in, 14 in]], ["sheer_height", [20 in, 18 in]]]`)
	}
	return calc.Fields(fields...), nil
}

// turnedRight returns the table with a row for each line: where the columns are the
// lines, they become the rows.
func turnedRight(table calc.Value) calc.Value {
	for _, name := range table.Labels() {
		if r := readRowName(name); r.half || r.height {
			return table
		}
	}
	rows := table.Items()
	if len(rows) == 0 || rows[0].Labels() == nil {
		return table
	}
	var fields []calc.Field
	for _, name := range rows[0].Labels() {
		if column, ok := rowOrColumn(table, name); ok {
			fields = append(fields, calc.Field{Name: name, Value: column})
		}
	}
	return calc.Fields(fields...)
}

func isPosition(name string) bool {
	for _, p := range positionNames {
		if name == p {
			return true
		}
	}
	return false
}

// offsetsOf puts a table of offsets together for a drawing. Argument 0 is the table.
func offsetsOf(c *Call) (draw.Offsets, error) {
	o := draw.Offsets{}
	table, err := tableArgument(c, 0)
	if err != nil {
		return o, err
	}
	table = turnedRight(table)
	byLine := map[string]int{}
	for i, name := range table.Labels() {
		row := table.Items()[i]
		r := readRowName(name)
		if !r.half && !r.height {
			if !isPosition(name) {
				c.Warn("%s is not drawn: a row is named %s_half or %s_height", calc.Words(name), name, name)
			}
			continue
		}
		values, err := lengthsOf(row, calc.Words(name), calc.DimLength)
		if err != nil {
			return o, err
		}
		if o.Stations == nil {
			o.Stations = stationNames(row.Labels(), len(values))
		}
		k, ok := byLine[r.line]
		if !ok {
			k = len(o.Lines)
			byLine[r.line] = k
			o.Lines = append(o.Lines, draw.OffsetLine{Name: calc.Words(r.line)})
		}
		if r.half {
			o.Lines[k].Half = values
		} else {
			o.Lines[k].Height = values
		}
		o.Found = append(o.Found, readingsOf(row, k, r, true)...)
	}
	if len(o.Lines) == 0 {
		return o, calc.Errorf(calc.CodeTable, "no row of the table is a half-breadth or a height").
			WithHint("name the rows sheer_half, sheer_height, chine_half and so on")
	}
	for k := range o.Lines {
		if l := &o.Lines[k]; l.Half == nil && liesOnCentre(l.Name) {
			l.Half = make([]float64, len(o.Stations))
		}
	}
	return o, nil
}

func liesOnCentre(name string) bool {
	for _, w := range onCentre {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}

// addPositions gives the stations their places: argument i is a spacing, a list, the
// name of a row, or left out for the row named x, position or station.
func addPositions(c *Call, i int, o *draw.Offsets) error {
	v := c.Value(i)
	table, err := tableArgument(c, 0)
	if err != nil {
		return err
	}
	switch {
	case left(c, i):
		for _, name := range positionNames {
			if row, ok := rowOrColumn(table, name); ok {
				return listPositions(c, row, o)
			}
		}
		return calc.Errorf(calc.CodeTable, "the table does not say where its stations stand").
			WithHint("give it a row named x, or write how far they stand apart: %s(offsets, 22 1/2 in)", c.fn.Name)
	case v.Kind() == calc.Text:
		row, ok := rowOrColumn(table, v.Text())
		if !ok {
			return calc.Errorf(calc.CodeUnknownItem, "the table has no row %s", v.Text())
		}
		return listPositions(c, row, o)
	case v.Kind() == calc.List:
		return listPositions(c, v, o)
	case v.IsQuantity() && v.D == calc.DimLength && v.V > 0:
		for k := range o.Stations {
			o.At = append(o.At, float64(k)*v.V)
		}
		return nil
	case v.IsQuantity() && v.D.IsNumber():
		return calc.Errorf(calc.CodeBareNumber, "%s wants a spacing or a list of positions", c.fn.Name).WithHint("%s", calc.WhatUnit(v, calc.DimLength))
	}
	return calc.Errorf(calc.CodeKind, "%s wants a spacing or a list of positions; it was given %s", c.fn.Name, calc.Style{}.Text(v)).WithHint("%s", c.fn.Signature())
}

func listPositions(c *Call, list calc.Value, o *draw.Offsets) error {
	at, err := lengthsOf(list, "positions", calc.DimLength)
	if err != nil {
		return err
	}
	if len(at) != len(o.Stations) {
		return calc.Errorf(calc.CodeShape, "%s but %d stations", several(len(at), "position"), len(o.Stations)).WithHint("give each station its place")
	}
	for k, x := range at {
		if math.IsNaN(x) {
			return calc.Errorf(calc.CodeMissing, "%s has no position", o.Stations[k])
		}
	}
	o.At = at
	return risingPositions(at)
}

// addCentres adds argument i, lengths by their names or pairs of a name and a length.
func addCentres(c *Call, i int, o *draw.Offsets) error {
	if left(c, i) {
		return nil
	}
	v := c.Value(i)
	wrong := func() error {
		return calc.Errorf(calc.CodeKind, "%s wants centres by name", c.fn.Name).WithHint(`write [["weight", 8' 10"], ["buoyancy", 8' 6"]]`)
	}
	if v.Kind() != calc.List && v.Kind() != calc.Record {
		return wrong()
	}
	for k, it := range v.Items() {
		name, x := "", it
		if it.Kind() == calc.List && len(it.Items()) == 2 && it.Items()[0].Kind() == calc.Text {
			name, x = it.Items()[0].Text(), it.Items()[1]
		} else if v.Labels() != nil {
			name = calc.Words(v.Labels()[k])
		}
		if name == "" || !x.IsQuantity() || x.D != calc.DimLength {
			return wrong()
		}
		o.Centres = append(o.Centres, draw.Centre{Name: name, X: x.V, Height: math.NaN()})
	}
	return nil
}
