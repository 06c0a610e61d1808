package paper

import (
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"scarph/calc"
)

// Table is a table for the wall: the first row is its head.
type Table struct {
	Title string
	Rows  [][]string
	Note  string // a line under the table
	// Turnable tables may be set with their columns as rows, where that makes the letters
	// much larger.
	Turnable bool
}

// turned is the table with its columns as rows.
func (t Table) turned(columns int) Table {
	rows := make([][]string, columns)
	for c := range rows {
		for _, r := range t.Rows {
			cell := ""
			if c < len(r) {
				cell = r[c]
			}
			rows[c] = append(rows[c], cell)
		}
	}
	t.Rows = rows
	return t
}

const (
	largest  = 40 // points, of a table that has room
	fair     = 14 // a table is set no smaller to keep it on one page
	usual    = 20 // of a table that takes several
	smallest = 6  // for what is too broad in any way
	mostRows = 2000
	gutter   = 6.0 // between columns, millimetres
	// muchLarger letters are worth having a table turned.
	muchLarger = 1.3
)

// wall is a table being set.
type wall struct {
	*document
	t      Table
	o      Options
	page   Page
	size   float64 // of the letters, points
	widths []float64
	right  []bool // a column of figures stands to the right
	pages  int
	number int
	y      float64
}

// WallSheet writes one table as a PDF to be read from across the shop: as large as
// it can be, bold, black on white, the head again on every page, and page, date and
// revision letter at the foot. It takes one page if letters of 14 points do, upright
// or on its side; long cells are broken between words.
//
// Errors: *calc.Error when the table is empty or has more than 2000 rows; what w returns.
func WallSheet(w io.Writer, t Table, o Options) error {
	columns := 0
	for _, r := range t.Rows {
		columns = max(columns, len(r))
	}
	switch {
	case columns == 0:
		return calc.Errorf(calc.CodeShape, "the table is empty: there is nothing to hang up")
	case len(t.Rows) > mostRows:
		return calc.Errorf(calc.CodeLimit, "a wall sheet holds %d rows; this table has %d", mostRows, len(t.Rows))
	}
	s := newWall(t, o, columns)
	if n := len(t.Rows); t.Turnable && n < columns {
		if turned := newWall(t.turned(columns), o, n); turned.pages <= s.pages && turned.size >= muchLarger*s.size {
			s = turned
		}
	}
	s.set()
	return s.write(w)
}

func newWall(t Table, o Options, columns int) *wall {
	s := &wall{document: newDocument(o), t: t, o: o, right: figures(t.Rows, columns)}
	s.choose(columns)
	return s
}

// choose takes the largest letters that keep the table on one page, else the largest
// usual ones, with the paper upright or on its side.
func (s *wall) choose(columns int) {
	paper := keyPaper(s.o.page())
	onSide := Page{Name: paper.Name, Width: paper.Height, Height: paper.Width}
	for _, try := range [...]struct {
		from, to int
		onePage  bool
	}{{largest, fair, true}, {usual, smallest, false}} {
		for size := try.from; size >= try.to; size-- {
			for _, p := range [2]Page{paper, onSide} {
				s.page, s.size = p, float64(size)
				if s.fit(columns) {
					if s.pages = s.count(); s.pages == 1 || !try.onePage {
						return
					}
				}
			}
		}
	}
	s.pages = s.count() // words broader than the paper: nothing is left but to let them run
}

// figures reports which columns hold nothing but figures under their heads.
func figures(rows [][]string, columns int) []bool {
	right := make([]bool, columns)
	for c := range right {
		n := 0
		right[c] = c > 0
		for _, r := range rows[1:] {
			if c < len(r) && r[c] != "" {
				n++
				first, _ := utf8.DecodeRuneInString(r[c])
				right[c] = right[c] && strings.ContainsRune("0123456789-−+±.—", first)
			}
		}
		right[c] = right[c] && n > 0
	}
	return right
}

// fit finds the widths of the columns at the size of the letters: side by side, or
// the broadest narrowed, but no column under its longest word. It reports whether
// they go on the page.
func (s *wall) fit(columns int) bool {
	room := s.page.Width - 2*margin - gutter*float64(columns-1)
	natural, word := make([]float64, columns), make([]float64, columns)
	total := 0.0
	for c := range natural {
		for _, r := range s.t.Rows {
			if c >= len(r) {
				continue
			}
			natural[c] = math.Max(natural[c], s.width(r[c], s.size, bold)+0.1) // what rounding may add
			for _, w := range strings.Fields(r[c]) {
				word[c] = math.Max(word[c], s.width(w, s.size, bold))
			}
		}
		total += natural[c]
	}
	s.widths = natural
	if total <= room {
		return true
	}
	s.widths = squeezed(natural, math.Max(room, 1))
	for c, w := range s.widths {
		if w < word[c] {
			return false
		}
	}
	return true
}

// squeezed narrows the broadest columns alike until all fit.
func squeezed(widths []float64, room float64) []float64 {
	low, high := 0.0, room
	for i := 0; i < 60; i++ {
		most := (low + high) / 2
		total := 0.0
		for _, w := range widths {
			total += math.Min(w, most)
		}
		if total > room {
			high = most
		} else {
			low = most
		}
	}
	out := make([]float64, len(widths))
	for c, w := range widths {
		out[c] = math.Min(w, low)
	}
	return out
}

// top is where the rows begin, end where they must stop, on every page.
func (s *wall) top() float64 { return margin + s.titleSize()*0.353 + 5 }
func (s *wall) end() float64 { return s.page.Height - margin - 12 }

func (s *wall) titleSize() float64 { return math.Max(20, s.size*1.15) }

// count returns the pages that the table takes.
func (s *wall) count() int {
	heights := make([]float64, len(s.t.Rows))
	for i, r := range s.t.Rows {
		heights[i] = s.rowHeight(r)
	}
	pages, y := 1, s.top()+heights[0]
	for i, h := range heights[1:] {
		if i == len(heights)-2 {
			h += s.noteHeight()
		}
		if y+h > s.end() {
			pages, y = pages+1, s.top()+heights[0]
		}
		y += h
	}
	return pages
}

func (s *wall) noteHeight() float64 {
	if s.t.Note == "" {
		return 0
	}
	return 6 * float64(len(s.lines(s.t.Note, 12, s.page.Width-2*margin)))
}

func (s *wall) set() {
	s.begin()
	head := s.t.Rows[0]
	s.row(head)
	for i, r := range s.t.Rows[1:] {
		h := s.rowHeight(r)
		if i == len(s.t.Rows)-2 {
			h += s.noteHeight()
		}
		if s.y+h > s.end() {
			s.begin()
			s.row(head)
		}
		s.row(r)
	}
	if s.t.Note != "" {
		for _, line := range s.lines(s.t.Note, 12, s.page.Width-2*margin) {
			s.y += 6
			s.say(margin, s.y, line, 12, regular, 0)
		}
	}
}

// begin opens a page with the title, and writes its foot.
func (s *wall) begin() {
	s.document.page(s.page.Width, s.page.Height)
	s.number++
	s.y = s.top()
	s.say(margin, s.y-5, s.t.Title, s.titleSize(), bold, s.page.Width-2*margin)
	s.line(margin, s.page.Height-margin-8, s.page.Width-margin, s.page.Height-margin-8)
	page := "page " + strconv.Itoa(s.number) + " of " + strconv.Itoa(s.pages)
	w := s.width(page, 13, bold)
	s.say(margin, s.page.Height-margin-1.5, s.o.issue(), 13, bold, s.page.Width-2*margin-w-4)
	s.say(s.page.Width-margin-w, s.page.Height-margin-1.5, page, 13, bold, 0)
}

func (s *wall) leading() float64 { return s.size * 0.353 * 1.25 }

func (s *wall) rowHeight(r []string) float64 {
	n := 1
	for c, text := range r {
		n = max(n, len(s.lines(text, s.size, s.widths[c])))
	}
	return float64(n)*s.leading() + s.size*0.353*0.5
}

// row sets one row and rules it off.
func (s *wall) row(r []string) {
	x, h := margin, s.rowHeight(r)
	for c, text := range r {
		for i, line := range s.lines(text, s.size, s.widths[c]) {
			at := x
			if s.right[c] {
				at = x + s.widths[c] - s.width(line, s.size, bold)
			}
			s.say(at, s.y+s.size*0.353*1.1+float64(i)*s.leading(), line, s.size, bold, 0)
		}
		x += s.widths[c] + gutter
	}
	s.y += h
	s.SetLineWidth(0.35)
	s.line(margin, s.y, s.page.Width-margin, s.y)
}

// lines breaks a text between words to a width; a word too long stands alone.
func (d *document) lines(text string, size, width float64) []string {
	if d.width(text, size, bold) <= width {
		return []string{text}
	}
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if longer := line + " " + word; line != "" && d.width(longer, size, bold) > width {
			out, line = append(out, line), word
		} else {
			line = strings.TrimSpace(longer)
		}
	}
	return append(out, line)
}
