package trade

import (
	"scarph/calc"
	"scarph/calc/curve"
)

// surveyPoints is the parameter of points measured along the boat.
func surveyPoints() *Param {
	return points("points", 2).says("[[position, offset], …]")
}

// bestFits lay the line and the arc that come nearest to all points.
func bestFits() []Function {
	const line = "best_fit_line([[0 mm, 2.1 mm], [1000 mm, 4.9 mm], [2000 mm, 8.2 mm], [3000 mm, 11.1 mm]])"
	const arc = "best_fit_arc([[0 mm, 0 mm], [300 mm, 41 mm], [600 mm, 55 mm], [900 mm, 40 mm], [1200 mm, 1 mm]])"
	return []Function{
		{
			Name: "best_fit_line", Summary: "the straight line nearest to all points, and how far each stands off it",
			Params:  []*Param{surveyPoints()},
			Result:  "record: slope (number: 3 mm per m is 0.003), offset (length, of the line at position 0), residuals (list of lengths, plus over the line)",
			Formula: "least squares of the offsets; residual = offset − line",
			Limits:  "two points or more, three for residuals; positions not all one",
			Source:  "statistics (least squares)",
			Checks: []Check{
				{Call: line + ".slope", Want: "3.03 mm/m"},
				{Call: line + ".offset", Want: "2.03 mm", Source: "the mean, 6.575, less 1.5 · 3.03"},
				{Call: line + ".residuals", Want: "[0.07 mm, -0.16 mm, 0.11 mm, -0.02 mm]", Source: "offset − line"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				xs, ys := columns(c.Points(0))
				if len(xs) < 2 {
					return calc.Value{}, tooFew(len(xs), 2)
				}
				l, residuals, err := curve.FitLine(xs, ys)
				if err == curve.ErrInLine {
					return calc.Value{}, calc.Errorf(calc.CodeZero, "all points stand at one position: no line lies along them")
				}
				if err != nil {
					return calc.Value{}, curveError(err)
				}
				return calc.Fields(
					calc.Field{Name: "slope", Value: calc.Number(l.Slope)},
					calc.Field{Name: "offset", Value: calc.Length(l.Offset)},
					calc.Field{Name: "residuals", Value: lengthList(c.Labels(0), residuals)},
				), nil
			},
		},
		{
			Name: "best_fit_arc", Summary: "the arc of a circle nearest to all points, and how far each stands off it",
			Params:  []*Param{surveyPoints()},
			Result:  "record: radius (length), centre_x (length), centre_y (length), residuals (list of lengths, plus outside the arc)",
			Formula: "algebraic least squares: Σ(distance² − radius²)² is least; residual = distance from the centre − radius",
			Limits:  "three points or more, four for residuals; not in one straight line; a flat arc's radius is uncertain",
			Source:  "I. Kåsa, A circle fitting procedure and its error analysis, IEEE Trans. Instrum. Meas. 25 (1976) (from memory)",
			Checks: []Check{
				{Call: arc + ".radius", Want: "3360.84 mm"},
				{Call: "best_fit_arc([[0 in, 0 in], [60 in, 4.5 in], [120 in, 0 in]]).centre_y", Want: "-397.75 in", Source: "circle_through_three_points"},
			},
			Eval: func(c *Call) (calc.Value, error) {
				pts := planePoints(c, 0)
				circle, residuals, err := curve.FitCircle(pts)
				if err != nil {
					return calc.Value{}, curveError(err)
				}
				return calc.Fields(
					calc.Field{Name: "radius", Value: calc.Length(circle.Radius)},
					calc.Field{Name: "centre_x", Value: calc.Length(circle.Centre.X)},
					calc.Field{Name: "centre_y", Value: calc.Length(circle.Centre.Y)},
					calc.Field{Name: "residuals", Value: lengthList(c.Labels(0), residuals)},
				), nil
			},
		},
	}
}

func lengthList(labels []string, vs []float64) calc.Value {
	items := make([]calc.Value, len(vs))
	for i, v := range vs {
		items[i] = calc.Length(v)
	}
	return calc.Labelled(labels, items)
}
