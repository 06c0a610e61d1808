package trade

import (
	"math"
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
)

// readingsOf makes a mark of every cell of a row; of those with a ± alone when
// spreadOnly is set.
func readingsOf(row calc.Value, line int, r rowName, spreadOnly bool) []draw.Reading {
	var out []draw.Reading
	for i, q := range row.Items() {
		if !q.IsQuantity() || spreadOnly && len(q.Terms()) == 0 {
			continue
		}
		m := draw.Reading{Line: line, Station: i, Hand: r.hand, Half: math.NaN(), Height: math.NaN()}
		if r.height {
			m.Height, m.HeightSpread = q.V, q.Likely()
		} else {
			m.Half, m.HalfSpread = q.V, q.Likely()
		}
		out = append(out, m)
	}
	return out
}

// addFound adds the readings of argument i, a second table.
func addFound(c *Call, i int, o *draw.Offsets) error {
	if left(c, i) {
		return nil
	}
	table, err := tableArgument(c, i)
	if err != nil {
		return err
	}
	for k, name := range table.Labels() {
		row := table.Items()[k]
		if isPosition(name) {
			continue
		}
		r := readRowName(name)
		line, err := lineNamed(o, r, name)
		if err != nil {
			return err
		}
		if _, err := lengthsOf(row, calc.Words(name), calc.DimLength); err != nil {
			return err
		}
		for _, m := range readingsOf(row, line, r, false) {
			if m.Station, err = stationNamed(o, row.Labels(), m.Station); err != nil {
				return err
			}
			o.Found = append(o.Found, m)
		}
	}
	return nil
}

// lineNamed finds the drawn line that a found row is of; a row named by its side
// alone is of the only line.
func lineNamed(o *draw.Offsets, r rowName, name string) (int, error) {
	var known []string
	for k, l := range o.Lines {
		if l.Name == calc.Words(r.line) || r.line == "" && len(o.Lines) == 1 {
			return k, nil
		}
		known = append(known, l.Name)
	}
	return 0, calc.Errorf(calc.CodeTable, "%s was found, but there is no such line among the drawn ones", calc.Words(name)).
		WithHint("the drawn lines are %s", strings.Join(known, ", "))
}

func stationNamed(o *draw.Offsets, labels []string, i int) (int, error) {
	if labels == nil {
		if i >= len(o.Stations) {
			return 0, calc.Errorf(calc.CodeShape, "%d stations are drawn; a found row has more", len(o.Stations))
		}
		return i, nil
	}
	for k, s := range o.Stations {
		if s == calc.Words(labels[i]) {
			return k, nil
		}
	}
	return 0, calc.Errorf(calc.CodeTable, "a reading was found at %s, which is not among the drawn stations", calc.Words(labels[i])).
		WithHint("the stations are %s", strings.Join(o.Stations, ", "))
}
