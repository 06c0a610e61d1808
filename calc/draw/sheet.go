package draw

import "scarph/calc"

// Kind is a drawing that can be laid out.
type Kind interface {
	calc.Drawing
	// Sheet builds the picture in the units and marks of the style.
	Sheet(calc.Style) Sheet
}

// Flat is a drawing of something flat that can be laid down at true size.
type Flat interface {
	calc.Drawing
	// Outline returns the shape in metres, at its true size, with its marks and
	// the words that belong on it in the units of the style.
	Outline(calc.Style) Scene
}

// Range is a stretch of an axis.
type Range struct{ Low, High float64 }

// asks reports whether the range is one: not zero, and between numbers.
func (r Range) asks() bool { return r != (Range{}) && finite(Point{X: r.Low, Y: r.High}) }

// Panel is one scene of a sheet.
type Panel struct {
	Head  string // a few words over it
	Scene Scene
	// Tall is the height in picture units of a panel whose x and y have scales of
	// their own; 0 keeps both alike.
	Tall float64
	// X and Y are shown at least; the zero Range asks for nothing.
	X, Y Range
}

// Key explains a mark or a line under the picture.
type Key struct {
	Shape Shape
	Line  bool // the key shows the pen, not the shape
	Pen   Pen
	Text  string
}

// Sheet is a picture: panels from top to bottom, what their marks mean, a table of
// figures, and remarks.
type Sheet struct {
	Title  string
	Panels []Panel
	Keys   []Key
	Table  [][]string // the first row is the head
	Notes  []string
}

// svgOf writes a drawing, with its description, as an <svg> element.
func svgOf(k Kind, s calc.Style) string {
	sheet := k.Sheet(s)
	plate := sheet.Layout(Wide)
	return plate.SVG(sheet.Title, k.Describe(s))
}
