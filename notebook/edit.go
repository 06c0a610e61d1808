package notebook

import (
	"bytes"
	"context"
	"fmt"
	"sort"
	"strings"
	"time"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
)

// Edit changes bytes of one file: those under Span, which are Old, become New. A
// file that does not exist has an empty Old at 0.
type Edit struct {
	Path string
	Span calc.Span
	Old  string
	New  string
	// Create makes the file; it must not exist.
	Create bool
}

// undoStep takes back what one Apply wrote.
type undoStep struct {
	label         string
	path          string
	before, after []byte // before is nil for a file that was made
	// begun is when a step of writing began; saves soon after join it.
	begun time.Time
}

// maxUndo is how many changes can be taken back.
const maxUndo = 200

// Apply writes edits of one file, all or none, and reads the journal again. All
// other bytes stay as they are. A file that is not what the edit was thought out
// on gives a *ConflictError.
func (n *Notebook) Apply(ctx context.Context, label string, edits ...Edit) (Change, error) {
	if len(edits) == 0 {
		return Change{}, nil
	}
	path := edits[0].Path
	var before []byte
	if !edits[0].Create {
		f, ok := n.File(path)
		if !ok {
			return Change{}, &ConflictError{Path: path}
		}
		before = f.Src
	}
	after, err := patch(before, edits)
	if err != nil {
		return Change{}, err
	}
	return n.SaveText(ctx, label, path, before, after)
}

// patch applies edits to a text, from the end to the beginning.
func patch(text []byte, edits []Edit) ([]byte, error) {
	list := append([]Edit(nil), edits...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Span.Start > list[j].Span.Start })
	out := append([]byte(nil), text...)
	end := len(out)
	for _, e := range list {
		if e.Path != edits[0].Path {
			return nil, fmt.Errorf("one change may not touch two files")
		}
		if e.Span.Start < 0 || e.Span.End > end || e.Span.Start > e.Span.End || string(text[e.Span.Start:e.Span.End]) != e.Old {
			return nil, &ConflictError{Path: e.Path, Current: text}
		}
		out = append(out[:e.Span.Start:e.Span.Start], append([]byte(e.New), out[e.Span.End:]...)...)
		end = e.Span.Start
	}
	return out, nil
}

// SaveText makes a file hold a text, if it holds before now (nil: if it does not
// exist), and reads the journal again. The change can be taken back by Undo.
func (n *Notebook) SaveText(ctx context.Context, label, path string, before, after []byte) (Change, error) {
	n.hand.one.Lock()
	defer n.hand.one.Unlock()
	if err := n.save(path, before, after); err != nil {
		return Change{}, err
	}
	n.hand.note(undoStep{label: label, path: path, before: before, after: after})
	return n.written(ctx, path)
}

// written reads a file again that has just been written. That work is done to its end
// even if who asked for the change has gone: the file is changed all the same.
func (n *Notebook) written(ctx context.Context, path string) (Change, error) {
	return n.RefreshFiles(context.WithoutCancel(ctx), path)
}

// note remembers a change, to be taken back.
func (h *hand) note(step undoStep) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.undo = append(h.undo, step)
	if len(h.undo) > maxUndo {
		h.undo = h.undo[1:]
	}
}

// last is the change that would be taken back, and whether there is one.
func (h *hand) last() (undoStep, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.undo) == 0 {
		return undoStep{}, false
	}
	return h.undo[len(h.undo)-1], true
}

// forget takes the last change off, which has been taken back.
func (h *hand) forget() {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.undo = h.undo[:len(h.undo)-1]
}

// UndoLabel says what Undo would take back, "" for nothing.
func (n *Notebook) UndoLabel() string {
	step, _ := n.hand.last()
	return step.label
}

// Undo takes back the last change that was written through this notebook, if the
// file still is what that change made it.
func (n *Notebook) Undo(ctx context.Context) (Change, error) {
	n.hand.one.Lock()
	defer n.hand.one.Unlock()
	step, ok := n.hand.last()
	if !ok {
		return Change{}, fmt.Errorf("there is nothing to take back")
	}
	if step.before == nil {
		if err := n.remove(step.path, step.after); err != nil {
			return Change{}, err
		}
	} else if err := n.save(step.path, step.after, step.before); err != nil {
		return Change{}, err
	}
	n.hand.forget()
	return n.written(ctx, step.path)
}

// Correction is the edit that gives a reading another number where it stands: a
// correction of what was written.
func (n *Notebook) Correction(ref kernel.LineRef, value string) (Edit, *calc.Error) {
	e, ok := n.Entry(ref.Entry)
	if !ok || ref.Index < 0 || ref.Index >= len(e.lines) {
		return Edit{}, calc.Errorf(calc.CodeFile, "the reading is no longer there")
	}
	line, at := e.lines[ref.Index], e.spans[ref.Index]
	value = strings.TrimSpace(value)
	if strings.ContainsAny(value, "\r\n") {
		return Edit{}, calc.Errorf(calc.CodeSyntax, "a value stands on one line")
	}
	if line.Cell {
		check := func() *calc.Error { _, err := cellLiteral(value, ""); return err }
		if at.Start > 0 && e.File.Src[at.Start-1] == '{' { // what stands between the braces of a slot
			check = func() *calc.Error { _, err := lang.ParseSlot(value); return err }
		}
		if err := check(); err != nil {
			return Edit{}, err
		}
		return Edit{Path: e.File.Path, Span: at, Old: string(e.File.Src[at.Start:at.End]), New: value}, nil
	}
	if line.Stmt == nil || line.Stmt.Expr == nil || !line.Stmt.Kind.IsReading() {
		return Edit{}, calc.Errorf(calc.CodeSyntax, "this line is no reading")
	}
	span := line.Stmt.Expr.Span.Shift(at.Start)
	old := string(e.File.Src[span.Start:span.End])
	text := line.Text[:line.Stmt.Expr.Span.Start] + value + line.Text[line.Stmt.Expr.Span.End:]
	st, err := lang.Parse(text)
	if err != nil {
		err.Span = calc.Span{}
		return Edit{}, err
	}
	if st == nil || st.Kind != line.Stmt.Kind || st.Name != line.Stmt.Name || st.Note != line.Stmt.Note {
		return Edit{}, calc.Errorf(calc.CodeSyntax, "%s is no value", value).At(calc.Span{Start: 0, End: len(value)})
	}
	return Edit{Path: e.File.Path, Span: span, Old: old, New: value}, nil
}

// NewReading is the edit that writes a new reading of a name into the entry of a
// day, which is made when there is none. Kind is drawn, found, built, guess or revise.
func (n *Notebook) NewReading(day, kind, name, value, note string) (Edit, *calc.Error) {
	line := kind + " " + name + " = " + strings.TrimSpace(value)
	return n.NewStatement(day, line, note)
}

// NewStatement is the edit that writes a statement into the entry of a day: into its
// last calc block, or a new one at its end.
func (n *Notebook) NewStatement(day, line, note string) (Edit, *calc.Error) {
	if strings.ContainsAny(line+note, "\r\n") {
		return Edit{}, calc.Errorf(calc.CodeSyntax, "a statement stands on one line")
	}
	st, err := lang.Parse(line)
	if err != nil {
		return Edit{}, err
	}
	if st == nil || st.Note != "" {
		return Edit{}, calc.Errorf(calc.CodeSyntax, "%s is no statement", strings.TrimSpace(line))
	}
	if note = strings.TrimSpace(note); note != "" {
		line += "   # " + note
	}
	e := n.entryOf(day)
	if e == nil {
		return n.newEntry(day, "", "```calc\n"+line+"\n```\n"), nil
	}
	eol := lineEnd(e.File.Src)
	if k := len(e.Section.Blocks); k > 0 {
		b := e.Section.Blocks[k-1]
		if at, indent, ok := endOfBlock(e.File.Src, b.Span); ok {
			return Edit{Path: e.File.Path, Span: calc.Span{Start: at, End: at}, New: indent + line + eol}, nil
		}
	}
	return e.appendText("```calc" + eol + line + eol + "```" + eol), nil
}

// entryOf is the entry of a day that is written to: the last that is no title page.
func (n *Notebook) entryOf(day string) *Entry {
	list := n.Entries()
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].Date == day && !list[i].Front {
			return list[i]
		}
	}
	return nil
}

// NewEntry is the edit that makes an entry for a day.
func (n *Notebook) NewEntry(day, title string) Edit { return n.newEntry(day, title, "") }

func (n *Notebook) newEntry(day, title, body string) Edit {
	if title == "" {
		title = Day(day)
	}
	if n.Single {
		list := n.Entries()
		e := list[len(list)-1]
		edit := e.appendText("")
		eol := lineEnd(e.File.Src)
		head := "## " + day
		if title != Day(day) {
			head += " " + title
		}
		end := len(e.File.Src)
		edit.Span = calc.Span{Start: end, End: end}
		edit.New = gap(e.File.Src, end, eol) + head + eol + eol + strings.ReplaceAll(body, "\n", eol)
		return edit
	}
	name := day + slugOf(title, day) + ".md"
	for k := 2; ; k++ {
		if _, taken := n.File(name); !taken {
			break
		}
		name = fmt.Sprintf("%s%s-%d.md", day, slugOf(title, day), k)
	}
	return Edit{Path: name, Create: true, New: "---\ntitle: " + quoteYAML(title) + "\ndate: " + day + "\n---\n" + body}
}

// slugOf makes a file name's part of a title.
func slugOf(title, day string) string {
	if title == Day(day) {
		return ""
	}
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			b.WriteRune(r)
		} else if s := b.String(); s != "" && !strings.HasSuffix(s, "-") {
			b.WriteByte('-')
		}
		if b.Len() > 40 {
			break
		}
	}
	s := strings.Trim(b.String(), "-")
	if s == "" {
		return ""
	}
	return "-" + s
}

func quoteYAML(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ", "\r", " ").Replace(s) + `"`
}

// appendText is the edit that adds a text at the end of an entry.
func (e *Entry) appendText(text string) Edit {
	src := e.File.Src
	at := e.Section.Span.End
	for at > e.Section.Span.Start && (src[at-1] == '\n' || src[at-1] == '\r' || src[at-1] == ' ') {
		at--
	}
	rest := src[at:e.Section.Span.End]
	eol := lineEnd(src)
	add := eol + eol + strings.TrimSuffix(text, eol)
	if len(rest) == 0 {
		add += eol
	}
	return Edit{Path: e.File.Path, Span: calc.Span{Start: at, End: at}, New: add}
}

// gap is what stands between a text's end and a new paragraph.
func gap(src []byte, at int, eol string) string {
	switch {
	case at == 0 || bytes.HasSuffix(src[:at], []byte(eol+eol)):
		return ""
	case bytes.HasSuffix(src[:at], []byte("\n")):
		return eol
	}
	return eol + eol
}

// lineEnd is the line end that a file uses.
func lineEnd(src []byte) string {
	if i := bytes.IndexByte(src, '\n'); i > 0 && src[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// endOfBlock is where the closing line of a fence begins, with the indent of its
// opening line; false for a fence that is not closed or stands inside a quote or list.
func endOfBlock(src []byte, span calc.Span) (int, string, bool) {
	text := src[span.Start:span.End]
	i := bytes.LastIndexByte(bytes.TrimRight(text, "\r\n"), '\n')
	if i < 0 {
		return 0, "", false
	}
	last := strings.TrimSpace(string(text[i+1:]))
	if !strings.HasPrefix(last, "```") && !strings.HasPrefix(last, "~~~") {
		return 0, "", false
	}
	start := bytes.LastIndexByte(src[:span.Start], '\n') + 1
	indent := string(src[start:span.Start])
	if strings.TrimSpace(indent) != "" {
		return 0, "", false
	}
	return span.Start + i + 1, indent, true
}
