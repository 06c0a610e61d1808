package trade_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
)

const referenceDir = "../../testdata/reference"

// reference reads a CSV of published values; each row is a map by column.
func reference(t *testing.T, path string) []map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	rows := make([]map[string]string, 0, len(all))
	for _, r := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = strings.TrimSpace(r[i])
		}
		rows = append(rows, row)
	}
	return rows
}

// written is the expression of a row.
func written(row map[string]string) string {
	name, field, _ := strings.Cut(row["function"], ".")
	switch {
	case name == "":
		return row["arguments"]
	case field != "":
		return name + "(" + row["arguments"] + ")." + field
	}
	return name + "(" + row["arguments"] + ")"
}

// wanted evaluates a published number with its unit, in the row's column.
func wanted(row map[string]string, column string) (calc.Value, *calc.Error) {
	text, unit := row[column], row["unit"]
	if per, ok := strings.CutPrefix(unit, "/"); ok {
		text += " / (1 " + per + ")"
	} else if unit == "text" {
		return calc.Str(text), nil
	} else if unit != "" && unit != "list" {
		text += " " + unit
	}
	v, _, err := evaluate(text)
	return v, err
}

// meets reports whether got is want to the tolerance of the row.
func meets(got, want calc.Value, tolerance string, unit string) bool {
	if got.Kind() != want.Kind() || got.D != want.D {
		return false
	}
	if want.Kind() != calc.Quantity {
		return agree(got, want, 1e-5)
	}
	if size, ok := strings.CutPrefix(tolerance, "±"); ok {
		a, err := wanted(map[string]string{"t": size, "unit": unit}, "t")
		if err != nil {
			return false
		}
		if a.D.OnScale() { // a tolerance is a difference of degrees
			zero, _ := wanted(map[string]string{"t": "0", "unit": unit}, "t")
			a.V -= zero.V
		}
		return math.Abs(got.V-want.V) <= a.V*(1+1e-9)
	}
	tol := 1e-5
	if tolerance != "" {
		var err error
		if tol, err = strconv.ParseFloat(tolerance, 64); err != nil {
			return false
		}
	}
	return math.Abs(got.V-want.V) <= tol*math.Abs(want.V)+1e-15
}

func cited(t *testing.T, path string, row map[string]string) {
	t.Helper()
	for _, column := range []string{"source", "where", "how"} {
		if row[column] == "" {
			t.Errorf("%s: %s has no %s", filepath.Base(path), written(row), column)
		}
	}
	switch row["how"] {
	case "seen", "derived", "from memory":
	default:
		t.Errorf("%s: %s: how is %q", filepath.Base(path), written(row), row["how"])
	}
}

// TestPublishedValues runs every row of every CSV of published values.
func TestPublishedValues(t *testing.T) {
	paths, err := filepath.Glob(referenceDir + "/*.csv")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no published values: %v", err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			for _, row := range reference(t, path) {
				cited(t, path, row)
				got, _, err := evaluate(written(row))
				if err != nil {
					t.Errorf("%s: %v", written(row), err)
					continue
				}
				want, err := wanted(row, "want")
				if err != nil {
					t.Errorf("%s wants %s %s: %v", written(row), row["want"], row["unit"], err)
					continue
				}
				if !meets(got, want, row["tolerance"], row["unit"]) {
					t.Errorf("%s = %s (%.9g), want %s %s (%.9g): %s, %s", written(row), calc.Style{}.Text(got), got.V, row["want"], row["unit"], want.V, row["source"], row["where"])
				}
			}
		})
	}
}

// TestDisagreements keeps what is known to be wrong, or reckoned on another
// footing, from coming out: each row says why the published value is not ours.
func TestDisagreements(t *testing.T) {
	paths, err := filepath.Glob(referenceDir + "/disagreements/*.csv")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no disagreements: %v", err)
	}
	for _, path := range paths {
		for _, row := range reference(t, path) {
			cited(t, path, row)
			if row["why"] == "" {
				t.Errorf("%s does not say why", written(row))
			}
			got, _, err := evaluate(written(row))
			if err != nil {
				t.Errorf("%s: %v", written(row), err)
				continue
			}
			other, err := wanted(row, "published")
			if err != nil || got.D != other.D {
				t.Errorf("%s: %s %s cannot be compared: %v", written(row), row["published"], row["unit"], err)
				continue
			}
			if meets(got, other, row["tolerance"], row["unit"]) {
				t.Errorf("%s gives %s after all, which is said to be wrong: %s", written(row), row["published"], row["why"])
			}
		}
	}
}
