package tables

import (
	"strings"
	"sync"

	"scarph/calc"
)

// records reads a CSV file without its heading. The tests read every one, so a bad one is a
// fault of the program.
func records(csv string) [][]string { return splitCSV(csv)[1:] }

// sources turns the short words of the source columns into publications.
var sources = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, r := range records(sourcesCSV) {
		m[r[0]] = r[1]
	}
	return m
})

// read gives the table's file, read; an empty item repeats the one above.
func (t Table) read() *file {
	f := t.file
	f.once.Do(func() {
		f.records = map[string][][]string{}
		var items []string
		for list := records(*f.csv); len(list) > 0; {
			n := 1
			for n < len(list) && list[n][0] == "" {
				n++
			}
			item := list[0][0]
			items = append(items, item)
			f.records[item], list = list[:n], list[n:]
		}
		f.names = indexNames(t.Name, items)
	})
	return f
}

// rows reads the rows of an item.
func (t Table) rows(item string) []Row {
	var rows []Row
	for _, r := range t.read().records[item] {
		rows = append(rows, Row{Item: item, Quantity: r[1], Value: quantity(r[2], r[3]), Source: sources()[r[4]], How: r[5], Remark: r[6]})
	}
	if t.Name == "wood" {
		return withDensities(item, rows)
	}
	return rows
}

// quantity reads a value and its unit, and keeps to the way the source prints it:
// a fraction of an inch as a fraction, decimals as decimals.
func quantity(value, unit string) calc.Value {
	if per, ok := strings.CutPrefix(unit, "/"); ok {
		z, err := calc.Div(quantity(value, ""), quantity("1", per))
		if err != nil {
			panic("tables: " + value + " " + unit + ": " + err.Error())
		}
		return z.Shown(&calc.Display{Unit: "per " + per, Factor: z.V / quantity(value, "").V, D: z.D, System: calc.FeetInches})
	}
	l, err := calc.ParseLiteral(strings.TrimSpace(value + " " + unit))
	if err != nil {
		panic("tables: " + value + " " + unit + ": " + err.Error())
	}
	v := l.Value.Plain()
	switch {
	case unit == "in" && !strings.Contains(value, "."):
		return v.Shown(&calc.Display{D: calc.DimLength, Step: 0.0254 / 64, System: calc.FeetInches})
	case unit == "in", unit == "%", unit == "mm":
		return v.Shown(calc.InUnit(unit))
	}
	return v
}
