package paper_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"regexp"
	"strconv"
	"testing"

	"scarph/calc/draw"
)

// sheet is a page read back from a PDF: its size and its painted lines, in
// millimetres from the upper left corner.
type sheet struct {
	width, height float64
	lines         [][]draw.Point
}

var (
	object   = regexp.MustCompile(`(?s)\n(\d+) 0 obj\n(.*?)\nendobj`)
	mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	contents = regexp.MustCompile(`/Contents (\d+) 0 R`)
)

// read takes a PDF apart: objects, pages, content streams.
func read(t *testing.T, pdf []byte) []sheet {
	t.Helper()
	objects := map[string][]byte{}
	var order []string
	for _, m := range object.FindAllSubmatch(pdf, -1) {
		objects[string(m[1])] = m[2]
		order = append(order, string(m[1]))
	}
	var out []sheet
	for _, n := range order {
		o := objects[n]
		if !bytes.HasPrefix(o, []byte("<</Type /Page\n")) {
			continue
		}
		box, c := mediaBox.FindSubmatch(o), contents.FindSubmatch(o)
		if box == nil { // then the size of all pages holds
			box = mediaBox.FindSubmatch(objects["1"])
		}
		if box == nil || c == nil {
			t.Fatalf("page object %s: %.200s", n, o)
		}
		s := sheet{width: float(t, string(box[1])) / 72 * 25.4, height: float(t, string(box[2])) / 72 * 25.4}
		s.paint(t, inflate(t, objects[string(c[1])]))
		out = append(out, s)
	}
	return out
}

func inflate(t *testing.T, o []byte) []byte {
	t.Helper()
	_, body, ok := bytes.Cut(o, []byte("stream\n"))
	if !ok {
		t.Fatal("no stream")
	}
	z, err := zlib.NewReader(bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func float(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// matrix is a transformation of ISO 32000-1, 8.3.3: x' = a x + c y + e, y' = b x + d y + f.
type matrix [6]float64

func (m matrix) times(n matrix) matrix { // first m, then n
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

// paint follows the path operators of a content stream (ISO 32000-1, 8.5) and keeps
// the lines that are stroked. Curves are left out: the shapes are broken lines.
func (s *sheet) paint(t *testing.T, text []byte) {
	now := matrix{1, 0, 0, 1, 0, 0}
	var stack []matrix
	var nums []float64
	var path [][]draw.Point
	at := func(x, y float64) draw.Point {
		px, py := now[0]*x+now[2]*y+now[4], now[1]*x+now[3]*y+now[5]
		return draw.Point{X: px / 72 * 25.4, Y: s.height - py/72*25.4}
	}
	for _, token := range bytes.Fields(text) {
		if v, err := strconv.ParseFloat(string(token), 64); err == nil {
			nums = append(nums, v)
			continue
		}
		n := len(nums)
		switch op := string(token); {
		case op == "q":
			stack = append(stack, now)
		case op == "Q":
			now, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case op == "cm" && n >= 6:
			now = matrix(nums[n-6:]).times(now)
		case op == "m" && n >= 2:
			path = append(path, []draw.Point{at(nums[n-2], nums[n-1])})
		case op == "l" && n >= 2 && len(path) > 0:
			k := len(path) - 1
			path[k] = append(path[k], at(nums[n-2], nums[n-1]))
		case op == "S", op == "s", op == "B", op == "b":
			s.lines = append(s.lines, path...)
			path = nil
		case op == "n", op == "f":
			path = nil
		}
		nums = nums[:0]
	}
}

func near(a, b float64) bool { return math.Abs(a-b) <= 0.05 }

// bars counts the straight pieces of a length, level or upright.
func (s *sheet) bars(length float64, upright bool) int {
	n := 0
	for _, l := range s.lines {
		if len(l) != 2 {
			continue
		}
		dx, dy := math.Abs(l[1].X-l[0].X), math.Abs(l[1].Y-l[0].Y)
		if upright {
			dx, dy = dy, dx
		}
		if near(dx, length) && dy < 0.01 {
			n++
		}
	}
	return n
}

// crosses returns the middles of the crossing marks: two pieces of 8 mm, square to
// each other.
func (s *sheet) crosses() []draw.Point {
	var out []draw.Point
	for _, a := range s.lines {
		for _, b := range s.lines {
			if len(a) != 2 || len(b) != 2 || !near(math.Abs(a[1].X-a[0].X), 8) || !near(math.Abs(b[1].Y-b[0].Y), 8) {
				continue
			}
			m := draw.Point{X: (a[0].X + a[1].X) / 2, Y: (a[0].Y + a[1].Y) / 2}
			k := draw.Point{X: (b[0].X + b[1].X) / 2, Y: (b[0].Y + b[1].Y) / 2}
			if near(m.X, k.X) && near(m.Y, k.Y) && near(a[0].Y, a[1].Y) {
				out = append(out, m)
			}
		}
	}
	return out
}
