package main

import (
	"encoding/csv"
	"strconv"

	"scarph/notebook"
)

type dimensionsCmd struct {
	journalArg
	JSON bool `name:"json" help:"Print a JSON array."`
	CSV  bool `name:"csv" help:"Print columns with commas."`
}

type dimensionShape struct {
	Name      string `json:"name"`
	Kind      string `json:"kind"`
	Text      string `json:"text"`
	SI        any    `json:"si"`
	Dimension string `json:"dimension"`
	PlusMinus any    `json:"plus_minus"`
	File      string `json:"file"`
	Line      int    `json:"line"`
	// Sum is what the sum would give, for a derived value that a reading displaced.
	Sum      *string  `json:"sum,omitempty"`
	Error    string   `json:"error,omitempty"`
	Cautions []string `json:"cautions,omitempty"`
}

// Run prints the table of dimensions.
func (c *dimensionsCmd) Run(s *streams) error {
	n, at, err := c.open(s)
	if err != nil {
		return err
	}
	style := n.Session.Style()
	list := []dimensionShape{}
	for _, d := range n.Session.Dimensions(at) {
		z := dimensionShape{Name: d.Name, Kind: d.Kind, File: d.Place.File, Line: d.Place.Line}
		if d.Result.OK() {
			v := notebook.ShapeOfResult(d.Result, style)
			z.Text, z.SI, z.Dimension, z.PlusMinus, z.Cautions = v.Text, v.SI, v.Dimension, v.PlusMinus, v.Cautions
		} else {
			z.Error = waits(d.Result)
		}
		if d.Sum != nil && d.Sum.OK() {
			t := style.Text(d.Sum.Value)
			z.Sum = &t
		}
		list = append(list, z)
	}
	switch {
	case c.JSON:
		return s.printJSON(list)
	case c.CSV:
		w := csv.NewWriter(s.out)
		_ = w.Write([]string{"name", "kind", "text", "si", "dimension", "file", "line"})
		for _, z := range list {
			si := ""
			if f, ok := z.SI.(float64); ok {
				si = strconv.FormatFloat(f, 'g', -1, 64)
			}
			_ = w.Write([]string{z.Name, z.Kind, z.Text, si, z.Dimension, z.File, strconv.Itoa(z.Line)})
		}
		w.Flush()
		return w.Error()
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
		if z.Dimension == "" || !isCell(z.Name, list) {
			rows = append(rows, []string{z.Name, z.Kind, text, z.File + ":" + strconv.Itoa(z.Line)})
		}
	}
	s.table(rows)
	return nil
}

// isCell reports whether a name is a cell of a table, which stands in its row.
func isCell(name string, list []dimensionShape) bool {
	for _, z := range list {
		if z.Kind == "table" && len(name) > len(z.Name) && name[:len(z.Name)] == z.Name && name[len(z.Name)] == '.' {
			return true
		}
	}
	return false
}
