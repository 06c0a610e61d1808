package notebook

import "scarph/calc"

// ReadCell reads what a cell of a data table says: an offset (1-10-5), a length or any
// other literal; a bare number takes the unit, when there is one. Its ± comes with it, as
// of a reading that stands alone.
func ReadCell(text, unit string) (calc.Value, *calc.Error) {
	l, err := cellLiteral(text, unit)
	if err != nil {
		return calc.Value{}, err
	}
	if l.Plus > 0 {
		return calc.WithSpread(l.Value, l.Plus, 0), nil
	}
	return l.Value, nil
}

// Unit is the unit that a line's bare number takes from its row or column, "" for none
// and for what is no cell.
func (e *Entry) Unit(line int) string {
	for _, t := range e.Section.Tables {
		for row := range t.Cells {
			for col := range t.Cells[row] {
				if i, ok := e.cellLine(t, row, col); ok && i == line {
					return t.BareUnit(row, col)
				}
			}
		}
	}
	return ""
}
