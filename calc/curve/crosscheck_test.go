package curve

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
)

// TestFitsAgainstNumericalLibraries compares lines and circles with the kept output
// of testdata/reference/crosscheck/crosscheck.py.
func TestFitsAgainstNumericalLibraries(t *testing.T) {
	f, err := os.Open("../../testdata/reference/crosscheck/fits.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 5 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		xs, ys := numbersIn(t, row[1]), numbersIn(t, row[2])
		got := map[string]float64{}
		if strings.HasPrefix(row[0], "line") {
			l, _, err := FitLine(xs, ys)
			if err != nil {
				t.Fatal(err)
			}
			got["slope"], got["offset"] = l.Slope, l.Offset
		} else {
			points := make([]Point, len(xs))
			for i := range xs {
				points[i] = Point{xs[i], ys[i]}
			}
			c, _, err := FitCircle(points)
			if err != nil {
				t.Fatal(err)
			}
			got["radius"], got["x"], got["y"] = c.Radius, c.Centre.X, c.Centre.Y
		}
		for _, answer := range strings.Fields(row[3]) {
			name, text, _ := strings.Cut(answer, "=")
			near(t, row[0]+": "+name, got[name], numbersIn(t, text)[0], 1e-8)
		}
	}
}

func numbersIn(t *testing.T, text string) []float64 {
	t.Helper()
	var list []float64
	for _, word := range strings.Fields(text) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
	return list
}
