// Package draw makes drawings from quantities: lines plans, strips of marks and
// bevels, flat shapes to cut, survey pictures, and pictures of hours, money,
// moisture and weights.
//
// Every drawing goes the same way. A kind (BodyPlan, BevelStrip, Panel, …) holds
// numbers in metres and radians. From them it builds a Sheet: one Scene or more,
// stacked. A Scene has lines, marks, labels and dimension lines in its own plane,
// x to the right and y up. Layout scales the scenes and finds a free place for
// every label, which gives a Plate, in picture units with y down. A writer puts
// the plate down: SVG here, PDF at true size in draw/paper, DXF in draw/export.
//
// Port is always a square and starboard a triangle, found readings are dots, what
// was made or drawn before is dashed: shape, word and weight carry the meaning, and
// colour only follows them. No label ever lies on another: one that finds no room
// is left out, the least important first.
//
// A picture stands on its own in the ink of the text around it. A page's style sheet
// may give its pens other tones by their classes (fine, chain, dotted, dashed, plain,
// heavy), and a margin of paper to its letters.
//
// The package is pure, and safe for concurrent use: a drawing is not changed after
// it is made. Numbers that are no numbers are passed over, so a picture is always
// a picture; the functions of calc/trade refuse bad arguments before it comes to that.
package draw
