package tables_test

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/tables"
)

func TestEveryRowIsWhole(t *testing.T) {
	for _, table := range tables.List() {
		if table.Title == "" || len(table.Items()) == 0 {
			t.Errorf("%s has no title or no items", table.Name)
		}
		seen := map[string]bool{}
		for _, r := range table.Rows() {
			key := r.Item + ": " + r.Quantity
			if seen[key] {
				t.Errorf("%s, %s stands twice", table.Name, key)
			}
			seen[key] = true
			if r.Source == "" {
				t.Errorf("%s, %s has no source", table.Name, key)
			}
			if r.How != "seen" && r.How != "derived" && r.How != "from memory" {
				t.Errorf("%s, %s: how is %q", table.Name, key, r.How)
			}
			if !r.Value.IsQuantity() || math.IsNaN(r.Value.V) {
				t.Errorf("%s, %s is no quantity", table.Name, key)
			}
			if strings.Contains(r.Source+r.Remark, "183.33") {
				t.Errorf("%s, %s leans on a rule that was not read", table.Name, key)
			}
			got, err := tables.Lookup(table.Name, r.Item, r.Quantity)
			if err != nil || !calc.Same(got.Value, r.Value) {
				t.Errorf("%s, %s is not found by its own name: %v", table.Name, key, err)
			}
		}
	}
}

func TestNames(t *testing.T) {
	for _, c := range [][3]string{
		{"wood", "white oak", "white oak"}, {"wood", "oak, white", "white oak"}, {"wood", "white_oak", "white oak"},
		{"wood", "White Oak", "white oak"}, {"wood", "cedar, northern white", "northern white cedar"},
		{"wood", "Douglas-fir, coast", "coast Douglas fir"}, {"wood", "okoumé", "okoume"}, {"wood", "cypress", "baldcypress"},
		{"wood", "western redcedar", "western red cedar"}, {"wood", "Sitka", "Sitka spruce"}, {"wood", "khaya", "khaya"},
		{"wood", "mahogany, African", "khaya"}, {"wood", "yellow-poplar", "yellow poplar"},
		{"screws", "no. 8", "no. 8"}, {"screws", "#8", "no. 8"}, {"screws", "No 8", "no. 8"}, {"screws", "8", "no. 8"},
		{"planking", "3/4 in", "3/4 in plank"}, {"planking", "1-1/8 in", "1 1/8 in plank"}, {"planking", "1 in", "1 in plank"},
		{"gauges", "10 SWG", "SWG 10"}, {"nails", "14 ga copper nail", "14 gauge copper nail"}, {"nails", "6d", "6d"},
		{"plywood", "8 by 4 sheet", "4 by 8 sheet"}, {"machine screws", "1/4 in", "1/4 in"},
	} {
		table, err := tables.Find(c[0])
		if err != nil {
			t.Fatal(err)
		}
		rows, err := table.Item(c[1])
		if err != nil {
			t.Errorf("%s, %s: %v", c[0], c[1], err)
		} else if rows[0].Item != c[2] {
			t.Errorf("%s, %s is %s, want %s", c[0], c[1], rows[0].Item, c[2])
		}
	}
}

func TestWrongNamesAreHelped(t *testing.T) {
	for _, c := range [][4]string{
		{"wood", "wite oak", "density", `"white oak"`}, {"wood", "oak, whte", "density", `"white oak"`},
		{"wood", "cedar", "density", "northern white cedar"}, {"wood", "oak", "density", "live oak"},
		{"wood", "white oak", "densty", "did you mean density"}, {"wood", "white oak", "price", "it has"},
		{"wod", "white oak", "density", `did you mean "wood"`}, {"gauges", "10", "diameter", "SWG 10 and AWG 10"},
		{"planking", "5/16 in", "length", "3/8 in plank"}, {"wood", "plastic", "density", "it has"},
	} {
		_, err := tables.Lookup(c[0], c[1], c[2])
		var e *calc.Error
		if !errors.As(err, &e) || e.Code != calc.CodeUnknownItem {
			t.Errorf("%v: %v", c[:3], err)
		} else if !strings.Contains(e.Error(), c[3]) {
			t.Errorf("%v: %q does not help with %q", c[:3], e.Error(), c[3])
		}
	}
}

// Wood Handbook eq. 13-1 turns the shrinkage of Table 4-3 into the coefficients of
// Table 13-5: a slip of memory or of the pen in either shows here. The oaks of the
// commercial groups and the tropical woods rest on other data (see their remarks).
func TestCoefficientsFollowFromShrinkage(t *testing.T) {
	apart := map[string]bool{"white oak": true, "northern red oak": true, "okoume": true, "khaya": true, "true mahogany": true, "teak": true}
	compared := 0
	for _, item := range tables.Names("wood") {
		wood, err := tables.Wood(item)
		if err != nil {
			t.Fatal(err)
		}
		saturation := 30.0
		if r, err := wood.Get("fiber saturation"); err == nil {
			saturation = 100 * r.Value.V
		}
		for _, pair := range [][2]string{{tables.RadialShrink, tables.Radial}, {tables.TangentShrink, tables.Tangential}} {
			s, err1 := wood.Get(pair[0])
			c, err2 := wood.Get(pair[1])
			if err1 != nil || err2 != nil {
				continue
			}
			if apart[item] {
				if item != "white oak" && item != "northern red oak" && c.Remark == "" {
					t.Errorf("%s: the %s comes without its conflict", item, pair[1])
				}
				continue
			}
			compared++
			want := 1 / (saturation/s.Value.V - saturation + 10)
			if math.Abs(c.Value.V-want) > 1.1e-5 {
				t.Errorf("%s: %s is %.5f, eq. 13-1 gives %.5f", item, pair[1], c.Value.V, want)
			}
		}
	}
	if compared < 55 {
		t.Errorf("only %d coefficients were compared", compared)
	}
}

func TestWoodsHaveWhatTheShopAsks(t *testing.T) {
	names := tables.Names("wood")
	if len(names) < 45 {
		t.Errorf("%d woods", len(names))
	}
	weighed := 0
	for _, item := range names {
		wood, _ := tables.Wood(item)
		g, err := wood.Get(tables.Gravity)
		if err != nil {
			continue
		}
		weighed++
		d, err := wood.Get(tables.Density)
		if err != nil {
			t.Errorf("%s has a specific gravity but no density", item)
			continue
		}
		if r := d.Value.V / (1120 * g.Value.V); r < 0.94 || r > 1.06 {
			t.Errorf("%s: density and specific gravity differ by the factor %.3f", item, r)
		}
		if b, err := wood.Get(tables.BasicGravity); err == nil && b.Value.V >= g.Value.V {
			t.Errorf("%s: lighter at 12 %% than by green volume", item)
		}
	}
	if weighed < 40 {
		t.Errorf("%d woods have a weight", weighed)
	}
}

// A figure cites the table of the Wood Handbook that prints figures of its kind.
func TestWoodsCiteTheirTable(t *testing.T) {
	kinds := map[string]string{
		tables.RadialShrink: "Table 4-", tables.TangentShrink: "Table 4-", tables.VolumeShrink: "Table 4-",
		tables.Radial: "Table 13-5", tables.Tangential: "Table 13-5",
		tables.Gravity: "Table 5-", tables.BasicGravity: "Table 5-", "bending strength": "Table 5-", "stiffness": "Table 5-", "hardness": "Table 5-",
	}
	wood, err := tables.Find("wood")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range wood.Rows() {
		want := kinds[r.Quantity]
		if want == "" || !strings.Contains(r.Source, "Wood Handbook") || r.How == "derived" {
			continue
		}
		if !strings.Contains(r.Source, want) {
			t.Errorf("%s, %s cites %s", r.Item, r.Quantity, r.Source)
		}
	}
}

// The whole shelf goes into the browser build.
func TestShelfIsSmall(t *testing.T) {
	entries, err := os.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	total := int64(0)
	for _, e := range entries {
		info, err := e.Info()
		if err != nil {
			t.Fatal(err)
		}
		total += info.Size()
	}
	if total > 60_000 {
		t.Errorf("the tables weigh %d bytes", total)
	}
}
