// Package trade is the function library of the boat shop: spacing, bevels,
// battens, offsets, panels, lumber, moisture, fastenings, weights, hydrostatics,
// capacity, survey, time and cost.
//
// A function is one entry of its group's file, and the entry is its documentation:
// arguments with their dimensions, result, formula, limits, caution, source and
// worked checks stand there and nowhere else. Help, completion, the reference page,
// argument errors and the tests of the published values all come from the entry.
//
// Eval gets checked arguments in SI units and returns a value or a refusal. It
// knows nothing of lists where a quantity is wanted (a function spreads over lists),
// nor of ± (its sensitivities are found by central differences).
package trade

import (
	"strings"
	"sync"

	"scarph/calc"
)

// ArgKind says what an argument must be.
type ArgKind uint8

// The kinds of arguments.
const (
	Scalar  ArgKind = iota // one quantity of the parameter's dimension
	Count                  // a whole plain number
	Scalars                // a list of quantities of one dimension
	Points                 // a list of lists of quantities: [[x, y], …], each of Width quantities
	Choice                 // one of the texts in Choices
	Item                   // a quantity, or the text name of a row of a table that gives it
	Any                    // anything; Eval checks it
	Table                  // a data table: a record of labelled rows
)

// Param is a parameter of a function.
type Param struct {
	Name string
	Kind ArgKind
	Dim  calc.Dimension
	// AnyDim lets the quantity have any dimension; the other AnyDim arguments of
	// one call must then have the same when Same is set.
	AnyDim, Same bool
	// Min and Max bound the argument in SI units, closed; both 0 means no bound.
	// Outside is a refusal. Warn bounds are in Eval, by Call.Warn.
	Min, Max float64
	// Positive asks for more than zero.
	Positive bool
	Choices  []string
	// Width is the number of quantities in each of the Points; Dims are their
	// dimensions when they are not all Dim.
	Width int
	Dims  []calc.Dimension
	// Zero lets a bare 0 stand for nothing of the dimension.
	Zero bool
	// Find gives the quantity of an Item by the name of its row; names lists them.
	Find  func(name string) (calc.Value, error)
	Names func() []string
	// Remark gives what has to be said when an Item was named, "" for nothing.
	Remark func(name string) string
	// Called says what the argument is where its dimension has no name of its own.
	Called string
	// Percent marks a share that people write with %: bounds are said that way.
	Percent bool
	// Optional parameters stand last and may be left out; Default is then used.
	Optional bool
	Default  calc.Value
	Doc      string
}

// Check is a worked example that the test suite runs: the call, the answer that
// its source gives, and how near it must come.
type Check struct {
	Call string // in the calc language: hypotenuse(21 in, 72 in)
	Want string // in the calc language: 75 in; or a quoted text
	// Tol is the relative tolerance, 0 for 1e-5.
	Tol float64
	// Source is where the answer stands when it is not the function's own source.
	Source string
}

// Function is an entry of the registry.
type Function struct {
	Name    string
	Group   string // the heading it stands under; set from groups
	Summary string // one line: what it gives
	Params  []*Param
	Result  string // what comes back, with its dimension: "length", "record: cross_cut (angle), tilt (angle)"
	Formula string
	Limits  string
	Caution Caution
	Source  string
	Checks  []Check
	// Stepped marks a result that moves in steps (a count, a rounded size): it
	// carries no ±.
	Stepped bool
	Eval    func(*Call) (calc.Value, error)
}

// Caution is the class of a safety remark, 'A' to 'F', 0 for none.
type Caution byte

// group is a heading of the reference with its functions, in parts that are worked out
// when one of their functions is first asked for: a page that a reader opens needs few.
type group struct {
	name  string
	parts []func() []Function
	// all gives its functions what they have in common; nil for nothing.
	all func(*Function)
}

// groups are in the order of the reference. A new function is one entry in its part, a new
// part one word here; places.go, which is made from them, says where each is found.
var groups = [...]group{
	{name: "Measuring and rounding", parts: []func() []Function{marks, readings}},
	{name: "Triangles, bevels and angles", parts: []func() []Function{triangles, stationBevels, compoundBevels}},
	{name: "Spacing and layout", parts: []func() []Function{spaces, liningOff, deductions}},
	{name: "Curves, camber, arcs, battens and fairness", parts: []func() []Function{arcs, cambers, battens, fairing, bending}},
	{name: "Table of offsets and lines", parts: []func() []Function{offsetTable, interpolations, sections, lines}},
	{name: "Developed (expanded) panels", parts: []func() []Function{development, spiling}},
	{name: "Lumber, plywood and cutting lists", parts: []func() []Function{boards, stock, buying}},
	{name: "Wood movement and moisture", parts: []func() []Function{moisture, movement}},
	{name: "Fastenings", parts: []func() []Function{screws, holding, lengthsAndCounts}},
	{name: "Steam-bending and laminating", parts: []func() []Function{steaming}},
	{name: "Glue, paint and caulking", parts: []func() []Function{gluing, painting, weather}},
	{name: "Weights and centres", parts: []func() []Function{weights}},
	{name: "Hydrostatics, trim and stability", parts: []func() []Function{integrations, volumes, buoyancy, stability}},
	{name: "Hulls", parts: []func() []Function{hullLinesOf, hullFigures, floating}},
	{name: "Capacity and safety", parts: []func() []Function{plates, afloatWhenSwamped}},
	{name: "Rowing, sail and spars", parts: []func() []Function{oarsAndSpars, sails, balanceOfSail}},
	{name: "Survey and restoration", parts: []func() []Function{keelAndTwist, sides, bestFits, losses}},
	{name: "Time and cost", parts: []func() []Function{timeAndCost}},
	{name: "Drawings", parts: []func() []Function{linesDrawings, stripDrawings, shapeDrawings, layoutDrawings, surveyDrawings, recordDrawings}, all: isDrawing},
	{name: "Reference tables", parts: []func() []Function{shelf}},
	{name: "Sums and lists", parts: []func() []Function{roundings, listFunctions, elementary}},
}

// place says in which part of which group a function is found.
type place struct {
	name        string
	group, part uint8
}

// worked are the parts that have been asked for.
var worked [len(groups)][mostParts]struct {
	once      sync.Once
	functions []Function
}

const mostParts = 8

// functionsOf works out the functions of a part of a group, once.
func functionsOf(g, p int) []Function {
	w := &worked[g][p]
	w.once.Do(func() {
		w.functions = groups[g].parts[p]()
		for i := range w.functions {
			f := &w.functions[i]
			f.Group = groups[g].name
			if all := groups[g].all; all != nil {
				all(f)
			}
		}
	})
	return w.functions
}

// All lists the functions in the order of the reference; Find gives the same ones.
func All() []*Function { return all() }

var all = sync.OnceValue(func() []*Function {
	list := make([]*Function, 0, len(places))
	for g := range groups {
		for p := range groups[g].parts {
			of := functionsOf(g, p)
			for i := range of {
				list = append(list, &of[i])
			}
		}
	}
	return list
})

// Names lists the names of all functions, sorted.
func Names() []string {
	list := make([]string, len(places))
	for i := range places {
		list[i] = places[i].name
	}
	return list
}

// find finds a function by its one name.
func find(name string) *Function {
	i, j := 0, len(places)
	for i < j {
		if h := (i + j) / 2; places[h].name < name {
			i = h + 1
		} else {
			j = h
		}
	}
	if i == len(places) || places[i].name != name {
		return nil
	}
	list := functionsOf(int(places[i].group), int(places[i].part))
	for k := range list {
		if list[k].Name == name {
			return &list[k]
		}
	}
	return nil
}

// spellings are word pairs of which either may stand in a function's name.
var spellings = [][2]string{{"mould", "mold"}, {"centre", "center"}, {"gauge", "gage"}, {"metre", "meter"}, {"colour", "color"}, {"grey", "gray"}, {"miter", "mitre"}, {"beveled", "bevelled"}, {"scarf", "scarph"}}

// Find returns the function with the given name, in British or American spelling.
func Find(name string) (*Function, bool) {
	if f := find(name); f != nil {
		return f, true
	}
	for _, p := range spellings {
		for i := range p {
			if strings.Contains(name, p[i]) {
				if f := find(strings.ReplaceAll(name, p[i], p[1-i])); f != nil {
					return f, true
				}
			}
		}
	}
	return nil, false
}

// Signature writes the call as a person reads it: frame_spacing(span, frame_count).
func (f *Function) Signature() string {
	var b strings.Builder
	b.WriteString(f.Name + "(")
	for i, p := range f.Params {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(p.Name)
		if p.Optional {
			b.WriteString("?")
		}
	}
	return b.String() + ")"
}

// What says what an argument must be: "a length", "whole number", "fresh or salt".
func (p *Param) What() string {
	switch p.Kind {
	case Count:
		return "a whole number"
	case Scalars:
		if p.AnyDim {
			return "a list of quantities"
		}
		return "a list of " + plural(p.Dim.Word())
	case Points:
		return "a list of points"
	case Choice:
		return quoteOr(p.Choices)
	case Item:
		return p.Dim.A() + " or the name of an item"
	case Any:
		return p.Doc
	case Table:
		return "a data table"
	}
	if p.AnyDim {
		return "a quantity"
	}
	if p.Called != "" {
		return p.Called
	}
	if p.Percent {
		return "a percentage"
	}
	if p.Dim.IsNumber() {
		return "a plain number"
	}
	return p.Dim.A()
}

func plural(word string) string {
	switch {
	case word == "mass":
		return "masses"
	case strings.HasSuffix(word, "y"):
		return word[:len(word)-1] + "ies"
	case strings.HasSuffix(word, "y per length"), strings.HasSuffix(word, "s"):
		return word
	}
	return word + "s"
}

func quoteOr(list []string) string {
	q := make([]string, len(list))
	for i, s := range list {
		q[i] = `"` + s + `"`
	}
	if len(q) == 1 {
		return q[0]
	}
	return strings.Join(q[:len(q)-1], ", ") + " or " + q[len(q)-1]
}
