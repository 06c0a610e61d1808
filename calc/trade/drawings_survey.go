package trade

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

func surveyDrawings() []Function {
	return []Function{
		{
			Name: "deviation_map", Summary: "what was found less what was drawn, station by station, port and starboard apart",
			Params: []*Param{
				{Name: "drawn", Kind: Any, Doc: "a list of lengths, one a station"},
				{Name: "port", Kind: Any, Doc: "readings on the port side, one a station, or of no side when starboard is left out"},
				{Name: "starboard", Kind: Any, Optional: true, Doc: `readings on the starboard side, or "none"`},
				{Name: "positions", Kind: Any, Optional: true, Doc: "a list of lengths; left out, the stations are drawn equally far apart"},
			},
			Formula: "boat − paper; port − starboard stands out when it is more than twice √(±² + ±²)",
			Limits:  "lists of one length; cells may be empty", Source: "common practice",
			Checks: []Check{{Call: "deviation_map([336.55 mm, 533.4 mm], [331 mm ± 2 mm, 527 mm ± 2 mm], [338 mm ± 2 mm, 539 mm ± 2 mm])",
				Want: `"Deviation of 4 found readings from the drawing at 2 stations; furthest off is 2, port, 0.252 in less than drawn."`, Source: "527 − 533.4 = −6.4 mm"}},
			Eval: deviationMap,
		},
		{
			Name: "hog_drawing", Summary: "a keel under a stretched string, magnified, with its hog or sag",
			Params:  []*Param{lengths("keel_readings").says("from the string down to the keel"), lengths("positions")},
			Formula: "rise = straight line through the two ends − reading; the largest in size",
			Limits:  "three readings or more; positions rise", Source: "common practice",
			Checks: []Check{{Call: "hog_drawing([40 mm, 33 mm, 27 mm, 25 mm, 26 mm, 32 mm, 41 mm], [0 mm, 500 mm, 1000 mm, 1500 mm, 2000 mm, 2500 mm, 3000 mm])",
				Want: `"Keel from 7 readings: hog of 0.61 in at 4′ 11 1/16″."`, Source: "40.5 − 25 = 15.5 mm at 1500 mm"}},
			Eval: func(c *Call) (calc.Value, error) {
				if err := sameLength(c, 0, 1); err != nil {
					return calc.Value{}, err
				}
				d := &draw.Hog{Readings: c.Numbers(0), At: c.Numbers(1), Spread: spreads(c.Value(0))}
				if len(d.At) < 3 {
					return calc.Value{}, tooFew(len(d.At), 3)
				}
				if err := risingPositions(d.At); err != nil {
					return calc.Value{}, err
				}
				return drawn(d)
			},
		},
		{
			Name: "twist_drawing", Summary: "one station seen from aft: port and starboard heights against level",
			Params:  []*Param{length("port_height"), length("starboard_height"), length("breadth").positive()},
			Formula: "atan((port − starboard) / breadth), with its ±",
			Limits:  "breadth more than zero", Source: "common practice (winding sticks)",
			Checks: []Check{{Call: "twist_drawing(412 mm ± 1.5 mm, 405 mm ± 1.5 mm, 1010 mm)",
				Want: `"Port higher by 0.276 in, a twist of 0.4 ± 0.12°, 3.3 times its ±."`, Source: "7 mm in 1010: 0.397 ± 0.120°"}},
			Eval: func(c *Call) (calc.Value, error) {
				return drawn(&draw.Twist{Port: c.Number(0), Starboard: c.Number(1), Breadth: c.Number(2),
					PortSpread: c.Value(0).Likely(), StarboardSpread: c.Value(1).Likely()})
			},
		},
		{
			Name: "best_line_drawing", Summary: "readings with the best straight line through them, and how far each stands off",
			Params:  []*Param{points("points", 2).says("[[position, offset], …]")},
			Formula: "least squares, the error taken in the offsets alone",
			Limits:  "three points or more, positions rising", Source: "statistics (least squares)",
			Checks: []Check{{Call: "best_line_drawing([[0 in, 1 in], [10 in, 2.5 in], [20 in, 3 in]])",
				Want: `"Best straight line through 3 readings: furthest off is reading 2, 0.333 in over."`, Source: "line 1.1667 + 0.1 x, 2.1667 at 10: by hand"}},
			Eval: func(c *Call) (calc.Value, error) { return bestFit(c, false, 3) },
		},
		{
			Name: "best_arc_drawing", Summary: "readings with the best arc through them, and how far each stands off",
			Params:  []*Param{points("points", 2).says("[[position, offset], …]")},
			Formula: "algebraic least-squares circle",
			Limits:  "four points or more, positions rising, not in a straight line", Source: "statistics (least squares)",
			Checks: []Check{{Call: "best_arc_drawing([[0 mm, 0 mm], [300 mm, 41 mm], [600 mm, 55 mm], [900 mm, 40 mm], [1200 mm, 1 mm]])",
				Want: `"Best arc of radius 11′ 0 5/16″ through 5 readings: furthest off is reading 4, 0.041 in under."`, Source: "3360.84 mm; the fourth reading 1.040 mm inside, by the normal equations"}},
			Eval: func(c *Call) (calc.Value, error) { return bestFit(c, true, 4) },
		},
	}
}

func deviationMap(c *Call) (calc.Value, error) {
	want, err := lengthsOf(c.Value(0), "drawn", calc.DimLength)
	if err != nil {
		return calc.Value{}, err
	}
	labels := c.Labels(0)
	for i := 1; labels == nil && i < 3; i++ {
		labels = c.Labels(i)
	}
	d := &draw.DeviationMap{Stations: stationNames(labels, len(want)), Drawn: want}
	hands := [3]draw.Hand{1: draw.Port, 2: draw.Starboard}
	if left(c, 2) {
		hands[1] = draw.Both
	}
	for i := 1; i <= 2; i++ {
		if left(c, i) {
			continue
		}
		found, err := lengthsOf(c.Value(i), c.fn.Params[i].Name, calc.DimLength)
		if err != nil {
			return calc.Value{}, err
		}
		if len(found) != len(want) {
			return calc.Value{}, unequalLists(len(want), len(found))
		}
		for k, v := range found {
			if !math.IsNaN(v) {
				d.Found = append(d.Found, draw.Found{Station: k, Hand: hands[i], Value: v, Spread: c.Value(i).Items()[k].Likely()})
			}
		}
	}
	if len(d.Found) == 0 {
		return calc.Value{}, calc.Errorf(calc.CodeShape, "deviation_map: nothing was found yet")
	}
	if !left(c, 3) {
		if d.At, err = lengthsOf(c.Value(3), "positions", calc.DimLength); err != nil {
			return calc.Value{}, err
		}
		if len(d.At) != len(want) {
			return calc.Value{}, unequalLists(len(d.At), len(want))
		}
		if err := risingPositions(d.At); err != nil {
			return calc.Value{}, err
		}
	}
	return drawn(d)
}

func bestFit(c *Call, arc bool, least int) (calc.Value, error) {
	pts, err := flatPointsOf(c, 0, least)
	if err != nil {
		return calc.Value{}, err
	}
	at := make([]float64, len(pts))
	for i, p := range pts {
		at[i] = p.X
	}
	if err := risingPositions(at); err != nil {
		return calc.Value{}, err
	}
	d := &draw.BestFit{Points: pts, Arc: arc}
	if !d.Fits() {
		return calc.Value{}, Refuse("the points lie in a straight line: they have no arc")
	}
	return drawn(d)
}
