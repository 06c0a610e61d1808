package main

import (
	"encoding/csv"
	"strconv"

	"scarph/kernel"
	"scarph/notebook/results"
)

type dimensionsCmd struct {
	journalArg
	JSON bool `name:"json" help:"Print a JSON array."`
	CSV  bool `name:"csv" help:"Print columns with commas."`
}

// Run prints the table of dimensions.
func (c *dimensionsCmd) Run(s *streams) error {
	n, at, err := c.open(s)
	if err != nil {
		return err
	}
	style := n.Session.Style()
	list := []kernel.DimensionShape{}
	for _, d := range n.Session.Dimensions(at) {
		list = append(list, kernel.ShapeOfDimension(d, style))
	}
	switch {
	case c.JSON:
		err = s.printJSON(list)
	case c.CSV:
		err = printDimensions(s, list)
	default:
		s.dimensions(list)
		s.cautions(results.CautionsOf(n.Session, "dimensions", at))
	}
	if err != nil {
		return err
	}
	return s.troubled(n, at)
}

func printDimensions(s *streams, list []kernel.DimensionShape) error {
	w := csv.NewWriter(s.out)
	_ = w.Write([]string{"name", "kind", "text", "si", "dimension", "plus_minus", "file", "line"})
	number := func(x any) string {
		if f, ok := x.(float64); ok {
			return strconv.FormatFloat(f, 'g', -1, 64)
		}
		return ""
	}
	for _, z := range list {
		_ = w.Write([]string{z.Name, z.Kind, z.Text, number(z.SI), z.Dimension, number(z.PlusMinus), z.File, strconv.Itoa(z.Line)})
	}
	w.Flush()
	return w.Error()
}

// dimensions prints the table for people.
func (s *streams) dimensions(list []kernel.DimensionShape) {
	tables := map[string]bool{}
	for _, z := range list {
		if z.Kind == "table" {
			tables[z.Name] = true
		}
	}
	var rows [][]string
	for _, z := range list {
		text := z.Text
		if z.Error != "" {
			text = z.Error
		}
		if z.Sum != nil {
			text += "   (the sum gives " + *z.Sum + ")"
		}
		if z.Dimension == "" || !isCell(z.Name, tables) {
			rows = append(rows, []string{z.Name, z.Kind, text, z.File + ":" + strconv.Itoa(z.Line)})
		}
	}
	s.table(rows)
}

// isCell reports whether a name is a cell or a row of a table, which stands in its row.
func isCell(name string, tables map[string]bool) bool {
	for i := range len(name) {
		if name[i] == '.' && tables[name[:i]] {
			return true
		}
	}
	return false
}
