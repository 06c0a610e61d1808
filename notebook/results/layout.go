package results

import (
	"sort"

	"scarph/calc"
	"scarph/kernel"
)

// Layout is a board at hand with the strips ripped from it, and what is cut from them.
type Layout struct {
	Wood                     string
	Thickness, Width, Length float64 // metres
	Number                   int     // among the boards of its line, from 1
	Strips                   []Strip
	LeftWidth                float64 // of the full length, beside the strips
}

// Strip is a strip of a board, ripped to the width of the first piece in it.
type Strip struct {
	Width float64
	Cuts  []Cut
	Left  float64 // of its length, when each piece and the rest have been cut apart
}

// Cut is a piece of a part.
type Cut struct {
	Part          string
	Width, Length float64
}

// Short is a part that the boards at hand cannot give, and how many of it.
type Short struct {
	Part  string
	Count int
}

// Most boards and pieces that are laid out.
const mostBoards, mostPieces = 1000, 10_000

// lay puts the pieces still to make on the boards at hand: the widest first, then the
// longest, each in the first strip with room for it, or in a new strip of the first board
// with room beside those it has. The wood must be the same and the board thick enough.
func lay(parts, stock []kernel.Part, kerf float64) ([]Layout, []Short) {
	boards := boardsOf(stock)
	if len(boards) == 0 {
		return nil, nil
	}
	var list []Layout
	missing := map[string]int{}
	var order []string
	for _, p := range piecesOf(parts) {
		if place(boards, p, kerf) {
			continue
		}
		if missing[p.Part] == 0 {
			order = append(order, p.Part)
		}
		missing[p.Part]++
	}
	for _, b := range boards {
		if len(b.Strips) == 0 {
			continue
		}
		for i := range b.Strips {
			b.Strips[i].Left = max(0, b.Strips[i].Left-kerf) // the rest is cut off as well
		}
		b.LeftWidth = max(0, b.LeftWidth-kerf)
		list = append(list, *b)
	}
	var short []Short
	for _, name := range order {
		short = append(short, Short{name, missing[name]})
	}
	return list, short
}

// piece is one piece to make.
type piece struct {
	Cut
	wood  string
	thick float64
}

func boardsOf(stock []kernel.Part) []*Layout {
	var list []*Layout
	for i := range stock {
		t, w, l, ok := sizesOf(&stock[i])
		if !ok {
			continue
		}
		for n := 1; n <= int(min(stock[i].Count, mostBoards)); n++ {
			list = append(list, &Layout{Wood: stock[i].Wood, Thickness: t, Width: w, Length: l, Number: n, LeftWidth: w})
		}
	}
	return list
}

func piecesOf(parts []kernel.Part) []piece {
	var list []piece
	for i := range parts {
		p := &parts[i]
		t, w, l, ok := sizesOf(p)
		if !ok || p.Wood == "" {
			continue
		}
		for k := 0; k < int(min(max(0, p.Count-p.Made), mostPieces)); k++ {
			list = append(list, piece{Cut{p.Name, w, l}, p.Wood, t})
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].Width != list[j].Width {
			return list[i].Width > list[j].Width
		}
		return list[i].Length > list[j].Length
	})
	return list
}

func sizesOf(p *kernel.Part) (thickness, width, length float64, ok bool) {
	t, ok1 := p.Size("thickness")
	w, ok2 := p.Size("width")
	l, ok3 := p.Size("length")
	return t.V, w.V, l.V, ok1 && ok2 && ok3
}

// place cuts a piece from the first board that has room; false when none has.
func place(boards []*Layout, p piece, kerf float64) bool {
	const hair = 1e-9
	for _, b := range boards {
		if b.Wood != p.wood || b.Thickness < p.thick-hair || b.Length < p.Length-hair {
			continue
		}
		for i := range b.Strips {
			if s := &b.Strips[i]; s.Width >= p.Width-hair && s.Left >= p.Length+kerf-hair {
				s.Left -= p.Length + kerf
				s.Cuts = append(s.Cuts, p.Cut)
				return true
			}
		}
		rip := p.Width
		if len(b.Strips) > 0 {
			rip += kerf
		}
		if b.LeftWidth >= rip-hair {
			b.LeftWidth -= rip
			b.Strips = append(b.Strips, Strip{Width: p.Width, Cuts: []Cut{p.Cut}, Left: b.Length - p.Length})
			return true
		}
	}
	return false
}

// Board names the board: 7/8" by 6" by 8', no. 1.
func (l *Layout) Board(style calc.Style) string {
	return style.Text(calc.Length(l.Thickness)) + " by " + style.Text(calc.Length(l.Width)) + " by " + style.Text(calc.Length(l.Length)) +
		", no. " + style.Text(calc.Number(float64(l.Number)))
}

// Line tells of a strip: its width, the pieces one after the other, what is left over.
func (s *Strip) Line(style calc.Style) string {
	line := style.Text(calc.Length(s.Width)) + " wide: "
	for i := 0; i < len(s.Cuts); {
		n := 1
		for i+n < len(s.Cuts) && s.Cuts[i+n] == s.Cuts[i] {
			n++
		}
		if i > 0 {
			line += ", "
		}
		line += style.Text(calc.Number(float64(n))) + " × " + s.Cuts[i].Part
		i += n
	}
	return line + "; left over " + style.Text(calc.Length(s.Left))
}

type layoutShape struct {
	Wood      string       `json:"wood"`
	Board     string       `json:"board"`
	Number    int          `json:"number"`
	Thickness float64      `json:"thickness"`
	Width     float64      `json:"width"`
	Length    float64      `json:"length"`
	Strips    []stripShape `json:"strips"`
	LeftWidth float64      `json:"left_width"`
}

type stripShape struct {
	Width float64    `json:"width"`
	Cuts  []cutShape `json:"cuts"`
	Left  float64    `json:"left"`
}

type cutShape struct {
	Part   string  `json:"part"`
	Width  float64 `json:"width"`
	Length float64 `json:"length"`
}

type unplacedShape struct {
	Part  string `json:"part"`
	Count int    `json:"count"`
}

// shapeOfLayouts gives boards the shape of JSON; lengths are in metres.
func shapeOfLayouts(list []Layout, style calc.Style) []layoutShape {
	out := []layoutShape{}
	for i := range list {
		l := &list[i]
		z := layoutShape{l.Wood, l.Board(style), l.Number, l.Thickness, l.Width, l.Length, []stripShape{}, l.LeftWidth}
		for _, s := range l.Strips {
			y := stripShape{s.Width, []cutShape{}, s.Left}
			for _, c := range s.Cuts {
				y.Cuts = append(y.Cuts, cutShape{c.Part, c.Width, c.Length})
			}
			z.Strips = append(z.Strips, y)
		}
		out = append(out, z)
	}
	return out
}

func shapeOfShort(list []Short) []unplacedShape {
	out := []unplacedShape{}
	for _, u := range list {
		out = append(out, unplacedShape{u.Part, u.Count})
	}
	return out
}
