package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// station is one section of a hull.
type station struct {
	name   string
	label  string
	x      float64
	points []curve.Point // from the keel up, half-breadth and height
	trace
}

// hull is a table of offsets made into sections, with the multipliers of the rule
// that integrates along it.
type hull struct {
	stations []station
	xs, w    []float64
	labelled bool
}

// hullTableParam is the table that a function of a hull reads.
func hullTableParam() *Param {
	return &Param{
		Name: "offsets", Kind: Table,
		Doc: "a table of offsets: rows such as keel_height, chine_half, chine_height, sheer_half, sheer_height, and x for the stations",
	}
}

// readingParams are the ways to read a table of offsets.
func readingParams() []*Param {
	return []*Param{
		choice("sections", straightSections, battenSections, roundSections).optional(calc.Str(straightSections)).
			says(`"straight" from point to point; "batten" bent through them, free at the keel; "round" bent across the keel`),
		{Name: "positions", Kind: Any, Optional: true, Doc: "of the stations, where the table has no row x: a list, or the one spacing"},
	}
}

// stationParams are the parameters of a function that looks at stations one by one.
func stationParams(own ...*Param) []*Param {
	return append(append([]*Param{hullTableParam()}, own...), readingParams()...)
}

// hullParams are the parameters of a function that integrates along the hull.
func hullParams(own ...*Param) []*Param {
	return append(append(append([]*Param{hullTableParam()}, own...), ruleParam()), readingParams()...)
}

// hullOf reads argument 0 as a hull, by the last three arguments of hullParams.
func hullOf(c *Call) (*hull, error) {
	n := len(c.fn.Params)
	h, err := readHull(c.Value(0), c.Value(n-1), c.Text(n-2))
	if err != nil {
		return nil, err
	}
	rule := c.Text(n - 3)
	w, used, err := multipliers(h.xs, rule)
	if err != nil {
		return nil, err
	}
	c.sayRule(rule, used, len(h.xs))
	h.w = w
	return h, nil
}

// list returns a value a station, under the stations' names.
func (h *hull) list(f func(i int, s *station) calc.Value) calc.Value {
	items := make([]calc.Value, len(h.stations))
	var labels []string
	if h.labelled {
		labels = make([]string, len(h.stations))
	}
	for i := range h.stations {
		items[i] = f(i, &h.stations[i])
		if labels != nil {
			labels[i] = h.stations[i].label
		}
	}
	return calc.Labelled(labels, items)
}

// bottom returns the lowest height of all sections.
func (h *hull) bottom() float64 {
	z := math.Inf(1)
	for i := range h.stations {
		low, _ := h.stations[i].bounds()
		z = math.Min(z, low)
	}
	return z
}

// sheer returns the least height at which water would come in, and the station.
func (h *hull) sheer() (height float64, at *station) {
	height = math.Inf(1)
	for i := range h.stations {
		if _, top := h.stations[i].bounds(); top < height {
			height, at = top, &h.stations[i]
		}
	}
	return height, at
}

// under refuses a water line that stands over the sheer.
func (h *hull) under(water float64) error {
	if top, s := h.sheer(); water > top*(1+1e-12)+1e-12 {
		return calc.Errorf(calc.CodeDomain, "water at %s is over the sheer at %s, %s", In(water), s.name, In(top)).
			WithHint("nothing holds beyond the sheer: she fills")
	}
	return nil
}
