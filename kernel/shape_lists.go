package kernel

import (
	"strings"

	"scarph/calc"
)

// MovedShape is a value that moved, as other programs read it. From and To are
// null for what was not there, and hold an error where there was no value.
type MovedShape struct {
	Name string `json:"name"`
	From any    `json:"from"`
	To   any    `json:"to"`
	By   any    `json:"by"`
}

// MadeShape is a size of something made, when it is no longer right.
type MadeShape struct {
	Part     string `json:"part"`
	Size     string `json:"size"`
	WhenMade any    `json:"when_made"`
	Now      any    `json:"now"`
	OffBy    any    `json:"off_by"`
	Words    string `json:"words"`
	Off      bool   `json:"off"`
	Date     string `json:"date"`
}

// RecastShape is a size of something made whose record reads otherwise than before.
type RecastShape struct {
	Part  string  `json:"part"`
	How   string  `json:"how"`
	Count float64 `json:"count"`
	Size  string  `json:"size"`
	Was   any     `json:"was"`
	Is    any     `json:"is"`
	Date  string  `json:"date"`
}

// CheckShape is a check.
type CheckShape struct {
	File  string `json:"file"`
	Line  int    `json:"line"`
	Text  string `json:"text"`
	Holds bool   `json:"holds"`
	// Cautions stand beside an answer that somebody's safety may hang on.
	Cautions []string `json:"cautions,omitempty"`
}

// RippleShape is a ripple.
type RippleShape struct {
	Changed   []MovedShape `json:"changed"`
	Unchanged []string     `json:"unchanged"`
	Made      []MadeShape  `json:"made"`
	Checks    []CheckShape `json:"checks"`
	// Recast are the records of what was made that read otherwise now.
	Recast []RecastShape `json:"recast"`
}

// ShapeOfRipple gives a ripple the shape of JSON; still lists what did not move.
func ShapeOfRipple(r Ripple, still []string, style calc.Style) RippleShape {
	out := RippleShape{[]MovedShape{}, append([]string{}, still...), []MadeShape{}, []CheckShape{}, []RecastShape{}}
	for _, m := range r.Moved {
		if m.Gathered {
			continue
		}
		z := MovedShape{Name: m.Name, From: shapeOrError(m.From, style), To: shapeOrError(m.To, style)}
		if m.By != nil {
			z.By = ShapeOf(*m.By, style)
		}
		out.Changed = append(out.Changed, z)
	}
	for _, m := range r.Made {
		for _, z := range m.Sizes {
			if z.Words != "right" {
				out.Made = append(out.Made, MadeShape{Part: m.Thing, Size: z.Name, WhenMade: ShapeOf(z.Made, style), Now: ShapeOf(z.Now, style), OffBy: ShapeOf(z.By, style), Words: z.Words, Off: z.Off, Date: m.Entry.Date})
			}
		}
	}
	for _, x := range r.Recast {
		for _, z := range x.Sizes {
			out.Recast = append(out.Recast, RecastShape{x.Thing, x.How, x.Count, z.Name, ShapeOf(z.Was, style), ShapeOf(z.Is, style), x.Entry.Date})
		}
	}
	for _, k := range r.Checks {
		out.Checks = append(out.Checks, ShapeOfCheck(k))
	}
	return out
}

// ShapeOfCheck gives a check the shape of JSON.
func ShapeOfCheck(k Check) CheckShape {
	z := CheckShape{File: k.Place.File, Line: k.Place.Line, Text: k.Text, Holds: k.Holds}
	if k.Result != nil {
		z.Cautions = cautionWords(k.Result.Cautions)
	}
	return z
}

func shapeOrError(r *Result, style calc.Style) any {
	switch {
	case r == nil:
		return nil
	case r.OK():
		return ShapeOfResult(r, style)
	}
	return map[string]string{"error": r.Trouble()}
}

// Trouble says why a result has no value, in one line: what is wrong, or what it
// waits for; "" when all is well.
func (r *Result) Trouble() string {
	switch {
	case r == nil:
		return "—"
	case r.Err != nil:
		return "error: " + r.Err.Message
	case !r.OK():
		return "waits for " + strings.Join(r.Waits, ", ")
	}
	return ""
}

// HistoryShape is a value with its readings.
type HistoryShape struct {
	Name     string         `json:"name"`
	Kind     string         `json:"kind"`
	Text     string         `json:"text"`
	SI       any            `json:"si"`
	Readings []ReadingShape `json:"readings"`
}

// ReadingShape is one reading of a value.
type ReadingShape struct {
	Kind   string  `json:"kind"`
	Date   string  `json:"date"`
	Entry  string  `json:"entry"`
	Text   string  `json:"text"`
	Value  string  `json:"value"`
	SI     any     `json:"si"`
	Note   string  `json:"note"`
	Counts bool    `json:"counts"`
	Until  *string `json:"until"`
	File   string  `json:"file"`
	Line   int     `json:"line"`
}

// ShapeOfHistory gives the readings of a value the shape of JSON.
func ShapeOfHistory(h History, style calc.Style) HistoryShape {
	z := HistoryShape{Name: h.Name, Kind: h.Kind, Text: h.Result.Trouble(), Readings: []ReadingShape{}}
	if h.Result.OK() {
		v := ShapeOf(h.Result.Value, style)
		z.Text, z.SI = v.Text, v.SI
	}
	for _, r := range h.Readings {
		x := ReadingShape{Kind: r.Kind, Date: r.Entry.Date, Entry: r.Entry.Title, Text: r.Text, Value: r.Result.Trouble(), Note: r.Note, Counts: r.Counts, File: r.Place.File, Line: r.Place.Line}
		if r.Result.OK() {
			v := ShapeOf(r.Result.Value, style)
			x.Value, x.SI = v.Text, v.SI
		}
		if r.Until != nil {
			u := r.Until.When()
			x.Until = &u
		}
		z.Readings = append(z.Readings, x)
	}
	return z
}

// When names the entry by its date, or, when it has none, by its title.
func (e EntryRef) When() string {
	if e.Date != "" {
		return e.Date
	}
	return e.Title
}

// DimensionShape is a row of the table of dimensions.
type DimensionShape struct {
	Name      string `json:"name"`
	Kind      string `json:"kind"`
	Text      string `json:"text"`
	SI        any    `json:"si"`
	Dimension string `json:"dimension"`
	PlusMinus any    `json:"plus_minus"`
	File      string `json:"file"`
	Line      int    `json:"line"`
	// Sum is what the sum would give, for a derived value that a reading displaced.
	Sum      *string  `json:"sum,omitempty"`
	Error    string   `json:"error,omitempty"`
	Cautions []string `json:"cautions,omitempty"`
}

// ShapeOfDimension gives a row of the table of dimensions the shape of JSON.
func ShapeOfDimension(d Dimension, style calc.Style) DimensionShape {
	z := DimensionShape{Name: d.Name, Kind: d.Kind, File: d.Place.File, Line: d.Place.Line, Error: d.Result.Trouble()}
	if d.Result.OK() {
		v := ShapeOfResult(d.Result, style)
		z.Text, z.SI, z.Dimension, z.PlusMinus, z.Cautions = v.Text, v.SI, v.Dimension, v.PlusMinus, v.Cautions
	}
	if d.Sum != nil && d.Sum.OK() {
		t := style.Text(d.Sum.Value)
		z.Sum = &t
	}
	return z
}
