package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
)

// skiff is a small flat-bottomed hull for the calc language, stations 2 ft apart.
const skiff = "hull_from_lines(2 ft, [[0.1 ft, 1 ft, 1.4 ft, 1.3 ft, 1 ft], [0.1 ft, 1.3 ft, 1.9 ft, 1.8 ft, 1.4 ft]], [[0.6 ft, 0.2 ft, 0 ft, 0.1 ft, 0.3 ft], [2.2 ft, 1.8 ft, 1.6 ft, 1.6 ft, 1.7 ft]])"

// both is a hull with the same ends fore and aft.
const both = "hull_from_lines(2 ft, [[0.2 ft, 1 ft, 1.4 ft, 1 ft, 0.2 ft], [0.4 ft, 1.3 ft, 1.9 ft, 1.3 ft, 0.4 ft]], [[0.4 ft, 0.1 ft, 0 ft, 0.1 ft, 0.4 ft], [2 ft, 1.7 ft, 1.6 ft, 1.7 ft, 2 ft]])"

// TestHullLaws: what must hold of any hull.
func TestHullLaws(t *testing.T) {
	for there, back := range map[string]string{
		// the water that a weight asks for floats that weight
		`displacement(hull_volume(` + skiff + `, draft_for(` + skiff + `, 400 lb, "salt").water_height), "salt")`:   "400 lb",
		`hydrostatics(` + skiff + `, draft_for(` + skiff + `, 700 lb, "fresh").water_height, "fresh").displacement`: "700 lb",
		// a displacement table read backwards
		`draft_for_weight(500 lb, displacement_table(` + skiff + `, [draft_for(` + skiff + `, 500 lb, "fresh").water_height, 1.5 ft], "fresh"))`: `draft_for(` + skiff + `, 500 lb, "fresh").water_height`,
		// the parts of the sum
		`hydrostatics(` + skiff + `, 1 ft, "fresh").metacentre_over_base - 0.4 ft`:                                                      `initial_stability(` + skiff + `, hydrostatics(` + skiff + `, 1 ft, "fresh").displacement, "fresh", 0.4 ft).metacentric_height`,
		`area_under(section_areas(` + skiff + `, 1 ft), 2 ft)`:                                                                          `hull_volume(` + skiff + `, 1 ft)`,
		`centre_under(section_areas(` + skiff + `, 1 ft), 2 ft)`:                                                                        `hydrostatics(` + skiff + `, 1 ft, "fresh").centre_of_buoyancy`,
		`centre_of_flotation(waterline_half_breadths(` + skiff + `, 1 ft), 2 ft)`:                                                       `waterplane(` + skiff + `, 1 ft).centre`,
		`metacentric_radius(waterline_half_breadths(` + skiff + `, 1 ft), 2 ft, hull_volume(` + skiff + `, 1 ft))`:                      `hydrostatics(` + skiff + `, 1 ft, "fresh").metacentric_radius`,
		`weight_to_sink_one_inch(waterplane(` + skiff + `, 1 ft).area, "salt")`:                                                         `hydrostatics(` + skiff + `, 1 ft, "salt").sinks_one_inch`,
		`section_area(section_at_station(` + skiff + `, 3), 1 ft)`:                                                                      `at(section_areas(` + skiff + `, 1 ft), 3)`,
		`hydrostatics(` + skiff + `, 1 ft, "salt").block_coefficient / hydrostatics(` + skiff + `, 1 ft, "salt").prismatic_coefficient`: `hydrostatics(` + skiff + `, 1 ft, "salt").midship_coefficient`,
		// fore and aft alike
		`trim_for(` + both + `, [600 lb], [4 ft], "fresh").trim`:                                                              "0 ft",
		`trim_for(` + both + `, [600 lb], [4.3 ft], "fresh").trim + trim_for(` + both + `, [600 lb], [3.7 ft], "fresh").trim`: "0 ft",
		`hydrostatics(` + both + `, 1 ft, "fresh").centre_of_flotation`:                                                       "4 ft",
		`trim_for(` + both + `, [600 lb], [4 ft], "fresh").water_height`:                                                      `draft_for(` + both + `, 600 lb, "fresh").water_height`,
		// one weight is all weights
		`trim_for(` + both + `, [350 lb, 250 lb], [3.2 ft, 4.9 ft], "fresh").trim`:               `trim_for(` + both + `, [600 lb], [centre_of_weight([[350 lb, 3.2 ft], [250 lb, 4.9 ft]])], "fresh").trim`,
		`trim_for(` + both + `, [350 lb, 250 lb], [3.2 ft, 4.9 ft], "fresh", [1 ft, 2 ft]).trim`: `trim_for(` + both + `, [600 lb], [centre_of_weight([[350 lb, 3.2 ft], [250 lb, 4.9 ft]])], "fresh", centre_of_weight([[350 lb, 1 ft], [250 lb, 2 ft]])).trim`,
	} {
		got, want := number(t, there), number(t, back)
		if math.Abs(got-want) > 1e-9*math.Max(math.Abs(want), 0.01) {
			t.Errorf("%s = %.12g, want %s, %.12g", there, got, back, want)
		}
	}
}

// TestBoxTrimsWithItsWeightHigh: a box that floats at the slope s has its buoyancy at
// s L²/12T aft of the middle and T/2 + s² L²/24T up; from there square to the water
// lies the weight.
func TestBoxTrimsWithItsWeightHigh(t *testing.T) {
	const l, b, depth = 10.0, 4.0, 3.0 // metres
	list := func(v float64) calc.Value { return calc.Listed(calc.Length(v), calc.Length(v), calc.Length(v)) }
	table := calc.Fields(
		calc.Field{Name: "x", Value: calc.Listed(calc.Length(0), calc.Length(l/2), calc.Length(l))},
		calc.Field{Name: "chine_half", Value: list(b / 2)}, calc.Field{Name: "chine_height", Value: list(0)},
		calc.Field{Name: "sheer_half", Value: list(b / 2)}, calc.Field{Name: "sheer_height", Value: list(depth)},
	)
	for _, s := range []float64{-0.15, -0.01, 0.004, 0.1, 0.19} {
		for _, high := range []float64{0.2, 1.1, 4} {
			const draft = 1.0
			along, up := s*l*l/(12*draft), draft/2+s*s*l*l/(24*draft)
			at := l/2 + along - s*(high-up)
			v := value(t, "trim_for", table, calc.Listed(calc.Mass(1000*l*b*draft)), calc.Listed(calc.Length(at)), calc.Of(1000, calc.DimDensity), calc.Length(high))
			printed(t, "trim", field(t, v, "trim").V, s*l, 1e-9)
			printed(t, "height of the water", field(t, v, "water_height").V, draft, 1e-9)
			printed(t, "forward", field(t, v, "water_height_forward").V, draft-s*l/2, 1e-9)
			printed(t, "aft", field(t, v, "water_height_aft").V, draft+s*l/2, 1e-9)
			printed(t, "least freeboard", field(t, v, "least_freeboard").V, depth-draft-math.Abs(s)*l/2, 1e-9)
		}
	}
}

// TestDraftRises: more weight, more draft; the ± of the weight comes out over what
// sinks the boat.
func TestDraftRises(t *testing.T) {
	last := -1.0
	for _, r := range mustList(t, `map([100 lb, 101 lb, 200 lb, 400 lb, 800 lb, 1200 lb], draft_for(`+skiff+`, it, "fresh").draft)`) {
		if r.V <= last {
			t.Errorf("the draft does not rise: %g after %g", r.V, last)
		}
		last = r.V
	}
	got := number(t, `spread_of(draft_for(`+skiff+`, 500 lb ± 20 lb, "fresh").draft)`)
	want := number(t, `20 lb / hydrostatics(`+skiff+`, draft_for(`+skiff+`, 500 lb, "fresh").water_height, "fresh").sinks_one_inch`)
	printed(t, "± of the draft", got, want, 1e-4*want)
	// ± of an offset
	got = number(t, `spread_of(hull_volume(hull_from_lines(1 ft, [[2 ft, 2 ft ± 0.1 ft, 2 ft], [2 ft, 2 ft, 2 ft]], [[0 ft, 0 ft, 0 ft], [3 ft, 3 ft, 3 ft]]), 3 ft))`)
	printed(t, "± of the volume", got, 4.0/3*0.1*3*math.Pow(0.3048, 3), 1e-9)
}

// TestHullScales: twice the boat, eight times the volume.
func TestHullScales(t *testing.T) {
	table, _, err := evaluate(skiff)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"hull_volume", "waterplane", "section_areas", "section_centroids", "waterline_half_breadths", "freeboards", "buttock_heights"} {
		once := value(t, name, table, calc.Length(0.3))
		for _, k := range []float64{0.5, 3} {
			again := value(t, name, resized(table, k), calc.Length(0.3*k))
			if !alike(again, resized(once, k), 1e-12) {
				t.Errorf("%s does not scale by %g: %s", name, k, calc.Style{}.Text(again))
			}
		}
	}
}

// turned is the table with a row a station.
func turned(table calc.Value) calc.Value {
	first := table.Items()[0]
	var rows []calc.Field
	for k, name := range first.Labels() {
		items := make([]calc.Value, len(table.Labels()))
		for i, row := range table.Items() {
			items[i] = row.Items()[k]
		}
		rows = append(rows, calc.Field{Name: name, Value: calc.Labelled(table.Labels(), items)})
	}
	return calc.Fields(rows...)
}

// TestTablesAsTheyAreWritten: a row a line or a row a station, in any order, with
// cells left empty, with positions given beside the table.
func TestTablesAsTheyAreWritten(t *testing.T) {
	table := skiffTable(t)
	water := calc.Inches(4)
	want := value(t, "hull_volume", table, water).V
	if got := value(t, "hull_volume", turned(table), water).V; got != want {
		t.Errorf("a row a station: %g, want %g", got, want)
	}
	areas := value(t, "section_areas", turned(table), water)
	if areas.Labels()[3] != "st_3" {
		t.Errorf("the stations' names are lost: %v", areas.Labels())
	}
	s := sorrelOffsets(t)
	bare := calc.Fields(
		calc.Field{Name: "sheer_half_breadth", Value: s.sheer}, calc.Field{Name: "sheer_height", Value: s.sheerHeight},
		calc.Field{Name: "chine_half_breadths", Value: s.chine}, calc.Field{Name: "chine_heights", Value: s.chineHeight},
	)
	fits, straight := calc.Str("what fits"), calc.Str("straight")
	for _, places := range []calc.Value{calc.Inches(22.5), s.x} {
		if got := value(t, "hull_volume", bare, water, fits, straight, places).V; math.Abs(got-want) > 1e-12*want {
			t.Errorf("positions beside the table: %g, want %g", got, want)
		}
	}
	// a point that is missing is passed over, not taken as zero: between chine and
	// sheer a third point on the straight line changes nothing
	mid := func(a, b calc.Value) calc.Value {
		items := make([]calc.Value, len(a.Items()))
		for i := range items {
			items[i] = calc.Length((a.Items()[i].V + b.Items()[i].V) / 2)
			if i%3 == 1 {
				items[i] = calc.NoValue()
			}
		}
		return calc.Labelled(a.Labels(), items)
	}
	extra := calc.Fields(
		calc.Field{Name: "x", Value: s.x}, calc.Field{Name: "sheer_half", Value: s.sheer}, calc.Field{Name: "sheer_height", Value: s.sheerHeight},
		calc.Field{Name: "strake_half", Value: mid(s.chine, s.sheer)}, calc.Field{Name: "strake_height", Value: mid(s.chineHeight, s.sheerHeight)},
		calc.Field{Name: "chine_half", Value: s.chine}, calc.Field{Name: "chine_height", Value: s.chineHeight},
	)
	if got := value(t, "hull_volume", extra, water).V; math.Abs(got-want) > 1e-12*want {
		t.Errorf("with empty cells: %g, want %g", got, want)
	}
	// a column that holds nothing is no station
	without := skiffTable(t)
	for i, row := range without.Items() {
		items := append([]calc.Value(nil), row.Items()...)
		items[4] = calc.NoValue()
		without.X.Items[i] = calc.Labelled(row.Labels(), items)
	}
	if r := call(t, "hull_volume", without, water); len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0], "does not fit the 8 stations") {
		t.Errorf("seven spaces, one of them double: %q", r.Warnings)
	}
	// a keel that stands over the chine: a hollow bottom keeps its shape
	const hollow = "[[0 in, 1 in], [5 in, 0 in], [6 in, 4 in]]"
	if got := number(t, "section_area("+hollow+", 0.5 in)"); math.Abs(got/0.0254/0.0254-2*0.65625) > 1e-12 {
		t.Errorf("a hollow bottom holds %g in²", got/0.0254/0.0254)
	}
}

// TestRoundSections: battens through the points of a round section meet every water
// line and buttock where the circle does.
func TestRoundSections(t *testing.T) {
	circle := closedHulls()[4]
	table := circle.table(2, 12)
	for _, z := range []float64{0.05, 0.3, 0.77, 1} {
		want := math.Sqrt(1 - (1-z)*(1-z))
		got := value(t, "waterline_half_breadths", table, calc.Length(z), calc.Str("round")).Items()[1].V
		printed(t, "half-breadth", got, want, 3e-4)
		got = value(t, "section_areas", table, calc.Length(z), calc.Str("round")).Items()[1].V
		printed(t, "area", got, math.Acos(1-z)-(1-z)*want, 3e-4)
		got = value(t, "buttock_heights", table, calc.Length(want), calc.Str("round")).Items()[1].V
		printed(t, "buttock", got, z, 3e-3)
	}
}

// TestHullRefusals: what a table of offsets may lack, and water where no hull is.
func TestHullRefusals(t *testing.T) {
	for _, c := range []struct {
		call  string
		code  calc.Code
		words string
	}{
		{"hull_volume(" + skiff + ", 1.7 ft)", calc.CodeDomain, "over the sheer at station 3"},
		{"hull_volume(" + skiff + ", -1 in)", calc.CodeDomain, "does not reach the hull"},
		{"section_areas(" + skiff + ", 1.7 ft)", calc.CodeDomain, "over the sheer"},
		{"hull_volume(" + skiff + ", 1)", calc.CodeBareNumber, "1 in"},
		{`draft_for(` + skiff + `, 9000 lb, "fresh")`, calc.CodeDomain, "sheer under"},
		{`draft_for(` + skiff + `, 0 lb, "fresh")`, calc.CodeDomain, "more than zero"},
		{`draft_for(` + skiff + `, 300 lb, "frsh")`, calc.CodeUnknownItem, "fresh"},
		{`draft_for(` + skiff + `, 300 lb, 62.4)`, calc.CodeBareNumber, ""},
		{`draft_for(` + skiff + `, 300 lb, 62.4 kg/m^3)`, calc.CodeDomain, "from"},
		{`trim_for(` + skiff + `, [300 lb], [40 ft], "fresh")`, calc.CodeDomain, "datum"},
		{`trim_for(` + skiff + `, [1100 lb], [5.4 ft], "fresh")`, calc.CodeDomain, "sheer goes under"},
		{`trim_for(` + skiff + `, [300 lb], [4 ft, 5 ft], "fresh")`, calc.CodeShape, "1 weight but 2 places"},
		{`trim_for(` + skiff + `, [300 lb], [4 ft], "fresh", [1 ft, 2 ft])`, calc.CodeShape, "1 weight but 2 heights"},
		{`trim_for(` + skiff + `, [300 lb], [4 ft], "fresh", 12)`, calc.CodeBareNumber, "height"},
		{`trim_for(` + skiff + `, [300 lb, -300 lb], [4 ft, 5 ft], "fresh")`, calc.CodeZero, "nothing"},
		{`hull_volume(` + skiff + `, 1 ft, "simpson second")`, calc.CodeShape, "three divides"},
		{`section_at_station(` + skiff + `, 6)`, calc.CodeUnknownItem, "there are 5"},
		{"hull_from_lines(2 ft, [1 ft, 2 ft], [0 ft, 1 ft])", calc.CodeKind, "two lines"},
		{"hull_from_lines(2 ft, [[1 ft], [2 ft]], [[0 ft], [1 ft], [2 ft]])", calc.CodeShape, "2 lines"},
		{"hull_from_lines(2 ft, [[1 ft, 1 ft], [2 ft]], [[0 ft, 0 ft], [1 ft, 1 ft]])", calc.CodeShape, "line 2"},
		{"hull_volume(hull_from_lines(2 ft, [[1, 1], [2 ft, 2 ft]], [[0 ft, 0 ft], [1 ft, 1 ft]]), 0.5 ft)", calc.CodeBareNumber, "half-breadth"},
		{"hull_volume(hull_from_lines(2 ft, [[-1 ft, 1 ft], [2 ft, 2 ft]], [[0 ft, 0 ft], [1 ft, 1 ft]]), 0.5 ft)", calc.CodeDomain, "below zero"},
		{"hull_volume([1 ft, 2 ft], 0.5 ft)", calc.CodeKind, "data table"},
	} {
		v, _, err := evaluate(c.call)
		switch {
		case err == nil:
			t.Errorf("%s is not refused: %s", c.call, calc.Style{}.Text(v))
		case err.Code != c.code || !strings.Contains(err.Error(), c.words):
			t.Errorf("%s: %s %v, want %s with %q", c.call, err.Code, err, c.code, c.words)
		}
	}
	s := sorrelOffsets(t)
	row := func(name string, v calc.Value) calc.Field { return calc.Field{Name: name, Value: v} }
	for words, table := range map[string]calc.Value{
		"where its stations stand":    calc.Fields(row("chine_half", s.chine), row("chine_height", s.chineHeight), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight)),
		"is chine_hight meant for it": calc.Fields(row("x", s.x), row("chine_half", s.chine), row("chine_hight", s.chineHeight), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight)),
		"has sheer_height but no":     calc.Fields(row("x", s.x), row("chine_half", s.chine), row("chine_height", s.chineHeight), row("sheer_height", s.sheerHeight)),
		"1 line of a hull":            calc.Fields(row("x", s.x), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight)),
		"st 0 has one point":          calc.Fields(row("x", s.x), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight), row("keel_height", calc.Labelled(stationNames, append([]calc.Value{calc.NoValue()}, s.chineHeight.Items()[1:]...)))),
		"the place of st 2 is empty":  calc.Fields(row("x", calc.Labelled(stationNames, append(append(append([]calc.Value(nil), s.x.Items()[:2]...), calc.NoValue()), s.x.Items()[3:]...))), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight), row("keel_height", s.chineHeight)),
		"must rise":                   calc.Fields(row("x", s.sheer), row("sheer_half", s.sheer), row("sheer_height", s.sheerHeight), row("keel_height", s.chineHeight)),
	} {
		r, err := find(t, "hull_volume").Invoke([]calc.Value{table, calc.Inches(4)})
		if err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v %s", words, err, calc.Style{}.Text(r.Value))
		}
	}
}
