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
	"sort"
	"strings"

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
	Params  []Param
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

// groups holds the functions of each file, in the order of the reference.
// A new group is one line here; a new function is one entry in its group.
var groups = []struct {
	name      string
	functions func() []Function
}{
	{"Measuring and rounding", measuring},
	{"Triangles, bevels and angles", bevels},
	{"Spacing and layout", spacing},
	{"Curves, camber, arcs, battens and fairness", curves},
	{"Table of offsets and lines", offsets},
	{"Developed (expanded) panels", panels},
	{"Lumber, plywood and cutting lists", lumber},
	{"Wood movement and moisture", moisture},
	{"Fastenings", fastenings},
	{"Steam-bending and laminating", steaming},
	{"Glue, paint and caulking", finish},
	{"Weights and centres", weights},
	{"Hydrostatics, trim and stability", hydrostatics},
	{"Hulls", hulls},
	{"Capacity and safety", capacity},
	{"Rowing, sail and spars", rowing},
	{"Survey and restoration", survey},
	{"Time and cost", timeAndCost},
	{"Drawings", drawings},
	{"Reference tables", shelf},
	{"Sums and lists", numbers},
}

// registry is filled once, before main.
var registry = buildRegistry()

type index struct {
	list   []Function
	byName map[string]*Function
	names  []string
}

func buildRegistry() *index {
	x := &index{byName: map[string]*Function{}}
	for _, g := range groups {
		for _, f := range g.functions() {
			f.Group = g.name
			x.list = append(x.list, f)
		}
	}
	for i := range x.list {
		f := &x.list[i]
		if _, ok := x.byName[f.Name]; ok {
			panic("trade: two functions named " + f.Name)
		}
		x.byName[f.Name] = f
		x.names = append(x.names, f.Name)
	}
	sort.Strings(x.names)
	return x
}

// All lists the functions in the order of the reference.
func All() []Function { return registry.list }

// Names lists the names of all functions, sorted.
func Names() []string { return registry.names }

// spellings are word pairs of which either may stand in a function's name.
var spellings = [][2]string{{"mould", "mold"}, {"centre", "center"}, {"gauge", "gage"}, {"metre", "meter"}, {"colour", "color"}, {"grey", "gray"}, {"miter", "mitre"}, {"beveled", "bevelled"}, {"scarf", "scarph"}}

// Find returns the function with the given name, in British or American spelling.
func Find(name string) (*Function, bool) {
	if f, ok := registry.byName[name]; ok {
		return f, true
	}
	for _, p := range spellings {
		for i := 0; i < 2; i++ {
			if strings.Contains(name, p[i]) {
				if f, ok := registry.byName[strings.ReplaceAll(name, p[i], p[1-i])]; ok {
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
