package editor

import (
	"context"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/notebook"
	"scarph/notebook/markdown"
)

// apply makes the edits of a workspace edit in the client's texts.
func (c *client) apply(w workspaceEdit) {
	c.t.Helper()
	all := map[string][]textEdit{}
	for _, d := range w.DocumentChanges {
		all[d.TextDocument.URI] = append(all[d.TextDocument.URI], d.Edits...)
	}
	for uri, edits := range w.Changes {
		all[uri] = append(all[uri], edits...)
	}
	for uri, edits := range all {
		file, _ := pathOf(uri)
		rel, _ := filepath.Rel(c.dir, file)
		name := filepath.ToSlash(rel)
		c.texts[name] = applied(c.t, c.texts[name], edits)
	}
}

// applied makes edits in a text; they must not overlap.
func applied(t testing.TB, src string, edits []textEdit) string {
	t.Helper()
	x := newText(src)
	sort.SliceStable(edits, func(i, j int) bool {
		return x.span(edits[i].Range, utf8Bytes).Start > x.span(edits[j].Range, utf8Bytes).Start
	})
	end := len(src)
	for _, e := range edits {
		at := x.span(e.Range, utf8Bytes)
		if at.End > end {
			t.Fatalf("edits overlap at %v", e.Range)
		}
		src = src[:at.Start] + e.NewText + src[at.End:]
		end = at.Start
	}
	return src
}

// values lists all values of a journal's texts, with a name changed back.
func values(t testing.TB, texts map[string]string, now, was string) string {
	t.Helper()
	dir := t.TempDir()
	for name, src := range texts {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(src), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	n, err := notebook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if p := n.Problems(kernel.Now); len(p) > 0 {
		t.Errorf("problems: %v", p)
	}
	var out []string
	for _, d := range n.Session.Dimensions(kernel.Now) {
		out = append(out, strings.ReplaceAll(d.Name, now, was)+" "+n.Session.Style().Text(d.Result.Value))
	}
	sort.Strings(out)
	return strings.Join(out, "\n")
}

func TestRename(t *testing.T) {
	for _, caps := range []string{everything, `{"general":{"positionEncodings":["utf-8"]}}`} {
		for _, x := range []struct{ name, piece, to, was, has string }{
			{"journal.md", "plan¦king = 7", "plank", "planking", "{plank to mm}"},
			{"2027-05-02-measured.md", "{drawn(be¦am)}", "beam_max", "beam", "not {drawn(beam_max)}"},
			{"2027-04-18-thwarts.md", "made thw¦art", "seat.main", "thwart", "made seat.main: 2"},
			{"journal.md", "offsets.sheer_h¦alf.st_2", "rail_half", "sheer_half", "| rail half "},
			{"journal.md", "| chine_h¦alf", "chine_b", "chine_half", "| chine_b "},
			{"2027-05-02-measured.md", "offsets.st¦_2", "st_two", "st_2", "| st_two "},
			{"journal.md", "drawn off¦sets:", "table", "offsets", "| drawn table:"},
		} {
			c := begin(t, caps, wren)
			for name := range wren {
				c.open(name)
			}
			before := values(t, c.texts, "", "")
			p := c.at(x.name, x.piece)
			var ready map[string]any
			c.ask("textDocument/prepareRename", p, &ready)
			if ready == nil {
				t.Errorf("%s: nothing to rename", x.piece)
				continue
			}
			p["newName"] = x.to
			var w workspaceEdit
			c.ask("textDocument/rename", p, &w)
			c.apply(w)
			all := fmt.Sprint(c.texts)
			if !strings.Contains(all, x.has) {
				t.Errorf("%s: no %q in %s", x.piece, x.has, all)
			}
			if after := values(t, c.texts, x.to, x.was); after != before {
				t.Errorf("%s: values changed\n%s\n%s", x.piece, before, after)
			}
			c.end()
		}
	}
}

func TestRenameRefuses(t *testing.T) {
	c := opened(t, everything)
	for _, x := range []struct{ name, piece, to, says string }{
		{"journal.md", "plan¦king = 7", "beam", "something else"},
		{"journal.md", "plan¦king = 7", "mm", "unit"},
		{"journal.md", "plan¦king = 7", "a b", "cannot be a name"},
		{"journal.md", "plan¦king = 7", "", "cannot be a name"},
		{"journal.md", "plan¦king = 7", "offsets.x", "data table"},
		{"journal.md", "plan¦king = 7", "check", "word of the language"},
		{"journal.md", "| chine_h¦alf", "sheer_half", "something else"},
		{"journal.md", "| chine_h¦alf", "Chine", "small letters"},
		{"journal.md", "| chine_h¦alf", "a.b", "one word"},
		{"journal.md", "She ¦is", "x", "no name here"},
		{"journal.md", "scarf_l¦ength(", "x", "no name here"},
		{"journal.md", "| 2-0¦-3", "x", "no name here"},
	} {
		p := c.at(x.name, x.piece)
		p["newName"] = x.to
		err := c.tryAsk("textDocument/rename", p, nil)
		if err == nil || !strings.Contains(err.Error(), x.says) {
			t.Errorf("%s to %s: %v", x.piece, x.to, err)
		}
	}
	for _, piece := range []string{"She ¦is", "| 2-0¦-3", "scarf_l¦ength("} {
		var got any
		c.ask("textDocument/prepareRename", c.at("journal.md", piece), &got)
		if got != nil {
			t.Errorf("%s: %v", piece, got)
		}
	}
}

func actionsAt(c *client, name, piece string, only ...string) []codeAction {
	c.t.Helper()
	p := c.at(name, piece)
	pos := p["position"].(position)
	var list []codeAction
	c.ask("textDocument/codeAction", object{"textDocument": p["textDocument"], "range": textRange{pos, pos}, "context": object{"diagnostics": []int{}, "only": only}}, &list)
	return list
}

func TestCodeActions(t *testing.T) {
	for _, x := range []struct {
		line, piece, title, becomes string
	}{
		{"planking = 1/2\"", "plan¦king = 1", "Write revise planking", "revise planking = 1/2\""},
		{"  planking = 1/2\"", "plan¦king = 1", "Write found planking", "  found planking = 1/2\""},
		{"revise newest = 1/2\"", "revise new¦est", "Name newest here", "newest = 1/2\""},
		{"total = beam + 19", "beam + 1¦9", "Write 19 in", "total = beam + 19 in"},
		{"total = beam + 19", "beam + 1¦9", "Write 19 mm", "total = beam + 19 mm"},
		{"work 3 on framing", "work ¦3", "Write 3 h", "work 3 h on framing"},
		{"spend 3 on framing", "spend ¦3", "Write 3 EUR", "spend 3 EUR on framing"},
		{"total = beem * 2", "be¦em", "Write beam", "total = beam * 2"},
		{"total = scarf_lenght(planking, 8)", "scarf_le¦nght", "Write scarf_length", "total = scarf_length(planking, 8)"},
		{"total = 3 milimetre", "mili¦metre", "Write millimetre", "total = 3 millimetre"},
		{"total = 1,5 mm", "1,¦5", "Write 1.5", "total = 1.5 mm"},
		{"total = 1,500 mm", "1,¦500", "Write 1500", "total = 1500 mm"},
		{"total = 2' 6", "2' ¦6", "Write the inch mark", "total = 2' 6\""},
	} {
		c := opened(t, everything)
		c.edit("2027-05-02-measured.md", "gap = ", x.line+"\ngap = ")
		list := actionsAt(c, "2027-05-02-measured.md", x.piece)
		done := false
		for _, a := range list {
			if strings.HasPrefix(a.Title, x.title) && !done {
				done = true
				c.apply(a.Edit)
				if !strings.Contains(c.texts["2027-05-02-measured.md"], "\n"+x.becomes+"\ngap") {
					t.Errorf("%s became\n%s", x.line, c.texts["2027-05-02-measured.md"])
				}
				if a.Kind != quickFix || len(a.Diagnostics) != 1 {
					t.Errorf("%s: %+v", x.line, a)
				}
			}
		}
		if !done {
			var titles []string
			for _, a := range list {
				titles = append(titles, a.Title)
			}
			t.Errorf("%s: no %q among %q", x.line, x.title, titles)
		}
	}
}

// TestFigureToSlot turns typed figures into slots, in text and in tables.
func TestFigureToSlot(t *testing.T) {
	for _, x := range []struct{ text, piece, title string }{
		{"The planks are 7/16\" thick.", "7/¦16\"", "Write {planking}"},
		{"The planks are 11.1125 mm thick.", "11.1¦", "Write {planking to mm}"},
		{"| what | size |\n|---|---|\n| planks | 7/16\" |", "| 7/1¦6\" |", "Write {planking}"},
		{"| built checks: | a |\n|---|---|\n| planks | 7/16\" |", "| 7/1¦6\" |", "Write {planking}"},
		{"She was 4' 1 1/2\" once.", "1 1/2\"¦ once", "Write {then(beam)}, which it was until"},
		{"Inside she is 4' 7/8\".", "4' 7¦", "Write {inside}"},
	} {
		c := opened(t, everything)
		c.edit("2027-05-02-measured.md", "She is {beam}", x.text+"\n\nShe is {beam}")
		found := false
		for _, a := range actionsAt(c, "2027-05-02-measured.md", x.piece, "refactor") {
			found = found || strings.HasPrefix(a.Title, x.title) && a.Kind == rewrite
		}
		if !found {
			t.Errorf("%s: %+v", x.text, actionsAt(c, "2027-05-02-measured.md", x.piece))
		}
		if list := actionsAt(c, "2027-05-02-measured.md", x.piece, "source"); len(list) != 0 {
			t.Errorf("another kind was asked for: %+v", list)
		}
	}
	c := opened(t, everything)
	for _, piece := range []string{"planking = 7¦", "She is {be¦am}", "date: 2027¦", "She¦ is"} {
		name := "journal.md"
		if piece != "planking = 7¦" && piece != "She is {be¦am}" {
			name = "2027-05-02-measured.md"
		}
		if list := actionsAt(c, name, piece, rewrite); len(list) != 0 {
			t.Errorf("%s: %+v", piece, list)
		}
	}
}

func TestFormatting(t *testing.T) {
	for _, x := range [][2]string{
		{"a=2 in", "a = 2 in"},
		{"drawn   beam  =  4' 7 1/2\"", "drawn beam = 4' 7 1/2\""},
		{"b = -a", "b = -a"},
		{"b = ( - a+2 in )*3", "b = (-a + 2 in) * 3"},
		{"c = [1 in ,2 in,  3 in]", "c = [1 in, 2 in, 3 in]"},
		{"d = 1 / 2\"", "d = 1 / 2\""},
		{"d = 1/2\"", "d = 1/2\""},
		{"e = a/b^2", "e = a / b ^ 2"},
		{"f = sum( map(1 .. 9,it*2) )", "f = sum(map(1..9, it * 2))"},
		{"gg = hopper_miter(4,16°) . cross_cut", "gg = hopper_miter(4, 16°).cross_cut"},
		{"part t :2 of  3/4\" by   7\" by x in larch ,within 1/16\"", "part t: 2 of 3/4\" by 7\" by x in larch, within 1/16\""},
		{"check   a<= b", "check a <= b"},
		{"check (a)<b", "check (a) < b"},
		{"hh = a<b?a:b", "hh = a < b ? a : b"},
		{"i = x as of entry 3+1 in", "i = x as of entry 3 + 1 in"},
		{"revise offsets.a.b=1-10-5", "revise offsets.a.b = 1-10-5"},
		{"work 3.5 h  on   framing", "work 3.5 h on framing"},
		{"j = 2' 1 3/8\"±1/16\"", "j = 2' 1 3/8\"±1/16\""},
		{"k = $$ 3", "k = $$ 3"}, // what cannot be read stays
		{"  l = 3 in  ", "l = 3 in"},
		{"m = 3 in # note", "m = 3 in   # note"},
		{"   # a note alone", "# a note alone"},
		{"", ""},
		{"n = !(a<b)", "n = !(a < b)"},
		{"o = not (a<b)", "o = not (a < b)"},
		{"p = \"a  b\"", "p = \"a  b\""},
	} {
		if got := formatBlock([]markdown.Line{{Text: x[0]}}); got[0] != x[1] {
			t.Errorf("%q\n got %q\nwant %q", x[0], got[0], x[1])
		}
	}
	lines := []markdown.Line{{Text: "a = 1 in # one"}, {Text: "long_name = 2 in    # two"}, {Text: ""}, {Text: "b=3 in   # three"}}
	if got := strings.Join(formatBlock(lines), "|"); got != "a = 1 in           # one|long_name = 2 in   # two||b = 3 in   # three" {
		t.Errorf("%s", got)
	}
}

// TestFormattingNeverChangesAValue lays out statements made of random pieces and
// spaces: each says the same afterwards, and laying out again changes nothing.
func TestFormattingNeverChangesAValue(t *testing.T) {
	pieces := []string{"a", "beam.port", "=", "2' 6\"", "3", "1/2", "\"", "1/2\"", "-", "+", "*", "/", "^", "(", ")", "[", "]", ",", "..", ".", "it", "to mm", "by", "of", "in", "not", "<", "?", ":", "drawn", "check", "part", "# n", "±", "°", "5°", "1-2-3", "sum(", "x(", "%", "1:12", "as of entry 2", "mm", "ft", "'"}
	r := rand.New(rand.NewSource(7))
	empty := kernel.New(stylePlain)
	empty.Update(context.Background(), []kernel.Entry{{Key: "a"}})
	read := 0
	for range 15_000 {
		var b strings.Builder
		for range 1 + r.Intn(9) {
			b.WriteString(pieces[r.Intn(len(pieces))])
			b.WriteString(strings.Repeat(" ", r.Intn(3)))
		}
		src := b.String()
		got := formatBlock([]markdown.Line{{Text: src}})[0]
		s, err := lang.Parse(src)
		u, err2 := lang.Parse(got)
		if (err == nil) != (err2 == nil) {
			t.Fatalf("%q became %q: %v, %v", src, got, err, err2)
		}
		if again := formatBlock([]markdown.Line{{Text: got}})[0]; again != got {
			t.Fatalf("%q became %q, then %q", src, got, again)
		}
		if err != nil || s == nil {
			continue
		}
		read++
		if s.Kind != u.Kind || s.Name != u.Name || s.Note != u.Note || s.Wood != u.Wood || len(s.Exprs()) != len(u.Exprs()) {
			t.Fatalf("%q became %q", src, got)
		}
		for i, e := range s.Exprs() {
			if !sameAnswer(empty, e, u.Exprs()[i]) {
				t.Fatalf("%q became %q: other answers", src, got)
			}
		}
	}
	if read < 300 {
		t.Errorf("only %d statements could be read", read)
	}
}

// sameAnswer works out two expressions in the same session.
func sameAnswer(s *kernel.Session, a, b *lang.Expr) bool {
	if len(a.Needs) != len(b.Needs) {
		return false
	}
	x, err := s.Eval(context.Background(), a.Text, kernel.Now)
	y, err2 := s.Eval(context.Background(), b.Text, kernel.Now)
	if err != nil || err2 != nil {
		return (err == nil) == (err2 == nil)
	}
	return x.OK() == y.OK() && (!x.OK() || stylePlain.Text(x.Value) == stylePlain.Text(y.Value))
}
