package site_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
	"scarph/notebook"
)

// TestValuesAsData reads values.json and values.csv as a stranger's program would, and
// asks the journal itself for the same numbers.
func TestValuesAsData(t *testing.T) {
	for _, name := range examples {
		t.Run(name, func(t *testing.T) {
			journal := filepath.Join("../../examples", name)
			files := readSite(t, publish(t, journal))
			n, err := notebook.Open(journal)
			if err != nil {
				t.Fatal(err)
			}
			var data struct {
				Title, Boat, Author string
				Values              []struct {
					Name, Kind, Text, Other, Dimension, Since, Page, Note string
					SI                                                    any
					PlusMinus                                             any `json:"plus_minus"`
					Labels                                                []string
					Cautions                                              []string
				}
			}
			d := json.NewDecoder(bytes.NewReader(files["values.json"]))
			d.DisallowUnknownFields()
			if err := d.Decode(&data); err != nil {
				t.Fatal(err)
			}
			table, err := csv.NewReader(bytes.NewReader(files["values.csv"])).ReadAll() // as many fields in every row as in the first
			if err != nil {
				t.Fatal(err)
			}
			if data.Title != n.Title() || len(data.Values) < 20 {
				t.Fatalf("%q, %d values", data.Title, len(data.Values))
			}
			if got := strings.Join(table[0], " "); got != "name kind text other si dimension plus_minus since page note" {
				t.Errorf("the columns are %s", got)
			}
			seen := map[string]bool{}
			next := 1
			for _, v := range data.Values {
				row := table[next]
				next++
				if seen[v.Name] || row[0] != v.Name || row[2] != v.Text || row[5] != v.Dimension || row[8] != v.Page {
					t.Errorf("row %v, value %+v", row, v)
				}
				seen[v.Name] = true
				if v.Page != "" && files[v.Page] == nil || !strings.Contains(string(files[v.Page]), "<h1>") {
					t.Errorf("%s is said to stand on %q", v.Name, v.Page)
				}
				r, ok := n.Session.Value(v.Name, kernel.Now)
				if !ok || !r.OK() {
					t.Errorf("the journal has no %s", v.Name)
					continue
				}
				for i, field := range r.Value.Labels() { // of a record, a row each
					if r.Value.Kind() != calc.Record {
						break
					}
					row, is := table[next], r.Value.Items()[i]
					next++
					printed, err := strconv.ParseFloat(row[4], 64)
					if row[0] != v.Name+"."+field || row[8] != v.Page || is.IsQuantity() && (err != nil || printed != is.V) || (row[6] != "") != (is.Likely() != 0) {
						t.Errorf("%s.%s is %v, in the journal %v", v.Name, field, row, is)
					}
				}
				if r.Value.IsQuantity() {
					si, isNumber := v.SI.(float64)
					printed, err := strconv.ParseFloat(row[4], 64)
					if !isNumber || err != nil || si != r.Value.V || printed != r.Value.V {
						t.Errorf("%s is %v and %s, in the journal %v", v.Name, v.SI, row[4], r.Value.V)
					}
					if pm := r.Value.Likely(); (v.PlusMinus != nil) != (pm != 0) || (row[6] != "") != (pm != 0) {
						t.Errorf("%s: ± %v, in the journal %v", v.Name, v.PlusMinus, pm)
					}
				} else if list, ok := v.SI.([]any); ok && (len(list) != len(r.Value.Items()) || v.Labels != nil && len(v.Labels) != len(list)) {
					t.Errorf("%s has %d items and %d labels", v.Name, len(list), len(v.Labels))
				}
			}
			if next != len(table) {
				t.Errorf("%d rows of %d are of values", next, len(table))
			}
			for _, x := range n.Session.Tables() {
				checkTable(t, n, x, files["tables/"+x.Name+".csv"])
			}
		})
	}
}

// checkTable reads a data table as a spreadsheet does.
func checkTable(t *testing.T, n *notebook.Notebook, x kernel.Table, data []byte) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(rows) != len(x.Rows)+1 || len(rows[0]) != len(x.Columns)+1 {
		t.Errorf("%s: %d rows, %v", x.Name, len(rows), err)
		return
	}
	// the unit stands in the corner, or beside the row
	factors := map[string]float64{"in": 0.0254, "mm": 0.001, "lb": 0.45359237, "kg": 1, "deg": math.Pi / 180, "": 1}
	unit := func(label string) string {
		_, u, _ := strings.Cut(label, " (")
		return strings.TrimSuffix(u, ")")
	}
	for i, r := range x.Rows {
		for k, c := range x.Columns {
			cell := rows[i+1][k+1]
			v, ok := n.Session.Value(x.Name+"."+r+"."+c, kernel.Now)
			if !ok || !v.OK() || !v.Value.IsQuantity() {
				continue
			}
			f, err := strconv.ParseFloat(cell, 64)
			factor, known := factors[unit(rows[0][0])+unit(rows[i+1][0])]
			if err != nil || !known || math.Abs(f-v.Value.V/factor) > 1e-6 {
				t.Errorf("%s, %s, %s: %q, in the journal %v", x.Name, r, c, cell, v.Value.V)
			}
		}
	}
}
