package draw

import (
	"math"

	"scarph/calc/curve"
)

// Point is a point of a scene's plane.
type Point = curve.Point

// Pen is how a line is drawn. The order is the order of drawing: later ones lie on top.
type Pen uint8

// The pens.
const (
	Fine   Pen = iota // pencil: stations, rulings, grids, dimension lines
	Chain             // centrelines, base lines and datums
	Dotted            // a target or a guess
	Dashed            // the water; what was made or drawn before
	Plain             // a drawn line
	Heavy             // the line that matters: cut here, the worst, now
)

// Path is a broken line. Curves are given as points close enough together.
type Path struct {
	Points []Point
	Closed bool
	Pen    Pen
	Shaded bool
}

// Shape is the form of a mark.
type Shape uint8

// The shapes. Their meaning is the same in every drawing.
const (
	Dot      Shape = iota // a reading
	Ring                  // a reading that is not judged, or a figure from before
	Square                // port
	Triangle              // starboard
	Diamond               // a mean, a centre
	Cross                 // a doubtful reading
)

// Mark is a point that was measured or reckoned, with its ± in the scene's units.
type Mark struct {
	At     Point
	Shape  Shape
	Bold   bool
	SpanX  float64
	SpanY  float64
	Saying string // what a pointer resting on the mark reads
}

// Side is where a label stands, seen from its point.
type Side uint8

// The sides.
const (
	Above Side = iota
	Below
	Right
	Left
	Over // centred on the point
)

// Label is a text beside a point.
type Label struct {
	At   Point
	Text string
	Side Side
	// Turned labels read upwards.
	Turned bool
	Bold   bool
	// Held labels keep their side, or are left out.
	Held bool
	// Sliding labels keep their side too, but may slide along it to clear one another:
	// the names at the ends of lines.
	Sliding bool
	// Clean labels are rather left out than set over a line.
	Clean bool
	// Rank is the order of placing: a label of rank 0 finds its place before one of rank 1.
	Rank int
	// Gap is the distance from the point in picture units; 0 for the usual.
	Gap float64
}

// Size is a dimension line from one point to another. It stands off to the left
// of the way from From to To by Off picture units (to the right when Off is negative).
type Size struct {
	From, To Point
	Off      float64
	Clear    float64 // the witness lines begin this far from their points; 0 for the usual
	Text     string
	Rank     int
}

// Wedge is a bevel drawn at its own angle, in picture units: the edge that is
// square stands upright, the other leans by the angle.
type Wedge struct {
	At    Point // the lower end of the upright edge
	Angle float64
	Tall  float64
}

// Scene is what a picture is made of.
type Scene struct {
	Paths  []Path
	Marks  []Mark
	Labels []Label
	Sizes  []Size
	Wedges []Wedge
}

// Line adds a broken line.
func (s *Scene) Line(pen Pen, points ...Point) {
	s.Paths = append(s.Paths, Path{Points: points, Pen: pen})
}

// Ring adds a closed line.
func (s *Scene) Ring(pen Pen, points ...Point) {
	s.Paths = append(s.Paths, Path{Points: points, Pen: pen, Closed: true})
}

// Bar adds a shaded rectangle.
func (s *Scene) Bar(pen Pen, low, high Point) {
	s.Paths = append(s.Paths, Path{Points: box(low, high), Pen: pen, Closed: true, Shaded: true})
}

// Mark adds a mark.
func (s *Scene) Mark(m Mark) { s.Marks = append(s.Marks, m) }

// Label adds a label.
func (s *Scene) Label(l Label) { s.Labels = append(s.Labels, l) }

// Size adds a dimension line.
func (s *Scene) Size(z Size) { s.Sizes = append(s.Sizes, z) }

// Bounds returns the corners of the rectangle that holds the scene's lines, marks
// and dimension lines; ok is false when it is empty.
func (s *Scene) Bounds() (low, high Point, ok bool) {
	low, high = Point{X: math.Inf(1), Y: math.Inf(1)}, Point{X: math.Inf(-1), Y: math.Inf(-1)}
	grow := func(p Point) {
		if finite(p) {
			low = Point{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
			high = Point{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
			ok = true
		}
	}
	for _, p := range s.Paths {
		for _, q := range p.Points {
			grow(q)
		}
	}
	for _, m := range s.Marks {
		grow(m.At)
		grow(Point{X: m.At.X - m.SpanX, Y: m.At.Y - m.SpanY})
		grow(Point{X: m.At.X + m.SpanX, Y: m.At.Y + m.SpanY})
	}
	for _, z := range s.Sizes {
		grow(z.From)
		grow(z.To)
	}
	for _, l := range s.Labels {
		grow(l.At)
	}
	for _, w := range s.Wedges {
		grow(w.At)
	}
	return low, high, ok
}

func box(low, high Point) []Point {
	return []Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}
}

// farthest is how far from zero a coordinate may lie, in any unit: further out a
// float can no longer tell two points of one picture apart.
const farthest = 1e12

func finite(p Point) bool {
	return math.Abs(p.X) <= farthest && math.Abs(p.Y) <= farthest // false for NaN
}

func mirrored(points []Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[len(out)-1-i] = Point{X: -p.X, Y: p.Y}
	}
	return out
}
