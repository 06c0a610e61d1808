package markdown

import (
	"fmt"
	"strings"
	"testing"
)

// shape writes what was read of a data table.
func shape(t *Table) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s (%s)", t.Kind, t.Name, t.Unit)
	for _, c := range t.Columns {
		fmt.Fprintf(&b, " |%s(%s)", c.Name, c.Unit)
	}
	for i, r := range t.Rows {
		fmt.Fprintf(&b, " / %s(%s)", r.Name, r.Unit)
		for _, c := range t.Cells[i] {
			b.WriteString(" " + c.Text)
			if c.Slot != nil {
				b.WriteString("=" + c.Slot.Text)
			}
			if c.Text == "" {
				b.WriteByte('.')
			}
		}
	}
	return b.String()
}

func TestDataTables(t *testing.T) {
	for src, want := range map[string]string{
		"| drawn offsets: | st_1 | st_2 |\n|---|---|---|\n| sheer_half | 1-2-4 | 2-0-3+ |\n| chine_half | | {x} |\n": " " +
			"drawn offsets () |st_1() |st_2() / sheer_half() 1-2-4 2-0-3+ / chine_half() . {x}=x",
		"found Offsets of the hull (mm): | Beam (in) | Height\n--|--|--\nsheer half-breadth (ft) | 1 | about {x}\n": " " +
			"found offsets_of_the_hull (mm) |beam(in) |height() / sheer_half_breadth(ft) 1 about {x}",
		"| x: | 1 | 2½ | _a__b_ | **Ö** |\n|-|-|-|-|-|\n| 3 |\n": "  x () |_1() |_2() |a_b() |ö() / _3() . . . .",
		"text\n| x: | a |\n|-|-|\n| r | `1` |\n":                 "  x () |a() / r() `1`",
		"> - | x: | a |\n>   |-|-|\n>   | r | 1 |":               "  x () |a() / r() 1",
		"| x: | a |\r\n|-|-|\r\n| r | 1 |\r\n":                   "  x () |a() / r() 1",
		"| x: | a |\n|-|-|":                                      "  x () |a()",
		"| x: |\n|-|\n| r |\n":                                   "  x () / r()",
		"| x: | a |\n|-|-|\n|  |  |\n| r | 1 |":                  "  x () |a() / r() 1",
		"| x: | a |\n|-|-|\n| r | 1 \\| 2 |":                     "  x () |a() / r() 1 \\| 2",
		"| cafe\u0301: | a |\n|-|-|\n| r | 1 |":                  "  cafe () |a() / r() 1",
	} {
		d := Parse([]byte(src))
		if n := len(d.Sections[0].Tables); n != 1 {
			t.Errorf("%q: %d tables", src, n)
			continue
		}
		if got := shape(d.Sections[0].Tables[0]); strings.TrimSpace(got) != strings.TrimSpace(want) {
			t.Errorf("%q:\n%s\nwant\n%s", src, got, want)
		}
		if len(d.Problems) > 0 {
			t.Errorf("%q: %+v", src, d.Problems)
		}
	}
	for _, src := range []string{"| x | a: |\n|-|-|\n| r: | 1 |", "x: | a\n\ny", "| x : y | a |\n|-|-|"} {
		if n := len(Parse([]byte(src)).Sections[0].Tables); n != 0 {
			t.Errorf("%q is a table of data", src)
		}
	}
}

func TestTablesThatCannotBeRead(t *testing.T) {
	for src, want := range map[string]string{
		"| x: | a | a |\n|-|-|-|\n| r | 1 | 2 |\n":  "a: two columns of this table are called a",
		"| x: | Half-beam | half beam |\n|-|-|-|\n": "half beam: two columns of this table are called half_beam",
		"| x: | a |\n|-|-|\n| r | 1 |\n| R | 2 |\n": "R: two rows of this table are called r",
		"| x: | a | |\n|-|-|-|\n| r | 1 | 2 |\n":    ": a column of this table has no name",
		"| x: | a |\n|-|-|\n| | 1 |\n":              ": a row of this table has no name",
		"| x: | a |\n|-|-|\n| r | 1 | 2 |\n":        " 2 |: this row has more cells than the table has columns",
		"| x: | a |\n|-|-|\nr | 1 | 2\n":            " 2: this row has more cells than the table has columns",
		"| : | a |\n|-|-|\n| r | 1 |\n":             ":: this table of data has no name",
		"| drawn: | a |\n|-|-|\n| r | 1 |\n":        "drawn:: this table of data has no name",
		"| (mm): | a |\n|-|-|\n| r | 1 |\n":         "(mm):: this table of data has no name",
	} {
		d := Parse([]byte(src))
		var got []string
		for _, p := range d.Problems {
			got = append(got, d.text(p.Span)+": "+p.Message)
		}
		if s := strings.Join(got, "; "); s != want {
			t.Errorf("%q: %s, want %s", src, s, want)
		}
	}
	d := Parse([]byte("| x: | a | a |\n|-|-|-|\n| r | 1 | 2 |\n"))
	if got, want := shape(d.Sections[0].Tables[0]), " x () |a() |() / r() 1 2"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestTableSpans(t *testing.T) {
	src := "Above.\n\n  | x: | a |\n  |-|-|\n  | r |\n\nBelow."
	d := Parse([]byte(src))
	tab := d.Sections[0].Tables[0]
	if got := d.text(tab.Span); got != "  | x: | a |\n  |-|-|\n  | r |" {
		t.Errorf("table %q", got)
	}
	if at := tab.Cells[0][0].Span; at.Start != at.End || !strings.HasPrefix(src[at.Start:], " |\n\nBelow") {
		t.Errorf("a cell that is not written lies at %q", src[at.Start:])
	}
}

func TestBareUnit(t *testing.T) {
	tab := Parse([]byte("| x (m): | a (cm) | b |\n|-|-|-|\n| r (mm) | 1 | 1 |\n| s | 1 | 1 |\n")).Sections[0].Tables[0]
	got := tab.BareUnit(0, 0) + " " + tab.BareUnit(0, 1) + " " + tab.BareUnit(1, 0) + " " + tab.BareUnit(1, 1)
	if got != "mm mm cm m" {
		t.Errorf("units %s", got)
	}
}

func TestTablePage(t *testing.T) {
	for src, want := range map[string]string{
		"| x: | a |\n|-|-:|\n| *r* (mm) | 1 |\n": `<div class="wide" tabindex="0" role="group" aria-label="x:"><table class="offsets">
<thead>
<tr>
<th scope="col">x:</th>
<th scope="col" class="right">a</th>
</tr>
</thead>
<tbody>
<tr>
<th scope="row"><em>r</em> (mm)</th>
<td class="right">1</td>
</tr>
</tbody>
</table></div>
`,
		"| x | a |\n|:-|-|\n| *r* | |\n": `<div class="wide" tabindex="0" role="group" aria-label="table"><table>
<thead>
<tr>
<th scope="col" class="left">x</th>
<th scope="col">a</th>
</tr>
</thead>
<tbody>
<tr>
<td class="left"><em>r</em></td>
<td></td>
</tr>
</tbody>
</table></div>
`,
	} {
		if got := page(src); got != want {
			t.Errorf("%q:\n%s\nwant\n%s", src, got, want)
		}
	}
}
