package trade

import (
	"math"
	"strings"

	"scarph/calc"
)

// Result is what a call gives: the value, and remarks on it.
type Result struct {
	Value    calc.Value
	Warnings []string
}

// Invoke checks the arguments and evaluates the function. A list where a quantity
// is wanted spreads: the result is a list, and lists must have one length. ± in the
// arguments goes through by the function's sensitivities.
func (f *Function) Invoke(args []calc.Value) (Result, *calc.Error) {
	full, err := f.complete(args)
	if err != nil {
		return Result{}, err
	}
	n, labels, err := f.spreadLength(full)
	if err != nil {
		return Result{}, err
	}
	if n < 0 {
		return f.once(full)
	}
	out := Result{}
	items := make([]calc.Value, n)
	one := make([]calc.Value, len(full))
	var said remarks
	for k := range items {
		for i := range full {
			one[i] = full[i]
			if f.spreads(i, full[i]) {
				one[i] = full[i].Items()[k]
			}
		}
		if missing(one) {
			items[k] = calc.NoValue()
			continue
		}
		r, err := f.once(one)
		if err != nil {
			where := calc.Words(labelAt(labels, k))
			err.Message = where + ": " + err.Message
			return out, err
		}
		items[k] = r.Value
		said.add(k, r.Warnings)
	}
	out.Value, out.Warnings = calc.Labelled(labels, items), said.texts(labels, n)
	return out, nil
}

func missing(args []calc.Value) bool {
	for _, a := range args {
		if a.Kind() == calc.Missing && a.X != nil && a.X != optional.X {
			return true
		}
	}
	return false
}

// remarks gathers what is said of the elements of a list: each text once, with
// the elements that it is said of.
type remarks []struct {
	text string
	of   []int
}

func (r *remarks) add(k int, texts []string) {
next:
	for _, text := range texts {
		for i := range *r {
			if m := &(*r)[i]; m.text == text {
				m.of = append(m.of, k)
				continue next
			}
		}
		*r = append(*r, struct {
			text string
			of   []int
		}{text, []int{k}})
	}
}

// texts writes the remarks; one that holds for all n elements needs no names.
func (r remarks) texts(labels []string, n int) []string {
	var list []string
	for _, m := range r {
		if len(m.of) == n {
			list = append(list, m.text)
			continue
		}
		names := make([]string, len(m.of))
		for i, k := range m.of {
			names[i] = calc.Words(labelAt(labels, k))
		}
		list = append(list, strings.Join(names, ", ")+": "+m.text)
	}
	return list
}

func labelAt(labels []string, i int) string {
	if labels != nil {
		return labels[i]
	}
	return "element " + calc.Style{}.Text(calc.Number(float64(i+1)))
}

// optional stands for an argument that was left out and has no default.
var optional = calc.Value{X: &calc.Extra{Kind: calc.Missing}}

// complete checks the number of arguments and fills in those left out.
func (f *Function) complete(args []calc.Value) ([]calc.Value, *calc.Error) {
	if len(args) > len(f.Params) {
		return nil, calc.Errorf(calc.CodeArguments, "%s takes %s; it was given %d", f.Name, counted(len(f.Params)), len(args)).
			WithHint("%s", f.Signature())
	}
	full := make([]calc.Value, len(f.Params))
	copy(full, args)
	for i := len(args); i < len(f.Params); i++ {
		p := f.Params[i]
		if !p.Optional {
			return nil, calc.Errorf(calc.CodeArguments, "%s wants %s: %s is not given", f.Name, counted(len(f.Params)), p.Name).
				WithHint("%s", f.Signature())
		}
		full[i] = p.Default
		if p.Default == (calc.Value{}) {
			full[i] = optional
		}
	}
	return full, nil
}

func counted(n int) string {
	switch n {
	case 0:
		return "no arguments"
	case 1:
		return "one argument"
	}
	return calc.Style{}.Text(calc.Number(float64(n))) + " arguments"
}

func (f *Function) spreads(i int, x calc.Value) bool {
	k := f.Params[i].Kind
	return (k == Scalar || k == Count || k == Item || k == Choice) && x.Kind() == calc.List
}

// spreadLength returns the common length of the lists that spread, −1 when none do.
func (f *Function) spreadLength(args []calc.Value) (int, []string, *calc.Error) {
	n, first := -1, ""
	var labels []string
	for i, a := range args {
		if !f.spreads(i, a) {
			continue
		}
		m := len(a.Items())
		if n >= 0 && m != n {
			return 0, nil, calc.Errorf(calc.CodeShape, "%s has %d elements but %s has %d", first, n, f.Params[i].Name, m).
				WithHint("lists go element by element, so all need one length")
		}
		if n < 0 {
			n, first = m, f.Params[i].Name
		}
		if labels == nil {
			labels = a.Labels()
		}
	}
	return n, labels, nil
}

// once evaluates the function for arguments that do not spread.
func (f *Function) once(args []calc.Value) (Result, *calc.Error) {
	checked := make([]calc.Value, len(args))
	for i := range args {
		x, err := f.check(i, args[i])
		if err != nil {
			return Result{}, err
		}
		checked[i] = x
	}
	c := &Call{fn: f, args: checked}
	if err := c.alike(); err != nil {
		return Result{}, err
	}
	for i, p := range f.Params {
		if p.Remark != nil && args[i].Kind() == calc.Text {
			if r := p.Remark(args[i].Text()); r != "" {
				c.Warnings = append(c.Warnings, r)
			}
		}
	}
	v, err := f.eval(c)
	if err != nil {
		return Result{}, err
	}
	if !f.Stepped {
		v = f.carrySpread(checked, v)
	}
	return Result{Value: v.DrawnBy(f.Name, checked), Warnings: c.Warnings}, nil
}

// alike refuses arguments that must have one dimension and have not.
func (c *Call) alike() *calc.Error {
	first := -1
	for i, p := range c.fn.Params {
		switch {
		case !p.Same || p.Optional && !c.Given(i):
		case first < 0:
			first = i
		case c.Dim(i) != c.Dim(first):
			e := calc.Errorf(calc.CodeDimension, "%s: %s is %s, but %s is %s", c.fn.Name, calc.Words(p.Name), c.Dim(i).A(), calc.Words(c.fn.Params[first].Name), c.Dim(first).A())
			if c.Dim(i).IsNumber() {
				e.Code = calc.CodeBareNumber
				e.WithHint("%s", calc.WhatUnit(c.Value(i), c.Dim(first)))
			}
			return e
		}
	}
	return nil
}

func (f *Function) eval(c *Call) (calc.Value, *calc.Error) {
	v, err := f.Eval(c)
	if err != nil {
		if e, ok := err.(*calc.Error); ok {
			return v, e
		}
		return v, calc.Errorf(calc.CodeDomain, "%s", err.Error())
	}
	if !finite(v) {
		return v, calc.Errorf(calc.CodeDomain, "%s has no answer for these numbers", f.Name).WithHint("%s", f.Limits)
	}
	return v, nil
}

func finite(v calc.Value) bool {
	if math.IsNaN(v.V) || math.IsInf(v.V, 0) {
		return false
	}
	for _, it := range v.Items() {
		if !finite(it) {
			return false
		}
	}
	return true
}

// check checks one argument and turns the name of an item into its quantity.
func (f *Function) check(i int, x calc.Value) (calc.Value, *calc.Error) {
	p := f.Params[i]
	if x.X != nil && x.X == optional.X {
		return x, nil
	}
	switch p.Kind {
	case Any:
		return x, nil
	case Choice:
		return x, f.checkChoice(p, x)
	case Table:
		if x.Kind() != calc.Record {
			return x, f.wrongKind(p, x)
		}
		return x, nil
	case Item:
		if x.Kind() == calc.Text {
			v, err := p.Find(x.Text())
			if err != nil {
				return x, asError(err)
			}
			return v, nil
		}
	case Scalars:
		if x.Kind() != calc.List {
			return x, f.wrongKind(p, x)
		}
		if err := f.tooMany(p, x); err != nil {
			return x, err
		}
		for k, it := range x.Items() {
			if it.Kind() == calc.Missing {
				return x, calc.Errorf(calc.CodeMissing, "%s: %s is empty", p.Name, calc.Words(labelAt(x.Labels(), k)))
			}
			if err := f.checkQuantity(p, it); err != nil {
				err.Message = calc.Words(labelAt(x.Labels(), k)) + ": " + err.Message
				return x, err
			}
		}
		return plainItems(x), nil
	case Points:
		return f.checkPoints(p, x)
	}
	if p.Zero && x.X == nil && x.V == 0 && x.D.IsNumber() {
		return calc.Of(0, p.Dim), nil
	}
	if err := f.checkQuantity(p, x); err != nil {
		return x, err
	}
	if p.Kind == Count && x.V != math.Trunc(x.V) {
		if r := math.Round(x.V); math.Abs(x.V-r) < 1e-9 {
			x.V = r
			return x, nil
		}
		return x, calc.Errorf(calc.CodeDomain, "%s wants a whole number for %s; it was given %s", f.Name, p.Name, calc.Recognised(x))
	}
	return x.Plain(), nil
}

// mostPoints is how many points, or figures that go with other figures, one call takes. A
// boat has a few dozen stations; what is worked out of them takes the square of their
// number, or more. A single list, such as that of a mean, may be longer.
const mostPoints = 2000

func (f *Function) tooMany(p *Param, x calc.Value) *calc.Error {
	n, lists := len(x.Items()), 0
	for i := range f.Params {
		if k := f.Params[i].Kind; k == Scalars || k == Points {
			lists++
		}
	}
	if n > mostPoints && (lists > 1 || p.Kind == Points) {
		return calc.Errorf(calc.CodeLimit, "%s takes up to %d of a kind; %s has %d", f.Name, mostPoints, p.Name, n)
	}
	return nil
}

func plainItems(x calc.Value) calc.Value {
	items := make([]calc.Value, len(x.Items()))
	for i, it := range x.Items() {
		items[i] = it.Plain()
	}
	return calc.Labelled(x.Labels(), items)
}

func asError(err error) *calc.Error {
	if e, ok := err.(*calc.Error); ok {
		return e
	}
	return calc.Errorf(calc.CodeUnknownItem, "%s", err.Error())
}

func (f *Function) checkChoice(p *Param, x calc.Value) *calc.Error {
	if x.Kind() != calc.Text {
		return f.wrongKind(p, x)
	}
	for _, c := range p.Choices {
		if c == x.Text() {
			return nil
		}
	}
	e := calc.Errorf(calc.CodeUnknownItem, "%s: %q is no choice for %s", f.Name, x.Text(), p.Name)
	return e.WithHint("write %s", quoteOr(p.Choices))
}

func (f *Function) checkPoints(p *Param, x calc.Value) (calc.Value, *calc.Error) {
	if x.Kind() != calc.List {
		return x, f.wrongKind(p, x)
	}
	if err := f.tooMany(p, x); err != nil {
		return x, err
	}
	items := make([]calc.Value, len(x.Items()))
	for k, pt := range x.Items() {
		if pt.Kind() != calc.List || len(pt.Items()) != p.Width {
			return x, calc.Errorf(calc.CodeShape, "%s: %s of %s is no point of %d numbers", f.Name, labelAt(x.Labels(), k), p.Name, p.Width).
				WithHint("points are written [[0 in, 0 in], [24 in, 9 in]]")
		}
		of := *p
		of.Kind = Scalar // a refusal speaks of the quantity, not of the list
		for j, q := range pt.Items() {
			if p.Dims != nil {
				of.Dim = p.Dims[j]
			}
			if err := f.checkQuantity(&of, q); err != nil {
				return x, err
			}
		}
		items[k] = plainItems(pt)
	}
	return calc.Labelled(x.Labels(), items), nil
}

func (f *Function) wrongKind(p *Param, x calc.Value) *calc.Error {
	return calc.Errorf(calc.CodeKind, "%s wants %s for %s; it was given %s", f.Name, p.What(), p.Name, x.What()).
		WithHint("%s", f.Signature())
}

// shown writes a bound of the parameter as people write the argument.
func (p *Param) shown(x calc.Value) calc.Value {
	if p.Percent {
		return asPercent(x.V)
	}
	return x.Plain()
}

func (f *Function) checkQuantity(p *Param, x calc.Value) *calc.Error {
	if !x.IsQuantity() {
		return f.wrongKind(p, x)
	}
	if !p.AnyDim && x.D != p.Dim {
		e := calc.Errorf(calc.CodeDimension, "%s wants %s for %s; it was given %s, %s", f.Name, p.What(), p.Name, x.D.A(), calc.Recognised(x))
		switch {
		case x.D.IsNumber():
			e.Code = calc.CodeBareNumber
			if p.Called != "" {
				return e.WithHint("%s what? %s: %s", calc.Style{}.Text(x), p.Name, p.Doc)
			}
			return e.WithHint("%s", calc.WhatUnit(x, p.Dim))
		case p.Doc != "":
			return e.WithHint("%s: %s", p.Name, p.Doc)
		}
		return e.WithHint("%s", f.Signature())
	}
	if p.Positive && x.V <= 0 {
		return calc.Errorf(calc.CodeDomain, "%s: %s must be more than zero; it is %s", f.Name, p.Name, calc.Recognised(x))
	}
	if (p.Min != 0 || p.Max != 0) && (x.V < p.Min-1e-12 || x.V > p.Max+1e-12) {
		lo, hi := x, x
		lo.V, hi.V = p.Min, p.Max
		lo, hi, x = p.shown(lo), p.shown(hi), p.shown(x)
		st := calc.Style{}
		e := calc.Errorf(calc.CodeDomain, "%s: %s is %s", f.Name, p.Name, st.Text(x))
		if p.Percent && x.V > 1 {
			n := st.Text(calc.Number(x.V))
			return e.WithHint("write %s %% if you mean %s in the hundred; it must be from %s to %s", n, n, st.Text(lo), st.Text(hi))
		}
		if p.Max >= noLimit {
			return e.WithHint("it must be %s or more", st.Text(lo))
		}
		return e.WithHint("it must be from %s to %s", st.Text(lo), st.Text(hi))
	}
	return nil
}
