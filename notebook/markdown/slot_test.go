package markdown

import (
	"bytes"
	"strings"
	"testing"
)

// slotsOf returns the expressions of all slots of a file.
func slotsOf(src string) []string {
	var found []string
	for _, s := range Parse([]byte(src)).Sections {
		for _, x := range s.Slots {
			found = append(found, x.Text)
		}
	}
	return found
}

func TestSlotsAreFound(t *testing.T) {
	for name, c := range map[string]struct{ src, want string }{
		"paragraph":                    {"she is {beam} wide, {beam to mm}", "beam;beam to mm"},
		"touching":                     {"{a}{b}x{c}.", "a;b;c"},
		"first signs":                  {"{a} {Z} {_a} {9} {(a)} {=a} {-a} {é} {½ in} {′}", "a;Z;_a;9;(a);=a;-a;é;½ in;′"},
		"signs inside":                 {"{f(a, [1, 2]) * 2' 6\" < \"white oak\" ? -1 : ~2}", `f(a, [1, 2]) * 2' 6" < "white oak" ? -1 : ~2`},
		"first } closes":               {"{a{b}c}", "a{b"},
		"heading":                      {"# On {a}\n\nb {c}\n---\n", "a;c"},
		"emphasis":                     {"*{a}* **{b}** ~~{c}~~ *x{d*e}*", "a;b;c;d*e"},
		"link text":                    {"[see {a}](b) [{c}][r] [{d}]\n\n[r]: u", "a;c;d"},
		"alt text":                     {"![view of {a}](b) ![{c}][r]\n\n[r]: u", "a;c"},
		"caption":                      {"![a](b \"at {c}, then {d}\")", "c;d"},
		"caption in brackets":          {"![a](b (at {c}))", "c"},
		"caption on two lines":         {"![a](b 'at {c}\nand {d}')", "c;d"},
		"title of a picture in a line": {"x ![a](b \"at {c}\")", "c"},
		"table":                        {"| {a} | b |\n|--|--|\n| {c} | x {d} y |", "a;c;d"},
		"data table":                   {"| t: | b |\n|--|--|\n| c | {d} |", "d"},
		"footnote":                     {"x[^1]\n\n[^1]: at {a}\n\n    then {b}", "a;b"},
		"list and quote":               {"- {a}\n  1. {b}\n\n> {c}\n> - {d}", "a;b;c;d"},
		"task":                         {"- [x] {a}", "a"},
		"definition":                   {"{a}\n: {b}", "a;b"},
		"lazy line":                    {"> {a}\n{b}", "a;b"},
		"between tags":                 {"<b>{a}</b>", "a"},
		"within details":               {"<details>\n\n{a}\n\n</details>", "a"},
		"hard break":                   {"{a}  \n{b}\\\n{c}", "a;b;c"},
		"entity beside":                {"&lt;{a}&gt;", "a"},
		"tab before":                   {"-\t{a}\n\n\t{b}", "a;b"},
		"dashes":                       {"{a--b} -- {c...}", "a--b;c..."},
		"CRLF":                         {"{a}\r\n{b}\r\n", "a;b"},
		"after broken bytes":           {"\xff{a\xff}\xc3", "a\xff"},
		"after NUL":                    {"\x00{a\x00}", "a\x00"},
		"backslash before backslash":   {`\\{a}`, "a"},
	} {
		if got := strings.Join(slotsOf(c.src), ";"); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

func TestSlotsStayText(t *testing.T) {
	for name, src := range map[string]string{
		"empty":           "{}",
		"space first":     "{ a}",
		"two braces":      "{{a b",
		"attribute":       "# a {#id} {.c} {% b %}",
		"sign first":      "{*a} {+a} {'a'} {\"a\"} {[a]} {!a} {/a} {$a} {&a} {<a} {\\a}",
		"open":            "{a",
		"two lines":       "{a\nb}",
		"two lines, CRLF": "{a\r\nb}",
		"bar":             "{a|b}",
		"escaped":         `\{a}`,
		"escaped thrice":  `\\\{a}`,
		"code span":       "`{a}` ``{`b`}``",
		"code":            "    {a}",
		"fence":           "```\n{a}\n```",
		"calc fence":      "```calc\n{a}\n```",
		"info":            "```{a}\n```",
		"address":         "[a](b{c}) [a](<b {c}>) ![a](b{c}) <http://a/{b}>",
		"title of a link": "[a](b \"{c}\")",
		"reference":       "[a]\n\n[a]: b{c} '{d}'",
		"tag":             "<b title=\"{a}\">x</b>",
		"HTML":            "<div>\n{a}\n</div>",
		"comment":         "<!-- {a} -->\n\nx <!-- {b} --> y",
		"front matter":    "---\ntitle: {a}\n---\n",
		"bar of a table":  "| {a | b} |\n|--|--|\n",
		"escaped bar":     "| {a \\| b} |\n|--|\n",
		"too long":        "{" + strings.Repeat("a", maxSlot+1) + "}",
	} {
		if got := slotsOf(src); len(got) > 0 {
			t.Errorf("%s: %q in %q", name, got, src)
		}
	}
	if got := slotsOf("{" + strings.Repeat("a", maxSlot) + "}"); len(got) != 1 {
		t.Error("the longest slot is not found")
	}
}

func TestSlotPlaces(t *testing.T) {
	src := "# {a} [{b}](u)\n\n![{c}](u \"{d}\")\n\nx ![{e}](u \"{f}\") {g}\n"
	want := map[string]string{"a": "heading", "b": "heading link", "c": "alt", "d": "", "e": "alt", "f": "alt", "g": ""}
	for _, s := range Parse([]byte(src)).Sections[0].Slots {
		var places []string
		for place, in := range map[string]bool{"heading": s.InHeading, "link": s.InLink, "alt": s.InAlt} {
			if in {
				places = append(places, place)
			}
		}
		if len(places) == 2 && places[0] == "link" {
			places[0], places[1] = places[1], places[0]
		}
		if got := strings.Join(places, " "); got != want[s.Text] {
			t.Errorf("slot %s stands in %q, want %q", s.Text, got, want[s.Text])
		}
	}
}

// shouting gives every slot a value that must be escaped where only text may
// stand.
type shouting struct{ asWritten }

func (shouting) Slot(w *bytes.Buffer, s *Slot) { w.WriteString("<b>" + s.Text + "</b>") }
func (shouting) SlotText(*Slot) string         { return `1' 2" <` }

func TestSlotsAreShown(t *testing.T) {
	for src, want := range map[string]string{
		"a {b} c":               "<p>a <b>b</b> c</p>\n",
		`\{b}`:                  "<p>{b}</p>\n",
		"![a {b}](c \"d {e}\")": "<figure><img src=\"c\" alt=\"a 1' 2&quot; &lt;\" loading=\"lazy\" /><figcaption>d <b>e</b></figcaption></figure>\n",
		"x ![{b}](c \"{e}\")":   "<p>x <img src=\"c\" alt=\"1' 2&quot; &lt;\" title=\"1' 2&quot; &lt;\" loading=\"lazy\" /></p>\n",
		"# Of {b}":              "<h1 id=\"of\">Of <b>b</b></h1>\n",
	} {
		d := Parse([]byte(src))
		if got := strings.Join(d.Render(d.Sections[0], shouting{}, Options{}), ""); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", src, got, want)
		}
	}
	d := Parse([]byte("## 2027-05-02 Beam {b} [now](u)\n\nShe is {b}."))
	if got := d.RenderTitle(d.Sections[0], shouting{}); got != "Beam 1' 2&quot; &lt; now" {
		t.Errorf("title %s", got)
	}
	if got := d.PlainText(d.Sections[0], shouting{}); got != "2027-05-02 Beam 1' 2\" < now\nShe is 1' 2\" <.\n" {
		t.Errorf("plain text %q", got)
	}
}
