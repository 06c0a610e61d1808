package lang

import (
	"strings"
	"testing"
)

// kindLetters writes the kinds of tokens as letters, in their order.
const kindLetters = "NQnfwsdaC"

func outline(src string) string {
	var b strings.Builder
	for _, t := range Tokens(src) {
		b.WriteByte(kindLetters[t.Kind])
		b.WriteString("[" + t.Text + "]")
		if src[t.Span.Start:t.Span.End] != t.Text {
			b.WriteString("!span")
		}
	}
	return b.String()
}

func TestTokens(t *testing.T) {
	for _, c := range [][2]string{
		{`drawn  beam = 4' 7 1/2"   # as drawn`, `w[drawn]n[beam]s[=]N[4' 7 1/2"]C[# as drawn]`},
		{`spacing = run / (frames - 1)`, `n[spacing]s[=]n[run]s[/]s[(]n[frames]s[-]N[1]s[)]`},
		{`part thwart: 2 of 3/4" by inside in larch, within 1/16"`, `w[part]n[thwart]s[:]N[2]w[of]N[3/4"]w[by]n[inside]w[in]n[larch]s[,]w[within]N[1/16"]`},
		{`sum(map(marks, it / 2))`, `f[sum]s[(]f[map]s[(]n[marks]s[,]w[it]s[/]N[2]s[)]s[)]`},
		{`hopper_miter(4, 16°).cross_cut`, `f[hopper_miter]s[(]N[4]s[,]N[16°]s[)]s[.]d[cross_cut]`},
		{`beam as of entry 3`, `n[beam]a[as of entry 3]`},
		{`wood == "white oak" and yes`, `n[wood]s[==]Q["white oak"]w[and]w[yes]`},
		{`revise offsets.chine_half.st_5 = 1-10-5  # off the loft`, `w[revise]n[offsets.chine_half.st_5]s[=]N[1-10-5]C[# off the loft]`},
		{`check (a) < b`, `w[check]s[(]n[a]s[)]s[<]n[b]`},
		{`2 frobs + beam`, `s[+]n[beam]`},
		{``, ``},
		{`   # a note alone`, `C[# a note alone]`},
		{"x = é$3", "n[x]s[=]n[é]"},
	} {
		if got := outline(c[0]); got != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
	if got := Tokens(strings.Repeat("1 + ", MaxSource)); got != nil {
		t.Errorf("a text over the limit has %d tokens", len(got))
	}
}

// TestTokensNeverStop reads damaged statements: each ends, in order, inside the text.
func TestTokensNeverStop(t *testing.T) {
	const whole = `part thwart: 2 of 3/4" by 7" by inside - 1/8" in "white oak", heel = 5° 30', within 1/16"  # 12 €`
	for i := range whole {
		for _, src := range []string{whole[:i], whole[i:], whole[:i] + "\xff" + whole[i:], whole[:i] + `"` + whole[i:], whole[:i] + "(" + whole[i:]} {
			at := 0
			for _, k := range Tokens(src) {
				if k.Span.Start < at || k.Span.End <= k.Span.Start || k.Span.End > len(src) {
					t.Fatalf("%q: token %v after %d", src, k, at)
				}
				at = k.Span.End
			}
		}
	}
}

func TestCallAt(t *testing.T) {
	for _, c := range []struct {
		src  string // | is the cursor
		name string
		arg  int
	}{
		{`frame_spacing(|`, "frame_spacing", 0},
		{`frame_spacing(158.5 in, |9)`, "frame_spacing", 1},
		{`frame_spacing(hypotenuse(3 in, |4 in), 9)`, "hypotenuse", 1},
		{`frame_spacing(hypotenuse(3 in, 4 in), |9)`, "frame_spacing", 1},
		{`sum([1 in, 2 in, |3 in])`, "sum", 0},
		{`beam + |2 in`, "", 0},
		{`frame_spacing(1 in, 2)|`, "", 0},
		{`(beam, |`, "", 0},
	} {
		at := strings.IndexByte(c.src, '|')
		name, arg, ok := CallAt(strings.Replace(c.src, "|", "", 1), at)
		if name != c.name || arg != c.arg || ok != (c.name != "") {
			t.Errorf("%s: %q %d %v", c.src, name, arg, ok)
		}
	}
}

func TestMentions(t *testing.T) {
	for _, c := range [][2]string{
		{`part thwart: 2 of 3/4" by 7" by inside in larch, heel = heel_bevel, within slack`, "=thwart inside heel_bevel slack"},
		{`found beam = beam_port + beam_port`, "=beam beam_port beam_port"},
		{`made thwart: 2`, "thwart"},
		{`made log to chine_bevel within 1/2°`, "log chine_bevel"},
		{`work 3.5 h on framing`, ""},
		{`check then(beam) < drawn(beam)`, "beam beam"},
		{`map(marks, it + x)`, "marks x"},
		{`made made to a`, "made a"},
	} {
		s, err := Parse(c[0])
		if err != nil {
			t.Errorf("%s: %v", c[0], err)
			continue
		}
		var got []string
		for _, m := range Mentions(c[0], s) {
			p := m.Path
			if m.Gives {
				p = "=" + p
			}
			got = append(got, p)
		}
		if g := strings.Join(got, " "); g != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], g, c[1])
		}
	}
	if m := Mentions(`beam + + x`, nil); len(m) != 2 {
		t.Errorf("of what cannot be read: %v", m)
	}
}

func TestUnclosed(t *testing.T) {
	for src, want := range map[string]bool{"sum([1 in,": true, "sum([1 in, 2 in])": false, "a + b": false, `x = "("`: false, "x = 3 # (": false, "a)": false} {
		if got := Unclosed(src); got != want {
			t.Errorf("%s: %v", src, got)
		}
	}
}

func TestScratchHasIt(t *testing.T) {
	s, err := ParseScratch("it * 2 + map([1], it).x + it.length")
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, n := range s.Expr.Needs {
		paths = append(paths, n.Path)
	}
	if got := strings.Join(paths, " "); got != "it it.length" {
		t.Errorf("needs %s", got)
	}
	if _, err := Parse("it * 2"); err == nil || err.Code != "syntax" {
		t.Errorf("in a journal: %v", err)
	}
}
