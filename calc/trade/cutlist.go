package trade

import (
	"sort"

	"scarph/calc"
)

// mostPieces bounds the work of a layout.
const mostPieces = 5000

func cutListEntry() Function {
	return Function{
		Name: "cut_list", Summary: "how pieces come out of sticks of one length: the longest first, each from the first stick that has room",
		Params:  []*Param{lengths("pieces"), length("stock_length").positive(), length("kerf").orZero().notNegative()},
		Result:  "record: sticks (count), waste (length), waste_share (number), longest_offcut (length), layout (list of lists of lengths)",
		Formula: "pieces in falling order; a stick has room when its pieces and the kerfs between them are no longer than it is",
		Limits:  "no piece longer than the stock; up to 5000 pieces; a workable list, not one that is claimed to be the best possible",
		Source:  "common practice",
		Stepped: true,
		Checks: []Check{
			{Call: "cut_list([31 in, 31 in, 31 in, 31 in, 31 in, 44 in, 44 in, 44 in, 44 in, 67 in, 67 in], 96 in, 1/8 in).sticks", Want: "6"},
			{Call: "cut_list([31 in, 31 in, 31 in], 96 in, 1/8 in).waste", Want: "3 in", Source: "arithmetic: two kerfs are sawdust, 2 3/4 in is offcut"},
		},
		Eval: cutList,
	}
}

// stick is one length of stock on the cutting list.
type stick struct {
	pieces []calc.Value
	used   float64 // by the pieces and the kerfs between them
}

func cutList(c *Call) (calc.Value, error) {
	lengths, stock, kerf := c.Numbers(0), c.Number(1), c.Number(2)
	switch {
	case len(lengths) == 0:
		return calc.Value{}, calc.Errorf(calc.CodeShape, "cut_list: no piece is given")
	case len(lengths) > mostPieces:
		return calc.Value{}, calc.Errorf(calc.CodeLimit, "cut_list lays out up to %d pieces; %d are given", mostPieces, len(lengths))
	}
	total := 0.0
	order := make([]int, len(lengths))
	for i, l := range lengths {
		where := calc.Words(labelAt(c.Labels(0), i))
		if l <= 0 {
			return calc.Value{}, Refuse("cut_list: %s has no length", where)
		}
		if l > stock*(1+1e-12) {
			return calc.Value{}, calc.Errorf(calc.CodeDomain, "cut_list: %s, %s, is longer than your stock, %s", where, In(l), In(stock)).WithHint("scarf it from two")
		}
		order[i] = i
		total += l
	}
	sort.SliceStable(order, func(a, b int) bool { return lengths[order[a]] > lengths[order[b]] })
	var sticks []stick
	for _, i := range order {
		k := roomFor(sticks, lengths[i], kerf, stock)
		if k == len(sticks) {
			sticks = append(sticks, stick{used: -kerf})
		}
		sticks[k].pieces = append(sticks[k].pieces, calc.Length(lengths[i]))
		sticks[k].used += kerf + lengths[i]
	}
	return laidOut(sticks, stock, total), nil
}

// roomFor returns the first stick with room, len(sticks) when none has.
func roomFor(sticks []stick, length, kerf, stock float64) int {
	for k := range sticks {
		if sticks[k].used+kerf+length <= stock*(1+1e-12) {
			return k
		}
	}
	return len(sticks)
}

func laidOut(sticks []stick, stock, total float64) calc.Value {
	n := float64(len(sticks))
	labels, layout := make([]string, len(sticks)), make([]calc.Value, len(sticks))
	longest := 0.0
	for k, s := range sticks {
		labels[k] = "stick_" + trim(float64(k+1))
		layout[k] = calc.Listed(s.pieces...)
		longest = max(longest, stock-s.used)
	}
	return calc.Fields(
		calc.Field{Name: "sticks", Value: calc.Number(n)},
		calc.Field{Name: "waste", Value: calc.Length(n*stock - total)},
		calc.Field{Name: "waste_share", Value: asPercent(1 - total/(n*stock))},
		calc.Field{Name: "longest_offcut", Value: calc.Length(longest)},
		calc.Field{Name: "layout", Value: calc.Labelled(labels, layout)},
	)
}

func sheetsEntry() Function {
	return Function{
		Name: "sheets_needed", Summary: "how many sheets the panels take, their length along the grain of the sheet",
		Params: []*Param{
			points("panels", 2).says("[[length, width], …], the length along the grain"),
			length("sheet_length").positive().optional(calc.Length(8 * Foot)), length("sheet_width").positive().optional(calc.Length(4 * Foot)),
			length("kerf").orZero().notNegative().optional(calc.Length(0)),
		},
		Result:  "count",
		Formula: "panels in falling width, laid end to end in strips along the sheet, each in the first strip or sheet with room; never fewer than Σ area / sheet area",
		Limits:  "no panel is turned across the grain or joined; panels are taken as rectangles; a workable layout, not one that is claimed to be the best possible; sheets of 8 by 4 ft and no kerf unless given",
		Source:  "common practice",
		Stepped: true,
		Checks: []Check{
			{Call: "sheets_needed([[8 ft, 4 ft], [8 ft, 4 ft]])", Want: "2", Source: "64 ft² from sheets of 32 ft²"},
			{Call: "sheets_needed([[4 ft, 2 ft], [4 ft, 2 ft], [4 ft, 2 ft], [4 ft, 2 ft], [8 ft, 2 ft], [8 ft, 2 ft]])", Want: "2", Source: "64 ft² that leave nothing over"},
		},
		Eval: sheets,
	}
}

// strip is a band of panels laid end to end along a sheet.
type strip struct{ width, used float64 }

type sheet struct {
	strips []strip
	used   float64 // of the sheet's width, kerfs included
}

func sheets(c *Call) (calc.Value, error) {
	panels := c.Points(0)
	long, wide, kerf := c.Number(1), c.Number(2), c.Number(3)
	switch {
	case len(panels) == 0:
		return calc.Value{}, calc.Errorf(calc.CodeShape, "sheets_needed: no panel is given")
	case len(panels) > mostPieces:
		return calc.Value{}, calc.Errorf(calc.CodeLimit, "sheets_needed lays out up to %d panels; %d are given", mostPieces, len(panels))
	}
	total := 0.0
	for i, p := range panels {
		if err := panelFits(calc.Words(labelAt(c.Labels(0), i)), p[0], p[1], long, wide); err != nil {
			return calc.Value{}, err
		}
		total += p[0] * p[1]
	}
	sort.SliceStable(panels, func(a, b int) bool { return panels[a][1] > panels[b][1] })
	var laid []sheet
	for _, p := range panels {
		laid = lay(laid, p[0], p[1], long, wide, kerf)
	}
	if least := wholeUp(total / (long * wide)); least < float64(len(laid)) {
		c.Warn("by area alone it is %s: try the panels on paper", trim(least))
	}
	return calc.Number(float64(len(laid))), nil
}

func panelFits(where string, l, w, long, wide float64) error {
	const hair = 1 + 1e-12
	switch {
	case l <= 0 || w <= 0:
		return Refuse("sheets_needed: %s has no size", where)
	case l <= long*hair && w <= wide*hair:
		return nil
	case w <= long*hair && l <= wide*hair:
		return calc.Errorf(calc.CodeDomain, "sheets_needed: %s, %s by %s, fits the sheet only across the grain", where, In(l), In(w)).
			WithHint("if the grain may run across, write its width first")
	}
	return calc.Errorf(calc.CodeDomain, "sheets_needed: %s, %s by %s, is larger than the sheet, %s by %s", where, In(l), In(w), In(long), In(wide)).
		WithHint("join two sheets by a scarf and give the joined size")
}

// lay puts a panel into the first strip with room, else opens a strip, else a sheet.
// Panels come in falling width, so an open strip is always wide enough.
func lay(laid []sheet, l, w, long, wide, kerf float64) []sheet {
	const hair = 1 + 1e-12
	for i := range laid {
		for j := range laid[i].strips {
			if s := &laid[i].strips[j]; s.used+kerf+l <= long*hair {
				s.used += kerf + l
				return laid
			}
		}
	}
	for i := range laid {
		if laid[i].used+kerf+w <= wide*hair {
			laid[i].strips = append(laid[i].strips, strip{w, l})
			laid[i].used += kerf + w
			return laid
		}
	}
	return append(laid, sheet{[]strip{{w, l}}, w})
}
