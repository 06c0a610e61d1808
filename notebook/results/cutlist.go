package results

import (
	"slices"
	"sort"
	"strings"

	"scarph/calc"
	"scarph/calc/tables"
	"scarph/kernel"
)

// Cutlist is the list of parts with what must be bought for them and how they lie
// on the boards at hand.
type Cutlist struct {
	Parts    []kernel.Part
	Buy      []Purchase
	Layouts  []Layout
	Unplaced []Short // parts that the boards at hand cannot give
	// Unmeasured are the parts of some wood that want a size, so that no lumber is
	// reckoned for them.
	Unmeasured []string
}

// Purchase is the wood to buy of one kind.
type Purchase struct {
	Wood       string
	Net        calc.Value // volume of the parts still to make
	Weight     calc.Value // by the wood's specific gravity; 0 when it is not known
	Buy        calc.Value
	Convention string // what the waste is a share of
	// ByInch is what to buy where stock under an inch counts as a full inch, and Thin
	// the parts that do so; 0 where there is none.
	ByInch calc.Value
	Thin   []string
}

// Words says what must be bought, of what is left to make.
func (b *Purchase) Words(style calc.Style) string {
	if b.Net.V == 0 {
		return b.Wood + ": nothing is left to make"
	}
	unit := BoardFeet(style)
	text := b.Wood + ": net " + style.Text(b.Net.Shown(unit))
	if b.Weight.V > 0 {
		text += ", weighs about " + style.Text(b.Weight)
	}
	text += ", buy " + style.Text(b.Buy.Shown(unit)) + " (" + b.Convention + ")"
	if b.ByInch.V > 0 && style.System != calc.Metric {
		text += ". Stock under an inch counts as a full inch at many yards: for " + strings.Join(b.Thin, ", ") + " so counted, buy " + style.Text(b.ByInch.Shown(unit))
	}
	return text
}

// inch is the thickness that thinner stock counts as where it is bought by the board
// foot: NIST PS 20 (from memory) and common practice.
const inch = 0.0254

// BoardFeet shows a volume in board feet where the journal is in feet and inches.
func BoardFeet(style calc.Style) *calc.Display {
	if style.System == calc.Metric {
		return calc.InUnit("m³")
	}
	return calc.InUnit("bd ft")
}

// Buying is how the wood of a cut list is bought and sawn.
type Buying struct {
	Waste   float64 // the share that is lost
	OfAdded bool    // the waste is added to the net, not a share of what is bought
	Kerf    float64 // the width of the saw's cut in metres
	Public  bool    // private parts are left out
}

// CutlistOf makes the cut list as of an entry.
func CutlistOf(s *kernel.Session, asOf int, b Buying) Cutlist {
	l := Cutlist{Parts: s.Parts(asOf)}
	if b.Public {
		l.Parts = slices.DeleteFunc(l.Parts, func(p kernel.Part) bool { return p.Private })
	}
	l.Buy = b.purchases(l.Parts)
	for i := range l.Parts {
		if p := &l.Parts[i]; p.Wood != "" && p.Result.OK() && p.Count > p.Made {
			if _, ok := volume(p); !ok {
				l.Unmeasured = append(l.Unmeasured, calc.Words(p.Name))
			}
		}
	}
	l.Layouts, l.Unplaced = lay(l.Parts, s.Stock(asOf), b.Kerf)
	return l
}

func (by Buying) purchases(parts []kernel.Part) []Purchase {
	sums, byInch := map[string]float64{}, map[string]float64{}
	thin := map[string][]string{}
	var woods []string
	for _, p := range parts {
		v, ok := volume(&p)
		if !ok || p.Wood == "" {
			continue
		}
		if _, seen := sums[p.Wood]; !seen {
			woods = append(woods, p.Wood)
		}
		n := max(0, p.Count-p.Made)
		sums[p.Wood] += v * n
		if t, _ := p.Size("thickness"); t.V < inch*(1-1e-9) && n > 0 {
			v *= inch / t.V
			thin[p.Wood] = append(thin[p.Wood], calc.Words(p.Name))
		}
		byInch[p.Wood] += v * n
	}
	bought := func(net float64) calc.Value {
		if by.OfAdded {
			return calc.Of(net*(1+by.Waste), calc.DimVolume)
		}
		return calc.Of(net/(1-by.Waste), calc.DimVolume)
	}
	sort.Strings(woods)
	var list []Purchase
	percent := calc.Style{}.Text(calc.Number(by.Waste).Shown(calc.InUnit("%")))
	for _, w := range woods {
		net := sums[w]
		b := Purchase{Wood: w, Net: calc.Of(net, calc.DimVolume), Buy: bought(net), Convention: percent + " of what is bought is lost"}
		if by.OfAdded {
			b.Convention = percent + " added to the net"
		}
		if len(thin[w]) > 0 {
			b.ByInch, b.Thin = bought(byInch[w]), thin[w]
		}
		if s, err := tables.Wood(w); err == nil {
			if d, err := s.Get(tables.Density); err == nil {
				b.Weight = calc.Mass(net * d.Value.V)
			}
		}
		list = append(list, b)
	}
	return list
}

// volume is thickness times width times length of one piece.
func volume(p *kernel.Part) (float64, bool) {
	v := 1.0
	for _, name := range [...]string{"thickness", "width", "length"} {
		x, ok := p.Size(name)
		if !ok || !x.IsQuantity() {
			return 0, false
		}
		v *= x.V
	}
	return v, true
}

// Lines say what stands below the table: what to buy, for what no lumber is reckoned,
// and that some of what is made is off.
func (l *Cutlist) Lines(style calc.Style) []string {
	var list []string
	for i := range l.Buy {
		list = append(list, l.Buy[i].Words(style))
	}
	if len(l.Unmeasured) > 0 {
		list = append(list, "No lumber is reckoned for "+strings.Join(l.Unmeasured, ", ")+": thickness, width and length are wanted for that")
	}
	if l.off() {
		list = append(list, l.OffWords(style))
	}
	return list
}

// OffWords says how many of what is made are off; they are counted as made until they are
// settled.
func (l *Cutlist) OffWords(style calc.Style) string {
	var off []string
	for _, p := range l.Parts {
		if p.Off > 0 {
			off = append(off, style.Text(calc.Number(p.Off))+" "+calc.Words(p.Name))
		}
	}
	return "Off, and counted as made until they are settled: " + strings.Join(off, ", ") + "; the rework list says by how much"
}

// Table is the cut list as it is read: Rows, without the column of what is off where
// nothing is.
func (l *Cutlist) Table(style calc.Style) [][]string {
	rows := l.Rows(style)
	if l.off() {
		return rows
	}
	for i := range rows {
		rows[i] = slices.Delete(rows[i], offColumn, offColumn+1)
	}
	return rows
}

// off reports whether something that was made is off and not settled.
func (l *Cutlist) off() bool {
	return slices.ContainsFunc(l.Parts, func(p kernel.Part) bool { return p.Off > 0 })
}

// offColumn is the column of Rows that says how many are off.
const offColumn = 4

// Rows is the cut list as a table with a head.
func (l *Cutlist) Rows(style calc.Style) [][]string {
	rows := [][]string{{"part", "wood", "count", "made", "off", "to make", "thickness", "width", "length", "further"}}
	text := func(p *kernel.Part, name string) string {
		if x, ok := p.Size(name); ok {
			return style.Text(x)
		}
		return ""
	}
	num := func(v float64) string { return style.Text(calc.Number(v)) }
	for i := range l.Parts {
		p := &l.Parts[i]
		if !p.Result.OK() {
			rows = append(rows, []string{p.Name, p.Wood, "", "", "", "", "", "", "", "waits or fails"})
			continue
		}
		further := ""
		for _, f := range p.Sizes {
			if f.Name != "thickness" && f.Name != "width" && f.Name != "length" {
				if further != "" {
					further += ", "
				}
				further += f.Name + " " + style.Text(f.Value)
			}
		}
		off := ""
		if p.Off > 0 {
			off = num(p.Off)
		}
		rows = append(rows, []string{p.Name, p.Wood, num(p.Count), num(p.Made), off, num(max(0, p.Count-p.Made)), text(p, "thickness"), text(p, "width"), text(p, "length"), further})
	}
	return rows
}

// Shape is the cut list for other programs.
func (l *Cutlist) Shape(style calc.Style) any {
	type part struct {
		Name   string                  `json:"name"`
		Wood   string                  `json:"wood"`
		Count  float64                 `json:"count"`
		Made   float64                 `json:"made"`
		Off    float64                 `json:"off"`
		ToMake float64                 `json:"to_make"`
		Sizes  map[string]kernel.Shape `json:"sizes"`
		File   string                  `json:"file"`
		Line   int                     `json:"line"`
		// Cautions are those of the figures that its sizes hang on.
		Cautions []string `json:"cautions,omitempty"`
	}
	type buy struct {
		Wood       string       `json:"wood"`
		Net        kernel.Shape `json:"net"`
		Weight     kernel.Shape `json:"weight"`
		Buy        kernel.Shape `json:"buy"`
		Convention string       `json:"convention"`
		// ByInch is null where no part is thinner than an inch.
		ByInch any `json:"buy_counted_by_inch"`
	}
	out := struct {
		Parts    []part          `json:"parts"`
		Buy      []buy           `json:"buy"`
		Layouts  []layoutShape   `json:"layouts"`
		Unplaced []unplacedShape `json:"unplaced"`
	}{[]part{}, []buy{}, shapeOfLayouts(l.Layouts, style), shapeOfShort(l.Unplaced, style)}
	for _, p := range l.Parts {
		z := part{Name: p.Name, Wood: p.Wood, Count: p.Count, Made: p.Made, Off: p.Off, ToMake: max(0, p.Count-p.Made), Sizes: map[string]kernel.Shape{}, File: p.Place.File, Line: p.Place.Line}
		if p.Result != nil {
			z.Cautions = CautionTexts(p.Result.Cautions)
		}
		for _, f := range p.Sizes {
			z.Sizes[f.Name] = kernel.ShapeOf(f.Value, style)
		}
		out.Parts = append(out.Parts, z)
	}
	w := BoardFeet(style)
	for _, b := range l.Buy {
		z := buy{b.Wood, kernel.ShapeOf(b.Net.Shown(w), style), kernel.ShapeOf(b.Weight, style), kernel.ShapeOf(b.Buy.Shown(w), style), b.Convention, nil}
		if b.ByInch.V > 0 {
			z.ByInch = kernel.ShapeOf(b.ByInch.Shown(w), style)
		}
		out.Buy = append(out.Buy, z)
	}
	return out
}
