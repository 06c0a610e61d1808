package results

import (
	"slices"
	"sort"
	"strings"

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
	Wood  string
	// Want names what no board has, "" when all that would do are used up: the wood, the
	// thickness, the length or the width. Needed is what is wanted and Most the most there
	// is, in metres; of the wood, Woods are those at hand.
	Want         string
	Needed, Most float64
	Woods        []string
}

// Words says what cannot be cut, and why: no board at hand for 14 × strake: the longest of
// white cedar is 10', and 14' 2" is wanted.
func (u *Short) Words(style calc.Style) string {
	text := "no board at hand for " + style.Text(calc.Number(float64(u.Count))) + " × " + u.Part + ": "
	length := func(l float64) string { return style.Text(calc.Length(l)) }
	superlative := map[string]string{"thickness": "thickest", "length": "longest", "width": "widest"}
	switch u.Want {
	case "":
		return text + "no room is left on those of " + u.Wood
	case "wood":
		return text + "none is of " + u.Wood + "; at hand are boards of " + strings.Join(u.Woods, ", ")
	case "length":
		return text + "the longest of " + u.Wood + " is " + length(u.Most) + ", and " + length(u.Needed) + " is wanted; out of shorter ones it is scarfed"
	}
	return text + "the " + superlative[u.Want] + " that could do is " + length(u.Most) + ", and " + length(u.Needed) + " is wanted"
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
	at := map[string]int{} // where a part stands in short
	var short []Short
	for _, p := range piecesOf(parts) {
		if place(boards, p, kerf) {
			continue
		}
		if _, met := at[p.Part]; !met {
			at[p.Part] = len(short)
			short = append(short, whyShort(boards, p))
		}
		short[at[p.Part]].Count++
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
	return list, short
}

// whyShort says what the boards lack for a piece: of those that are right so far, wood
// before thickness before length before width, none is enough.
func whyShort(boards []*Layout, p piece) Short {
	u := Short{Part: p.Part, Wood: p.wood}
	fit := slices.DeleteFunc(slices.Clone(boards), func(b *Layout) bool {
		if !slices.Contains(u.Woods, b.Wood) {
			u.Woods = append(u.Woods, b.Wood)
		}
		return b.Wood != p.wood
	})
	if len(fit) == 0 {
		u.Want = "wood"
		return u
	}
	for _, x := range []struct {
		want   string
		needed float64
		of     func(*Layout) float64
	}{
		{"thickness", p.thick, func(b *Layout) float64 { return b.Thickness }},
		{"length", p.Length, func(b *Layout) float64 { return b.Length }},
		{"width", p.Width, func(b *Layout) float64 { return b.Width }},
	} {
		u.Needed, u.Most = x.needed, 0
		fit = slices.DeleteFunc(fit, func(b *Layout) bool {
			u.Most = max(u.Most, x.of(b))
			return x.of(b) < x.needed-hair
		})
		if len(fit) == 0 {
			u.Want = x.want
			return u
		}
	}
	u.Needed, u.Most = 0, 0
	return u
}

// hair is what two sizes may differ by and still be one, in metres.
const hair = 1e-9

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
	Why   string `json:"why"`
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

func shapeOfShort(list []Short, style calc.Style) []unplacedShape {
	out := []unplacedShape{}
	for i := range list {
		u := &list[i]
		out = append(out, unplacedShape{u.Part, u.Count, u.Words(style)})
	}
	return out
}
