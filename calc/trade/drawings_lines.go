package trade

import (
	"strings"

	"scarph/calc"
	"scarph/calc/draw"
)

func offsetsParam() *Param {
	return &Param{Name: "offsets", Kind: Any, Doc: "a data table with rows such as sheer_half and sheer_height, a column a station"}
}

func positionsParam() *Param {
	return &Param{Name: "positions", Kind: Any, Optional: true,
		Doc: `how far apart the stations stand, a list of places, or the name of a row; left out, the row named x, position or station`}
}

func draftParam() *Param {
	return length("draft").orZero().notNegative().optional(calc.Length(0)).says("from the lowest point of the boat up to the water; 0 for no water")
}

func foundParam() *Param {
	return &Param{Name: "found", Kind: Any, Optional: true,
		Doc: `a data table of readings with rows such as sheer_half_port and sheer_half_starboard, or "none"`}
}

func centresParam() *Param {
	return &Param{Name: "centres", Kind: Any, Optional: true, Doc: `centres to mark: [["weight", 8' 10"], ["buoyancy", 8' 6"]]`}
}

// planOf reads the arguments of a plan along the boat.
func planOf(c *Call) (draw.Offsets, error) {
	o, err := offsetsOf(c)
	if err == nil {
		err = addPositions(c, 1, &o)
	}
	if err == nil {
		o.Draft = c.Number(2)
		err = addFound(c, 3, &o)
	}
	if err == nil {
		err = addCentres(c, 4, &o)
	}
	return o, err
}

// checkTable is a boat of three stations.
const checkTable = `[["sheer_half", [8 in, 18 in, 14 in]], ["sheer_height", [24 in, 20 in, 21 in]], ["chine_half", [6 in, 14 in, 11 in]], ["chine_height", [3 in, 0 in, 2 in]]]`

const linesLimits = "cells may be empty; a line that has a half-breadth and a height at a station stands in its section"

// wholeLines refuses a line that stands in no section, for want of its heights or its
// half-breadths: without it the sections would be drawn wrong.
func wholeLines(lines []draw.OffsetLine) error {
	var names []string
	for _, l := range lines {
		name := strings.ReplaceAll(l.Name, " ", "_")
		if l.Half != nil && !liesOnCentre(l.Name) {
			names = append(names, name+"_half")
		}
		if l.Height != nil {
			names = append(names, name+"_height")
		}
	}
	for _, l := range lines {
		name := strings.ReplaceAll(l.Name, " ", "_")
		switch {
		case l.Height == nil && !liesOnCentre(l.Name):
			return lineWants(names, name+"_half", name+"_height")
		case l.Half == nil:
			return lineWants(names, name+"_height", name+"_half")
		}
	}
	return nil
}

func linesDrawings() []Function {
	along := []*Param{offsetsParam(), positionsParam(), draftParam(), foundParam(), centresParam()}
	return []Function{
		{
			Name: "body_plan", Summary: "the sections of a table of offsets, fore half on the right, after half on the left",
			Params:  []*Param{offsetsParam(), draftParam(), foundParam(), fit("straight")},
			Formula: "half-breadths and heights of each station joined from the lowest line up; found readings as marks with their ±",
			Limits:  linesLimits, Source: "common practice (lofting)",
			Checks: []Check{{Call: "body_plan(" + checkTable + ")", Want: `"Body plan of 3 stations, 1 to 3; greatest beam 3′ at 2, the stations aft of it on the left half."`, Source: "twice 18 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				o, err := offsetsOf(c)
				if err == nil {
					err = wholeLines(o.Lines)
				}
				if err == nil {
					err = addFound(c, 2, &o)
				}
				if err != nil {
					return calc.Value{}, err
				}
				o.Draft, o.Bent = c.Number(1), c.Text(3) == "batten"
				return drawn(&draw.BodyPlan{Offsets: o})
			},
		},
		{
			Name: "profile_plan", Summary: "the heights of a table of offsets seen from the side, with the water and centres",
			Params:  along,
			Formula: "each line's heights bent with a batten through its stations",
			Limits:  linesLimits + "; positions rise", Source: "common practice (lofting)",
			Checks: []Check{{Call: "profile_plan(" + checkTable + ", 3 ft, 3 in)", Want: `"Profile of 3 stations, 1 to 3, 6′ long: sheer and chine; water 3″ over the base line."`, Source: "two spaces of 3 ft; the lowest height is 0"}},
			Eval: func(c *Call) (calc.Value, error) {
				o, err := planOf(c)
				if err != nil {
					return calc.Value{}, err
				}
				return drawn(&draw.Profile{Offsets: o})
			},
		},
		{
			Name: "half_breadth_plan", Summary: "the half-breadths of a table of offsets seen from above, with the waterline",
			Params:  along,
			Formula: "each line's half-breadths bent with a batten; the waterline where the sections on those battens meet the water",
			Limits:  linesLimits + "; positions rise", Source: "common practice (lofting)",
			Checks: []Check{{Call: "half_breadth_plan(" + checkTable + ", 3 ft)", Want: `"Half-breadth plan of 3 stations, 1 to 3: sheer and chine; greatest half-breadth 1′ 6″ at 2."`, Source: "the largest of the offsets"}},
			Eval: func(c *Call) (calc.Value, error) {
				o, err := planOf(c)
				if err != nil {
					return calc.Value{}, err
				}
				return drawn(&draw.HalfBreadth{Offsets: o})
			},
		},
	}
}
