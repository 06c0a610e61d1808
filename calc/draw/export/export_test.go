package export_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/calc/draw/export"
)

const inch = 0.0254

func points(scale float64, xy ...float64) []draw.Point {
	var out []draw.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, draw.Point{X: xy[i] * scale, Y: xy[i+1] * scale})
	}
	return out
}

func mould() draw.Scene {
	return (&draw.Frame{Name: "station 5", Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Bevels: []float64{0, .055, .077}, Face: "after"}).Outline(calc.Style{})
}

// polyline is a line read back from a file.
type polyline struct {
	layer  string
	closed bool
	points []draw.Point
}

// readDXF takes a file apart into its groups and its polylines.
func readDXF(t *testing.T, text string) (lines []polyline, texts []string) {
	t.Helper()
	rows := strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n")
	if len(rows)%2 != 0 {
		t.Fatalf("%d lines make no pairs", len(rows))
	}
	entity := ""
	for i := 0; i < len(rows); i += 2 {
		code, err := strconv.Atoi(rows[i])
		if err != nil {
			t.Fatalf("line %d: %q is no group code", i+1, rows[i])
		}
		value := rows[i+1]
		last := len(lines) - 1
		switch {
		case code == 0:
			if entity = value; entity == "POLYLINE" {
				lines = append(lines, polyline{})
			} else if entity == "VERTEX" {
				lines[last].points = append(lines[last].points, draw.Point{})
			}
		case entity == "POLYLINE" && code == 8:
			lines[last].layer = value
		case entity == "POLYLINE" && code == 70:
			lines[last].closed = value == "1"
		case entity == "VERTEX" && (code == 10 || code == 20):
			v, err := strconv.ParseFloat(value, 64)
			if err != nil {
				t.Fatal(err)
			}
			p := &lines[last].points[len(lines[last].points)-1]
			if code == 10 {
				p.X = v
			} else {
				p.Y = v
			}
		case entity == "TEXT" && code == 1:
			texts = append(texts, value)
		}
	}
	return lines, texts
}

// TestDXFTrueSize reads every point back, in both units.
func TestDXFTrueSize(t *testing.T) {
	s := mould()
	for _, u := range []export.Unit{export.Millimetres(), export.Inches()} {
		var b bytes.Buffer
		if err := export.DXF(&b, s, u); err != nil {
			t.Fatal(err)
		}
		lines, texts := readDXF(t, b.String())
		if strings.Contains(b.String(), "NaN") || len(texts) == 0 {
			t.Error("no letters, or no numbers")
		}
		n := 0
		for _, l := range lines {
			if l.layer != "HEAVY" {
				continue
			}
			n++
			want := s.Paths[1].Points
			if !l.closed || len(l.points) != len(want) {
				t.Fatalf("outline of %d points, closed %v; want %d", len(l.points), l.closed, len(want))
			}
			for i, p := range want {
				if math.Abs(l.points[i].X*u.Size-p.X) > 1e-5 || math.Abs(l.points[i].Y*u.Size-p.Y) > 1e-5 {
					t.Errorf("point %d: %v %s, want %v m", i, l.points[i], u.Name, p)
				}
			}
		}
		if n != 1 {
			t.Errorf("%d outlines", n)
		}
	}
}

// TestSVGTrueSize reads the polygon back, y turned over.
func TestSVGTrueSize(t *testing.T) {
	s := mould()
	var b bytes.Buffer
	if err := export.SVG(&b, s, export.Millimetres(), "Mould <5> & \"so on\""); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Width  string `xml:"width,attr"`
		Box    string `xml:"viewBox,attr"`
		Title  string `xml:"title"`
		Groups []struct {
			ID      string `xml:"id,attr"`
			Polygon []struct {
				Points string `xml:"points,attr"`
			} `xml:"polygon"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if f := strings.Fields(doc.Box); doc.Width != f[2]+"mm" {
		t.Errorf("width %s, viewBox %s: not true size", doc.Width, doc.Box)
	}
	if !strings.Contains(doc.Title, `Mould <5> & "so on"`) {
		t.Errorf("title %q", doc.Title)
	}
	for _, g := range doc.Groups {
		if g.ID != "heavy" {
			continue
		}
		for i, pair := range strings.Fields(g.Polygon[0].Points) {
			x, y, _ := strings.Cut(pair, ",")
			px, _ := strconv.ParseFloat(x, 64)
			py, _ := strconv.ParseFloat(y, 64)
			want := s.Paths[1].Points[i]
			if math.Abs(px-1000*want.X) > 1e-3 || math.Abs(-py-1000*want.Y) > 1e-3 {
				t.Errorf("point %d: %s, want %v m", i, pair, want)
			}
		}
	}
}

// TestGoldenFiles keeps the files as they were when another program opened them.
func TestGoldenFiles(t *testing.T) {
	for name, write := range map[string]func(*bytes.Buffer) error{
		"mould.dxf": func(b *bytes.Buffer) error { return export.DXF(b, mould(), export.Millimetres()) },
		"mould.svg": func(b *bytes.Buffer) error { return export.SVG(b, mould(), export.Inches(), "mould") },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join("testdata", name)
		want, err := os.ReadFile(path)
		if os.IsNotExist(err) && os.Getenv("SCARPH_UPDATE") != "" {
			err = os.WriteFile(path, b.Bytes(), 0o644)
			want = b.Bytes()
		}
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(want, b.Bytes()) {
			t.Errorf("%s has changed", name)
		}
	}
}

// TestRefusesToWrite what is no shape.
func TestRefusesToWrite(t *testing.T) {
	var e *calc.Error
	far := draw.Scene{}
	far.Line(draw.Heavy, draw.Point{}, draw.Point{X: 1e6})
	for name, s := range map[string]draw.Scene{"empty": {}, "far": far} {
		if err := export.DXF(&bytes.Buffer{}, s, export.Inches()); !errors.As(err, &e) {
			t.Errorf("%s as DXF: %v", name, err)
		}
		if err := export.SVG(&bytes.Buffer{}, s, export.Inches(), ""); !errors.As(err, &e) {
			t.Errorf("%s as SVG: %v", name, err)
		}
	}
	if _, err := export.FindUnit("cubit"); !errors.As(err, &e) {
		t.Errorf("cubits: %v", err)
	}
}
