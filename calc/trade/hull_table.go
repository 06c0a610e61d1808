package trade

import (
	"sort"
	"strconv"
	"strings"

	"scarph/calc"
	"scarph/calc/curve"
)

// hullLine is a line of the table: its heights, and its half-breadths, nil on the
// centreline.
type hullLine struct {
	name          string
	half, heights []calc.Value
}

// onCentreline reports whether the line needs no half-breadths.
func onCentreline(line string) bool {
	switch line {
	case "keel", "profile", "rabbet", "centreline", "centerline", "bottom":
		return true
	}
	return false
}

func readHull(table, positions calc.Value, way string) (*hull, error) {
	lines, err := hullLines(table)
	if err != nil {
		return nil, err
	}
	xs, labels, err := stationPlaces(table, positions, len(lines[0].heights))
	if err != nil {
		return nil, err
	}
	h := &hull{labelled: labels != nil}
	for k := range xs {
		s, err := readStation(lines, k, labels)
		if err != nil {
			return nil, err
		}
		if s == nil { // nothing was measured here
			continue
		}
		x := xs[k]
		if err := isLength("the place of "+s.name, x); err != nil {
			return nil, err
		}
		s.x = x.V
		if s.trace, err = outline(s.points, way); err != nil {
			return nil, curveError(err)
		}
		h.stations, h.xs = append(h.stations, *s), append(h.xs, s.x)
	}
	return h, nil
}

// readStation gathers the points of station k; nil when the table has none there.
func readStation(lines []hullLine, k int, labels []string) (*station, error) {
	s := &station{label: labelAt(labels, k)}
	s.name = "station " + trim(float64(k+1))
	if labels != nil {
		s.name = calc.Words(labels[k])
	}
	keel := 0
	for _, l := range lines {
		z, y := l.heights[k], calc.Length(0)
		if l.half != nil {
			y = l.half[k]
		}
		if z.Kind() == calc.Missing || y.Kind() == calc.Missing {
			continue
		}
		if err := isLength(s.name+", "+l.name+" height", z); err != nil {
			return nil, err
		}
		if err := isLength(s.name+", "+l.name+" half-breadth", y); err != nil {
			return nil, err
		}
		if y.V < 0 {
			return nil, calc.Errorf(calc.CodeDomain, "%s: the half-breadth of the %s is below zero", s.name, calc.Words(l.name)).
				WithHint("half-breadths go out from the centreline")
		}
		s.points = append(s.points, curve.Point{X: y.V, Y: z.V})
		if onCentreline(l.name) {
			keel = len(s.points)
		}
	}
	switch len(s.points) {
	case 0:
		return nil, nil
	case 1:
		return nil, calc.Errorf(calc.CodeMissing, "%s has one point: a section wants two or more", s.name).
			WithHint("give it a keel_height, or a chine")
	}
	// what belongs to the keel comes first, even where the chine hangs lower
	upwards(s.points[:keel])
	upwards(s.points[keel:])
	return s, nil
}

// upwards puts points in their order from the bottom, the inner first on a level.
func upwards(points []curve.Point) {
	sort.SliceStable(points, func(i, j int) bool {
		if points[i].Y != points[j].Y {
			return points[i].Y < points[j].Y
		}
		return points[i].X < points[j].X
	})
}

// hullLines finds the lines of the table: pairs of rows (or columns) named for one
// line, …_half and …_height, and a keel, profile or rabbet that has a height alone.
// The lines of the centreline come first.
func hullLines(table calc.Value) ([]hullLine, error) {
	names := lineNames(table)
	var keel, others []hullLine
	for _, name := range names {
		stem, isHeight := cutSuffix(name, "_height", "_heights")
		if onCentreline(name) {
			stem, isHeight = name, true
		}
		if half, isHalf := cutSuffix(name, "_half", "_half_breadth", "_half_breadths"); isHalf {
			if _, ok := findLine(table, half, "_height", "_heights"); !ok && !onCentreline(half) {
				return nil, lineWants(names, name, half+"_height")
			}
			continue
		}
		if !isHeight {
			continue
		}
		l := hullLine{name: stem}
		heights, _ := rowOrColumn(table, name)
		l.heights = heights.Items()
		if half, ok := findLine(table, stem, "_half", "_half_breadth", "_half_breadths"); ok {
			l.half = half.Items()
			if len(l.half) != len(l.heights) {
				return nil, calc.Errorf(calc.CodeShape, "the %s has %s but %s", calc.Words(stem), several(len(l.heights), "height"), several(len(l.half), "half-breadth"))
			}
		} else if !onCentreline(stem) {
			return nil, lineWants(names, name, stem+"_half")
		}
		if onCentreline(stem) {
			keel = append(keel, l)
		} else {
			others = append(others, l)
		}
	}
	all := append(keel, others...)
	if len(all) < 2 {
		return nil, calc.Errorf(calc.CodeTable, "this table has %s of a hull; two or more are wanted", several(len(all), "line")).
			WithHint("name its rows chine_half, chine_height, sheer_half, sheer_height; keel_height for the line of the keel")
	}
	for _, l := range all[1:] {
		if len(l.heights) != len(all[0].heights) {
			return nil, calc.Errorf(calc.CodeShape, "the %s has %s, the %s has %d", calc.Words(all[0].name), several(len(all[0].heights), "station"), calc.Words(l.name), len(l.heights))
		}
	}
	return all, nil
}

func lineWants(names []string, has, wants string) error {
	e := calc.Errorf(calc.CodeTable, "the table has %s but no %s", has, wants)
	if near := calc.Nearest(wants, names); near != "" && near != has {
		return e.WithHint("is %s meant for it?", near)
	}
	return e.WithHint("a point of a section has a half-breadth and a height%s", rowForLevel(wants))
}

// rowForLevel says which row a line of one level wants that its name gives: wl6 lies six
// inches over the base line everywhere, and a large number is one of millimetres.
func rowForLevel(wants string) string {
	stem, isHeight := cutSuffix(wants, "_height")
	figures := strings.TrimLeft(stem, "abcdefghijklmnopqrstuvwxyz_")
	n, err := strconv.Atoi(figures)
	if !isHeight || err != nil || n <= 0 || figures == stem {
		return ""
	}
	level := calc.FormatOffset(float64(n) * 0.0254)
	if n > 72 {
		level = strconv.Itoa(n) + " mm"
	}
	return ": give a row " + wants + ", " + level + " in each cell"
}

func cutSuffix(name string, suffixes ...string) (string, bool) {
	for _, s := range suffixes {
		if stem, ok := strings.CutSuffix(name, s); ok && stem != "" {
			return stem, true
		}
	}
	return name, false
}

func findLine(table calc.Value, stem string, suffixes ...string) (calc.Value, bool) {
	for _, s := range suffixes {
		if v, ok := rowOrColumn(table, stem+s); ok {
			return v, true
		}
	}
	return calc.Value{}, false
}

// stationPlaces returns where the n stations stand and what they are called.
func stationPlaces(table, positions calc.Value, n int) ([]calc.Value, []string, error) {
	labels := stationLabels(table, n)
	if positions.Kind() == calc.Missing {
		for _, name := range positionNames {
			if row, ok := rowOrColumn(table, name); ok && row.Kind() == calc.List && len(row.Items()) == n {
				return row.Items(), labels, nil
			}
		}
		return nil, nil, calc.Errorf(calc.CodeTable, "the table does not say where its stations stand").
			WithHint("give it a row named x, of the distances from the bow; or give the positions, or the one spacing, last in the call")
	}
	if positions.IsQuantity() {
		if err := isLength("the spacing", positions); err != nil {
			return nil, nil, err
		}
		if positions.V <= 0 {
			return nil, nil, calc.Errorf(calc.CodeZero, "the spacing is %s", text(positions)).WithHint("stations stand some way apart")
		}
		xs := make([]calc.Value, n)
		for i := range xs {
			xs[i] = calc.Length(float64(i) * positions.V)
		}
		return xs, labels, nil
	}
	if positions.Kind() != calc.List {
		return nil, nil, calc.Errorf(calc.CodeKind, "the positions are a list, or one spacing; this is %s", positions.What())
	}
	if len(positions.Items()) != n {
		return nil, nil, unequalLists(len(positions.Items()), n)
	}
	return positions.Items(), labels, nil
}

// stationLabels returns the names of the stations: those of the table's columns, or
// of its rows where each row is a station.
func stationLabels(table calc.Value, n int) []string {
	rows := table.Items()
	for i, name := range table.Labels() {
		if _, isHeight := cutSuffix(name, "_height", "_heights"); isHeight || onCentreline(name) {
			if l := rows[i].Labels(); len(l) == n {
				return l
			}
			return nil
		}
	}
	if l := table.Labels(); len(l) == n {
		return l
	}
	return nil
}
