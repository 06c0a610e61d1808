package tables

import (
	"sync"

	"scarph/calc"
)

// Row is one published figure.
type Row struct {
	Item, Quantity string
	Value          calc.Value
	Source         string // the publication, with its table or section
	How            string // seen, derived or from memory
	Remark         string // what has to be said with the value, or ""
}

// Table is a set of rows under one title.
type Table struct {
	Name  string // the word it is looked up by: wood, screws
	Title string
	Note  string // what holds for all its rows: the basis of the figures, their limits

	file *file
}

// file is a table's CSV, and what it holds once it has been read: the names of its items, in
// their order, and the records of each. They become rows when they are asked for: a journal
// asks for few.
type file struct {
	csv     *string
	once    sync.Once
	names   index
	records map[string][][]string
}

// shelf lists the tables in the order of the reference page. A new table is a CSV
// file, its line in files.go and a line here.
var shelf = []Table{
	{"wood", "Woods of the boat shop",
		"Specific gravity is oven-dry weight over volume at 12 % moisture; basic specific gravity is over green volume. Density is at 12 %. Shrinkage is from green to oven dry. Radial and tangential coefficients are the change of size for each 1 % of moisture, good from 6 to 14 %. Strength is of clear straight-grained wood at 12 %.",
		&file{csv: &woodCSV}},
	{"screws", "Wood screws by gauge", "Diameter is that of the unthreaded body.", &file{csv: &screwsCSV}},
	{"planking", "Planking screws by thickness of plank", "A table, not a rule: nothing is read between or beyond its rows.", &file{csv: &plankingCSV}},
	{"machine screws", "Machine screws, unified threads", "", &file{csv: &machineScrewsCSV}},
	{"nails", "Nails", "Diameters of wire nails follow the steel wire gauge; some tables follow the Birmingham gauge and print more. The diameter of a copper boat nail is the side of its square shank.", &file{csv: &nailsCSV}},
	{"gauges", "Wire gauges", "Ask which family a gauge is of: no. 10 is 0.128 in in the standard wire gauge and 0.102 in in the American.", &file{csv: &gaugesCSV}},
	{"lumber", "Sizes and yields of lumber", "Dressed sizes are the least allowed.", &file{csv: &lumberCSV}},
	{"plywood", "Plywood", "", &file{csv: &plywoodCSV}},
	{"water", "Density of water", "Fresh and salt are the shop's round figures.", &file{csv: &waterCSV}},
	{"emc", "Moisture that wood comes to, by temperature and humidity", "Real wood differs by 1 % and more. Compare with the equation to 0.1 %.", &file{csv: &emcCSV}},
	{"capacity", "Capacity rules, 33 CFR 183", "Monohulls under 20 ft, not sailboats, canoes, kayaks or inflatables; check the current text. The rule for inboard boats was not read and is not here.", &file{csv: &capacityCSV}},
	{"shop", "Rules of the shop", "Rules of thumb: where the maker's sheet or the plans say otherwise, they are right.", &file{csv: &shopCSV}},
}

// List returns the tables in the order of the reference page.
func List() []Table { return append([]Table(nil), shelf...) }

// Find returns the table of the given name.
//
// Errors: CodeUnknownItem, with the nearest name or the list of them.
func Find(name string) (Table, error) {
	word := plain(name)
	names := make([]string, len(shelf))
	for i, t := range shelf {
		if t.Name == word {
			return t, nil
		}
		names[i] = t.Name
	}
	e := calc.Errorf(calc.CodeUnknownItem, "there is no table %q", name)
	if near := calc.Nearest(name, names); near != "" {
		return Table{}, e.WithHint("did you mean %q?", near)
	}
	return Table{}, e.WithHint("there are %s", listed(names))
}

// Rows returns all rows, in the order of the table.
func (t Table) Rows() []Row {
	var list []Row
	for _, item := range t.read().names.items {
		list = append(list, t.rows(item)...)
	}
	return list
}

// Items returns the names of the items, in the order of the table.
func (t Table) Items() []string { return append([]string(nil), t.read().names.items...) }

// Item returns the rows of one item, by any of its names.
//
// Errors: CodeUnknownItem, with the names that it may have meant.
func (t Table) Item(name string) ([]Row, error) {
	item, err := t.read().names.find(t.Name, name)
	if err != nil {
		return nil, err
	}
	return t.rows(item), nil
}

// Lookup returns one figure.
//
// Errors: CodeUnknownItem, when the table has no such item, or the item no such quantity.
func (t Table) Lookup(item, quantity string) (Row, error) {
	rows, err := t.Item(item)
	if err != nil {
		return Row{}, err
	}
	word := plain(quantity)
	names := make([]string, len(rows))
	for i, r := range rows {
		if plain(r.Quantity) == word {
			return r, nil
		}
		names[i] = r.Quantity
	}
	e := calc.Errorf(calc.CodeUnknownItem, "the table of %s has no %s of %s", t.Name, quantity, rows[0].Item)
	if near := calc.Nearest(quantity, names); near != "" {
		return Row{}, e.WithHint("did you mean %s?", near)
	}
	return Row{}, e.WithHint("it has %s", listed(names))
}

// Lookup returns one figure of the named table.
func Lookup(table, item, quantity string) (Row, error) {
	t, err := Find(table)
	if err != nil {
		return Row{}, err
	}
	return t.Lookup(item, quantity)
}

// Names returns the names of the items of the named table, nil when there is none.
func Names(table string) []string {
	t, err := Find(table)
	if err != nil {
		return nil
	}
	return t.Items()
}

func listed(names []string) string {
	s := ""
	for i, n := range names {
		switch {
		case i == 12 && len(names) > 13:
			return s + " and " + calc.Style{}.Text(calc.Number(float64(len(names)-12))) + " more"
		case i > 0 && i == len(names)-1:
			s += " and "
		case i > 0:
			s += ", "
		}
		s += n
	}
	return s
}
