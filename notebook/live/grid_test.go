package live

import (
	"net/http"
	"strings"
	"testing"
)

// TestCutTable pastes tables with all that may stand between cells.
func TestCutTable(t *testing.T) {
	for _, c := range []struct{ text, names, want string }{
		{"x\ts0\ts1\nport\t111\t222", "", ":s0:s1/port:111:222"},
		{"x,s0,s1\nport,111,222", "", ":s0:s1/port:111:222"},
		{"x;s0;s1\nport;111,5;222,5", "", ":s0:s1/port:111,5:222,5"},
		{"x,s0,s1\nport,\"111,5\",\"222,5\"", "", ":s0:s1/port:111,5:222,5"},
		{"x,s0,s1\r\nport,\"2' 6\"\"\",\"two\nlines\"\r\n", "", ":s0:s1/port:2' 6\":two lines"},
		{"x,s0,s1\nport,2' 6\",3' 1\"", "", ":s0:s1/port:2' 6\":3' 1\""},
		{"x,s0,s1\nport,,222", "", ":s0:s1/port::222"},
		{"x s0 s1\nport 111,5 222,5", "", ":s0:s1/port:111,5:222,5"},
		{"x,s0,s1\nport,461 ± 2,466 ± 2", "", ":s0:s1/port:461 ± 2:466 ± 2"},
		{"s0,s1\n461 ± 2,466 ± 2", "no", ":s0:s1/:461 ± 2:466 ± 2"},
		{"station\tport\tstarboard\n1\t461.5\t466\n2\t734\t741", "", ":port:starboard/1:461.5:466/2:734:741"},
		{"station\tport\tstarboard\n1\t461.5\t466\n2\t734\t741", "no", ":station:port:starboard/:1:461.5:466/:2:734:741"},
		{"x\tport\tstarboard\n1\t461.5\t466\n2\t734\t741", "", ":port:starboard/1:461.5:466/2:734:741"},
		{"a\tport\tstarboard\n100\t461.5\t466\n120\t734\t741", "", ":a:port:starboard/:100:461.5:466/:120:734:741"},
		{"a\tport\tstarboard\n100\t461.5\t466\n120\t734\t741", "yes", ":port:starboard/100:461.5:466/120:734:741"},
		{"x s0 s1\nport 111 222\n\f\n", "", ":s0:s1/port:111:222"},
		{"just one word\nand more", "", ""},
		{"A note, with commas.\nAnd, then, more.", "", ""},
	} {
		p := cutTable(c.text, c.names)
		var got []string
		for _, r := range append([]gridRow{{Cells: p.columns}}, p.rows...) {
			got = append(got, r.Name+":"+strings.Join(r.Cells, ":"))
		}
		if s := strings.Join(got, "/"); len(p.rows) > 0 && s != c.want && c.want != "" {
			t.Errorf("%q is cut as %q, want %q", c.text, s, c.want)
		} else if len(p.rows) == 0 && c.want != "" {
			t.Errorf("%q is no table", c.text)
		}
	}
}

// TestDecimalCommasAreAskedAbout reads decimal commas when somebody has said that they
// are such, and not before.
func TestDecimalCommasAreAskedAbout(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	body := map[string]any{"name": "t", "kind": "found", "unit": "mm", "text": "x;s0;s1\nport;461,5 ± 0,5;1,25"}
	var z gridBack
	if status := g.post("/grid", body, &z); status != http.StatusOK || z.Faults != 2 || z.Commas != "these have decimal commas: 461,5 ± 0,5 is 461.5 ± 0.5" {
		t.Fatalf("%d: %+v", status, z)
	}
	body["commas"], z = true, gridBack{}
	if status := g.post("/grid", body, &z); status != http.StatusOK || z.Faults != 0 || z.Commas != "" || !strings.Contains(z.Markdown, "| 461.5 ± 0.5 | 1.25 |") {
		t.Fatalf("%d: %+v", status, z)
	}
}

// TestTheReadBackTellsAll holds the read-back to say the ±, and whether the first column
// names the rows.
func TestTheReadBackTellsAll(t *testing.T) {
	g := newGate(t, "127.0.0.1:7433", Options{})
	var z gridBack
	g.post("/grid", map[string]any{"name": "t", "kind": "found", "unit": "mm", "text": "station\tport\n1\t5 ± 9\n2\t1-2-3 ± 1/16\""}, &z)
	if z.Faults != 0 || !z.Named || z.Head != "station" || z.Rows[0].Name != "st_1" {
		t.Fatalf("%+v", z)
	}
	for i, want := range []string{"± ", "± 1/16\""} {
		if got := z.Rows[i].Cells[0].Words; !strings.Contains(got, want) {
			t.Errorf("%q is read back as %q", z.Rows[i].Cells[0].Text, got)
		}
	}
	if status := g.post("/grid", map[string]any{"name": "t", "text": "nothing"}, nil); status != http.StatusUnprocessableEntity {
		t.Errorf("no table is read with %d", status)
	}
}
