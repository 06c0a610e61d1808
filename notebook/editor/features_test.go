package editor

import (
	"fmt"
	"sort"
	"strings"
	"testing"
)

// opened starts a server with the whole of the test journal open.
func opened(t *testing.T, caps string) *client {
	t.Helper()
	c := begin(t, caps, wren)
	for name := range wren {
		c.open(name)
	}
	t.Cleanup(c.end)
	return c
}

func TestHover(t *testing.T) {
	c := opened(t, everything)
	for _, x := range []struct {
		name, piece string
		has         []string
	}{
		{"journal.md", "ins¦ide = beam", []string{"**inside** · derived · 4' 0 7/8\" ± 1/16\" (1241.4 mm)", "inside = beam - 2 * planking\n       = 4' 1 3/4\" ± 1/16\" - 2 * 7/16\"", "± comes from", "from beam, found 2027\\-05\\-02", "Used by thwart"}},
		{"journal.md", "drawn be¦am", []string{"**beam** · found", "- drawn 4' 1 1/2\", Wren, until 2027\\-05\\-02: from the plan", "- **found 4' 1 3/4\" ± 1/16\"**, 2027\\-05\\-02: three readings"}},
		{"journal.md", "She is {be¦am}", []string{"**beam**"}},
		{"journal.md", "scarf_le¦ngth(", []string{"**scarf\\_length(thickness", "Source: ", "> ⚠ **Caution.** A bench figure"}},
		{"journal.md", "sca¦rf =", []string{"**scarf** · derived", "> ⚠ **Caution.** A bench figure"}},
		{"journal.md", "planking = 7/¦16\"", []string{"length · 7/16\" (11.1 mm)"}},
		{"journal.md", "dra¦wn beam", []string{"**drawn** · a reading taken from the plans", "drawn(name)"}},
		{"journal.md", "part th¦wart", []string{"**thwart** · part", "length 4' 0 3/4\""}},
		{"journal.md", "off¦sets.sheer_half.st_2", []string{"**offsets** · table", "Parts: sheer\\_half, chine\\_half, st\\_1, st\\_2"}},
		{"journal.md", "offsets.sheer_h¦alf.st_2", []string{"**offsets.sheer\\_half**"}},
		{"journal.md", "offsets.sheer_half.st¦_2", []string{"2' 0 3/8\""}},
		{"journal.md", "| 1-2¦-4", []string{"**offsets.sheer\\_half.st\\_1** · drawn · 1' 2 1/2\""}},
		{"journal.md", "| sheer ha¦lf", []string{"**offsets.sheer\\_half**"}},
		{"journal.md", "chec¦k beam", []string{"**check** · a condition"}},
		{"journal.md", "beam <¦ 4'", []string{"✓ holds (4' 1 3/4\" ± 1/16\", 4' 2\")"}},
		{"journal.md", "{planking to m¦m}", []string{"11.113 mm"}},
		{"2027-05-02-measured.md", "dra¦wn(beam)", []string{"drawn(name)"}},
		{"2027-05-02-measured.md", "offsets.st¦_2.sheer_half", []string{"offsets.st\\_2"}},
		{"2027-04-18-thwarts.md", "made thw¦art", []string{"**thwart** · part"}},
	} {
		var h *hover
		c.ask("textDocument/hover", c.at(x.name, x.piece), &h)
		if h == nil {
			t.Errorf("%s: nothing", x.piece)
			continue
		}
		for _, has := range x.has {
			if !strings.Contains(strings.ReplaceAll(h.Contents.Value, `\-`, `\-`), has) {
				t.Errorf("%s: no %q in\n%s", x.piece, has, h.Contents.Value)
			}
		}
	}
	for _, piece := range []string{"# W¦ren", "title: Wr¦en", "# from the pl¦an"} {
		var h *hover
		c.ask("textDocument/hover", c.at("journal.md", piece), &h)
		if piece != "# from the pl¦an" && h != nil {
			t.Errorf("%s: %v", piece, h)
		}
	}
}

// TestHoverPlain writes no Markdown for a client that does not show it.
func TestHoverPlain(t *testing.T) {
	c := opened(t, `{"general":{"positionEncodings":["utf-8"]}}`)
	var h *hover
	c.ask("textDocument/hover", c.at("journal.md", "sca¦rf ="), &h)
	if h == nil || h.Contents.Kind != "plaintext" || strings.Contains(h.Contents.Value, "**") || !strings.Contains(h.Contents.Value, "Caution. A bench figure") {
		t.Errorf("%+v", h)
	}
}

func hintsOf(c *client, name string) string {
	var list []inlayHint
	c.ask("textDocument/inlayHint", object{"textDocument": object{"uri": c.uri(name)}, "range": textRange{End: position{Line: 1000}}}, &list)
	x := newText(c.texts[name])
	var out []string
	for _, h := range list {
		at := x.offset(h.Position, utf8Bytes)
		line := x.src[:at]
		out = append(out, line[strings.LastIndexByte(line, '\n')+1:]+" "+h.Label)
	}
	return strings.Join(out, "\n")
}

func TestInlayHints(t *testing.T) {
	c := opened(t, everything)
	got := hintsOf(c, "journal.md")
	for _, want := range []string{
		`drawn beam = 4' 1 1/2" ▸ 4' 1 1/2", now 4' 1 3/4" ± 1/16" (found 2027-05-02)`,
		`planking = 7/16" ▸ 11.1 mm`,
		`inside = beam - 2 * planking ▸ 4' 0 7/8" ± 1/16"`,
		`check beam < 4' 2" ▸ ✓ holds (4' 1 3/4" ± 1/16", 4' 2")`,
		`She is {beam} ▸ 4' 1 3/4" ± 1/16"`,
		`scarf = scarf_length(planking, 8) ▸ 3 1/2" ⚠`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in\n%s", want, got)
		}
	}
	if got := hintsOf(c, "2027-04-18-thwarts.md"); !strings.Contains(got, "made thwart: 2 ▸ off") {
		t.Errorf("%s", got)
	}
	// a part of the file only
	var list []inlayHint
	c.ask("textDocument/inlayHint", object{"textDocument": object{"uri": c.uri("journal.md")}, "range": textRange{position{9, 0}, position{9, 5}}}, &list)
	if len(list) != 1 {
		t.Errorf("of one line: %v", list)
	}
}

// TestOneChangeReachesAll revises a reading in one file and looks in the others.
func TestOneChangeReachesAll(t *testing.T) {
	c := opened(t, everything)
	c.edit("2027-05-02-measured.md", `4' 1 3/4"`, `4' 3"`)
	if got := hintsOf(c, "journal.md"); !strings.Contains(got, `▸ 4' 2 1/8" ± 1/16"`) {
		t.Errorf("%s", got)
	}
	c.waitFor("the check in the other file", func() bool { return c.problem("journal.md", "check", `check beam < 4' 2"`) })
	c.waitFor("hints asked for again", func() bool { return c.refreshed > 0 })
	c.edit("2027-05-02-measured.md", `4' 3"`, `4' 1 3/4"`)
	c.waitFor("the check holds again", func() bool { return !c.problem("journal.md", "check", "") })
}

func TestDiagnostics(t *testing.T) {
	c := opened(t, everything)
	c.waitFor("the part that is off", func() bool { return c.problem("2027-04-18-thwarts.md", "rework", "made thwart: 2") })
	c.waitFor("the old number in the text", func() bool {
		return c.problem("2027-04-18-thwarts.md", "old-number", `4' 1 1/2" `) || c.problem("2027-04-18-thwarts.md", "old-number", `4' 1 1/2"`)
	})
	c.edit("2027-05-02-measured.md", "gap = ", "planking = ")
	c.waitFor("a second naming", func() bool { return c.problem("2027-05-02-measured.md", "twice", "planking") })
	c.mu.Lock()
	for _, d := range c.problems["2027-05-02-measured.md"] {
		if d.Code == "twice" && (len(d.Related) != 1 || d.Related[0].Location.URI != c.uri("journal.md") || d.Related[0].Location.Range.Start.Line != 9 || d.Severity != severityError) {
			t.Errorf("%+v", d)
		}
	}
	c.mu.Unlock()
	c.edit("2027-05-02-measured.md", "planking = ", "gap = ")
	c.waitFor("it is gone", func() bool { return !c.problem("2027-05-02-measured.md", "twice", "") })
	// what is wrong in one file is found from a change in another
	c.edit("journal.md", "planking = 7/16\"", "plankin = 7/16\"")
	c.waitFor("names nobody bears", func() bool { return c.problem("journal.md", "unknown-name", "planking") })
	c.edit("2027-04-18-thwarts.md", "made thwart: 2", "made thwart: 2\nplankin = 7/16\"")
	c.waitFor("the second of two equal namings", func() bool { return c.problem("2027-04-18-thwarts.md", "twice", "plankin") })
	c.edit("journal.md", "plankin = 7/16\"", "")
	c.waitFor("the other is the first now", func() bool { return !c.problem("2027-04-18-thwarts.md", "twice", "") })
}

// TestFrontMatter places errors of settings.
func TestFrontMatter(t *testing.T) {
	c := opened(t, everything)
	c.edit("journal.md", "title: Wren", "titel: Wren")
	c.waitFor("an unknown setting", func() bool { return c.problem("journal.md", "setting", "titel") })
	var list []codeAction
	p := c.at("journal.md", "ti¦tel")
	c.ask("textDocument/codeAction", object{"textDocument": p["textDocument"], "range": textRange{p["position"].(position), p["position"].(position)}, "context": object{"diagnostics": []int{}}}, &list)
	if len(list) == 0 || list[0].Title != "Write title" {
		t.Errorf("%+v", list)
	}
}

func itemsAt(c *client, name, piece string) []completionItem {
	c.t.Helper()
	var list completionList
	c.ask("textDocument/completion", c.at(name, piece), &list)
	return list.Items
}

func TestCompletion(t *testing.T) {
	c := opened(t, everything)
	c.edit("2027-05-02-measured.md", "gap = ", "gap = ins\nx = 3 m\ny = offsets.sh\nz = \nrev\ngap2 = ")
	for _, x := range []struct{ piece, first, edit string }{
		{"gap = ins¦", "inside", "inside"},
		{"x = 3 m¦", "mm", "mm"},
		{"y = offsets.sh¦", "sheer_half", "sheer_half"},
		{"z = ¦", "", ""},
		{"rev¦", "revise", "revise"},
		{"drawn(be¦am)", "beam", "beam"},
	} {
		list := itemsAt(c, "2027-05-02-measured.md", x.piece)
		if len(list) == 0 || x.first != "" && (list[0].Label != x.first || list[0].TextEdit.NewText != x.edit) {
			t.Errorf("%s: %+v", x.piece, list)
		}
	}
	c.edit("2027-04-18-thwarts.md", "before.", "before; {insi and {frame_spa")
	if list := itemsAt(c, "2027-04-18-thwarts.md", "{insi¦"); len(list) != 1 || list[0].Label != "inside" || !strings.HasPrefix(list[0].Detail, "4' 0 7/8\"") {
		t.Errorf("in an open slot: %+v", list)
	}
	list := itemsAt(c, "2027-04-18-thwarts.md", "{frame_spa¦")
	if len(list) != 1 || list[0].TextEdit.NewText != "frame_spacing(${1})$0" || list[0].InsertTextFormat != itemSnippet {
		t.Fatalf("a function: %+v", list)
	}
	var full completionItem
	c.ask("completionItem/resolve", list[0], &full)
	if full.Documentation == nil || !strings.Contains(full.Documentation.Value, "Source:") {
		t.Errorf("resolved: %+v", full)
	}
	if list := itemsAt(c, "2027-04-18-thwarts.md", "Both thw¦arts"); len(list) != 0 {
		t.Errorf("in running text: %v", list)
	}
	for _, x := range itemsAt(c, "2027-05-02-measured.md", "She is {¦beam}") {
		if x.Kind == itemKeyword {
			t.Errorf("a statement in a slot: %+v", x)
		}
	}
}

func TestSignatureHelp(t *testing.T) {
	c := opened(t, everything)
	c.edit("2027-05-02-measured.md", "gap = ", "s = frame_spacing(158.5 in, 9)\nt = solve(it * 2, 3 in, 0 in, 9 in)\nu = nothing_such(1)\ngap = ")
	for _, x := range []struct {
		piece, label string
		active       int
	}{
		{"frame_spacing(¦158.5", "frame_spacing(", 0},
		{"158.5 in, ¦9", "frame_spacing(", 1},
		{"solve(it * 2, 3 in, ¦0", "solve(", 2},
	} {
		var h *signatureHelp
		c.ask("textDocument/signatureHelp", c.at("2027-05-02-measured.md", x.piece), &h)
		if h == nil || len(h.Signatures) != 1 || !strings.HasPrefix(h.Signatures[0].Label, x.label) || h.ActiveParameter != x.active || len(h.Signatures[0].Parameters) < 2 {
			t.Errorf("%s: %+v", x.piece, h)
			continue
		}
		p := h.Signatures[0].Parameters[1].Label.([]any)
		if w := h.Signatures[0].Label[int(p[0].(float64)):int(p[1].(float64))]; strings.ContainsAny(w, " ,()") {
			t.Errorf("%s: the second parameter is %q", x.piece, w)
		}
	}
	for _, piece := range []string{"u = nothing_such(¦1", "gap ¦= ", "Sh¦e is"} {
		var h *signatureHelp
		c.ask("textDocument/signatureHelp", c.at("2027-05-02-measured.md", piece), &h)
		if h != nil {
			t.Errorf("%s: %+v", piece, h)
		}
	}
}

// spots writes locations as file:line: text.
func spots(c *client, list []location) string {
	var out []string
	for _, l := range list {
		file, _ := pathOf(l.URI)
		name := file[len(c.dir)+1:]
		x := newText(c.texts[name])
		s := x.span(l.Range, utf8Bytes)
		out = append(out, fmt.Sprintf("%s:%d:%s", strings.TrimSuffix(name, ".md"), l.Range.Start.Line+1, x.src[s.Start:s.End]))
	}
	sort.Strings(out)
	return strings.Join(out, " ")
}

func TestPlacesOfNames(t *testing.T) {
	c := opened(t, everything)
	for _, x := range []struct{ method, name, piece, want string }{
		{"definition", "journal.md", "She is {be¦am}", "2027-05-02-measured:7:beam"},
		{"definition", "2027-05-02-measured.md", "found be¦am", "journal:9:beam"},
		{"declaration", "2027-05-02-measured.md", "found be¦am", "journal:9:beam"},
		{"implementation", "journal.md", "She is {be¦am}", "2027-05-02-measured:7:beam journal:9:beam"},
		{"definition", "2027-04-18-thwarts.md", "made thw¦art", "journal:12:thwart"},
		{"definition", "2027-05-02-measured.md", "offsets.st_2.sheer_h¦alf", "journal:18:2-0-3"},
		{"definition", "journal.md", "= off¦sets.sheer_half.st_2", "journal:16:drawn offsets:"},
		{"definition", "journal.md", "= offsets.sheer_h¦alf.st_2", "journal:18:sheer half"},
		{"definition", "journal.md", "scarf_le¦ngth(", ""},
		{"definition", "journal.md", "# W¦ren", ""},
	} {
		var list []location
		c.ask("textDocument/"+x.method, c.at(x.name, x.piece), &list)
		if got := spots(c, list); got != x.want {
			t.Errorf("%s %s\n got %s\nwant %s", x.method, x.piece, got, x.want)
		}
	}
	for _, x := range []struct {
		name, piece string
		naming      bool
		want        string
	}{
		{"journal.md", "plan¦king = 7", true, "journal:10:planking journal:11:planking journal:19:planking journal:23:planking journal:6:planking"},
		{"journal.md", "plan¦king = 7", false, "journal:11:planking journal:19:planking journal:23:planking journal:6:planking"},
		{"journal.md", "part th¦wart", false, "2027-04-18-thwarts:7:thwart"},
		{"2027-05-02-measured.md", "offsets.st¦_2", true, "2027-05-02-measured:8:st_2 journal:16:st_2 journal:22:st_2"},
		{"2027-05-02-measured.md", "off¦sets.st_2", true, "2027-05-02-measured:8:offsets journal:16:drawn offsets: journal:22:offsets journal:22:offsets"},
		{"journal.md", "| 2-0¦-3", false, "2027-05-02-measured:8:offsets.st_2.sheer_half journal:22:offsets.sheer_half.st_2"},
	} {
		p := c.at(x.name, x.piece)
		p["context"] = object{"includeDeclaration": x.naming}
		var list []location
		c.ask("textDocument/references", p, &list)
		if got := spots(c, list); got != x.want {
			t.Errorf("references of %s\n got %s\nwant %s", x.piece, got, x.want)
		}
	}
	var marks []highlight
	c.ask("textDocument/documentHighlight", c.at("journal.md", "plan¦king = 7"), &marks)
	if len(marks) != 5 {
		t.Errorf("highlights %v", marks)
	}
	var found []symbolInformation
	c.ask("workspace/symbol", object{"query": "INS"}, &found)
	if len(found) != 1 || found[0].Name != "inside" {
		t.Errorf("symbols of the workspace: %+v", found)
	}
}
