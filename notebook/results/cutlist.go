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
	Unplaced []string // parts that no board at hand can give
}

// Purchase is the wood to buy of one kind.
type Purchase struct {
	Wood       string
	Net        calc.Value // volume of the parts still to make
	Weight     calc.Value // by the wood's specific gravity; 0 when it is not known
	Buy        calc.Value
	Convention string // what the waste is a share of
}

// Layout is a board at hand with the pieces cut from it.
type Layout struct {
	Wood  string
	Board string
	Cuts  []string
	Left  float64 // metres
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
	Waste   float64 // the share that is lost; 0 for three tenths
	OfAdded bool    // the waste is added to the net, not a share of what is bought
	Kerf    float64 // the width of the saw's cut in metres; 0 for 1/8 in
}

// CutlistOf makes the cut list as of an entry.
func CutlistOf(s *kernel.Session, asOf int, b Buying) Cutlist {
	if b.Waste == 0 {
		b.Waste = 0.3
	}
	if b.Kerf == 0 {
		b.Kerf = 0.0254 / 8
	}
	l := Cutlist{Parts: s.Parts(asOf)}
	l.Buy = b.purchases(l.Parts)
	l.lay(s.Stock(asOf), b.Kerf)
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

// board is a board at hand, and how much of its length is left.
type board struct {
	wood           string
	thick, wide    float64
	left           float64
	text           string
	cuts           []string
	length, number float64
}

// lay puts the pieces still to make on the boards at hand, longest first, each on
// the first board of its wood that is thick and wide enough and has the length left.
func (l *Cutlist) lay(stock []kernel.Part, kerf float64) {
	var boards []*board
	for _, s := range stock {
		t, ok1 := s.Size("thickness")
		w, ok2 := s.Size("width")
		z, ok3 := s.Size("length")
		if !ok1 || !ok2 || !ok3 {
			continue
		}
		for i := 0; i < int(min(s.Count, 1000)); i++ {
			boards = append(boards, &board{wood: s.Wood, thick: t.V, wide: w.V, left: z.V, length: z.V, number: float64(i + 1)})
		}
	}
	if len(boards) == 0 {
		return
	}
	type piece struct {
		part                *kernel.Part
		thick, wide, length float64
	}
	var pieces []piece
	for i := range l.Parts {
		p := &l.Parts[i]
		t, _ := p.Size("thickness")
		w, _ := p.Size("width")
		z, ok := p.Size("length")
		if !ok || p.Wood == "" {
			continue
		}
		for k := 0; k < int(min(max(0, p.Count-p.Made), 10_000)); k++ {
			pieces = append(pieces, piece{p, t.V, w.V, z.V})
		}
	}
	sort.SliceStable(pieces, func(i, j int) bool { return pieces[i].length > pieces[j].length })
	missing := map[string]int{}
	var order []string
next:
	for _, p := range pieces {
		for _, b := range boards {
			need := p.length
			if len(b.cuts) > 0 {
				need += kerf
			}
			if b.wood == p.part.Wood && b.thick >= p.thick-1e-9 && b.wide >= p.wide-1e-9 && b.left >= need-1e-9 {
				b.left -= need
				b.cuts = append(b.cuts, p.part.Name)
				continue next
			}
		}
		if missing[p.part.Name] == 0 {
			order = append(order, p.part.Name)
		}
		missing[p.part.Name]++
	}
	st := calc.Style{}
	for _, b := range boards {
		if len(b.cuts) > 0 {
			l.Layouts = append(l.Layouts, Layout{Wood: b.wood, Board: st.Text(calc.Length(b.length)) + " long, no. " + st.Text(calc.Number(b.number)), Cuts: b.cuts, Left: b.left})
		}
	}
	for _, name := range order {
		l.Unplaced = append(l.Unplaced, st.Text(calc.Number(float64(missing[name])))+" × "+name)
	}
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
	}
	type buy struct {
		Wood       string       `json:"wood"`
		Net        kernel.Shape `json:"net"`
		Weight     kernel.Shape `json:"weight"`
		Buy        kernel.Shape `json:"buy"`
		Convention string       `json:"convention"`
	}
	out := struct {
		Parts    []part   `json:"parts"`
		Buy      []buy    `json:"buy"`
		Layouts  []Layout `json:"layouts"`
		Unplaced []string `json:"unplaced"`
	}{[]part{}, []buy{}, append([]Layout{}, l.Layouts...), append([]string{}, l.Unplaced...)}
	for _, p := range l.Parts {
		z := part{Name: p.Name, Wood: p.Wood, Count: p.Count, Made: p.Made, ToMake: max(0, p.Count-p.Made), Sizes: map[string]kernel.Shape{}, File: p.Place.File, Line: p.Place.Line}
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
