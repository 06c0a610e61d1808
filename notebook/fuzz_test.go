package notebook

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/kernel"
)

// sayings are the lines of calc blocks in random journals: each %s is a name, so that
// circles, second namings, missing values and weaker readings come of themselves.
var sayings = []string{
	"%s = 3 in", "drawn %s = 4' 1 1/2\"", "found %s = 4' 1 3/4\" ± 1/16\"", "guess %s = 1 m", "built %s = 30 mm", "revise %s = 2 ft", "%s = 12",
	"%s = %s + 1 in", "%s = %s / 2", "%s = then(%s) - drawn(%s)", "%s = sum([%s, %s])", "%s = map(1..4, it * %s)", "%s = %s as of entry 1", "%s.port = %s",
	"part %s: 2 of 3/4\" by 7\" by %s in larch, within 1/16\"", "made %s: 1", "settle %s: trimmed", "check %s < %s", "work 3.5 h on %s", "spend 4 USD on %s", "%s to mm", "%s * %s", "why(%s)", "1/0", "(", "",
}

// accounts are the lines of blocks that keep the ledger and what was made, and sum them up.
var accounts = []string{
	"work 2 h on hull", "work %s on hull", "spend 4 USD on %s", "work sum(worked(\"%s\")) on hull", "%s = sum(worked())", "%s = sum(worked(\"hull\"))", "%s = spent(\"%s\")", "worked()", "%s = 3 h",
	"part %s: 4 of 1\" by 2\" by 30 in in oak", "made %s: 1", "made %s: 3", "made %s to length = 30 in", "settle %s: 1 trimmed to length = 29 in", "settle %s: replaced", "settle %s: 2 left", "revise %s = 31 in", "part %s: 2 of 1\" by 2\" by %s in oak",
}

var sessionFiles = []string{"journal.md", "2027-01-02.md", "2027-02-03-b.md", "sub/2027-01-09.md"}

// script writes files as its bytes say: each step takes a file away, empties it, or adds
// a piece of Markdown or a block of sayings to it.
type script struct {
	steps []byte
	files map[string][]byte
}

func (s *script) byte() int {
	if len(s.steps) == 0 {
		return 0
	}
	b := s.steps[0]
	s.steps = s.steps[1:]
	return int(b)
}

func (s *script) name() string { return fmt.Sprintf("v%d", s.byte()%6) }

func (s *script) fill(text string) string {
	for strings.Contains(text, "%s") {
		text = strings.Replace(text, "%s", s.name(), 1)
	}
	return text
}

// step changes one file, and gives its path and what it now holds; nil when it is gone.
func (s *script) step() (string, []byte) {
	path := sessionFiles[s.byte()%len(sessionFiles)]
	old := s.files[path]
	var now []byte
	switch what := s.byte(); {
	case what < 20:
		delete(s.files, path)
		return path, nil
	case what < 40:
		now = []byte{}
	case what < 110:
		now = append(bytes.Clone(old), s.fill(pieces[s.byte()%len(pieces)])...)
	default:
		now = append(bytes.Clone(old), "\n\n```calc\n"...)
		lines := sayings
		if what < 140 {
			lines = accounts
		}
		for range 1 + what%4 {
			now = append(now, s.fill(lines[s.byte()%len(lines)])+"\n"...)
		}
		now = append(now, "```\n"...)
	}
	if now == nil {
		now = []byte{}
	}
	s.files[path] = now
	return path, now
}

// FuzzSession changes a journal file by file, as a writer does, and asks that it is at
// the end what it is when the same files are opened at once: every line's result, every
// problem, every page.
func FuzzSession(f *testing.F) {
	f.Add([]byte("\x00\xf0\x00\x00\x01\x00\x01\x00\xf1\x05\x00\x07\x00\x02\xfa\x00\x00"))
	f.Add([]byte(strings.Repeat("\x01\xf0\x07\x01\x02\x02\xf0\x07\x02\x01", 3)))
	f.Add([]byte(strings.Repeat("\x00\xf3\x02\x01\x0e\x02\x01\x0f\x02\x10\x02\x03\x30\x15", 4)))
	f.Add([]byte(strings.Repeat("\x00\x5a\x17\x01\x01\xff\x05\x01\x0d\x03\x01\x02\x10\x00", 4)))
	f.Add([]byte("\x00\xf1\x16\x00\x09\x00\x00\x00\x00\x32\x06\x00\x01\x32\x00"))                         // a circle through its own past
	f.Add([]byte("\xdd\xf0\xa5\xcc\xf0'?("))                                                              // and an entry after it
	f.Add([]byte("\xf0u\xd7\xe3\xf0\xf3\xf0#\x9a\xad\x9c"))                                               // a circle of two, one of them through the past
	f.Add([]byte("\x85\xaf\xaapC\xf0\xf0\xf0\xf0t\u0660\xcb\x16"))                                        // a circle as of an entry, and one before it
	f.Add([]byte("\xf0\xf0\xf8\x11\xf0\xaf_\x96\xf0y\xf0\xf0"))                                           // a hint that speaks of a number which changes
	f.Add([]byte("\x00\x73\x11\x01\x02\x0a\x01\x0b\x01\x0d\x01\x01\x73\x10\x02\x0e\x01\x0b\x01\x0f\x01")) // made, revised, replaced, made again
	f.Add([]byte("\x00\x73\x00\x04\x01\x05\x02\x03\x03\x01\x73\x01\x08\x08\x04\x02\x06\x00\x07"))         // a ledger that is read and counts itself
	f.Fuzz(func(t *testing.T, steps []byte) {
		if len(steps) > 400 {
			t.Skip()
		}
		n := inMemory(t)
		s := &script{steps: steps, files: map[string][]byte{}}
		for len(s.steps) > 0 {
			path, text := s.step()
			if _, err := n.SetOverlay(context.Background(), path, text); err != nil {
				t.Fatal(err)
			}
			for _, p := range n.Problems(kernel.Now) {
				if p.Message == "" || p.Line < 1 || p.Column < 1 {
					t.Fatalf("a problem without place or words: %+v", p)
				}
			}
		}
		cold := inMemory(t)
		cold.overlay = s.files
		if _, err := cold.Refresh(context.Background()); err != nil {
			t.Fatal(err)
		}
		if a, b := told(n), told(cold); a != b {
			t.Errorf("%q\nstep by step the journal is\n%s\nopened at once\n%s", s.files, a, b)
		}
	})
}

// inMemory is a journal whose files are all unsaved texts.
func inMemory(t *testing.T) *Notebook {
	t.Helper()
	n := &Notebook{Path: t.TempDir(), files: map[string]*File{}, overlay: map[string][]byte{}, hand: &hand{}, Session: kernel.New(calc.Style{})}
	if _, err := n.Refresh(context.Background()); err != nil {
		t.Fatal(err)
	}
	return n
}

// told writes all that a journal tells.
func told(n *Notebook) string {
	var b strings.Builder
	for _, asOf := range []int{kernel.Now, 0} {
		for _, e := range n.Entries() {
			fmt.Fprintf(&b, "%d %s %q %s\n", asOf, e.Key, e.Title, e.Date)
			b.WriteString(strings.Join(n.RenderEntry(e, Page{AsOf: asOf}), ""))
		}
		for _, p := range n.Problems(asOf) {
			fmt.Fprintf(&b, "%s:%d:%d %s %s %s\n", p.File, p.Line, p.Column, p.Code, p.Message, p.Hint)
		}
	}
	for _, m := range n.Session.Rework(kernel.Now) {
		fmt.Fprintf(&b, "rework %+v\n", m.Ref)
	}
	return b.String()
}

// FuzzFront reads anything as the front matter of the title page: what it says of a fault
// lies in the file, and settings that are taken can be used.
func FuzzFront(f *testing.F) {
	for _, s := range []string{"title: Wren", "show:\n  length: metric\n  nearest: 1 mm", "hide: [money, hours]", "title: [", "a: &x [*x]", "kerf: 1/8\"\nwaste: 30 %", "cover: ../x.jpg", "? a\n: b", "title: !!binary x", "show: 3", "- a", "a: |\n  b", "{", "\ttitle: x", "title: \"a: b\"\r\nboat: 'c'", "<<: {title: x}", "title: \x00", strings.Repeat("a: {", 200)} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, front []byte) {
		n := inMemory(t)
		src := append([]byte("---\n"), front...)
		n.overlay[TitlePage] = append(src, "\n---\n\nText {1 in + 1 in}.\n"...)
		if _, err := n.Refresh(context.Background()); err != nil {
			t.Fatal(err)
		}
		size := len(n.overlay[TitlePage])
		for _, p := range n.Problems(kernel.Now) {
			if p.Message == "" || p.Line < 1 || p.Column < 1 || p.Span.Start < 0 || p.Span.End > size || p.Span.Start > p.Span.End {
				t.Errorf("%q: %+v", front, p)
			}
		}
		n.Title()
		set := n.Settings()
		set.Style().Text(calc.Length(1))
		told(n)
	})
}
