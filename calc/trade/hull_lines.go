package trade

import (
	"scarph/calc"
)

const (
	hullLimits = "two points or more at a station, kept in order by their heights, the keel first; empty cells are passed over"
	// the box of the checks: 10 ft long, 4 ft wide, 3 ft deep
	boxHull = "hull_from_lines([0 ft, 5 ft, 10 ft], [[2 ft, 2 ft, 2 ft], [2 ft, 2 ft, 2 ft]], [[0 ft, 0 ft, 0 ft], [3 ft, 3 ft, 3 ft]])"
	// the wedge of the checks: 10 ft long, 4 ft wide at 2 ft up, apex down
	wedgeHull  = "hull_from_lines([0 ft, 5 ft, 10 ft], [[0 ft, 0 ft, 0 ft], [3 ft, 3 ft, 3 ft]], [[0 ft, 0 ft, 0 ft], [3 ft, 3 ft, 3 ft]])"
	closedForm = "closed form"
)

// waterHeight is the parameter of a level water line.
func waterHeight() *Param {
	return length("water_height").says("over the base line that the table's heights are counted from")
}

// atStations makes a function that gives a value a station.
func atStations(f Function, own []*Param, give func(c *Call, s *station) (calc.Value, error)) Function {
	f.Params = stationParams(own...)
	f.Limits = hullLimits
	f.Eval = func(c *Call) (calc.Value, error) {
		n := len(f.Params)
		h, err := readHull(c.Value(0), c.Value(n-1), c.Text(n-2))
		if err != nil {
			return calc.Value{}, err
		}
		var failed error
		list := h.list(func(_ int, s *station) calc.Value {
			v, err := give(c, s)
			if err != nil && failed == nil {
				failed = err
			}
			return v
		})
		return list, failed
	}
	return f
}

// overSheer refuses water above the top of a section.
func (s *station) overSheer(water float64) error {
	if _, top := s.bounds(); water > top*(1+1e-12)+1e-12 {
		return calc.Errorf(calc.CodeDomain, "%s: water at %s is over the sheer, %s", s.name, In(water), In(top)).
			WithHint("the table has nothing above the sheer")
	}
	return nil
}

func hullLinesOf() []Function {
	water := []*Param{waterHeight()}
	return []Function{
		{
			Name: "hull_from_lines", Summary: "a table of offsets put together from lists, where no table is at hand",
			Params: []*Param{
				placesParam("positions"),
				{Name: "half_breadths", Kind: Any, Doc: "a list of lines from the keel up, each a list of half-breadths"},
				{Name: "heights", Kind: Any, Doc: "a list of lines from the keel up, each a list of heights"},
			},
			Result:  "a table of offsets: rows x, line_1_half, line_1_height and so on",
			Formula: "line by line, station by station",
			Limits:  "as many heights as half-breadths, line by line; two lines or more",
			Source:  "common practice",
			Checks: []Check{
				{Call: boxHull + ".line_2_height", Want: "[3 ft, 3 ft, 3 ft]", Source: "as given"},
			},
			Eval: hullFromLines,
		},
		atStations(Function{
			Name: "section_areas", Summary: "the area of each section below a water line, both sides",
			Result: "list of areas, under the stations' names; 0 where the station is dry", Formula: "2 · ∫ y dz along the outline, keel to water",
			Source: "geometry",
			Checks: []Check{
				{Call: "section_areas(" + boxHull + ", 1 ft)", Want: "[4 ft^2, 4 ft^2, 4 ft^2]", Source: closedForm},
				{Call: "section_areas(" + wedgeHull + ", 2 ft)", Want: "[4 ft^2, 4 ft^2, 4 ft^2]", Source: closedForm},
			},
		}, water, func(c *Call, s *station) (calc.Value, error) {
			return calc.Of(2*s.below(c.Number(1)).area, calc.DimArea), s.overSheer(c.Number(1))
		}),
		atStations(Function{
			Name: "section_centroids", Summary: "how high over the base line the area of each section below a water line has its centre",
			Result: "list of lengths, under the stations' names; empty where the station is dry", Formula: "∫ y z dz / ∫ y dz along the outline, keel to water",
			Source: "geometry",
			Checks: []Check{
				{Call: "section_centroids(" + boxHull + ", 1 ft)", Want: "[0.5 ft, 0.5 ft, 0.5 ft]", Source: closedForm},
				{Call: "section_centroids(" + wedgeHull + ", 3 ft)", Want: "[2 ft, 2 ft, 2 ft]", Source: closedForm},
			},
		}, water, func(c *Call, s *station) (calc.Value, error) {
			z := s.below(c.Number(1))
			if z.area == 0 {
				return calc.NoValue(), nil
			}
			return calc.Length(z.moment / z.area), s.overSheer(c.Number(1))
		}),
		atStations(Function{
			Name: "waterline_half_breadths", Summary: "the half-breadth of each section at a water line",
			Result: "list of lengths, under the stations' names; 0 where the station is dry", Formula: "where the outline of the section meets the height",
			Source: "geometry",
			Checks: []Check{{Call: "waterline_half_breadths(" + wedgeHull + ", 2 ft)", Want: "[2 ft, 2 ft, 2 ft]", Source: closedForm}},
		}, water, func(c *Call, s *station) (calc.Value, error) {
			return calc.Length(s.at(c.Number(1)).half), s.overSheer(c.Number(1))
		}),
		atStations(Function{
			Name: "buttock_heights", Summary: "the height at which each section reaches a half-breadth: a buttock of the lines",
			Result: "list of lengths, under the stations' names; empty where a section is not so wide", Formula: "where the outline, from the keel up, first meets the half-breadth; a bottom without a keel line lies level from the centreline",
			Source: "geometry",
			Checks: []Check{
				{Call: "buttock_heights(" + wedgeHull + ", 1.5 ft)", Want: "[1.5 ft, 1.5 ft, 1.5 ft]", Source: closedForm},
				{Call: "buttock_heights(" + boxHull + ", 1.5 ft)", Want: "[0 ft, 0 ft, 0 ft]", Source: "on the flat bottom"},
			},
		}, []*Param{length("half_breadth").notNegative()}, func(c *Call, s *station) (calc.Value, error) {
			if heights := s.reach(c.Number(1)); len(heights) > 0 {
				return calc.Length(heights[0]), nil
			}
			return calc.NoValue(), nil
		}),
		atStations(Function{
			Name: "freeboards", Summary: "the height of the sheer over the water at each station",
			Result: "list of lengths, under the stations' names", Formula: "sheer height − water_height",
			Source: "definition",
			Checks: []Check{{Call: "freeboards(" + boxHull + ", 1 ft)", Want: "[2 ft, 2 ft, 2 ft]", Source: closedForm}},
		}, water, func(c *Call, s *station) (calc.Value, error) {
			_, top := s.bounds()
			return calc.Length(top - c.Number(1)), s.overSheer(c.Number(1))
		}),
		{
			Name: "section_at_station", Summary: "the points of one station's section, for girth_at_station, section_area and the like",
			Params:  []*Param{hullTableParam(), {Name: "station", Kind: Any, Doc: "the name of the station between quotes, or its number counted from 1"}, readingParams()[1]},
			Result:  "list of points [half-breadth, height] from the keel up",
			Formula: "as in the table", Limits: hullLimits, Source: "common practice",
			Checks: []Check{
				{Call: "section_at_station(" + boxHull + ", 2)", Want: "[[2 ft, 0 ft], [2 ft, 3 ft]]", Source: "as given"},
			},
			Eval: sectionAtStation,
		},
	}
}

func hullFromLines(c *Call) (calc.Value, error) {
	halves, heights := c.Value(1), c.Value(2)
	for i := 1; i <= 2; i++ {
		v := c.Value(i)
		if v.Kind() != calc.List || len(v.Items()) < 2 || v.Items()[0].Kind() != calc.List {
			return calc.Value{}, calc.Errorf(calc.CodeKind, "hull_from_lines wants a list of two lines or more for %s", c.fn.Params[i].Name).
				WithHint("write [[12 in, 15 in, 11 in], [18 in, 22 in, 17 in]]: the chine, then the sheer")
		}
	}
	if a, b := len(halves.Items()), len(heights.Items()); a != b {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "%s of half-breadths but %s of heights", several(a, "line"), several(b, "line"))
	}
	n := len(halves.Items()[0].Items())
	xs, err := placesOf(c, 0, n)
	if err != nil {
		return calc.Value{}, err
	}
	places := make([]calc.Value, n)
	for i, x := range xs {
		places[i] = calc.Length(x)
	}
	fields := []calc.Field{{Name: "x", Value: calc.Labelled(c.Value(0).Labels(), places)}}
	for k := range halves.Items() {
		name := "line_" + trim(float64(k+1))
		for i, lines := range []calc.Value{halves, heights} {
			l := lines.Items()[k]
			if l.Kind() != calc.List || len(l.Items()) != n {
				return calc.Value{}, calc.Errorf(calc.CodeShape, "line %d of %s has %d values; the first has %d", k+1, c.fn.Params[i+1].Name, len(l.Items()), n)
			}
			fields = append(fields, calc.Field{Name: name + [2]string{"_half", "_height"}[i], Value: l})
		}
	}
	return calc.Fields(fields...), nil
}

func sectionAtStation(c *Call) (calc.Value, error) {
	h, err := readHull(c.Value(0), c.Value(2), straightSections)
	if err != nil {
		return calc.Value{}, err
	}
	want := c.Value(1)
	var names []string
	for i := range h.stations {
		s := &h.stations[i]
		names = append(names, s.label)
		if want.Kind() == calc.Text && want.Text() == s.label || want.IsQuantity() && want.D.IsNumber() && want.V == float64(i+1) {
			points := make([]calc.Value, len(s.points))
			for k, p := range s.points {
				points[k] = calc.Listed(calc.Length(p.X), calc.Length(p.Y))
			}
			return calc.Listed(points...), nil
		}
	}
	e := calc.Errorf(calc.CodeUnknownItem, "the table has no station %s", text(want))
	if near := calc.Nearest(want.Text(), names); want.Kind() == calc.Text && near != "" {
		return calc.Value{}, e.WithHint("did you mean %s?", near)
	}
	return calc.Value{}, e.WithHint(`name it between quotes, or count it from 1; there are %d`, len(names))
}
