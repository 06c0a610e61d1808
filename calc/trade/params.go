package trade

import "scarph/calc"

// Shorthands for the parameters of entries. Each may be narrowed by a method:
// length("span").positive(), angle("flare").within(-75°, 75°), count("frames").atLeast(2).

func scalar(name string, d calc.Dimension) *Param { return &Param{Name: name, Dim: d} }

func length(name string) *Param { return scalar(name, calc.DimLength) }
func angle(name string) *Param  { return scalar(name, calc.DimAngle) }
func area(name string) *Param   { return scalar(name, calc.DimArea) }
func volume(name string) *Param { return scalar(name, calc.DimVolume) }
func mass(name string) *Param   { return scalar(name, calc.DimMass) }
func hours(name string) *Param  { return scalar(name, calc.DimTime) }
func number(name string) *Param { return scalar(name, calc.DimNumber) }
func count(name string) *Param  { return &Param{Name: name, Kind: Count} }

// anything takes a quantity of any dimension.
func anything(name string) *Param { return &Param{Name: name, AnyDim: true} }

func listOf(name string, d calc.Dimension) *Param { return &Param{Name: name, Kind: Scalars, Dim: d} }
func lengths(name string) *Param                  { return listOf(name, calc.DimLength) }

// points takes [[x, y], …] with n lengths in each.
func points(name string, n int) *Param {
	return &Param{Name: name, Kind: Points, Dim: calc.DimLength, Width: n}
}

// mixedPoints takes [[x, y], …] in which x and y have dimensions of their own, such
// as stations and bevels.
func mixedPoints(name string, dims ...calc.Dimension) *Param {
	return &Param{Name: name, Kind: Points, Dims: dims, Width: len(dims)}
}

func choice(name string, texts ...string) *Param {
	return &Param{Name: name, Kind: Choice, Choices: texts}
}

// item takes a quantity, or the name of a table row that find turns into one.
func item(name string, d calc.Dimension, find func(string) (calc.Value, error), names func() []string) *Param {
	return &Param{Name: name, Kind: Item, Dim: d, Find: find, Names: names}
}

// percent takes a share from lo to hi in the hundred, which people write with %.
func percent(name string, lo, hi float64) *Param {
	p := number(name).within(lo/100, hi/100)
	p.Percent = true
	return p
}

func (p *Param) positive() *Param { p.Positive = true; return p }

// orZero lets a bare 0 stand: nothing is nothing in any unit.
func (p *Param) orZero() *Param { p.Zero = true; return p }

// within bounds the argument by SI values, closed.
func (p *Param) within(lo, hi float64) *Param { p.Min, p.Max = lo, hi; return p }

// degrees bounds an angle, in degrees.
func (p *Param) degrees(lo, hi float64) *Param {
	return p.within(calc.Degrees(lo).V, calc.Degrees(hi).V)
}

// noLimit is an upper bound that stands for none.
const noLimit = 1e9

// atLeast bounds a count from below.
func (p *Param) atLeast(n int) *Param { return p.within(float64(n), noLimit) }

// notNegative lets the argument be zero or more.
func (p *Param) notNegative() *Param { return p.within(0, noLimit) }

// optional lets the argument be left out, with a default (the zero Value for none).
func (p *Param) optional(def calc.Value) *Param { p.Optional, p.Default = true, def; return p }

// called names an argument whose dimension has no name: "a coverage".
func (p *Param) called(what string) *Param { p.Called = what; return p }

func (p *Param) says(doc string) *Param { p.Doc = doc; return p }
