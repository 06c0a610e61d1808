package calc

import "math"

// Kind says what a Value is.
type Kind uint8

// The kinds of values. The zero Kind is a quantity.
const (
	Quantity Kind = iota
	List
	Text
	Truth
	Record
	Picture
	Missing // an empty cell of a data table: not zero
)

var kindWords = [...]string{"quantity", "list", "text", "truth", "record", "drawing", "missing"}

// String is the word that JSON carries.
func (k Kind) String() string { return kindWords[k] }

// Value is a quantity, or something that quantities are gathered in. A plain
// quantity is its number in SI base units and its dimension, with no allocation;
// all else stands behind X. Values are not changed after they are made.
type Value struct {
	V float64
	D Dimension
	X *Extra
}

// Extra is what only some values have. It is kept small, for sums of quantities
// with ± make many.
type Extra struct {
	// Terms is the ± of a quantity, as first-order contributions of independent sources.
	Terms []Term
	// Show is how a quantity asks to be shown; nil for the journal's way.
	Show *Display
	Kind Kind
	// Whole is what a value is that is no quantity; nil for quantities.
	*Whole
}

// Whole is a value that is no quantity.
type Whole struct {
	// Items are the elements of a list or the fields of a record; Labels, if not
	// nil, name them one by one.
	Items  []Value
	Labels []string
	// Text is the text of a text value.
	Text string
	// Drawing is the picture of a drawing value; By and From, where they are known, are
	// the function that drew it and the arguments it drew it from.
	Drawing Drawing
	By      string
	From    []Value
}

// gathered makes what stands behind a list or a record.
func gathered(kind Kind, labels []string, items []Value) *Extra {
	return &Extra{Kind: kind, Whole: &Whole{Items: items, Labels: labels}}
}

// WithItems returns a list or record with other elements under the same labels.
func (x Value) WithItems(items []Value) Value {
	return Value{V: x.V, D: x.D, X: gathered(x.Kind(), x.Labels(), items)}
}

// Drawing is a picture made from quantities. It can be drawn as SVG with real
// text, and described in words for those who do not see it.
type Drawing interface {
	// SVG returns a complete <svg> element, in the units and marks of the style.
	SVG(Style) string
	// Describe says in one or two sentences what the picture shows.
	Describe(Style) string
}

// Number returns a plain number.
func Number(v float64) Value { return Value{V: v} }

// Of returns a quantity of v SI base units.
func Of(v float64, d Dimension) Value { return Value{V: v, D: d} }

// Length returns a length of v metres.
func Length(v float64) Value { return Value{V: v, D: DimLength} }

// Angle returns an angle of v radians.
func Angle(v float64) Value { return Value{V: v, D: DimAngle} }

// Inches returns a length of v inches.
func Inches(v float64) Value { return Value{V: v * 0.0254, D: DimLength} }

// Degrees returns an angle of v degrees.
func Degrees(v float64) Value { return Value{V: v * math.Pi / 180, D: DimAngle} }

// Mass returns a mass of v kilograms.
func Mass(v float64) Value { return Value{V: v, D: DimMass} }

// Str returns a text.
func Str(s string) Value { return Value{X: &Extra{Kind: Text, Whole: &Whole{Text: s}}} }

var extraTruth = &Extra{Kind: Truth}

// Bool returns a truth.
func Bool(b bool) Value {
	z := Value{X: extraTruth}
	if b {
		z.V = 1
	}
	return z
}

var extraMissing = &Extra{Kind: Missing}

// NoValue returns the value of an empty cell.
func NoValue() Value { return Value{X: extraMissing} }

// Listed returns a list of the given values.
func Listed(items ...Value) Value { return Value{X: gathered(List, nil, items)} }

// Labelled returns a list whose elements have names, such as a row of a table.
// The labels are not copied.
func Labelled(labels []string, items []Value) Value {
	return Value{X: gathered(List, labels, items)}
}

// Field is a named part of a record.
type Field struct {
	Name  string
	Value Value
}

// Fields returns a record: several results under their names.
func Fields(fields ...Field) Value {
	labels, items := make([]string, len(fields)), make([]Value, len(fields))
	for i, f := range fields {
		labels[i], items[i] = f.Name, f.Value
	}
	return Value{X: gathered(Record, labels, items)}
}

// Drawn returns a drawing.
func Drawn(d Drawing) Value { return Value{X: &Extra{Kind: Picture, Whole: &Whole{Drawing: d}}} }

// DrawnBy returns a drawing that knows what it was drawn from: two drawings by one
// function from the same arguments are the same, and need not be drawn to be compared.
func (x Value) DrawnBy(function string, arguments []Value) Value {
	if x.Kind() == Picture {
		x.X = &Extra{Kind: Picture, Whole: &Whole{Drawing: x.X.Drawing, By: function, From: arguments}}
	}
	return x
}

// Kind says what the value is.
func (x Value) Kind() Kind {
	if x.X == nil {
		return Quantity
	}
	return x.X.Kind
}

// IsQuantity reports whether the value is one quantity.
func (x Value) IsQuantity() bool { return x.X == nil || x.X.Kind == Quantity }

// True reports whether the value is the truth "yes".
func (x Value) True() bool { return x.X != nil && x.X.Kind == Truth && x.V != 0 }

// Items returns the elements of a list or the fields of a record, nil for others.
func (x Value) Items() []Value {
	if x.X == nil || x.X.Whole == nil {
		return nil
	}
	return x.X.Items
}

// Labels returns the names of the elements or fields, nil when they have none.
func (x Value) Labels() []string {
	if x.X == nil || x.X.Whole == nil {
		return nil
	}
	return x.X.Labels
}

// Text returns the text of a text value.
func (x Value) Text() string {
	if x.X == nil || x.X.Whole == nil {
		return ""
	}
	return x.X.Text
}

// Member returns the element or field with the given name.
func (x Value) Member(name string) (Value, bool) {
	if x.X == nil || x.X.Whole == nil {
		return Value{}, false
	}
	for i, l := range x.X.Labels {
		if l == name {
			return x.X.Items[i], true
		}
	}
	return Value{}, false
}

// Shown returns the value with a wish how to show it.
func (x Value) Shown(d *Display) Value {
	if x.Kind() == List {
		items := make([]Value, len(x.X.Items))
		for i, it := range x.X.Items {
			items[i] = it.Shown(d)
		}
		return x.WithItems(items)
	}
	if !x.IsQuantity() {
		return x
	}
	e := Extra{Show: d}
	if x.X != nil {
		e.Terms = x.X.Terms
	}
	if d == nil && e.Terms == nil {
		x.X = nil
		return x
	}
	x.X = &e
	return x
}

// Plain returns the quantity without its wish how to be shown; its ± stays.
func (x Value) Plain() Value {
	if x.X != nil && x.X.Kind == Quantity && x.X.Show != nil {
		return x.Shown(nil)
	}
	return x
}

// What names the value's kind and dimension for a sentence: "a length", "a list", "text".
func (x Value) What() string {
	switch x.Kind() {
	case Quantity:
		return x.D.A()
	case Text:
		return "text"
	case Missing:
		return "an empty cell"
	case Truth:
		return "a yes or no"
	default:
		return "a " + x.Kind().String()
	}
}

// Same reports whether two values are the same to the last bit, in number,
// dimension, ± and structure; the way they are shown counts too.
func Same(x, y Value) bool {
	if x.X == y.X {
		return sameFloat(x.V, y.V) && x.D == y.D
	}
	if x.X == nil || y.X == nil || !sameFloat(x.V, y.V) || x.D != y.D {
		return false
	}
	a, b := x.X, y.X
	if a.Kind != b.Kind || len(a.Terms) != len(b.Terms) || (a.Show == nil) != (b.Show == nil) || a.Show != nil && *a.Show != *b.Show {
		return false
	}
	for i := range a.Terms {
		if a.Terms[i] != b.Terms[i] {
			return false
		}
	}
	if a.Whole == nil || b.Whole == nil {
		return a.Whole == b.Whole
	}
	return sameWhole(a.Whole, b.Whole, a.Kind)
}

func sameWhole(a, b *Whole, kind Kind) bool {
	if a.Text != b.Text || len(a.Labels) != len(b.Labels) {
		return false
	}
	for i := range a.Labels {
		if a.Labels[i] != b.Labels[i] {
			return false
		}
	}
	if kind == Picture {
		return sameDrawing(a, b)
	}
	return sameItems(a.Items, b.Items)
}

func sameDrawing(a, b *Whole) bool {
	switch {
	case a.Drawing == b.Drawing:
		return true
	case a.Drawing == nil || b.Drawing == nil:
		return false
	case a.By != "" && b.By != "":
		return a.By == b.By && sameItems(a.From, b.From)
	}
	return a.Drawing.SVG(Style{}) == b.Drawing.SVG(Style{})
}

func sameItems(a, b []Value) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !Same(a[i], b[i]) {
			return false
		}
	}
	return true
}

func sameFloat(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
