package export_test

import (
	"bytes"
	"html"
	"math"
	"strconv"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/draw"
	"scarph/calc/draw/export"
)

// flats has one of each kind of flat drawing.
func flats() map[string]draw.Flat {
	return map[string]draw.Flat{
		"mould":   &draw.Frame{Name: "station 5", Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Bevels: []float64{0, .055, .077}, Face: "after"},
		"frame":   &draw.Frame{Section: points(inch, 0, .125, 22.04, .125, 27.0, 18.125), Moulded: 2.25 * inch},
		"panel":   &draw.ExpandedPanel{Stations: []string{"st 0", "st 1"}, Edge1: points(.001, 0, 0, 599, -17.8, 1186, 0), Edge2: points(.001, -2, 264, 597, 418, 1184, 483)},
		"transom": &draw.Transom{Half: points(inch, 0, 0, 17.875, .4, 22.75, 16.49), Bevels: []float64{.07, .21}},
		"stem":    &draw.Stem{Rabbet: points(inch, 0, 2, 1.4, 6, 3.1, 10), Angles: []float64{.4, .42, .45}, Plank: .016},
		"camber":  &draw.CamberMould{Beam: 1.2, Camber: .06, Arc: true},
		"part":    &draw.Part{Name: "side frame", Thick: .022, Width: .057, Length: .47, Ends: [2]float64{.27, 0}},
		"strip":   &draw.TickStrip{Marks: []float64{0, .36, .72}},
	}
}

// group is a code and its value.
type group struct {
	code  int
	value string
}

func groups(t *testing.T, text string) []group {
	t.Helper()
	rows := strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n")
	var out []group
	for i := 0; i+1 < len(rows); i += 2 {
		code, err := strconv.Atoi(rows[i])
		if err != nil {
			t.Fatalf("line %d: %q is no group code", i+1, rows[i])
		}
		out = append(out, group{code, rows[i+1]})
	}
	return out
}

// TestDXFStructure reads the file of each flat shape, in both units, as a strict reader of
// release 12 would: sections in their order and closed, the tables counted, every layer
// declared, every polyline with its vertices and its end, no group that the release does
// not know, nothing but ASCII, and the extent that the points have.
// Source: DXF Reference, release 12, group codes; the numbers of a code say its kind: 0 to 9
// text, 10 to 59 a real, 60 to 79 a whole number, 999 a remark.
func TestDXFStructure(t *testing.T) {
	for name, flat := range flats() {
		for _, u := range []export.Unit{export.Millimetres(), export.Inches()} {
			var b bytes.Buffer
			if err := export.DXF(&b, flat.Outline(calc.Style{}), u); err != nil {
				t.Fatal(err)
			}
			for i, c := range b.Bytes() {
				if c >= 0x7f || c < 0x20 && c != '\r' && c != '\n' {
					t.Fatalf("%s: byte %d is %x", name, i, c)
				}
			}
			examineDXF(t, name+" in "+u.Name, groups(t, b.String()))
		}
	}
}

func examineDXF(t *testing.T, name string, gs []group) {
	t.Helper()
	var sections []string
	layers := map[string]bool{}
	section, table, entity, variable, declared, rows := "", "", "", "", 0, 0
	open := false // a polyline
	extent := map[string][2]float64{}
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, g := range gs {
		switch {
		case g.code >= 10 && g.code < 60:
			v, err := strconv.ParseFloat(g.value, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: group %d: %q is no number", name, i, g.value)
			}
			if k := g.code/10 - 1; entity == "VERTEX" && g.code%10 == 0 && k < 2 {
				low[k], high[k] = math.Min(low[k], v), math.Max(high[k], v)
			}
			if section == "HEADER" && (g.code == 10 || g.code == 20) {
				e := extent[variable]
				e[g.code/10-1] = v
				extent[variable] = e
			}
		case g.code >= 60 && g.code < 80:
			if n, err := strconv.Atoi(g.value); err != nil {
				t.Errorf("%s: group %d: %q is no whole number", name, i, g.value)
			} else if g.code == 70 && entity == "TABLE" {
				declared, rows = n, 0
			}
		case g.code == 9:
			variable = g.value
		case g.code == 2 && entity == "SECTION":
			section = g.value
			sections = append(sections, g.value)
		case g.code == 2 && entity == "TABLE":
			table = g.value
		case g.code == 2 && entity == "LAYER":
			layers[g.value] = true
		case g.code == 8 && !layers[g.value]:
			t.Errorf("%s: the layer %s is not declared", name, g.value)
		case g.code == 1 && variable == "$ACADVER" && section == "HEADER" && g.value != "AC1009":
			t.Errorf("%s: release %s", name, g.value)
		}
		if g.code != 0 {
			continue
		}
		switch g.value {
		case "SECTION", "TABLE", "ENDSEC", "EOF", "CIRCLE", "TEXT":
			if open {
				t.Errorf("%s: a polyline without an end before %s", name, g.value)
			}
		case "ENDTAB":
			if rows != declared {
				t.Errorf("%s: the table %s declares %d rows and has %d", name, table, declared, rows)
			}
		case "LTYPE", "LAYER":
			rows++
		case "POLYLINE":
			if open {
				t.Errorf("%s: a polyline in a polyline", name)
			}
			open = true
		case "VERTEX", "SEQEND":
			if !open {
				t.Errorf("%s: %s outside a polyline", name, g.value)
			}
			open = g.value == "VERTEX"
		default:
			t.Errorf("%s: release 12 has no %s here", name, g.value)
		}
		entity = g.value
	}
	if got := strings.Join(sections, " "); got != "HEADER TABLES ENTITIES" || gs[len(gs)-1] != (group{0, "EOF"}) {
		t.Errorf("%s: sections %s, at the end %v", name, got, gs[len(gs)-1])
	}
	for k := range low {
		if math.Abs(extent["$EXTMIN"][k]-low[k]) > 1e-3 && low[k] < extent["$EXTMIN"][k] || math.Abs(extent["$EXTMAX"][k]-high[k]) > 1e-3 && high[k] > extent["$EXTMAX"][k] {
			t.Errorf("%s: extent %v, points from %v to %v", name, extent, low, high)
		}
	}
}

// TestFlatsTrueSize: every outline of every flat kind is in the file, point for point, in
// millimetres and in inches.
func TestFlatsTrueSize(t *testing.T) {
	for name, flat := range flats() {
		scene := flat.Outline(calc.Style{})
		for _, u := range []export.Unit{export.Millimetres(), export.Inches()} {
			var b bytes.Buffer
			if err := export.DXF(&b, scene, u); err != nil {
				t.Fatal(err)
			}
			lines, _ := readDXF(t, b.String())
			for i, p := range scene.Paths {
				if i >= len(lines) || len(lines[i].points) != len(p.Points) || lines[i].closed != p.Closed {
					t.Fatalf("%s in %s: line %d is missing or another", name, u.Name, i)
				}
				for k, q := range p.Points { // to a ten-thousandth of the unit
					if got := lines[i].points[k]; math.Abs(got.X*u.Size-q.X) > 6e-5*u.Size || math.Abs(got.Y*u.Size-q.Y) > 6e-5*u.Size {
						t.Errorf("%s in %s: point %d of line %d is %v, want %v m", name, u.Name, k, i, got, q)
					}
				}
			}
		}
	}
}

// TestSVGHoldsItsLetters: no letter lies outside what the file shows.
func TestSVGHoldsItsLetters(t *testing.T) {
	for name, flat := range flats() {
		var b bytes.Buffer
		if err := export.SVG(&b, flat.Outline(calc.Style{}), export.Millimetres(), name); err != nil {
			t.Fatal(err)
		}
		_, after, _ := strings.Cut(b.String(), `viewBox="`)
		box := strings.Fields(after[:strings.Index(after, `"`)])
		left, wide := number(t, box[0]), number(t, box[2])
		for _, part := range strings.Split(after, "<text ")[1:] {
			x := number(t, strings.Split(part, `"`)[1])
			words := part[strings.Index(part, ">")+1 : strings.Index(part, "</text>")]
			if strings.Contains(part[:strings.Index(part, ">")], "rotate") {
				continue
			}
			long := 0.4 * 3.5 * float64(len([]rune(html.UnescapeString(words)))) // at the least
			from, to := x, x+long
			if strings.Contains(part[:strings.Index(part, ">")], `"end"`) {
				from, to = x-long, x
			} else if strings.Contains(part[:strings.Index(part, ">")], `"middle"`) {
				from, to = x-long/2, x+long/2
			}
			if from < left || to > left+wide {
				t.Errorf("%s: %q from %g to %g, the file shows %g to %g", name, words, from, to, left, left+wide)
			}
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
