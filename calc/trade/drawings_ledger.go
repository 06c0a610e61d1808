package trade

import (
	"scarph/calc"
	"scarph/calc/draw"
)

// sumsOf reads argument i, a list of amounts under their days; nil when left out.
func sumsOf(c *Call, i int, d func(calc.Value) bool, what string) ([]calc.Value, []string, error) {
	if left(c, i) {
		return nil, nil, nil
	}
	v := c.Value(i)
	if v.Kind() != calc.List {
		return nil, nil, calc.Errorf(calc.CodeKind, "%s wants a list of %s; it was given %s", c.fn.Name, what, v.What()).WithHint("write hours_and_money(worked(), spent())")
	}
	for _, it := range v.Items() {
		if !it.IsQuantity() || !d(it) {
			return nil, nil, calc.Errorf(calc.CodeDimension, "%s: %s is no %s", c.fn.Name, calc.Style{}.Text(it), what).WithHint("write hours_and_money(worked(), spent())")
		}
	}
	return v.Items(), v.Labels(), nil
}

func hoursAndMoney(c *Call) (calc.Value, error) {
	worked, days, err := sumsOf(c, 0, func(x calc.Value) bool { return x.D == calc.DimTime }, "hours")
	if err != nil {
		return calc.Value{}, err
	}
	spent, spendDays, err := sumsOf(c, 1, func(x calc.Value) bool { return x.D.CurrencyCode() != "" && x.D.IsMoney() }, "money")
	if err != nil {
		return calc.Value{}, err
	}
	d := &draw.Running{}
	values := make([]float64, len(worked))
	for i, x := range worked {
		values[i] = x.V / 3600
	}
	d.Hours = datedByLabels(days, values)
	for _, x := range spent {
		code := x.D.CurrencyCode()
		if indexOf(d.Money, code) < 0 {
			d.Money = append(d.Money, draw.Purse{Currency: code})
		}
	}
	values = make([]float64, len(spent))
	for i, x := range spent {
		values[i] = x.V
	}
	for i, day := range datedByLabels(spendDays, values) {
		k := indexOf(d.Money, spent[i].D.CurrencyCode())
		d.Money[k].Days = append(d.Money[k].Days, day)
	}
	return drawn(d)
}

func indexOf(list []draw.Purse, currency string) int {
	for i, p := range list {
		if p.Currency == currency {
			return i
		}
	}
	return -1
}
