package draw

import "math"

// Wide is the width of a picture in picture units: on a phone held upright the
// letters then come out at eleven pixels, in a page's column at sixteen.
const Wide = 400.0

const (
	edge       = 6.0   // free room round a picture
	between    = 16.0  // and between its panels
	tallest    = 380.0 // a panel whose scales are alike is never taller
	leastShare = 0.35  // of the width is kept for the drawing, however long the words
)

// Layout scales the sheet's scenes to a picture of the given width and places every
// text. All panels share their margins, so that those over one another keep one scale
// along; the margins are made as broad as the words want.
func (s *Sheet) Layout(width float64) Plate {
	left, right := edge, edge
	out, heads, y := s.panels(left, right, width)
	for round := 0; round < 4; round++ {
		b, ok := out.bounds()
		if !ok || b.x0 >= edge-0.5 && b.x1 <= width-edge+0.5 {
			break
		}
		left, right = left+math.Max(0, edge-b.x0), right+math.Max(0, b.x1-(width-edge))
		if most := (1 - leastShare) * width; left+right > most {
			left, right = left*most/(left+right), right*most/(left+right)
			round = 4 // as broad as they may be
		}
		out, heads, y = s.panels(left, right, width)
	}
	y = out.keys(s.Keys, y)
	y = out.table(s.Table, y)
	y = out.notes(s.Notes, y)
	if b, ok := out.bounds(); ok { // words wider than the room widen the picture
		if dx := edge - b.x0; dx > 0 {
			out.move(dx, 0)
		}
		out.Letters = append(out.Letters, heads...)
		b, _ = out.bounds()
		out.Width = math.Max(width, b.x1+edge)
		y = b.y1 + edge
	}
	out.Height = math.Max(y, 2*edge)
	return out
}

// panels lays the panels out under one another, and returns their heads apart and
// where the next thing begins.
func (s *Sheet) panels(left, right, width float64) (out Plate, heads []Lettering, y float64) {
	out.Width = width
	y = edge
	for i := range s.Panels {
		p := &s.Panels[i]
		if p.Head != "" {
			heads = append(heads, Lettering{At: Point{X: edge, Y: y + ascent}, Text: p.Head, Bold: true})
			y += Type + 6
		}
		plate := p.layout(left, width-right)
		if b, ok := plate.bounds(); ok {
			plate.move(0, y-b.y0)
			y += b.y1 - b.y0 + between
			out.add(plate)
		}
	}
	return out, heads, y
}

// mapping takes points of a scene to the plate.
type mapping struct {
	from   Point // this point of the scene
	to     Point // lies here on the plate
	sx, sy float64
}

func (m mapping) at(p Point) Point {
	return Point{X: m.to.X + (p.X-m.from.X)*m.sx, Y: m.to.Y - (p.Y-m.from.Y)*m.sy}
}

// mapping fits the panel between x0 and x1.
func (p *Panel) mapping(x0, x1 float64) mapping {
	low, high, ok := p.Scene.Bounds()
	if !ok {
		low, high = Point{}, Point{}
	}
	if p.X.asks() {
		low.X, high.X = math.Min(low.X, p.X.Low), math.Max(high.X, p.X.High)
	}
	if p.Y.asks() {
		low.Y, high.Y = math.Min(low.Y, p.Y.Low), math.Max(high.Y, p.Y.High)
	}
	along, up := spread(low.X, high.X), spread(low.Y, high.Y)
	m := mapping{from: low, to: Point{X: x0, Y: 0}, sx: (x1 - x0) / along}
	if p.Tall > 0 {
		m.sy = p.Tall / up
		if low.X == high.X {
			m.to.X = (x0 + x1) / 2
		}
		return m
	}
	m.sx = math.Min(m.sx, tallest/up)
	m.sy = m.sx
	m.to.X += ((x1 - x0) - (high.X-low.X)*m.sx) / 2
	return m
}

// spread is the length of a range, or 1 for none worth the name: a single point is
// then shown in the middle.
func spread(low, high float64) float64 {
	d := high - low
	if d > 1e-12 && d > 1e-12*math.Max(math.Abs(low), math.Abs(high)) && !math.IsInf(d, 0) {
		return d
	}
	return 1
}

// layout draws the panel's scene between x0 and x1.
func (p *Panel) layout(x0, x1 float64) Plate {
	return p.Scene.put(p.mapping(x0, x1))
}

// At lays a scene out at so many picture units to one unit of its own, its origin
// in the corner of the plate: the way to paper at true size.
func (s *Scene) At(scale float64) Plate {
	return s.put(mapping{sx: scale, sy: scale})
}
