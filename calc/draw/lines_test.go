package draw_test

import "scarph/calc/draw"

func linesPictures() map[string]picture {
	s := sorrel()
	s.Draft = 3.852 * inch
	s.Centres = []draw.Centre{{Name: "weight", X: 106.52 * inch, Height: nan}, {Name: "buoyancy", X: 102.62 * inch, Height: nan}}
	p := pippin()
	p.Draft = 0.1324
	q := quillet()
	return map[string]picture{
		"body_plan": {&draw.BodyPlan{Offsets: s}, inchStyle}, "profile": {&draw.Profile{Offsets: s}, inchStyle}, "half_breadth": {&draw.HalfBreadth{Offsets: s}, inchStyle},
		"body_plan_metric": {&draw.BodyPlan{Offsets: p}, metric}, "profile_metric": {&draw.Profile{Offsets: p}, metric}, "half_breadth_metric": {&draw.HalfBreadth{Offsets: p}, metric},
		"half_breadth_found": {&draw.HalfBreadth{Offsets: q}, metric}, "body_plan_found": {&draw.BodyPlan{Offsets: q}, metric},
	}
}
