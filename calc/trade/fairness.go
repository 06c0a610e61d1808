package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/curve"
)

// fairing judges stations by their neighbours.
func fairing() []Function {
	return []Function{
		{
			Name: "second_differences", Summary: "how the run of a line bends at each inner station; an even line gives an even row of them",
			Params:  []*Param{lengths("offsets"), lengths("positions").optional(calc.Value{}).says("left out when the stations are equally far apart")},
			Result:  "list of lengths, one an inner station",
			Formula: "y[i−1] − 2 y[i] + y[i+1]; at unequal stations the second divided difference, twice over, times the square of the mean spacing",
			Limits:  "three offsets or more; positions rise",
			Source:  "common practice (fairing by numbers)",
			Checks: []Check{
				{Call: "at(second_differences([0 in, 9 in, 14 in, 16 in]), 1)", Want: "-4 in"},
				{Call: "second_differences([0 in, 1 in, 9 in], [0 in, 10 in, 30 in])", Want: "[4.5 in]", Source: "slopes 0.1 and 0.4 in 15 in: 0.02 per in, times (15 in)²"},
			},
			Eval: secondDifferences,
		},
		{
			Name: "fairness_bump", Summary: "the station that stands furthest off the batten through the others, and by how much",
			Params:  fairnessParams(),
			Result:  "record: station (text), position (length), bump (length, plus when the offset is more than the batten)",
			Formula: "y[i] − batten through all other stations at x[i], the largest in size",
			Limits:  "five stations or more; the ends are not judged, and the stations next to them only by an end effect",
			Source:  "common practice (spring the batten, pull one nail)",
			Checks: []Check{
				{Call: "fairness_bump([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).bump", Want: "0.6875 in"},
				{Call: "fairness_bump([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).position", Want: "40 in"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				j, err := judge(c)
				if err != nil {
					return calc.Value{}, err
				}
				j.remark(c)
				return calc.Fields(j.worstFields()...), nil
			},
		},
		{
			Name: "fairness", Summary: "every station against the batten through the others, the worst of them named",
			Params: append(fairnessParams(), length("within").notNegative().optional(calc.Length(0)).
				says("what may be called fair; left out, nothing is excused")),
			Result:  "record: residuals and readings (lists, empty at the ends), station, position, bump and reading of the worst, end_effect (list of texts), advice (text)",
			Formula: "residual = y[i] − batten through all other stations at x[i]; reading = what that batten shows",
			Limits:  "five stations or more; the ends are not judged, and the stations next to them are marked as end effect",
			Source:  "common practice (spring the batten, pull one nail)",
			Checks: []Check{
				{Call: "at(fairness([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).residuals, 3)", Want: "0.6875 in"},
				{Call: "fairness([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).reading", Want: "12.8125 in"},
				{Call: "fairness([0 in, 8 in, 13.5 in, 15 in, 16 in], [0 in, 20 in, 40 in, 60 in, 80 in]).advice", Want: `"mend the worst, then look again"`},
			},
			Eval: func(c *Call) (calc.Value, error) {
				j, err := judge(c)
				if err != nil {
					return calc.Value{}, err
				}
				return j.record(c), nil
			},
		},
	}
}

func fairnessParams() []*Param { return []*Param{lengths("offsets"), lengths("positions")} }

// judgement is the run of a line, station by station.
type judgement struct {
	names     []string
	xs, ys    []float64
	residuals []float64
	worst     int
}

// mendTheWorst stands beside every judgement: a bad station makes its neighbours
// look bad, so only the worst is to be believed.
const mendTheWorst = "mend the worst, then look again"

// judge leaves out each station in turn; arguments 0 and 1 are offsets and positions.
func judge(c *Call) (*judgement, error) {
	names, xs, ys, err := paired(c, 1, 0)
	if err != nil {
		return nil, err
	}
	residuals, err := curve.LeaveOneOut(xs, ys)
	if err != nil {
		return nil, curveError(err)
	}
	j := &judgement{names: names, xs: xs, ys: ys, residuals: residuals}
	j.worst = 2 + curve.Worst(residuals[2:len(residuals)-2])
	return j, nil
}

// paired returns the positions and values of arguments i and j with the names of
// the stations, for lists of one length.
func paired(c *Call, i, j int) (names []string, xs, ys []float64, err error) {
	xs, ys = c.Numbers(i), c.Numbers(j)
	labels := c.Labels(j)
	if labels == nil {
		labels = c.Labels(i)
	}
	if len(xs) != len(ys) {
		e := unequalLists(len(xs), len(ys))
		if l := c.Labels(i); l != nil && len(ys) < len(l) {
			e = calc.Errorf(calc.CodeShape, "%d stations but %d %s: %s has none", len(xs), len(ys), c.fn.Params[j].Name, calc.Words(l[len(ys)]))
		}
		return nil, nil, nil, e
	}
	names = make([]string, len(xs))
	for k := range names {
		if labels != nil {
			names[k] = calc.Words(labels[k])
		} else {
			names[k] = "x = " + In(xs[k])
		}
	}
	return names, xs, ys, nil
}

func (j *judgement) bump() float64 { return j.residuals[j.worst] }

func (j *judgement) worstFields() []calc.Field {
	return []calc.Field{
		{Name: "station", Value: calc.Str(j.names[j.worst])},
		{Name: "position", Value: calc.Length(j.xs[j.worst])},
		{Name: "bump", Value: calc.Length(j.bump())},
	}
}

// remark says which station breaks the run, and which of those next to the ends
// seem to break it more.
func (j *judgement) remark(c *Call) {
	if math.Abs(j.bump()) > 1e-9 {
		c.Warn("%s reads %s the batten through the others: %s", j.names[j.worst], moreOrLess(j.bump()), mendTheWorst)
	}
	for _, i := range j.nextToEnds() {
		if math.Abs(j.residuals[i]) > math.Abs(j.bump())+1e-9 {
			c.Warn("%s reads %s the batten, but it stands next to an end, where the batten runs free: end effect", j.names[i], moreOrLess(j.residuals[i]))
		}
	}
}

func (j *judgement) nextToEnds() [2]int { return [2]int{1, len(j.xs) - 2} }

func moreOrLess(v float64) string {
	if v < 0 {
		return small(-v) + " less than"
	}
	return small(v) + " more than"
}

func (j *judgement) record(c *Call) calc.Value {
	n := len(j.xs)
	residuals, readings := make([]calc.Value, n), make([]calc.Value, n)
	for i := range residuals {
		residuals[i], readings[i] = calc.NoValue(), calc.NoValue()
		if i > 0 && i < n-1 {
			residuals[i], readings[i] = calc.Length(j.residuals[i]), calc.Length(j.ys[i]-j.residuals[i])
		}
	}
	var ends []calc.Value
	for _, i := range j.nextToEnds() {
		ends = append(ends, calc.Str(j.names[i]))
	}
	labels := c.Labels(0)
	if labels == nil {
		labels = c.Labels(1)
	}
	advice := "fair"
	switch within := c.Number(2); {
	case math.Abs(j.bump()) > math.Max(within, 1e-9):
		advice = mendTheWorst
		j.remark(c)
	case within > 0:
		advice = "fair within " + In(within)
	}
	fields := append([]calc.Field{
		{Name: "residuals", Value: calc.Labelled(labels, residuals)},
		{Name: "readings", Value: calc.Labelled(labels, readings)},
	}, j.worstFields()...)
	return calc.Fields(append(fields,
		calc.Field{Name: "reading", Value: calc.Length(j.ys[j.worst] - j.bump())},
		calc.Field{Name: "end_effect", Value: calc.Listed(ends...)},
		calc.Field{Name: "advice", Value: calc.Str(advice)},
	)...)
}

func secondDifferences(c *Call) (calc.Value, error) {
	ys := c.Numbers(0)
	n := len(ys)
	if n < 3 {
		return calc.Value{}, tooFew(n, 3)
	}
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = float64(i)
	}
	if c.Given(1) {
		var err error
		if _, xs, ys, err = paired(c, 1, 0); err != nil {
			return calc.Value{}, err
		}
	}
	if _, err := curve.Broken(xs, ys); err != nil {
		return calc.Value{}, curveError(err)
	}
	mean := (xs[n-1] - xs[0]) / float64(n-1)
	out := make([]calc.Value, 0, n-2)
	for i := 1; i < n-1; i++ {
		before := (ys[i] - ys[i-1]) / (xs[i] - xs[i-1])
		after := (ys[i+1] - ys[i]) / (xs[i+1] - xs[i])
		out = append(out, calc.Length(2*(after-before)/(xs[i+1]-xs[i-1])*mean*mean))
	}
	labels := c.Labels(0)
	if labels != nil {
		labels = labels[1 : n-1]
	}
	return calc.Labelled(labels, out), nil
}
