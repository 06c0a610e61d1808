package markdown

import (
	"strings"
	"testing"
)

// page renders the whole of a file as written.
func page(src string) string {
	d := Parse([]byte(src))
	var b strings.Builder
	for _, s := range d.Sections {
		for _, block := range d.Render(s, nil, Options{}) {
			b.WriteString(block)
		}
	}
	return b.String()
}

func TestSections(t *testing.T) {
	d := Parse([]byte("# Log\n\nBefore.\n\n## 2027-05-02: The *sides* of {boat}\n\nText.\n\n### 2027-05-03 too deep\n\n## 2027-05-09\n"))
	var got []string
	for _, s := range d.Sections {
		got = append(got, s.Date+"|"+s.Title)
		if s.Heading == nil {
			t.Errorf("section %s has no heading", s.Date)
		}
	}
	want := "|Log;2027-05-02|The sides of {boat};2027-05-09|"
	if s := strings.Join(got, ";"); s != want {
		t.Errorf("sections %s, want %s", s, want)
	}
}

func TestFrontMatter(t *testing.T) {
	for src, want := range map[string]string{
		"---\ntitle: a\n---\n{b}":             "title: a\n|{b}",
		"---\r\ntitle: a\r\n---\r\n{b}":       "title: a\r\n|{b}",
		"\xef\xbb\xbf---\ntitle: a\n---\n{b}": "title: a\n|{b}",
		"---\n---\n{b}":                       "|{b}",
		"--- \na: b\n---\t\n":                 "a: b\n|",
		"---\na: b\n---":                      "a: b\n|",
		"\xef\xbb\xbf{b}":                     "|{b}",
		"---\n\ntext {b}":                     "|---\n\ntext {b}",
		"\n---\na: b\n---\n":                  "|\n---\na: b\n---\n",
		"----\na: b\n----\n":                  "|----\na: b\n----\n",
		" ---\na: b\n---\n":                   "| ---\na: b\n---\n",
	} {
		d := Parse([]byte(src))
		if got := d.text(d.FrontMatter) + "|" + d.text(d.Sections[0].Span); got != want {
			t.Errorf("%q: %q, want %q", src, got, want)
		}
		if len(d.Problems) > 0 {
			t.Errorf("%q: %+v", src, d.Problems)
		}
	}
	d := Parse([]byte("---\ntitle: a\n\ntext"))
	if len(d.Problems) != 1 || d.Problems[0].Code != "setting" {
		t.Errorf("front matter that is not closed: %+v", d.Problems)
	}
}

func TestDates(t *testing.T) {
	for heading, want := range map[string]string{
		"# 2027-05-02":             "2027-05-02|",
		"## 2027-05-02 Sides":      "2027-05-02|Sides",
		"## 2027-05-02: Sides":     "2027-05-02|Sides",
		"## 2027-05-02 — Sides":    "2027-05-02|Sides",
		"## 2027-05-02 -- Sides":   "2027-05-02|Sides",
		"## **2027-05-02** Sides":  "2027-05-02|Sides",
		"2027-05-02, *Sides*\n===": "2027-05-02|Sides",
		"2027-05-02\nSides\n---":   "2027-05-02|Sides",
		"### 2027-05-02 Sides":     "|",
		"> # 2027-05-02 Sides":     "|",
		"## On 2027-05-02":         "|On 2027-05-02",
		"## 2027-05-021":           "|2027-05-021",
		"## 2027-05-02-03":         "|2027-05-02-03",
		"## 2027-5-2":              "|2027-5-2",
		"2027-05-02 text":          "|",
	} {
		d := Parse([]byte(heading + "\n\ntext\n"))
		if len(d.Sections) != 1 || d.Sections[0].Date+"|"+d.Sections[0].Title != want {
			t.Errorf("%q: %q %q, want %q", heading, d.Sections[0].Date, d.Sections[0].Title, want)
		}
		if len(d.Problems) > 0 {
			t.Errorf("%q: %+v", heading, d.Problems)
		}
	}
	for _, date := range []string{"2027-13-01", "2027-02-29", "2027-00-10"} {
		if d := Parse([]byte("# " + date + " x")); len(d.Problems) != 1 || d.Problems[0].Code != "date" || d.Sections[0].Date != "" {
			t.Errorf("%s: %+v", date, d.Problems)
		}
	}
}

// TestWhatBelongsToASection: notes belong where they are written, and are shown
// where they are referred to.
func TestWhatBelongsToASection(t *testing.T) {
	d := Parse([]byte("{a}[^1]\n\n## 2027-05-02\n{b}[^1][^2]\n\n[^1]: {c}\n[^2]: {d} [^1]\n\n## 2027-05-03\n\n- ![x](y)\n\n  # {e}\n"))
	var got []string
	for _, s := range d.Sections {
		for _, x := range s.Slots {
			got = append(got, s.Date+x.Text)
		}
	}
	if s := strings.Join(got, " "); s != "a 2027-05-02b 2027-05-02c 2027-05-02d 2027-05-03e" {
		t.Errorf("slots %s", s)
	}
	first := strings.Join(d.Render(d.Sections[0], nil, Options{IDPrefix: "p-"}), "")
	want := `<p>{a}<sup id="p-noteref.0.1.1"><a href="#p-note.0.1" role="doc-noteref">1</a></sup></p>
<section class="footnotes" role="doc-endnotes">
<ol>
<li id="p-note.0.1">
<p>{c} <a href="#p-noteref.0.1.1" role="doc-backlink" aria-label="back to the text">↩</a></p>
</li>
</ol>
</section>
`
	if first != want {
		t.Errorf("notes:\n%s\nwant\n%s", first, want)
	}
}

func TestHeadingIDs(t *testing.T) {
	src := "# Größe & Maß\n# größe, maß\n# {x}\n# ---\n# `code` *and* [link](u)\n# größe maß 2\n# 日本 の舟\n"
	var ids []string
	for _, h := range Parse([]byte(src)).Sections[0].Headings {
		ids = append(ids, h.ID)
	}
	want := "größe-maß größe-maß-2 section section-2 code-and-link größe-maß-2-2 日本-の舟"
	if got := strings.Join(ids, " "); got != want {
		t.Errorf("ids %s, want %s", got, want)
	}
}

func TestDashes(t *testing.T) {
	for src, want := range map[string]string{
		"a -- b, 3--4":           "a – b, 3–4",
		"a --- b---c":            "a — b—c",
		"wait... and so on ...":  "wait… and so on …",
		"a - b ---- c .... d ..": "a - b ---- c .... d ..",
		"run --listen here":      "run --listen here",
		"--listen":               "--listen",
		`\-- \... -\- .\..`:      "-- ... -- ...",
		"`a -- b...`":            "<code>a -- b...</code>",
		"[a](b--c...)":           `<a href="b--c...">a</a>`,
		"{a -- b}":               "{a -- b}",
		`2' 6" 'a' "b"`:          "2' 6&quot; 'a' &quot;b&quot;",
	} {
		if got := page(src); got != "<p>"+want+"</p>\n" {
			t.Errorf("%q: %s, want %s", src, got, want)
		}
	}
}

func TestTasks(t *testing.T) {
	want := "<ul>\n<li><input type=\"checkbox\" disabled=\"\" checked=\"\" aria-label=\"done\" /> a</li>\n" +
		"<li><input type=\"checkbox\" disabled=\"\" aria-label=\"to do\" /> b</li>\n</ul>\n"
	if got := page("- [x] a\n- [ ] b\n"); got != want {
		t.Errorf("%s", got)
	}
}

// TestWithoutTitle: the page shows the title itself.
func TestWithoutTitle(t *testing.T) {
	d := Parse([]byte("## 2027-05-02 A\n\n## B\n"))
	if got := strings.Join(d.Render(d.Sections[0], nil, Options{WithoutTitle: true}), "|"); got != "|<h2 id=\"b\">B</h2>\n" {
		t.Errorf("%q", got)
	}
}

// TestRenderAtOnce: a document is only read while it is rendered.
func TestRenderAtOnce(t *testing.T) {
	src := journalText(t)
	d := Parse(src)
	want := strings.Join(d.Render(d.Sections[3], loud{}, Options{}), "")
	done := make(chan string)
	for range 8 {
		go func() { done <- strings.Join(d.Render(d.Sections[3], loud{}, Options{}), "") }()
	}
	for range 8 {
		if got := <-done; got != want {
			t.Error("rendered differently")
		}
	}
}
