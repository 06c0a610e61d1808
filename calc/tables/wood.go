package tables

import "scarph/calc"

// The quantities of the wood table that formulas ask for.
const (
	Gravity       = "specific gravity"       // oven-dry weight over volume at 12 %
	BasicGravity  = "basic specific gravity" // oven-dry weight over green volume
	Density       = "density"                // at 12 % moisture
	Radial        = "radial coefficient"
	Tangential    = "tangential coefficient"
	RadialShrink  = "radial shrinkage"
	TangentShrink = "tangential shrinkage"
	VolumeShrink  = "volumetric shrinkage"
)

const (
	densityRule = "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), ch. 4: density = 1000 kg/m³ · G · (1 + M)"
	gravityRule = "W. T. Simpson, FPL-GTR-76 (1993): G = Gb / (1 − 0.265 · Gb · (1 − M/30))"
)

// Species is one wood of the table.
type Species struct {
	Name string
	Rows []Row
}

// Wood returns a wood by any of its names: white oak, white_oak, "oak, white".
//
// Errors: CodeUnknownItem, with the names that it may have meant.
func Wood(name string) (Species, error) {
	t, err := Find("wood")
	if err != nil {
		return Species{}, err
	}
	rows, err := t.Item(name)
	if err != nil {
		return Species{}, err
	}
	return Species{rows[0].Item, rows}, nil
}

// Get returns one figure of the wood.
func (s Species) Get(quantity string) (Row, error) { return Lookup("wood", s.Name, quantity) }

// withDensities adds to a wood the density and the specific gravity at 12 % that its other
// figures give, where the table prints none. They stand first.
func withDensities(item string, rows []Row) []Row {
	have := map[string]float64{}
	for _, r := range rows {
		have[r.Quantity] = r.Value.V
	}
	var derived []Row
	add := func(quantity string, v calc.Value, source string) {
		derived = append(derived, Row{Item: item, Quantity: quantity, Value: v, Source: source, How: "derived"})
	}
	g, known := have[Gravity]
	if basic, ok := have[BasicGravity]; !known && ok {
		g, known = basic/(1-0.265*basic*(1-12.0/30)), true
		add(Gravity, calc.Number(g), gravityRule)
	}
	density, weighed := have[Density]
	if !known && weighed {
		g, known = density/1120, true
		add(Gravity, calc.Number(g), densityRule)
	}
	if known && !weighed {
		add(Density, calc.Of(1120*g, calc.DimDensity), densityRule)
	}
	return append(derived, rows...)
}
