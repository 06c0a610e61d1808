package editor

import (
	"encoding/json"
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"

	"scarph/calc"
)

var stylePlain = calc.Style{}

// TestIncrementalSync makes thousands of random edits, one and several at a time, in
// both encodings: the server's text is the client's.
func TestIncrementalSync(t *testing.T) {
	for _, e := range []encoding{utf16, utf8Bytes} {
		r := rand.New(rand.NewSource(3))
		s := New(nil, "test")
		s.encoding = e
		doc := &document{uri: "u", text: newText("")}
		s.docs["u"] = doc
		want := ""
		pieces := []string{"a", "°", "𝛼", "\n", "\r\n", "é", "beam = 3 in\n", "", "```calc\n"}
		for n := range 3000 {
			var changes []contentChange
			for range 1 + r.Intn(3) {
				x := newText(want)
				from, to := boundary(want, r.Intn(len(want)+1)), boundary(want, r.Intn(len(want)+1))
				if to < from {
					from, to = to, from
				}
				if to-from > 40 {
					to = boundary(want, from+40)
				}
				with := pieces[r.Intn(len(pieces))]
				rg := textRange{x.position(from, e), x.position(to, e)}
				at := x.span(rg, e) // a place inside of \r\n is brought to its beginning
				want = want[:at.Start] + with + want[at.End:]
				changes = append(changes, contentChange{Range: &rg, Text: with})
			}
			if n%500 == 499 {
				want = "whole\n"
				changes = append(changes, contentChange{Text: want})
			}
			s.didChange(didChangeParams{TextDocument: versionedID{URI: "u", Version: &n}, ContentChanges: changes})
			if doc.text.src != want || doc.version != n || !doc.dirty {
				t.Fatalf("%s, edit %d: %q is not %q", e, n, doc.text.src, want)
			}
		}
	}
}

// boundary brings an offset to the beginning of its character.
func boundary(s string, i int) int {
	i = min(i, len(s))
	for i > 0 && i < len(s) && s[i]&0xC0 == 0x80 {
		i--
	}
	return i
}

// TestKeystrokesAreGathered sends many edits at once: they are worked out together.
func TestKeystrokesAreGathered(t *testing.T) {
	c := opened(t, everything)
	for i := range 300 {
		old := `4' 1 3/4"`
		if i > 0 {
			old = fmt.Sprintf("%d in", i)
		}
		c.edit("2027-05-02-measured.md", old, fmt.Sprintf("%d in", i+1))
	}
	if got := hintsOf(c, "journal.md"); !strings.Contains(got, `▸ 2' 1 1/8"`) && !strings.Contains(got, `24' 11 1/8"`) {
		t.Errorf("%s", got)
	}
}

// TestUTF16 answers in the encoding that the protocol takes for granted.
func TestUTF16(t *testing.T) {
	c := begin(t, `{}`, map[string]string{"journal.md": "𝛼 {beam} x\n\n```calc\nbeam = 4 in\n```\n"})
	c.open("journal.md")
	var h *hover
	c.ask("textDocument/hover", object{"textDocument": object{"uri": c.uri("journal.md")}, "position": position{0, 5}}, &h)
	if h == nil || h.Range != (textRange{position{0, 4}, position{0, 8}}) {
		t.Errorf("%+v", h)
	}
	c.end()
}

func TestSymbolsAndFolding(t *testing.T) {
	c := opened(t, everything)
	var list []documentSymbol
	c.ask("textDocument/documentSymbol", c.file("journal.md"), &list)
	b, _ := json.Marshal(list)
	for _, want := range []string{`"name":"Wren"`, `"name":"offsets","detail":"data table"`, `"name":"beam","detail":"drawn · `, `"name":"thwart"`, `"name":"check beam \u003c 4' 2\""`, `"detail":"derived · 4' 0 7/8\" ± 1/16\""`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("no %s in %s", want, b)
		}
	}
	for _, x := range list {
		for _, y := range x.Children {
			if less(y.SelectionRange.Start, y.Range.Start) || less(y.Range.End, y.SelectionRange.End) || less(y.Range.Start, x.Range.Start) || less(x.Range.End, y.Range.End) {
				t.Errorf("%s: ranges %+v in %+v", y.Name, y, x.Range)
			}
		}
	}
	var folds []foldingRange
	c.ask("textDocument/foldingRange", c.file("journal.md"), &folds)
	var lines []string
	for _, f := range folds {
		lines = append(lines, fmt.Sprintf("%d-%d", f.StartLine+1, f.EndLine+1))
	}
	if got := strings.Join(lines, " "); got != "1-3 8-14 21-24 16-19" {
		t.Errorf("folds %s", got)
	}
	flat := begin(t, `{"general":{"positionEncodings":["utf-8"]}}`, wren)
	flat.open("journal.md")
	var infos []symbolInformation
	flat.ask("textDocument/documentSymbol", flat.file("journal.md"), &infos)
	if len(infos) < 8 || infos[1].ContainerName != "Wren" || infos[1].Location.URI == "" {
		t.Errorf("flat: %+v", infos)
	}
	flat.end()
}

func less(a, b position) bool {
	return a.Line < b.Line || a.Line == b.Line && a.Character < b.Character
}

func TestSemanticTokens(t *testing.T) {
	c := opened(t, everything)
	var z semanticTokens
	c.ask("textDocument/semanticTokens/full", c.file("journal.md"), &z)
	got := painted(c, "journal.md", z)
	for _, want := range []string{"keyword drawn", "variable+declaration beam", `number 4' 1 1/2"`, "comment # from the plan", "operator *", "function scarf_length", "variable beam", "keyword within", "variable planking"} {
		if !strings.Contains(got, want+"\n") {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	c.edit("2027-05-02-measured.md", "gap = ", "# alone\nrevise gap2 = \"x\"\ngap = ")
	c.ask("textDocument/semanticTokens/range", object{"textDocument": object{"uri": c.uri("2027-05-02-measured.md")}, "range": textRange{position{7, 0}, position{8, 99}}}, &z)
	got = painted(c, "2027-05-02-measured.md", z)
	if !strings.Contains(got, "comment # alone\nkeyword revise\nvariable+modification gap2\noperator =\nstring \"x\"\n") {
		t.Errorf("of a range:\n%s", got)
	}
}

// painted writes coloured pieces, one a line.
func painted(c *client, name string, z semanticTokens) string {
	x := newText(c.texts[name])
	var b strings.Builder
	at := position{}
	for i := 0; i+4 < len(z.Data); i += 5 {
		if z.Data[i] > 0 {
			at = position{at.Line + z.Data[i], z.Data[i+1]}
		} else {
			at.Character += z.Data[i+1]
		}
		from := x.offset(at, utf8Bytes)
		b.WriteString(tokenTypes[z.Data[i+3]])
		for k, m := range tokenModifiers {
			if z.Data[i+4]&(1<<k) != 0 {
				b.WriteString("+" + m)
			}
		}
		b.WriteString(" " + x.src[from:from+z.Data[i+2]] + "\n")
	}
	return b.String()
}

// TestFormattingRequest lays out the blocks of a file, or of a range of it.
func TestFormattingRequest(t *testing.T) {
	c := opened(t, everything)
	c.edit("journal.md", "planking = 7/16\"", "planking=7/16\"")
	c.edit("journal.md", "inside = beam", "inside=beam")
	var edits []textEdit
	c.ask("textDocument/rangeFormatting", object{"textDocument": object{"uri": c.uri("journal.md")}, "range": textRange{position{9, 0}, position{9, 3}}, "options": object{}}, &edits)
	if len(edits) != 1 || edits[0].NewText != "planking = 7/16\"" {
		t.Errorf("%+v", edits)
	}
	c.ask("textDocument/formatting", object{"textDocument": object{"uri": c.uri("journal.md")}, "options": object{"tabSize": 4}}, &edits)
	got := applied(t, c.texts["journal.md"], edits)
	if !strings.Contains(got, "\ninside = beam - 2 * planking\n") || !strings.Contains(got, "4' 1 1/2\"   # from the plan\n") || !strings.Contains(got, "| sheer half     | 1-2-4 |") {
		t.Errorf("%s", got)
	}
}

// TestWriteBackReachesTheEditor writes files that are open with other unsaved edits.
func TestWriteBackReachesTheEditor(t *testing.T) {
	for _, watched := range []bool{false, true} {
		caps := everything
		if !watched {
			caps = strings.Replace(everything, `"dynamicRegistration":true`, `"dynamicRegistration":false`, 1)
		}
		c := begin(t, caps, wren)
		c.open("journal.md")
		var h any
		c.ask("textDocument/hover", c.at("journal.md", "in¦side ="), &h)
		if !watched {
			time.Sleep(100 * time.Millisecond) // until the folder is watched
		}
		c.edit("journal.md", "# Wren", "# Wren, a tender\n\nNew words")
		c.write("journal.md", strings.Replace(wren["journal.md"], "inside - 1/8\"", "inside - 1/4\"", 1))
		if watched {
			c.say("workspace/didChangeWatchedFiles", object{"changes": []object{{"uri": c.uri("journal.md"), "type": 2}}})
		}
		c.waitFor("an edit", func() bool { return len(c.applied) == 1 })
		w := c.applied[0]
		if len(w.DocumentChanges) != 1 || *w.DocumentChanges[0].TextDocument.Version != c.versions["journal.md"] {
			t.Errorf("%+v", w)
		}
		c.apply(w)
		if got := c.texts["journal.md"]; !strings.Contains(got, "New words") || !strings.Contains(got, "inside - 1/4\" in larch") {
			t.Errorf("%s", got)
		}
		c.say("textDocument/didClose", c.file("journal.md"))
		c.end()
	}
}

// TestWriteBackConflict says so when the same lines were edited, and changes nothing.
func TestWriteBackConflict(t *testing.T) {
	c := begin(t, everything, wren)
	c.open("journal.md")
	hintsOf(c, "journal.md")
	c.edit("journal.md", "planking = 7/16\"", "planking = 1/2\"")
	c.write("journal.md", strings.Replace(wren["journal.md"], "planking = 7/16\"", "planking = 3/8\"", 1))
	c.say("workspace/didChangeWatchedFiles", object{"changes": []object{{"uri": c.uri("journal.md")}}})
	c.waitFor("a word about it", func() bool { return len(c.told) == 1 && strings.Contains(c.told[0], "compare before you save") })
	if len(c.applied) != 0 {
		t.Errorf("%+v", c.applied)
	}
	c.end()
}

// TestWriteBackOfTheSameText needs no edit: the editor has read or written it itself.
func TestWriteBackOfTheSameText(t *testing.T) {
	c := begin(t, everything, wren)
	c.open("journal.md")
	hintsOf(c, "journal.md")
	c.edit("journal.md", "planking = 7/16\"", "planking = 1/2\"")
	c.write("journal.md", c.texts["journal.md"])
	c.say("textDocument/didSave", c.file("journal.md"))
	c.say("workspace/didChangeWatchedFiles", object{"changes": []object{{"uri": c.uri("journal.md")}}})
	time.Sleep(30 * time.Millisecond)
	hintsOf(c, "journal.md")
	c.mu.Lock()
	if len(c.applied)+len(c.told) != 0 {
		t.Errorf("%+v %v", c.applied, c.told)
	}
	c.mu.Unlock()
	c.end()
}

// TestWriteBackRetries when the editor's text was newer than the edit.
func TestWriteBackRetries(t *testing.T) {
	c := begin(t, everything, wren)
	c.open("journal.md")
	hintsOf(c, "journal.md")
	c.mu.Lock()
	c.refuse = true
	c.mu.Unlock()
	c.write("journal.md", strings.Replace(wren["journal.md"], "inside - 1/8\"", "inside - 1/4\"", 1))
	c.say("workspace/didChangeWatchedFiles", object{"changes": []object{{"uri": c.uri("journal.md")}}})
	time.Sleep(30 * time.Millisecond)
	c.mu.Lock()
	c.refuse = false
	c.mu.Unlock()
	c.waitFor("the edit, in the end", func() bool { return len(c.applied) > 0 })
	c.edit("journal.md", "inside - 1/8\"", "inside - 1/4\"")
	c.end()
}

// TestMerge checks the three-way merge against edits made at random in separate lines.
func TestMerge(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	merged := 0
	for range 3000 {
		n := 1 + r.Intn(12)
		base := make([]string, n)
		for i := range base {
			base[i] = fmt.Sprintf("line %d\n", i)
		}
		ours, theirs, both := append([]string{}, base...), append([]string{}, base...), append([]string{}, base...)
		for i := 0; i < n; i += 2 { // every second line: edits do not touch
			x := fmt.Sprintf("edit %d\n", r.Intn(100))
			switch r.Intn(4) {
			case 0:
				ours[i], both[i] = x, x
			case 1:
				theirs[i], both[i] = x, x
			case 2:
				if r.Intn(3) == 0 {
					theirs[i], both[i] = "", ""
				}
			}
		}
		a, b, c, want := strings.Join(base, ""), strings.Join(ours, ""), strings.Join(theirs, ""), strings.Join(both, "")
		edits, ok := merge(a, b, c)
		if !ok {
			continue // a line taken out beside one that was edited
		}
		merged++
		got := b
		for i := len(edits) - 1; i >= 0; i-- {
			got = got[:edits[i].at.Start] + edits[i].with + got[edits[i].at.End:]
		}
		if got != want {
			t.Fatalf("base %q\nours %q\ntheirs %q\n got %q\nwant %q", a, b, c, got, want)
		}
	}
	if merged < 1500 {
		t.Errorf("only %d merges", merged)
	}
	long := strings.Repeat("x\n", 5000)
	if _, ok := merge(long, strings.Repeat("y\n", 5000), long); !ok {
		t.Error("a text wholly rewritten, the other unchanged")
	}
	if edits, ok := merge("a\n", "a\n", strings.Repeat("z\n", 3000)); !ok || len(edits) != 1 {
		t.Error("a text wholly rewritten on disk")
	}
}
