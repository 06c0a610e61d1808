package results

import (
	"sort"

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
}

// Purchase is the wood to buy of one kind.
type Purchase struct {
	Wood       string
	Net        calc.Value // volume of the parts still to make
	Weight     calc.Value // by the wood's specific gravity; 0 when it is not known
	Buy        calc.Value
	Convention string // what the waste is a share of
}

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
}

// CutlistOf makes the cut list as of an entry.
func CutlistOf(s *kernel.Session, asOf int, b Buying) Cutlist {
	l := Cutlist{Parts: s.Parts(asOf)}
	l.Buy = b.purchases(l.Parts)
	l.Layouts, l.Unplaced = lay(l.Parts, s.Stock(asOf), b.Kerf)
	return l
}

func (by Buying) purchases(parts []kernel.Part) []Purchase {
	sums := map[string]float64{}
	var woods []string
	for _, p := range parts {
		v, ok := volume(&p)
		if !ok || p.Wood == "" {
			continue
		}
		if _, seen := sums[p.Wood]; !seen {
			woods = append(woods, p.Wood)
		}
		sums[p.Wood] += v * max(0, p.Count-p.Made)
	}
	sort.Strings(woods)
	var list []Purchase
	percent := calc.Style{}.Text(calc.Number(by.Waste).Shown(calc.InUnit("%")))
	for _, w := range woods {
		net := sums[w]
		b := Purchase{Wood: w, Net: calc.Of(net, calc.DimVolume), Buy: calc.Of(net/(1-by.Waste), calc.DimVolume), Convention: percent + " of what is bought is lost"}
		if by.OfAdded {
			b.Buy, b.Convention = calc.Of(net*(1+by.Waste), calc.DimVolume), percent+" added to the net"
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

// Rows is the cut list as a table with a head.
func (l *Cutlist) Rows(style calc.Style) [][]string {
	rows := [][]string{{"part", "wood", "count", "made", "to make", "thickness", "width", "length", "further"}}
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
			rows = append(rows, []string{p.Name, p.Wood, "", "", "", "", "", "", "waits or fails"})
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
		rows = append(rows, []string{p.Name, p.Wood, num(p.Count), num(p.Made), num(max(0, p.Count-p.Made)), text(p, "thickness"), text(p, "width"), text(p, "length"), further})
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
	}
	out := struct {
		Parts    []part          `json:"parts"`
		Buy      []buy           `json:"buy"`
		Layouts  []layoutShape   `json:"layouts"`
		Unplaced []unplacedShape `json:"unplaced"`
	}{[]part{}, []buy{}, shapeOfLayouts(l.Layouts, style), shapeOfShort(l.Unplaced)}
	for _, p := range l.Parts {
		z := part{Name: p.Name, Wood: p.Wood, Count: p.Count, Made: p.Made, ToMake: max(0, p.Count-p.Made), Sizes: map[string]kernel.Shape{}, File: p.Place.File, Line: p.Place.Line}
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
		out.Buy = append(out.Buy, buy{b.Wood, kernel.ShapeOf(b.Net.Shown(w), style), kernel.ShapeOf(b.Weight, style), kernel.ShapeOf(b.Buy.Shown(w), style), b.Convention})
	}
	return out
}
