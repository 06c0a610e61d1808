package trade_test

import (
	"math"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/trade"
)

// afloatGroups are the groups of weight, water, people, sail, survey and hours.
var afloatGroups = map[string]bool{
	"Weights and centres": true, "Hydrostatics, trim and stability": true, "Capacity and safety": true, "Hulls": true,
	"Rowing, sail and spars": true, "Survey and restoration": true, "Time and cost": true,
}

// TestAfloatRefusals provokes what the functions refuse, and asks for the code and
// for the words that name the likely slip.
func TestAfloatRefusals(t *testing.T) {
	const eight = "[0 in, 1 in, 2 in, 3 in, 3 in, 2 in, 1 in, 0 in]"
	for _, c := range []struct {
		call  string
		code  calc.Code
		words string
	}{
		// weights
		{"centre_of_weight([[10 lb, 4 in], [-10 lb, 5 in]])", calc.CodeZero, "no centre"},
		{"centre_of_weight([])", calc.CodeZero, "no centre"},
		{"centre_of_weight([[10 lb, 4]])", calc.CodeBareNumber, "4 in"},
		{"centre_of_weight([[4 in, 10 lb]])", calc.CodeDimension, "mass"},
		{"weight_moved_shift(160 lb, 22 in, 0 lb)", calc.CodeDomain, "more than zero"},
		{"weight_added_centre(100 lb, 50 in, -100 lb, 50 in)", calc.CodeZero, "nothing"},
		{"scale_reading_weight(-1 lb, 80 lb, 150 in)", calc.CodeDomain, "front"},
		{"scale_reading_weight(0 lb, 0 lb, 150 in)", calc.CodeZero, "nothing"},
		// integration
		{"simpson_first(" + eight + ", 1 in)", calc.CodeShape, "8 ordinates make 7 spaces"},
		{"simpson_first([1 in], 1 in)", calc.CodeShape, "2 or more"},
		{"simpson_first([1, 2, 3], 1 in)", calc.CodeBareNumber, "unit"},
		{"simpson_first([1 in, 2 ft^2, 3 in], 1 in)", calc.CodeDimension, "area"},
		{"simpson_first([20 °C, 21 °C, 20 °C], 1 in)", calc.CodeTemperature, ""},
		{"simpson_second([1 in, 2 in, 3 in], 1 in)", calc.CodeShape, "three divides"},
		{"five_eight_area(1 in, 2 ft^2, 3 in, 1 in)", calc.CodeDimension, "length"},
		{"five_eight_area(1, 2, 3, 1 in)", calc.CodeBareNumber, ""},
		{"trapezoid_area([1 in, 2 in], [0 in, 1 in, 2 in])", calc.CodeShape, "3 positions but 2 values"},
		{"trapezoid_area([1 in, 2 in, 3 in], [0 in, 112 1/2 in, 90 in])", calc.CodeDomain, "must rise"},
		{"trapezoid_area([1 in, 2 in], 0 in)", calc.CodeZero, "spacing"},
		{"trapezoid_area([1 in, 2 in], 3)", calc.CodeBareNumber, "3 in"},
		{`area_under([1 in, 2 in, 3 in], [0 in, 1 in, 3 in], "simpson first")`, calc.CodeDomain, "unlike its neighbour"},
		{`area_under([1 in, 2 in, 3 in], 1 in, "simpson both")`, calc.CodeShape, "odd number"},
		{`area_under(` + eight + `, 1 in, "parabolas")`, calc.CodeShape, "even number"},
		{`area_under([1 in, 2 in, 3 in], 1 in, "simpson")`, calc.CodeUnknownItem, "simpson first"},
		{"centre_of_flotation([0 in, 0 in, 0 in], 1 in)", calc.CodeZero, "dry"},
		{"displaced_volume([0 in^2, -1 in^2, 2 in^2], 1 in)", calc.CodeDomain, "below zero"},
		// water
		{`displacement(8.1 ft^3, "brackish")`, calc.CodeUnknownItem, ""},
		{`displacement(8.1 ft^3)`, calc.CodeArguments, "water"},
		{"section_area([[0 in, 0 in], [10 in, 5 in]], 6 in)", calc.CodeDomain, "over the sheer"},
		{"section_area([[0 in, 0 in]], 6 in)", calc.CodeShape, "at least 2"},
		{"draft_for_weight(600 lb, [[3 in, 300 lb], [4 in, 520 lb]])", calc.CodeDomain, "heavier than the boat floats at the top of the table"},
		{"draft_for_weight(200 lb, [[3 in, 300 lb], [4 in, 520 lb]])", calc.CodeDomain, "lighter"},
		{"draft_for_weight(400 lb, [[3 in, 300 lb], [3 in, 520 lb]])", calc.CodeDomain, "both rise"},
		{"draft_for_weight(400 lb, [[3 in, 300 lb]])", calc.CodeShape, "at least 2"},
		{"prismatic_coefficient(20 ft^3, 1 ft^2, 13 ft)", calc.CodeDomain, "half only"},
		{`weight_to_sink_one_inch(0 ft^2, "fresh")`, calc.CodeDomain, "more than zero"},
		{"heel_from_moved_weight(160 lb, 14 in, 478 lb, 0 ft)", calc.CodeDomain, "more than zero"},
		{"inclining_height(25 lb, 30 in, 300 lb, 0°)", calc.CodeZero, "heels"},
		{"moment_to_trim_one_inch(478 lb, 24.6 ft, 0 in)", calc.CodeDomain, "more than zero"},
		{"trim_change(160 lb, 22 in, 900)", calc.CodeBareNumber, "lb·in per in"},
		// capacity
		{"persons_by_size(20 ft, 6 ft)", calc.CodeDomain, "under 20 ft"},
		{"horsepower_plate(20 ft, 5 ft, no)", calc.CodeDomain, "under 20 ft"},
		{"horsepower_plate(15 ft, 4 ft, no)", calc.CodeDomain, "over 52"},
		{"horsepower_plate(10 ft, 5.26 ft, no)", calc.CodeDomain, "183.53"},
		{"horsepower_plate(10 ft, 3 ft, yes)", calc.CodeDomain, "none under 3 hp"},
		{"horsepower_plate(10 ft, 3 ft, 1)", calc.CodeKind, "yes or no"},
		{`persons_plate(520 lb, "outboard")`, calc.CodeUnknownItem, "manual"},
		{`persons_plate(20 lb, "motor of 2 hp or less")`, calc.CodeDomain, "nothing for people"},
		{"weight_capacity_by_displacement(2900 lb, 210 lb)", calc.CodeArguments, "fraction"},
		{"weight_capacity_by_displacement(210 lb, 2900 lb, 0.2)", calc.CodeDomain, "swapped"},
		{`flotation_volume(160 lb, "fresh", 70 lb/ft^3)`, calc.CodeDomain, "sinks"},
		{"swamped_margin([1 ft^3], [21 lb/ft^3, 45 lb/ft^3], 30 lb)", calc.CodeShape, "as many"},
		{`swamped_margin([1 ft^3], ["white oka"], 30 lb)`, calc.CodeUnknownItem, "oak"},
		{"swamped_margin([1 ft^3], [21 lb], 30 lb)", calc.CodeDimension, "density"},
		{"speed_by_length(0 ft)", calc.CodeDomain, "more than zero"},
		// sail
		{"sail_area_triangle(12 ft, 30 ft, 45 ft)", calc.CodeDomain, "check the tape"},
		{"sail_area_four_sides(8 ft, 12 ft, 3 ft, 9 ft, 13 ft)", calc.CodeDomain, "do not close"},
		{"sail_from_corners([[0 ft, 0 ft], [1 ft, 1 ft]])", calc.CodeShape, "at least 3"},
		{"sail_from_corners([[0 ft, 0 ft], [1 ft, 1 ft], [2 ft, 2 ft]])", calc.CodeDomain, "enclose nothing"},
		{"centre_of_effort([[0 ft^2, 3 ft]])", calc.CodeZero, "no area"},
		{"centre_of_effort([[-2 ft^2, 3 ft]])", calc.CodeDomain, "below zero"},
		{"oar_length(10 in, 7/25, -6 in)", calc.CodeDomain, "inboard"},
		// survey
		{"hog([40 mm, 33 mm], 500 mm)", calc.CodeShape, "at least 3"},
		{"hog([40 mm, 33 mm, 40 mm], [0 mm, 500 mm])", calc.CodeShape, "2 positions but 3 values"},
		{"hog([40 mm, 33 mm, 40 mm], [0 mm, 500 mm, 300 mm])", calc.CodeDomain, "must rise"},
		{"twist(412 mm, 405 mm, 0 mm)", calc.CodeDomain, "more than zero"},
		{"difference_stands_out(8 mm)", calc.CodePlusMinus, "no tolerance"},
		{"difference_stands_out(8 mm, 2 mm, 2 mm, 0.5)", calc.CodeDomain, "from 1"},
		{"mean_deviation([7 mm])", calc.CodeShape, "two or more"},
		{"best_fit_line([[0 mm, 1 mm], [0 mm, 2 mm]])", calc.CodeZero, "one position"},
		{"best_fit_line([[0 mm, 1 mm]])", calc.CodeShape, "at least 2"},
		{"best_fit_arc([[0 mm, 0 mm], [1 mm, 1 mm], [2 mm, 2 mm]])", calc.CodeDomain, "straight line"},
		{"best_fit_arc([[0 mm, 0 mm], [1 mm, 1 mm]])", calc.CodeShape, "at least 3"},
		{"wood_lost(0 mm, 2 mm)", calc.CodeDomain, "more than zero"},
		{"loop_closure([[1 mm, 2 mm], [-1 mm, -2 mm]])", calc.CodeShape, "three legs"},
		{"shrunk_back_width(118 mm, 11, 16, 0.00234)", calc.CodeDomain, "11 %"},
		// time
		{"hours_left(0, 9, 3 h)", calc.CodeDomain, "1 or more"},
		{"hours_left(10, 9, 3 h)", calc.CodeDomain, "swapped"},
		{"repeated_part_time(5 h, 9, 60 %)", calc.CodeDomain, "70%"},
		{"repeated_part_time(5 h, 9, 85)", calc.CodeDomain, "85 %"},
		{"made_against_now(45 in, 13°)", calc.CodeDimension, "angle"},
	} {
		v, _, err := evaluate(c.call)
		switch {
		case err == nil:
			t.Errorf("%s is not refused: %s", c.call, calc.Style{}.Text(v))
		case err.Code != c.code || !strings.Contains(err.Error(), c.words):
			t.Errorf("%s: %s %v, want %s with %q", c.call, err.Code, err, c.code, c.words)
		}
	}
}

// TestAfloatRemarks provokes what is still answered, with a remark.
func TestAfloatRemarks(t *testing.T) {
	for call, words := range map[string]string{
		"weight_moved_shift(160 lb, 22 in, 100 lb)":                      "does the total hold it",
		"displaced_volume([0 ft^2, 1 ft^2, 2 ft^2, 1 ft^2], 1 ft)":       "his second rule was used on the last three",
		"area_under([0 ft, 1 ft, 2 ft, 1 ft], [0 ft, 1 ft, 3 ft, 4 ft])": "trapezoids were used",
		"section_area([[0 in, 2 in], [10 in, 5 in]], 1 in)":              "this station is dry",
		"centre_of_buoyancy_height(0.3 ft, 20 ft^3, 40 ft^2)":            "wider below",
		"metacentric_height(0.2 ft, 1 ft, 1.5 ft)":                       "would not stay upright",
		"righting_arm_small(2 ft, 15°)":                                  "no small one",
		"righting_arm_small(-1 ft, 5°)":                                  "would not stay upright",
		"heel_from_moved_weight(160 lb, 40 in, 478 lb, 2 ft)":            "no small one",
		"inclining_height(25 lb, 30 in, 300 lb, 8°)":                     "1 to 6°",
		"freeboard_left(17 in, 18 in)":                                   "the sheer is under water",
		"persons_by_size(5 ft, 15 ft)":                                   "swapped",
		"swamped_margin([1 ft^3], [45 lb/ft^3], 100 lb)":                 "the swamped boat sinks",
		"oar_length(70 in)":                                              "outside 24 to 60 in",
		"lead(66.4 in, 100 in, 157 in)":                                  "tune by trial",
		"hog([40 mm, 53 mm, 40 mm], 500 mm)":                             "sagged: 13 mm",
		"twist(1 mm, 2 mm, 500 mm)":                                      "starboard high by 1 mm",
		"port_starboard_difference(531 mm, 523 mm)":                      "port fuller by 8 mm (0.315 in)",
		"deviation_from_drawn(520 mm, 527 mm)":                           "7 mm (0.2756 in) less than drawn",
		"difference_stands_out(8 mm, 2 mm, 2 mm)":                        "2.83 times",
		"wood_lost(9.5 mm, 6.9 mm)":                                      "more than a quarter is gone",
		"wood_lost(7.9 mm, 9.5 mm)":                                      "swapped",
		"shrunk_back_width(118 mm, 11 %, 16 %, 0.00234)":                 "6 to 14 %",
		`shrunk_back_width(118 mm, 11 %, 13 %, "white oak")`:             "taken as flat-sawn",
		"made_against_now(45 7/8 in, 46 1/4 in)":                         "made 9.53 mm (0.375 in) too small",
		"trim_for(" + both + `, [600 lb], [4.3 ft], "fresh")`:            "by the stern",
		"initial_stability(" + both + `, 600 lb, "fresh", 3 ft)`:         "would not stay upright",
		"hydrostatics(hull_from_lines([0 ft, 1 ft, 3 ft], [[1 ft, 1 ft, 1 ft], [1 ft, 1 ft, 1 ft]], [[0 ft, 0 ft, 0 ft], [1 ft, 1 ft, 1 ft]]), 0.5 ft, \"salt\")": "trapezoids were used",
	} {
		_, remarks, err := evaluate(call)
		if err != nil || !strings.Contains(strings.Join(remarks, "\n"), words) {
			t.Errorf("%s: %v %q, want %q", call, err, remarks, words)
		}
	}
	// what is in its range is not remarked on
	for _, call := range []string{
		"righting_arm_small(2 ft, 7°)", "oar_length(46 in)", "lead(66.4 in, 73 in, 157 in)", "wood_lost(8 mm, 6 mm)",
		"displaced_volume([0 ft^2, 1 ft^2, 2 ft^2], 1 ft)", "freeboard_left(17 in, 4 in)", "inclining_height(25 lb, 30 in, 300 lb, 3°)",
		"twist(5 mm, 5 mm, 1 m)", "persons_by_size(14 ft, 4 ft)", "hydrostatics(" + both + `, 1 ft, "fresh")`,
	} {
		if _, remarks, err := evaluate(call); err != nil || len(remarks) > 0 {
			t.Errorf("%s: %v %q", call, err, remarks)
		}
	}
}

// TestAfloatWrongDimension puts a bare number, and then a temperature, in the place
// of every quantity that has a dimension.
func TestAfloatWrongDimension(t *testing.T) {
	for _, f := range trade.All() {
		if !afloatGroups[f.Group] {
			continue
		}
		args := sample(t, f)
		for i := range args {
			p := f.Params[i]
			if p.AnyDim || p.Kind != trade.Scalar && p.Kind != trade.Item || p.Dim.IsNumber() {
				continue
			}
			for _, c := range []struct {
				wrong calc.Value
				code  calc.Code
			}{{calc.Number(19), calc.CodeBareNumber}, {calc.Of(290, calc.DimTemperature), calc.CodeDimension}} {
				bad := append([]calc.Value(nil), args...)
				bad[i] = c.wrong
				if r, err := f.Invoke(bad); err == nil || err.Code != c.code {
					t.Errorf("%s with %s for %s: %s %v", f.Name, calc.Style{}.Text(c.wrong), p.Name, calc.Style{}.Text(r.Value), err)
				}
			}
		}
	}
}

// TestAfloatSpreadsOverLists: a list where a quantity is wanted gives a list.
func TestAfloatSpreadsOverLists(t *testing.T) {
	for _, f := range trade.All() {
		if !afloatGroups[f.Group] {
			continue
		}
		args := sample(t, f)
		once, err := f.Invoke(args)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for i := range args {
			if k := f.Params[i].Kind; k != trade.Scalar && k != trade.Count && k != trade.Choice && k != trade.Item {
				continue
			}
			many := append([]calc.Value(nil), args...)
			many[i] = calc.Labelled([]string{"st_1", "st_2"}, []calc.Value{args[i], args[i]})
			r, err := f.Invoke(many)
			if err != nil || len(r.Value.Items()) != 2 || !alike(r.Value.Items()[1], once.Value, 0) || r.Value.Labels()[1] != "st_2" {
				t.Errorf("%s over a list of %s: %s %v", f.Name, f.Params[i].Name, calc.Style{}.Text(r.Value), err)
			}
		}
	}
}

// TestAfloatRoundTrips: what one function does, another undoes.
func TestAfloatRoundTrips(t *testing.T) {
	for there, back := range map[string]string{
		"inclining_height(25 lb, 30 in, 300 lb, heel_from_moved_weight(25 lb, 30 in, 300 lb, 3 ft))":                              "3 ft",
		"weight_added_centre(538 lb, weight_added_centre(478 lb, 106 in, 60 lb, 150 in), -60 lb, 150 in)":                         "106 in",
		"centre_of_weight([[148 lb, 84 in], [170 lb, 118 in]]) - centre_of_weight([[148 lb, 84 in], [170 lb, 96 in]])":            "weight_moved_shift(170 lb, 22 in, 318 lb)",
		"trim_change(160 lb, 22 in, moment_to_trim_one_inch(478 lb, 295 in, 157 in))":                                             "160 / 478 * 22 * 157 / 295 * 1 in",
		`flotation_volume(100 lb, "fresh", 0 lb/ft^3) * 62.4 lb/ft^3`:                                                             "100 lb",
		"sail_area_triangle(3 ft, 4 ft, 5 ft) - sail_from_corners([[0 ft, 0 ft], [3 ft, 0 ft], [0 ft, 4 ft]]).area":               "0 ft^2",
		`sail_area_four_sides(3 ft, 4 ft, 3 ft, 4 ft, 5 ft, "tack to peak") - sail_area_four_sides(3 ft, 4 ft, 3 ft, 4 ft, 5 ft)`: "0 ft^2",
		"sail_from_corners([[0 ft, 4 ft], [3 ft, 0 ft], [0 ft, 0 ft]]).area":                                                      "6 ft^2",
		"port_starboard_difference(523 mm, 531 mm) + port_starboard_difference(531 mm, 523 mm)":                                   "0 mm",
		`hog([10 mm, 24 mm, 10 mm], 1 m, "up from a base") + hog([10 mm, 24 mm, 10 mm], 1 m)`:                                     "0 mm",
		"best_fit_line([[1 m, 5 mm], [3 m, 11 mm]]).offset + 2 m * best_fit_line([[1 m, 5 mm], [3 m, 11 mm]]).slope":              "8 mm",
		"best_fit_arc([[0 in, 0 in], [24 in, 2 in], [48 in, 0 in]]).radius":                                                       "arc_radius(48 in, 2 in)",
		"shrunk_back_width(shrunk_back_width(118 mm, 8 %, 12 %, 0.002) / (1 + 0.002 * 4), 12 %, 12 %, 0.002)":                     "118 mm",
		"repeated_part_time(5 h, 12, 100 %)":                                                                                      "60 h",
		"hours_left(3, 9, 13.5 h) + 13.5 h":                                                                                       "40.5 h",
		"square_to_octagon(2.5 in) * 2 + 2.5 in * (sqrt(2) - 1)":                                                                  "2.5 in",
		"simpson_first([0 ft, 1 ft, 4 ft, 9 ft, 16 ft], 1 ft)":                                                                    "64/3 * 1 ft^2",
		"simpson_second([0 ft, 1 ft, 8 ft, 27 ft], 1 ft)":                                                                         "81/4 * 1 ft^2",
		"five_eight_area(0 ft, 1 ft, 4 ft, 1 ft)":                                                                                 "1/3 * 1 ft^2",
	} {
		got, want := number(t, there), number(t, back)
		if math.Abs(got-want) > 1e-10*math.Max(1, math.Abs(want)) {
			t.Errorf("%s = %.12g, want %s, %.12g", there, got, back, want)
		}
	}
}

// TestCautionsOfTheWater: what can drown someone carries its caution.
func TestCautionsOfTheWater(t *testing.T) {
	for class, names := range map[trade.Caution]string{
		'B': "wood_lost",
		'E': "metacentric_height righting_arm_small inclining_height moment_to_trim_one_inch hydrostatics draft_for trim_for initial_stability",
		'F': "persons_by_size persons_plate horsepower_plate weight_capacity_by_displacement flotation_volume swamped_margin",
	} {
		for _, name := range strings.Fields(names) {
			if f := find(t, name); f.Caution != class {
				t.Errorf("%s carries caution %q, want %c", name, f.Caution, class)
			}
		}
	}
	for _, name := range []string{"persons_plate", "horsepower_plate", "weight_capacity_by_displacement"} {
		f := find(t, name)
		if !strings.Contains(f.Limits, "under 20 ft") || !strings.Contains(f.Limits+f.Source, "check the current text") {
			t.Errorf("%s does not say for which boats it holds, and to check the text", name)
		}
	}
	for _, p := range find(t, "weight_capacity_by_displacement").Params {
		if p.Optional {
			t.Errorf("%s has a default", p.Name)
		}
	}
}

// TestAfloatPlusMinus: the ± of a reading comes out as the calculus says.
func TestAfloatPlusMinus(t *testing.T) {
	for call, want := range map[string]string{
		"centre_of_weight([[100 lb, 4 ft ± 0.2 ft], [100 lb, 6 ft]])":                "0.1 ft",
		"centre_of_weight([[100 lb ± 1 lb, 4 ft], [100 lb, 6 ft]])":                  "0.005 ft",
		"simpson_first([0 in, 6 in ± 0.3 in, 0 in], 24 in)":                          "9.6 in^2",
		"hog([40 mm ± 1 mm, 26 mm ± 1 mm, 40 mm ± 1 mm], 500 mm)":                    "sqrt(1.5) * 1 mm",
		"port_starboard_difference(523 mm ± 2 mm, 531 mm ± 2 mm)":                    "sqrt(8) * 1 mm",
		"mean_deviation([7 mm ± 2 mm, 3 mm ± 2 mm]).mean":                            "sqrt(2) * 1 mm",
		"best_fit_line([[0 m, 1 mm ± 1 mm], [1 m, 2 mm], [2 m, 3 mm ± 1 mm]]).slope": "sqrt(0.5) * 0.001",
		"wood_lost(10 mm, 8 mm ± 0.2 mm)":                                            "2 %",
		"persons_by_size(14 ft ± 1 ft, 4 ft)":                                        "0",
		`draft_for_weight(478 lb ± 22 lb, [[3 in, 300 lb], [4 in, 520 lb]])`:         "0.1 in",
		"made_against_now(46 in ± 1/16 in, 45 in)":                                   "1/16 in",
	} {
		got, w := number(t, "spread_of("+call+")"), number(t, want)
		if math.Abs(got-w) > 1e-6*w+1e-12 {
			t.Errorf("± of %s: %.9g, want %.9g", call, got, w)
		}
	}
}
