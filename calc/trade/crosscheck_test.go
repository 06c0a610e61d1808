package trade_test

import (
	"math"
	"path/filepath"
	"strconv"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// TestAgainstNumericalLibraries compares the functions with the kept output of
// testdata/reference/crosscheck/crosscheck.py, which reaches its answers by numpy
// and scipy, mostly another way than the functions do.
func TestAgainstNumericalLibraries(t *testing.T) {
	for _, name := range []string{"wood.csv", "curves.csv", "hulls.csv"} {
		t.Run(name, func(t *testing.T) {
			if _, ok := trade.Find("simpson_first"); name == "hulls.csv" && !ok {
				t.Skip("the registry has no hydrostatics yet")
			}
			rows := reference(t, filepath.Join(referenceDir, "crosscheck", name))
			if len(rows) < 10 {
				t.Errorf("only %d rows", len(rows))
			}
			for _, row := range rows {
				got, _, err := evaluate(row["expression"])
				if err != nil {
					t.Errorf("%s: %v", row["expression"], err)
					continue
				}
				want, err := wanted(row, "want")
				tol, bad := strconv.ParseFloat(row["tolerance"], 64)
				if err != nil || bad != nil || row["by"] == "" {
					t.Errorf("%s: the row cannot be read: %v %v", row["expression"], err, bad)
					continue
				}
				if got.D != want.D || math.Abs(got.V-want.V) > tol*math.Abs(want.V)+1e-15 {
					t.Errorf("%s = %.12g, %s has %.12g (%s)", row["expression"], got.V, row["by"], want.V, calc.Style{}.Text(want))
				}
			}
		})
	}
}
