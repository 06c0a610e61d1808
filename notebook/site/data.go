package site

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
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

	fields []valueRow // of a record, in its order
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
			for i, name := range d.Result.Value.Labels() {
				f, is := z.Fields[name], d.Result.Value.Items()[i]
				row.fields = append(row.fields, valueRow{Name: d.Name + "." + name, Kind: d.Kind, Text: f.Text, Other: style.Echo(is), SI: f.SI, Dimension: f.Dimension, PlusMinus: f.PlusMinus, Since: d.Entry.Date})
			}
		}
		if e, ok := s.n.Entry(d.Entry.Key); ok {
			row.Page = s.at[e]
		}
		rows = append(rows, row)
	}
	return rows
}

// dataFiles are the files of the journal's data.
func (s *series) dataFiles() []string {
	names := []string{"values.json", "values.csv"}
	for _, t := range s.n.Session.Tables() {
		names = append(names, tableFile(t.Name))
	}
	return names
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
	for _, r := range inRows(rows) {
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

// inRows puts the fields of each record behind it, on its page: a table has one number in a
// row.
func inRows(values []valueRow) []valueRow {
	var rows []valueRow
	for _, r := range values {
		rows = append(rows, r)
		for _, f := range r.fields {
			f.Page = r.Page
			rows = append(rows, f)
		}
	}
	return rows
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

// tableRows is a data table in numbers that a spreadsheet can work with. The unit
// stands in the corner when all have the same, else beside each row or column.
func (s *series) tableRows(t kernel.Table) [][]string {
	metric := s.n.Session.Style().System == calc.Metric
	rows := [][]string{append([]string{t.Name}, t.Columns...)}
	units := make([][]string, len(t.Rows)) // of the cells, "" for an empty one
	var all, across, down []string
	for i, r := range t.Rows {
		row := []string{r}
		units[i] = make([]string, len(t.Columns))
		for k, c := range t.Columns {
			text := ""
			if x, ok := s.n.Session.Value(t.Name+"."+r+"."+c, kernel.Now); ok && x.OK() {
				text, units[i][k] = tableNumber(x.Value, metric)
			}
			row = append(row, text)
		}
		rows = append(rows, row)
		all = append(all, units[i]...)
		across = append(across, oneUnit(units[i]))
	}
	for k := range t.Columns {
		var column []string
		for i := range t.Rows {
			column = append(column, units[i][k])
		}
		down = append(down, oneUnit(column))
	}
	switch u := oneUnit(all); {
	case u != mixed:
		rows[0][0] += inUnit(u)
	case !slices.Contains(across, mixed):
		for i, u := range across {
			rows[i+1][0] += inUnit(u)
		}
	case !slices.Contains(down, mixed):
		for k, u := range down {
			rows[0][k+1] += inUnit(u)
		}
	default:
		for i := range t.Rows {
			for k := range t.Columns {
				rows[i+1][k+1] += inUnit(units[i][k])
			}
		}
	}
	return rows
}

// Units of a table's cells that are none.
const (
	bare  = "1"     // a number without a unit, or words
	mixed = "mixed" // cells of several units
)

// oneUnit is the unit that all cells have that have one.
func oneUnit(units []string) string {
	one := ""
	for _, u := range units {
		switch {
		case u == "" || u == one:
		case one == "":
			one = u
		default:
			return mixed
		}
	}
	return one
}

func inUnit(u string) string {
	if u == "" || u == bare {
		return ""
	}
	return " (" + u + ")"
}

// tableNumber is a cell in the unit that it is measured in.
func tableNumber(v calc.Value, metric bool) (text, unit string) {
	if v.Kind() == calc.Text {
		return v.Text(), bare
	}
	if !v.IsQuantity() {
		return "", ""
	}
	factor := 1.0
	switch {
	case v.D == calc.DimLength && metric:
		unit, factor = "mm", 0.001
	case v.D == calc.DimLength:
		unit, factor = "in", 0.0254
	case v.D == calc.DimMass && metric:
		unit = "kg"
	case v.D == calc.DimMass:
		unit, factor = "lb", 0.45359237
	case v.D == calc.DimAngle:
		unit, factor = "deg", math.Pi/180
	case v.D == calc.DimNumber:
		return strconv.FormatFloat(v.V, 'g', -1, 64), bare
	default:
		return strconv.FormatFloat(v.V, 'g', -1, 64), "SI"
	}
	return strconv.FormatFloat(math.Round(v.V/factor*1e6)/1e6, 'f', -1, 64), unit
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
