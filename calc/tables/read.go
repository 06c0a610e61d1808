package tables

import (
	"strings"
	"sync"

	"scarph/calc"
)

// records reads an embedded CSV file without its heading. The files are part of
// the program and the tests read every one, so a bad one is a fault of the program.
func records(name string) [][]string {
	text, err := files.ReadFile("data/" + name + ".csv")
	if err != nil {
		panic("tables: " + err.Error())
	}
	return splitCSV(string(text))[1:]
}

// sources turns the short words of the source columns into publications.
var sources = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, r := range records("sources") {
		m[r[0]] = r[1]
	}
	return m
})

// load reads a table; an empty item repeats the one above.
func load(table string) content {
	c := content{first: map[string]int{}}
	item := ""
	for _, r := range records(strings.ReplaceAll(table, " ", "_")) {
		if r[0] != "" {
			item = r[0]
		}
		c.rows = append(c.rows, Row{Item: item, Quantity: r[1], Value: quantity(r[2], r[3]), Source: sources()[r[4]], How: r[5], Remark: r[6]})
	}
	if table == "wood" {
		c.rows = withDensities(c.rows)
	}
	for i, r := range c.rows {
		if _, ok := c.first[r.Item]; !ok {
			c.first[r.Item] = i
			c.items = append(c.items, r.Item)
		}
	}
	c.names = indexNames(table, c.items)
	return c
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
