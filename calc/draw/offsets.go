package draw

import (
	"math"
	"sort"

	"scarph/calc"
	"scarph/calc/curve"
)

// Hand is the side of the boat that a reading was taken on.
type Hand uint8

// The hands. Both is a reading that names no side.
const (
	Both Hand = iota
	Port
	Starboard
)

var hands = [...]struct {
	word  string
	shape Shape
}{Both: {"found", Dot}, Port: {"port", Square}, Starboard: {"starboard", Triangle}}

// OffsetLine is a line of the boat, station by station, in metres: half-breadths
// from the centreline and heights above the base line. NaN is an empty cell; a line
// without half-breadths, or heights, has nil.
type OffsetLine struct {
	Name         string
	Half, Height []float64
}

// Reading is an as-found half-breadth or height of one line at one station. What was
// not read is NaN. Spreads are ±, 0 when not known.
type Reading struct {
	Line, Station            int
	Hand                     Hand
	Half, Height             float64
	HalfSpread, HeightSpread float64
}

// Centre is a point of interest along the boat: a centre of weight or of buoyancy.
// A height of NaN puts it on the water, or on the base line.
type Centre struct {
	Name      string
	X, Height float64
}

// nameGap keeps the names of the lines clear of the name of the last station.
const nameGap = 18

// centreRank has the names of centres find their places after those of the stations.
const centreRank = 30

// Offsets is a table of offsets with what else belongs on the lines plan.
type Offsets struct {
	Stations []string
	// At is how far aft each station stands, metres, rising; the body plan needs none.
	At      []float64
	Lines   []OffsetLine
	Found   []Reading
	Centres []Centre
	// Draft is from the lowest point of the boat up to the water; 0 for no water.
	Draft float64
	// Bent draws the sections with a batten, not with straight pieces.
	Bent bool
}

func at(list []float64, i int) float64 {
	if i < 0 || i >= len(list) {
		return math.NaN()
	}
	return list[i]
}

// lowest returns the least height in the table, NaN when there is none.
func (o *Offsets) lowest() float64 {
	low := math.NaN()
	for _, l := range o.Lines {
		for _, z := range l.Height {
			if !math.IsNaN(z) && !(z >= low) {
				low = z
			}
		}
	}
	return low
}

// water returns the height of the water over the base line.
func (o *Offsets) water() (float64, bool) {
	z := o.lowest() + o.Draft
	return z, o.Draft > 0 && !math.IsNaN(z)
}

// widest returns the greatest half-breadth and its station, −1 when there is none.
func (o *Offsets) widest() (float64, int) {
	most, at := 0.0, -1
	for _, l := range o.Lines {
		for i, y := range l.Half {
			if y > most && y <= farthest && i < len(o.Stations) {
				most, at = y, i
			}
		}
	}
	return most, at
}

// upwards returns the lines that have heights, the lowest first.
func (o *Offsets) upwards() []int {
	mean := func(l OffsetLine) float64 {
		sum, n := 0.0, 0.0
		for _, z := range l.Height {
			if !math.IsNaN(z) {
				sum, n = sum+z, n+1
			}
		}
		return sum / n
	}
	var order []int
	means := map[int]float64{}
	for i, l := range o.Lines {
		if m := mean(l); !math.IsNaN(m) {
			means[i] = m
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return means[order[a]] < means[order[b]] })
	return order
}

// section returns the points of a station from the keel up: half-breadth, height.
func (o *Offsets) section(station int) []Point {
	var points []Point
	for _, i := range o.upwards() {
		p := Point{X: at(o.Lines[i].Half, station), Y: at(o.Lines[i].Height, station)}
		if finite(p) {
			points = append(points, p)
		}
	}
	return points
}

// waterline returns the half-breadths in the water, at places close enough together
// to show the knuckle where the water crosses a chine: the sections between the
// stations stand on the battens of the lines.
func (o *Offsets) waterline() []Point {
	z, ok := o.water()
	if !ok {
		return nil
	}
	battens := o.battens()
	first, last := o.along()
	const places = 96
	var points []Point
	for i := 0; i <= places; i++ {
		x := first + (last-first)*float64(i)/places
		var section []Point
		for _, b := range battens {
			if b.half.Covers(x) && b.height.Covers(x) {
				section = append(section, Point{X: b.half.At(x), Y: b.height.At(x)})
			}
		}
		if met := curve.LineMeets(section, Point{Y: z}, Point{X: 1}); len(met) > 0 {
			points = append(points, Point{X: x, Y: met[len(met)-1].X})
		}
	}
	return points
}

type battenPair struct{ half, height *curve.Spline }

// battens bends a batten through the half-breadths and one through the heights of
// every line that has both, the lowest line first.
func (o *Offsets) battens() []battenPair {
	var out []battenPair
	for _, i := range o.upwards() {
		var b battenPair
		var err1, err2 error
		b.half, err1 = curve.Natural(o.given(o.Lines[i].Half))
		b.height, err2 = curve.Natural(o.given(o.Lines[i].Height))
		if err1 == nil && err2 == nil {
			out = append(out, b)
		}
	}
	return out
}

// given returns the stations at which a line has a value, with the value.
func (o *Offsets) given(values []float64) (xs, ys []float64) {
	for i, v := range values {
		if p := (Point{X: at(o.At, i), Y: v}); finite(p) {
			xs, ys = append(xs, p.X), append(ys, p.Y)
		}
	}
	return xs, ys
}

// along returns the ends of the boat, first and last station.
func (o *Offsets) along() (first, last float64) {
	r := Range{math.Inf(1), math.Inf(-1)}
	for _, x := range o.At {
		if math.Abs(x) <= farthest {
			r.Low, r.High = math.Min(r.Low, x), math.Max(r.High, x)
		}
	}
	if r.Low > r.High {
		return 0, 0
	}
	return r.Low, r.High
}

// stationLines draws the stations as pencil lines from low to high with their names
// below.
func (o *Offsets) stationLines(s *Scene, low, high float64) {
	for i, name := range o.Stations {
		x := at(o.At, i)
		s.Line(Fine, Point{X: x, Y: low}, Point{X: x, Y: high})
		s.Label(Label{At: Point{X: x, Y: low}, Text: name, Side: Below, Held: true, Rank: rankOf(i, len(o.Stations))})
	}
}

// length draws the dimension line of the whole length under the stations' names.
func (o *Offsets) length(s *Scene, st calc.Style, low float64) {
	a, b := o.along()
	s.Size(Size{From: Point{X: a, Y: low}, To: Point{X: b, Y: low}, Off: -44, Clear: 26, Text: length(st, b-a), Rank: 0})
}

// found puts the readings on a plan that looks along one axis: value gives the
// reading and its ±.
func (o *Offsets) found(s *Scene, st calc.Style, value func(Reading) (v, u float64)) {
	for _, r := range o.Found {
		v, u := value(r)
		if math.IsNaN(v) || r.Station < 0 || r.Station >= len(o.Stations) || r.Line < 0 || r.Line >= len(o.Lines) {
			continue
		}
		s.Mark(Mark{At: Point{X: at(o.At, r.Station), Y: v}, Shape: hands[r.Hand].shape, SpanY: u,
			Saying: o.Lines[r.Line].Name + ", " + o.Stations[r.Station] + ", " + hands[r.Hand].word + " " + spreadText(st, v, u)})
	}
}

// handKeys explains the marks of the hands that occur.
func handKeys(found []Reading) []Key {
	var keys []Key
	for h := Both; h <= Starboard; h++ {
		for _, r := range found {
			if r.Hand == h {
				text := "found"
				if h != Both {
					text = hands[h].word + ", found"
				}
				keys = append(keys, Key{Shape: hands[h].shape, Text: text})
				break
			}
		}
	}
	return keys
}

// centresNote says which centre lies where, from the bow aft: close together, their
// marks alone do not tell.
func (o *Offsets) centresNote(s calc.Style) []string {
	if len(o.Centres) == 0 {
		return nil
	}
	list := append([]Centre(nil), o.Centres...)
	sort.SliceStable(list, func(a, b int) bool { return list[a].X < list[b].X })
	var words []string
	for _, c := range list {
		words = append(words, c.Name+" at "+exact(s, c.X))
	}
	return []string{sentence("centres, from the bow aft: " + and(words))}
}

func (o *Offsets) lineNames() string {
	var names []string
	for _, l := range o.Lines {
		names = append(names, l.Name)
	}
	return and(names)
}

// stationsText says which stations are drawn.
func (o *Offsets) stationsText() string {
	switch n := len(o.Stations); n {
	case 0:
		return "no stations"
	case 1:
		return "one station, " + o.Stations[0]
	default:
		return number(float64(n)) + " stations, " + o.Stations[0] + " to " + o.Stations[n-1]
	}
}
