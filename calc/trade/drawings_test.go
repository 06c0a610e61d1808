package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/calc/trade"
)

// tableRow makes a row of a data table; NaN is an empty cell.
func tableRow(name string, labels []string, unit float64, values ...float64) calc.Field {
	items := make([]calc.Value, len(values))
	for i, v := range values {
		items[i] = calc.Length(v * unit)
		if math.IsNaN(v) {
			items[i] = calc.NoValue()
		}
	}
	return calc.Field{Name: name, Value: calc.Labelled(labels[:len(values)], items)}
}

var five = []string{"st_0", "st_1", "st_2", "st_3", "st_4"}

func pramOffsets(more ...calc.Field) calc.Value {
	mm := 0.001
	return calc.Fields(append([]calc.Field{
		tableRow("keel_height", five, mm, 105, -25, -80, -55, 35),
		tableRow("chine_half", five, mm, 260, 430, 500, 480, 400), tableRow("chine_height", five, mm, 150, 45, 0, 20, 95),
		tableRow("sheer_half", five, mm, 380, 570, 640, 620, 540), tableRow("sheer_height", five, mm, 480, 405, 372, 380, 420),
	}, more...)...)
}

func described(t *testing.T, name string, args ...calc.Value) string {
	t.Helper()
	v := value(t, name, args...)
	if v.Kind() != calc.Picture {
		t.Fatalf("%s gives %s", name, v.What())
	}
	return v.X.Drawing.Describe(calc.Style{System: calc.Metric})
}

// TestPlansFromATable draws the three plans from a data table of the journal.
func TestPlansFromATable(t *testing.T) {
	withX := pramOffsets(tableRow("x", five, 0.001, 0, 585, 1170, 1755, 2340))
	for _, c := range []struct {
		got, want string
	}{
		{described(t, "body_plan", pramOffsets()), "Body plan of 5 stations, st 0 to st 4; greatest beam 1280 mm at st 2, the stations aft of it on the left half."},
		{described(t, "profile_plan", withX), "Profile of 5 stations, st 0 to st 4, 2340 mm long: keel, chine and sheer."},
		{described(t, "profile_plan", pramOffsets(), calc.Length(.585), calc.Length(.1324)), "Profile of 5 stations, st 0 to st 4, 2340 mm long: keel, chine and sheer; water 52.4 mm over the base line."},
		{described(t, "half_breadth_plan", withX, calc.Str("x"), calc.Length(.1324)), "Half-breadth plan of 5 stations, st 0 to st 4: keel, chine and sheer; greatest half-breadth 640 mm at st 2; waterline at a draft of 132.4 mm."},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	body := value(t, "body_plan", pramOffsets()).X.Drawing.(*draw.BodyPlan)
	if h := body.Lines[0].Half; len(h) != 5 || h[0] != 0 {
		t.Errorf("the keel lies at %v from the centreline", h)
	}
}

// TestTableTurned: a table with a row a station gives the same drawing.
func TestTableTurned(t *testing.T) {
	upright := pramOffsets()
	var rows []calc.Field
	for k, s := range five {
		var items []calc.Value
		for _, line := range upright.Items() {
			items = append(items, line.Items()[k])
		}
		rows = append(rows, calc.Field{Name: s, Value: calc.Labelled(upright.Labels(), items)})
	}
	if a, b := value(t, "body_plan", upright), value(t, "body_plan", calc.Fields(rows...)); a.X.Drawing.SVG(calc.Style{}) != b.X.Drawing.SVG(calc.Style{}) {
		t.Error("rows and columns changed about change the drawing")
	} else if calc.Same(a, b) || !calc.Same(a, value(t, "body_plan", pramOffsets())) {
		t.Error("a drawing is the same as another by the function and what it was drawn from")
	}
}

// TestFoundReadings: sides by the name of the row, stations by their labels, ± by the
// cells, empty cells left out.
func TestFoundReadings(t *testing.T) {
	found := calc.Fields(tableRow("sheer_half_port", five, 0.001, 381, math.NaN(), 636), tableRow("starboard_sheer_half", five, 0.001, 379, 571, 644))
	found.X.Items[0].X.Items[2] = calc.WithSpread(calc.Length(.636), .002, 7)
	r := call(t, "body_plan", pramOffsets(), calc.Length(0), found)
	d := r.Value.X.Drawing.(*draw.BodyPlan)
	if len(d.Found) != 5 {
		t.Fatalf("%d readings", len(d.Found))
	}
	port, starboard := 0, 0
	for _, f := range d.Found {
		switch f.Hand {
		case draw.Port:
			port++
			if f.Station == 2 && (f.Half != .636 || f.HalfSpread != .002) {
				t.Errorf("port at st 2: %+v", f)
			}
		case draw.Starboard:
			starboard++
		}
		if d.Lines[f.Line].Name != "sheer" || !math.IsNaN(f.Height) {
			t.Errorf("a reading of the %s: %+v", d.Lines[f.Line].Name, f)
		}
	}
	if port != 2 || starboard != 3 {
		t.Errorf("%d port, %d starboard", port, starboard)
	}
	// cells of the table itself that have a ± are readings too
	own := pramOffsets()
	own.X.Items[3].X.Items[1] = calc.WithSpread(calc.Length(.570), .001, 3)
	if f := value(t, "body_plan", own).X.Drawing.(*draw.BodyPlan).Found; len(f) != 1 || f[0].Station != 1 || f[0].HalfSpread != .001 {
		t.Errorf("readings in the table: %+v", f)
	}
}

// TestDrawingRefusals: what cannot be drawn says why, and what to write.
func TestDrawingRefusals(t *testing.T) {
	names := calc.Fields(tableRow("sheer", five, 1, 1, 2), tableRow("width", five, 1, 1, 2))
	weights := calc.Fields(calc.Field{Name: "sheer_half", Value: calc.Listed(calc.Mass(3))})
	strange := calc.Fields(tableRow("rail_half", five, 1, 1))
	level := func(row string) calc.Value {
		return calc.Fields(tableRow("keel_height", five, 1, 1, 1), tableRow("sheer_half", five, 4, 5, 4), tableRow("sheer_height", five, 9, 9, 9), tableRow(row, five, 2, 3, 2))
	}
	for _, c := range []struct {
		name  string
		args  []calc.Value
		code  calc.Code
		words string
	}{
		{"body_plan", []calc.Value{calc.Inches(3)}, calc.CodeKind, "data table"},
		{"body_plan", []calc.Value{names}, calc.CodeTable, "sheer_half"},
		{"body_plan", []calc.Value{level("wl6_half")}, calc.CodeTable, "the table has wl6_half but no wl6_height (a point of a section has a half-breadth and a height: give a row wl6_height, 0-6-0 in each cell)"},
		{"body_plan", []calc.Value{level("wl200_half")}, calc.CodeTable, "give a row wl200_height, 200 mm in each cell"},
		{"body_plan", []calc.Value{level("rail_height")}, calc.CodeTable, "the table has rail_height but no rail_half (a point of a section has a half-breadth and a height)"},
		{"body_plan", []calc.Value{weights}, calc.CodeDimension, "a length is wanted"},
		{"body_plan", []calc.Value{pramOffsets(), calc.Length(0), strange}, calc.CodeTable, "keel, chine, sheer"},
		{"body_plan", []calc.Value{pramOffsets(), calc.Length(-1)}, calc.CodeDomain, "draft"},
		{"profile_plan", []calc.Value{pramOffsets()}, calc.CodeTable, "profile_plan(offsets, 22 1/2 in)"},
		{"profile_plan", []calc.Value{pramOffsets(), calc.Number(3)}, calc.CodeBareNumber, "3 in"},
		{"profile_plan", []calc.Value{pramOffsets(), calc.Str("y")}, calc.CodeUnknownItem, "no row y"},
		{"profile_plan", []calc.Value{pramOffsets(), calc.Listed(calc.Length(1))}, calc.CodeShape, "1 position but 5 stations"},
		{"profile_plan", []calc.Value{pramOffsets(tableRow("x", five, 1, 0, 1, 2, 2, 3))}, calc.CodeDomain, "must rise"},
		{"profile_plan", []calc.Value{pramOffsets(), calc.Length(1), calc.Length(0), calc.Str("none"), calc.Length(3)}, calc.CodeKind, `["weight"`},
	} {
		_, err := find(t, c.name).Invoke(c.args)
		if err == nil || err.Code != c.code || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%s: %v; want [%s] %q", c.name, err, c.code, c.words)
		}
	}
	for text, want := range map[string]calc.Code{
		`tick_strip(mark_positions(0 in, 1 in, 501))`: calc.CodeLimit,
		`tick_strip([])`: calc.CodeShape, `bevel_strip([0 in, 1 in], [3°])`: calc.CodeShape, `bevel_strip([1 in, 0 in], [3°, 4°])`: calc.CodeDomain,
		`bevel_strip([0 in, 1 in], [3°, 4°], 3 in)`: calc.CodeDimension, `bevel_strip([0 in, 1 in], [3°, 4°], [1°])`: calc.CodeShape, `bevel_strip([0 in, 1 in], [3°, 4°], 91°)`: calc.CodeDomain,
		`fairness_plot([0 in, 1 in], [0 in, 1 in])`: calc.CodeShape, `panel_drawing(3 in)`: calc.CodeKind, `transom_drawing([[1 in, 1 in]], 3°)`: calc.CodeShape,
		`transom_drawing([[1 in, 1 in], [2 in, 9 in]], 3°, [1°, 2°, 3°])`: calc.CodeShape, `mould_drawing([[1 in, 1 in], [2 in, 9 in]], [], "upper")`: calc.CodeUnknownItem,
		`mould_drawing([[1 in, 1 in], [2 in, 9 in]], 3)`: calc.CodeBareNumber, `frame_drawing([[1 in, 1 in], [2 in, 9 in]], 0 in)`: calc.CodeDomain,
		`stem_drawing([[1 in, 1 in], [2 in, 9 in]], [30°], 1 in)`: calc.CodeShape, `camber_mould(4 in, 3 in)`: calc.CodeDomain, `part_sketch(1 in, 0 in, 3 in)`: calc.CodeDomain,
		`part_sketch(1 in, 1 in, 3 in, 4)`: calc.CodeKind, `sheet_layout([[9 ft, 4 ft]])`: calc.CodeDomain, `board_layout([9 ft], 8 ft, 0)`: calc.CodeDomain,
		`deviation_map([1 in], [1 in, 2 in])`: calc.CodeShape, `deviation_map([1 in], [3 lb])`: calc.CodeDimension, `hog_drawing([1 in, 2 in], [0 in, 1 in])`: calc.CodeShape,
		`twist_drawing(1 in, 2 in, 0 in)`: calc.CodeDomain, `best_arc_drawing([[0 in, 0 in], [1 in, 1 in], [2 in, 2 in], [3 in, 3 in]])`: calc.CodeDomain,
		`best_line_drawing([[0 in, 0 in], [0 in, 1 in], [2 in, 2 in]])`: calc.CodeDomain, `moisture_drawing([0 days], [9 %], 11 %, 9 %)`: calc.CodeDomain,
		`moisture_drawing([7 days, 0 days], [9 %, 9 %], 9 %, 11 %)`: calc.CodeDomain, `weight_drawing([3 lb], [3 in])`: calc.CodeDimension, `hours_drawing([], [])`: calc.CodeShape,
		`hours_drawing("dates", [3 h])`: calc.CodeDate, `hours_drawing("days", [3 h])`: calc.CodeUnknownItem, `hours_drawing([3], [3 h])`: calc.CodeBareNumber,
		`hours_and_money(3 h)`: calc.CodeKind, `hours_and_money([3 in])`: calc.CodeDimension, `hours_and_money("none", [3 h])`: calc.CodeDimension,
		`spread_drawing(3 in)`: calc.CodeKind, `spread_drawing([3 in, 3 lb])`: calc.CodeDimension, `spread_drawing([3 in], 3)`: calc.CodeKind,
		`before_and_after([1 in, 2 in], [1 in])`: calc.CodeShape, `before_and_after([1 in], [2 in], ["a", "b"])`: calc.CodeShape, `before_and_after(1 in, 2 in, [3])`: calc.CodeKind,
	} {
		if v, _, err := evaluate(text); err == nil || err.Code != want {
			t.Errorf("%s: [%v] %s; want %s", text, err, calc.Style{}.Text(v), want)
		}
	}
}

// TestDates: lists named by dates stand at their dates, leap days and ends of years too.
func TestDates(t *testing.T) {
	oak := tableRow("oak", []string{"_2027_12_30", "2028-02-28", "_2028_03_01"}, 1, 0.16, 0.13, 0.1).Value
	for i := range oak.X.Items {
		oak.X.Items[i].D = calc.DimNumber
	}
	d := value(t, "moisture_drawing", calc.Str("dates"), oak, calc.Number(.09), calc.Number(.11)).X.Drawing.(*draw.Moisture)
	if a, b := d.Readings[1].Day-d.Readings[0].Day, d.Readings[2].Day-d.Readings[1].Day; a != 60 || b != 2 { // 2 of December, 31, 27 of February; the 29th and one more
		t.Errorf("%g and %g days apart", a, b)
	}
	if l := d.Readings[2].Label; l != "1 Mar 2028" {
		t.Errorf("the label %q", l)
	}
	worked := tableRow("w", []string{"2027-01-09", "2027-01-09", "2027-02-01"}, 1, 3, 2, 1).Value
	for i := range worked.X.Items {
		worked.X.Items[i] = calc.Of(worked.X.Items[i].V*3600, calc.DimTime)
	}
	if got := described(t, "hours_and_money", worked); got != "Hours and money, running sums: 6 h from 9 Jan to 1 Feb." {
		t.Errorf("%q", got)
	}
	eur, _ := calc.Money(12.5, "EUR")
	usd, _ := calc.Money(40, "USD")
	got := described(t, "hours_and_money", calc.Str("none"), calc.Labelled([]string{"2027-01-09", "entry_3", "entry_4"}, []calc.Value{eur, usd, eur}))
	if got != "Hours and money, running sums: 25.00 EUR from 2027-01-09 to entry 4 and 40.00 USD on entry 3." {
		t.Errorf("%q", got)
	}
}

// TestBeforeAndAfterATable: a table is taken apart, and its values go by row and station.
func TestBeforeAndAfterATable(t *testing.T) {
	after := pramOffsets()
	after.X.Items[3].X.Items[2] = calc.Length(.648)
	if got := described(t, "before_and_after", pramOffsets(), after); got != "Of 25 values, one has moved: sheer half, st 2 from 640 mm to 648 mm." {
		t.Errorf("%q", got)
	}
	empty := pramOffsets()
	empty.X.Items[3].X.Items[2] = calc.NoValue()
	if got := described(t, "before_and_after", empty, pramOffsets()); got != "Of 25 values, one has moved: sheer half, st 2 from — to 640 mm." {
		t.Errorf("%q", got)
	}
	if got := described(t, "spread_drawing", calc.Labelled([]string{"sheer_half", "plank"}, []calc.Value{calc.Length(.002), calc.Length(.001)}), calc.Str("thwart")); got != "The ± of thwart comes from 2 readings, most of it from sheer half, ± 2 mm." {
		t.Errorf("%q", got)
	}
	if got := described(t, "spread_drawing", calc.Listed()); got != "No reading with a ± bears on it." {
		t.Errorf("%q", got)
	}
}

// TestDrawingsThatPrint: what can be laid down at true size says so.
func TestDrawingsThatPrint(t *testing.T) {
	flat := map[string]bool{"panel_drawing": true, "transom_drawing": true, "mould_drawing": true, "frame_drawing": true,
		"stem_drawing": true, "camber_mould": true, "part_sketch": true, "tick_strip": true, "bevel_strip": true}
	n := 0
	for _, f := range trade.All() {
		if f.Group != "Drawings" {
			continue
		}
		v, _, err := evaluate(f.Checks[0].Call)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		if d, ok := v.X.Drawing.(draw.Flat); ok != flat[f.Name] || ok != strings.Contains(f.Summary, "prints at true size") {
			t.Errorf("%s: flat %v, summary %q", f.Name, ok, f.Summary)
		} else if ok {
			n++
			scene := d.Outline(calc.Style{})
			if _, _, ok := scene.Bounds(); !ok {
				t.Errorf("%s has no outline", f.Name)
			}
		}
		if again, _, _ := evaluate(f.Checks[0].Call); !calc.Same(v, again) {
			t.Errorf("%s is not the same twice", f.Name)
		}
	}
	if n != len(flat) {
		t.Errorf("%d flat drawings", n)
	}
}

// TestSheetLayoutPlaces: the pieces lie within their sheets and not on one another.
func TestSheetLayoutPlaces(t *testing.T) {
	v, _, err := evaluate("sheet_layout([[8 ft, 1 ft], [4 ft, 2 ft], [4 ft, 2 ft], [3 ft, 1 1/2 ft], [8 ft, 2 ft], [2 ft, 1 ft], [4 ft, 4 ft]], 8 ft, 4 ft, 1/8 in)")
	if err != nil {
		t.Fatal(err)
	}
	d := v.X.Drawing.(*draw.SheetLayout)
	sheets := map[int]bool{}
	for i, a := range d.Pieces {
		sheets[a.Sheet] = true
		if a.X < 0 || a.Y < 0 || a.X+a.Long > d.Long+1e-9 || a.Y+a.Across > d.Across+1e-9 {
			t.Errorf("piece %d lies off the sheet: %+v", i, a)
		}
		for _, b := range d.Pieces[i+1:] {
			if a.Sheet == b.Sheet && a.X < b.X+b.Long-1e-9 && b.X < a.X+a.Long-1e-9 && a.Y < b.Y+b.Across-1e-9 && b.Y < a.Y+a.Across-1e-9 {
				t.Errorf("pieces over one another: %+v %+v", a, b)
			}
		}
	}
	n := number(t, "sheets_needed([[8 ft, 1 ft], [4 ft, 2 ft], [4 ft, 2 ft], [3 ft, 1 1/2 ft], [8 ft, 2 ft], [2 ft, 1 ft], [4 ft, 4 ft]], 8 ft, 4 ft, 1/8 in)")
	if len(sheets) != int(n) || len(d.Pieces) != 7 {
		t.Errorf("%d pieces on %d sheets, sheets_needed says %g", len(d.Pieces), len(sheets), n)
	}
}
