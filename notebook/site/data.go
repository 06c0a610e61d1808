package site

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/kernel"
)

// valueRow is a value as values.json has it.
type valueRow struct {
	Name      string   `json:"name"`
	Kind      string   `json:"kind"`
	Text      string   `json:"text"`
	Other     string   `json:"other"`
	SI        any      `json:"si"`
	Dimension string   `json:"dimension"`
	PlusMinus any      `json:"plus_minus"`
	Labels    []string `json:"labels,omitempty"`
	Since     string   `json:"since"`
	Page      string   `json:"page"`
	Note      string   `json:"note"`
	Cautions  []string `json:"cautions,omitempty"`
}

// values lists the named values, cells of tables too.
func (s *series) values() []valueRow {
	style := s.n.Session.Style()
	rows := []valueRow{}
	for _, d := range s.n.Session.Dimensions(kernel.Now) {
		if !d.Result.OK() || d.Row {
			continue
		}
		z := kernel.ShapeOfResult(d.Result, style)
		row := valueRow{Name: d.Name, Kind: d.Kind, Text: z.Text, Other: style.Echo(d.Result.Value), SI: z.SI, Dimension: z.Dimension, PlusMinus: z.PlusMinus, Labels: z.Labels, Since: d.Entry.Date, Note: d.Note, Cautions: z.Cautions}
		if z.Fields != nil {
			row.SI = z.Fields
		}
		if e, ok := s.n.Entry(d.Entry.Key); ok {
			row.Page = s.at[e]
		}
		rows = append(rows, row)
	}
	return rows
}

// writeData writes the values as JSON and CSV, and a CSV for each data table.
func (s *series) writeData() error {
	rows := s.values()
	top := struct {
		Title  string     `json:"title"`
		Boat   string     `json:"boat"`
		Author string     `json:"author"`
		Values []valueRow `json:"values"`
	}{s.n.Title(), s.set.Boat, s.set.Author, rows}
	data, err := json.MarshalIndent(top, "", " ")
	if err != nil {
		return err
	}
	if err := s.out.put("values.json", append(data, '\n')); err != nil {
		return err
	}
	table := [][]string{{"name", "kind", "text", "other", "si", "dimension", "plus_minus", "since", "page", "note"}}
	for _, r := range rows {
		table = append(table, []string{r.Name, r.Kind, r.Text, r.Other, plain(r.SI), r.Dimension, plain(r.PlusMinus), r.Since, r.Page, r.Note})
	}
	if err := s.putCSV("values.csv", table); err != nil {
		return err
	}
	for _, t := range s.n.Session.Tables() {
		if err := s.putCSV(tableFile(t.Name), s.tableRows(t)); err != nil {
			return err
		}
	}
	return nil
}

// plain is a number of values.csv; a list has its numbers between spaces.
func plain(x any) string {
	switch x := x.(type) {
	case float64:
		return strconv.FormatFloat(x, 'g', -1, 64)
	case bool:
		return strconv.FormatBool(x)
	case string:
		return x
	case []any:
		parts := make([]string, len(x))
		for i, it := range x {
			parts[i] = plain(it)
		}
		return strings.Join(parts, " ")
	}
	return ""
}

func (s *series) putCSV(name string, rows [][]string) error {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.WriteAll(rows); err != nil {
		return err
	}
	return s.out.put(name, b.Bytes())
}

func tableFile(name string) string { return "tables/" + wordPath(name) + ".csv" }

// tableRows is a data table in numbers that a spreadsheet can work with: lengths in
// inches or in millimetres, all else in SI units. The corner says which.
func (s *series) tableRows(t kernel.Table) [][]string {
	unit, factor := "mm", 0.001
	if s.n.Session.Style().System != calc.Metric {
		unit, factor = "in", 0.0254
	}
	lengths := false
	rows := [][]string{append([]string{""}, t.Columns...)}
	for _, r := range t.Rows {
		row := []string{r}
		for _, c := range t.Columns {
			text := ""
			if x, ok := s.n.Session.Value(t.Name+"."+r+"."+c, kernel.Now); ok && x.OK() {
				v := x.Value
				switch {
				case v.IsQuantity() && v.D == calc.DimLength:
					lengths = true
					text = strconv.FormatFloat(math.Round(v.V/factor*1e6)/1e6, 'f', -1, 64)
				case v.IsQuantity():
					text = strconv.FormatFloat(v.V, 'g', -1, 64)
				case v.Kind() == calc.Text:
					text = v.Text()
				}
			}
			row = append(row, text)
		}
		rows = append(rows, row)
	}
	rows[0][0] = t.Name
	if lengths {
		rows[0][0] += " (" + unit + ")"
	}
	return rows
}

// tableLinks leads to the data tables as CSV.
func (s *series) tableLinks(b *bytes.Buffer, root string) {
	tables := s.n.Session.Tables()
	if len(tables) == 0 {
		return
	}
	b.WriteString(`<h2>Tables as data</h2><ul>`)
	for _, t := range tables {
		b.WriteString(`<li><a href="` + root + address(tableFile(t.Name)) + `">` + esc(calc.Words(t.Name)) + `.csv</a></li>`)
	}
	b.WriteString(`</ul>`)
}
