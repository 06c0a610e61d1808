package paper

import (
	"math"

	"scarph/calc"
	"scarph/calc/draw"
)

// unit is a picture unit on paper, millimetres: letters then stand 3.5 mm, ten point.
const unit = 0.27

const (
	margin  = 10.0 // that no printer needs to reach
	upright = 9.0  // the band at the right for the upright bar
	footer  = 30.0 // the band at the foot for bars and words
	overlap = 12.0 // that two neighbouring cells share
	air     = 4.0  // round the shape
	longest = 5000 // of a page: PDF allows 14,400 points, 5080 mm (ISO 32000-1, annex C.2)
	// mostSheets bounds one print.
	mostSheets = 400
)

// Named is a flat shape with the name that its sheets carry.
type Named struct {
	Name string
	Flat draw.Flat
	// Cautions are what must be said of the figures it is drawn from.
	Cautions []string
}

// pattern is a shape laid out at true size, in millimetres, its content beginning at 0, 0.
type pattern struct {
	name          string
	cautions      []string
	strokes       []draw.Stroke
	letters       []draw.Lettering
	width, height float64
	grid          grid
}

// grid is how a pattern is cut into cells and these are laid on sheets.
type grid struct {
	page          Page // turned as it is used
	columns, rows int
	areaX, areaY  float64 // the largest cell
	perSheet      int     // cells on one sheet, one under another
	cells         []cell
}

// cell is the part of a pattern between its corners.
type cell struct {
	column, row    int
	x0, y0, x1, y1 float64
}

// name of a cell: the column by a letter, the row by a number.
func (c cell) name() string {
	letters := ""
	for n := c.column; ; n = n/26 - 1 {
		letters = string(rune('A'+n%26)) + letters
		if n < 26 {
			break
		}
	}
	return letters + calc.Style{}.Text(calc.Number(float64(c.row+1)))
}

func newPattern(n Named, o Options) (*pattern, error) {
	if n.Flat == nil {
		return nil, calc.Errorf(calc.CodeKind, "%s is nothing flat", n.Name)
	}
	scene := n.Flat.Outline(o.Style)
	low, high, ok := scene.Bounds()
	if !ok || !(high.X > low.X) && !(high.Y > low.Y) {
		return nil, calc.Errorf(calc.CodeDomain, "%s has no shape to print", n.Name)
	}
	if math.Max(high.X-low.X, high.Y-low.Y) > 60 {
		return nil, calc.Errorf(calc.CodeLimit, "%s is %s long: patterns go to 60 m", n.Name, o.Style.Text(calc.Length(math.Max(high.X-low.X, high.Y-low.Y))))
	}
	// shift to the corner first, so that no digits are lost to a far origin
	plate := scene.At(1000 / unit)
	p := &pattern{name: n.Name, cautions: n.Cautions, strokes: plate.Strokes, letters: plate.Letters}
	p.toCorner()
	p.grid = p.bestGrid(o.page())
	if n := len(p.grid.cells); n > mostSheets*p.grid.perSheet {
		return nil, calc.Errorf(calc.CodeLimit, "%s would take %d sheets of %s", p.name, n, o.page().Name).WithHint("take a roll, or print parts of it")
	}
	return p, nil
}

// toCorner turns picture units into millimetres and moves the content to the corner,
// with some air round it.
func (p *pattern) toCorner() {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	grow := func(ax, ay, bx, by float64) {
		x0, y0, x1, y1 = math.Min(x0, ax), math.Min(y0, ay), math.Max(x1, bx), math.Max(y1, by)
	}
	for _, s := range p.strokes {
		for _, q := range s.Points {
			grow(q.X-s.Radius, q.Y-s.Radius, q.X+s.Radius, q.Y+s.Radius)
		}
	}
	for _, l := range p.letters {
		grow(l.Bounds())
	}
	move := func(q draw.Point) draw.Point {
		return draw.Point{X: (q.X-x0)*unit + air, Y: (q.Y-y0)*unit + air}
	}
	for i := range p.strokes {
		s := &p.strokes[i]
		s.Radius *= unit
		for k := range s.Points {
			s.Points[k] = move(s.Points[k])
		}
	}
	for i := range p.letters {
		p.letters[i].At = move(p.letters[i].At)
	}
	p.width, p.height = (x1-x0)*unit+2*air, (y1-y0)*unit+2*air
}

// bestGrid takes the paper upright or on its side, whichever needs fewer sheets.
func (p *pattern) bestGrid(page Page) grid {
	if page.Roll {
		length := math.Min(longest, p.width+2*margin+upright)
		length = math.Max(length, 2*margin+upright+210) // room for the words at the foot
		return p.gridOn(Page{Name: page.Name, Width: length, Height: page.Width, Roll: true})
	}
	a := p.gridOn(page)
	b := p.gridOn(Page{Name: page.Name, Width: page.Height, Height: page.Width})
	if b.sheets() < a.sheets() {
		return b
	}
	return a
}

func (p *pattern) gridOn(page Page) grid {
	g := grid{page: page, areaX: page.Width - 2*margin - upright, areaY: page.Height - 2*margin - footer, perSheet: 1}
	g.columns, g.rows = cellsFor(p.width, g.areaX), cellsFor(p.height, g.areaY)
	if g.columns*g.rows > 100*mostSheets { // refused by the caller; not worth cutting up
		g.cells = make([]cell, g.columns*g.rows)
		return g
	}
	if g.rows == 1 && g.columns > 1 {
		g.perSheet = max(1, int((g.areaY+air)/(p.height+air)))
	}
	for r := 0; r < g.rows; r++ {
		for c := 0; c < g.columns; c++ {
			k := cell{column: c, row: r, x0: float64(c) * (g.areaX - overlap), y0: float64(r) * (g.areaY - overlap)}
			k.x1, k.y1 = math.Min(p.width, k.x0+g.areaX), math.Min(p.height, k.y0+g.areaY)
			if p.touches(k) {
				g.cells = append(g.cells, k)
			}
		}
	}
	return g
}

// cellsFor returns how many cells cover a length.
func cellsFor(length, area float64) int {
	if length <= area+1e-9 {
		return 1
	}
	return 1 + int(math.Ceil((length-area)/(area-overlap)-1e-9))
}

func (g grid) sheets() int { return (len(g.cells) + g.perSheet - 1) / g.perSheet }

// touches reports whether anything of the pattern lies in the cell.
func (p *pattern) touches(c cell) bool {
	for _, s := range p.strokes {
		if s.Meets(c.x0, c.y0, c.x1, c.y1) {
			return true
		}
	}
	for _, l := range p.letters {
		if l.At.X >= c.x0 && l.At.X <= c.x1 && l.At.Y >= c.y0 && l.At.Y <= c.y1 {
			return true
		}
	}
	return false
}

// joins are the crossing marks of a cell, in the pattern's millimetres: on each line
// that it shares with a neighbour, two.
func (g grid) joins(c cell) []join {
	var out []join
	for _, n := range g.cells {
		switch {
		case n.row == c.row && n.column == c.column+1, n.row == c.row && n.column == c.column-1:
			a, b := c, n
			if n.column < c.column {
				a, b = n, c
			}
			x := b.x0 + overlap/2
			low, high := math.Max(a.y0, b.y0), math.Min(a.y1, b.y1)
			for _, t := range [2]float64{0.15, 0.85} {
				out = append(out, join{x, low + t*(high-low), a.name() + " " + b.name()})
			}
		case n.column == c.column && n.row == c.row+1, n.column == c.column && n.row == c.row-1:
			a, b := c, n
			if n.row < c.row {
				a, b = n, c
			}
			y := b.y0 + overlap/2
			low, high := math.Max(a.x0, b.x0), math.Min(a.x1, b.x1)
			for _, t := range [2]float64{0.15, 0.85} {
				out = append(out, join{low + t*(high-low), y, a.name() + " " + b.name()})
			}
		}
	}
	return out
}

// join is a crossing mark and the two cells that share it.
type join struct {
	x, y  float64
	cells string
}
