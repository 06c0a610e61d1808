package kernel

import (
	"scarph/calc"
	"scarph/calc/trade"
)

// DescriptionShape is a description as other programs read it. Kind is value,
// function, form, word or unit; the fields of other kinds are left out.
type DescriptionShape struct {
	Name string `json:"name"`
	Kind string `json:"kind"`
	// of a value
	Value   *Shape        `json:"value,omitempty"`
	Echo    string        `json:"echo,omitempty"` // in the other family of units
	Error   string        `json:"error,omitempty"`
	Formula string        `json:"formula,omitempty"`
	Filled  string        `json:"filled,omitempty"` // the formula with the numbers put in
	Sum     *Shape        `json:"sum,omitempty"`    // of a derived value that a reading displaced
	Causes  []CauseShape  `json:"causes,omitempty"`
	HangsOn []string      `json:"hangs_on,omitempty"`
	Members []string      `json:"members,omitempty"`
	History *HistoryShape `json:"history,omitempty"`
	// of a function
	Function *FunctionShape `json:"function,omitempty"`
	// of a form, a word or a unit
	Call      string `json:"call,omitempty"`
	Summary   string `json:"summary,omitempty"`
	Dimension string `json:"dimension,omitempty"`
	Factor    any    `json:"factor,omitempty"` // of a unit, in SI base units
	Source    string `json:"source,omitempty"`
}

// CauseShape is a reading that a ± comes from.
type CauseShape struct {
	Name string `json:"name"`
	Part Shape  `json:"part"`
	Date string `json:"date"`
	File string `json:"file"`
	Line int    `json:"line"`
}

// ShapeOfDescription gives a description the shape of JSON.
func ShapeOfDescription(d Description, style calc.Style) DescriptionShape {
	z := DescriptionShape{Name: d.Name}
	switch {
	case d.Value != nil:
		z.Kind = "value"
		z.known(d.Value, style)
	case d.Function != nil:
		z.Kind = "function"
		f := ShapeOfFunction(d.Function)
		z.Function = &f
	case d.Word != nil:
		z.Kind, z.Call, z.Summary = "word", d.Word.Example, d.Word.Summary
		if d.Form != nil {
			z.Summary += "; " + d.Form.Call + ": " + d.Form.Summary
		}
	case d.Form != nil:
		z.Kind, z.Call, z.Summary = "form", d.Form.Call, d.Form.Summary
	case d.Unit != nil:
		z.Kind, z.Dimension, z.Factor, z.Source = "unit", d.Unit.D.Word(), d.Unit.Factor, d.Unit.Source
	}
	return z
}

func (z *DescriptionShape) known(k *Known, style calc.Style) {
	z.Formula, z.Filled, z.HangsOn, z.Members = k.Formula, k.Filled, k.HangsOn, k.Members
	z.Error = k.Result.Trouble()
	if k.Result.OK() {
		v := ShapeOfResult(k.Result, style)
		z.Value, z.Echo = &v, style.Echo(k.Result.Value)
	}
	if k.Sum != nil && k.Sum.OK() {
		v := ShapeOf(k.Sum.Value, style)
		z.Sum = &v
	}
	for _, c := range k.Causes {
		z.Causes = append(z.Causes, CauseShape{c.Name, ShapeOf(c.Part, style), c.Reading.Entry.Date, c.Reading.Place.File, c.Reading.Place.Line})
	}
	if k.History.Result != nil {
		h := ShapeOfHistory(k.History, style)
		z.History = &h
	}
}

// FunctionShape is an entry of the registry as other programs read it.
type FunctionShape struct {
	Name    string        `json:"name"`
	Group   string        `json:"group"`
	Summary string        `json:"summary"`
	Params  []ParamShape  `json:"arguments"`
	Result  string        `json:"result"`
	Formula string        `json:"formula"`
	Limits  string        `json:"limits"`
	Caution string        `json:"caution"`
	Class   string        `json:"caution_class"` // A to F, "" for none
	Source  string        `json:"source"`
	Checks  []WorkedShape `json:"checks"`
}

// WorkedShape is a worked check of a function: a call and what it comes to, both in the
// language. A tolerance of 0 is one in a hundred thousand.
type WorkedShape struct {
	Call      string  `json:"call"`
	Want      string  `json:"want"`
	Tolerance float64 `json:"tolerance"`
	Source    string  `json:"source"`
}

// ParamShape is a parameter of a function.
type ParamShape struct {
	Name     string `json:"name"`
	What     string `json:"what"`
	Optional bool   `json:"optional"`
	Doc      string `json:"doc"`
}

// ShapeOfFunction gives an entry of the registry the shape of JSON.
func ShapeOfFunction(f *trade.Function) FunctionShape {
	z := FunctionShape{Name: f.Name, Group: f.Group, Summary: f.Summary, Result: f.Result, Formula: f.Formula, Limits: f.Limits, Caution: f.Caution.Text(), Class: f.Caution.Letter(), Source: f.Source, Checks: []WorkedShape{}, Params: []ParamShape{}}
	for _, c := range f.Checks {
		z.Checks = append(z.Checks, WorkedShape{c.Call, c.Want, c.Tol, c.Source})
	}
	for i := range f.Params {
		p := f.Params[i]
		z.Params = append(z.Params, ParamShape{p.Name, p.What(), p.Optional, p.Doc})
	}
	return z
}
