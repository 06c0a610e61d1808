package trade

import (
	"scarph/calc"
	"scarph/calc/tables"
)

// shelf is the way from a journal to the reference tables.
func shelf() []Function {
	return []Function{{
		Name: "from_table", Summary: "one figure of a reference table",
		Params: []*Param{
			{Name: "table", Kind: Any, Doc: `the name of a table: "wood", "screws"`},
			{Name: "item", Kind: Any, Doc: `the name of its item: "white oak", "no. 8"`},
			{Name: "quantity", Kind: Any, Doc: `what is asked: "density", "diameter"`},
		},
		Result:  "quantity",
		Formula: "as printed in the table's source",
		Limits:  "what is not printed is not given: nothing is read between rows",
		Source:  "the source of the row, listed with the table",
		Checks: []Check{
			{Call: `from_table("wood", "oak, white", "specific gravity")`, Want: "0.68", Source: "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Table 5-3a"},
			{Call: `from_table("planking", "3/4 in", "length")`, Want: "1 1/2 in", Source: "Nevins and Herreshoff rules, planking screw table"},
			{Call: `from_table("screws", "#8", "diameter")`, Want: "0.164 in", Source: "ASME B18.6.1"},
		},
		Eval: func(c *Call) (calc.Value, error) {
			for i, p := range c.fn.Params {
				if c.Value(i).Kind() != calc.Text {
					return calc.Value{}, calc.Errorf(calc.CodeKind, "from_table wants text between quotes for %s; it was given %s", p.Name, c.Value(i).What()).
						WithHint(`write from_table("wood", "white oak", "density")`)
				}
			}
			r, err := tables.Lookup(c.Text(0), c.Text(1), c.Text(2))
			if err != nil {
				return calc.Value{}, err
			}
			if s := saying(r); s != "" {
				c.Warn("%s", s)
			}
			return r.Value, nil
		},
	}}
}
