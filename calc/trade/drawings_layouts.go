package trade

import (
	"sort"

	"scarph/calc"
	"scarph/calc/draw"
)

// layoutDrawings show how the functions sheets_needed and cut_list lay things out.
func layoutDrawings() []Function {
	return []Function{
		{
			Name: "sheet_layout", Summary: "how panels come out of sheets, sheet by sheet",
			Params: []*Param{
				points("panels", 2).says("[[length, width], …], the length along the grain"),
				length("sheet_length").positive().optional(calc.Length(8 * Foot)), length("sheet_width").positive().optional(calc.Length(4 * Foot)),
				length("kerf").orZero().notNegative().optional(calc.Length(0)),
			},
			Formula: "as sheets_needed",
			Limits:  "as sheets_needed: rectangles, none turned across the grain", Source: "common practice",
			Checks: []Check{{Call: "sheet_layout([[8 ft, 2 ft], [8 ft, 2 ft], [4 ft, 2 ft]])", Want: `"3 panels on 2 sheets of 8′ by 4′."`, Source: "two strips of 2 ft fill the first"}},
			Eval:   sheetLayout,
		},
		{
			Name: "board_layout", Summary: "how pieces come out of sticks of one length, stick by stick",
			Params:  []*Param{lengths("pieces"), length("stock_length").positive(), length("kerf").orZero().notNegative()},
			Formula: "as cut_list", Limits: "as cut_list", Source: "common practice",
			Checks: []Check{{Call: "board_layout([31 in, 31 in, 31 in, 67 in], 96 in, 1/8 in)", Want: `"4 pieces from 2 sticks of 8′."`, Source: "67 in leaves no room for 31 in"}},
			Eval: func(c *Call) (calc.Value, error) {
				x, err := cutList(c)
				if err != nil {
					return calc.Value{}, err
				}
				d := &draw.BoardLayout{Stock: c.Number(1), Kerf: c.Number(2)}
				layout, _ := x.Member("layout")
				for _, stick := range layout.Items() {
					var pieces []float64
					for _, p := range stick.Items() {
						pieces = append(pieces, p.V)
					}
					d.Sticks = append(d.Sticks, pieces)
				}
				return drawn(d)
			},
		},
	}
}

// sheetLayout lays the panels as sheets_needed does and notes where each came to lie.
func sheetLayout(c *Call) (calc.Value, error) {
	if _, err := sheets(c); err != nil {
		return calc.Value{}, err
	}
	panels, names := c.Points(0), stationNames(c.Labels(0), len(c.Value(0).Items()))
	long, wide, kerf := c.Number(1), c.Number(2), c.Number(3)
	order := make([]int, len(panels))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return panels[order[a]][1] > panels[order[b]][1] })
	d := &draw.SheetLayout{Long: long, Across: wide}
	var laid []sheet
	for _, i := range order {
		before := used(laid)
		laid = lay(laid, panels[i][0], panels[i][1], long, wide, kerf)
		k, y, x := newest(before, laid, panels[i][0], kerf)
		d.Pieces = append(d.Pieces, draw.Piece{Name: names[i], Sheet: k, X: x, Y: y, Long: panels[i][0], Across: panels[i][1]})
	}
	return drawn(d)
}

// used copies how much of each strip is taken.
func used(laid []sheet) [][]float64 {
	out := make([][]float64, len(laid))
	for i, s := range laid {
		for _, t := range s.strips {
			out[i] = append(out[i], t.used)
		}
	}
	return out
}

// newest finds the strip that has grown: its sheet, how far across it lies, and where
// along it the last panel begins.
func newest(before [][]float64, laid []sheet, length, kerf float64) (sheet int, across, along float64) {
	for i, s := range laid {
		y := 0.0
		for j, t := range s.strips {
			if i >= len(before) || j >= len(before[i]) || before[i][j] != t.used {
				return i, y, t.used - length
			}
			y += t.width + kerf
		}
	}
	return 0, 0, 0
}
