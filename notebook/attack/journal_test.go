package attack_test

import (
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// everywhere is a piece of an entry with an attack in every place that takes a text. §s is
// the string, §q the same in a quote, §l on one line, §c as a cell, §t as a text between
// quotes, §n a number. In a quote it cannot swallow what follows.
const everywhere = `
## §l {1 in}

Text §l text {"§t"} and {§l} and {nothing_§n §l}.

![§l](boat.png "§t")

Text ![§l](boat.png '§l') [§l](other.md "§t") [text](<§l>) ![text](<§l>).

| §c | plain |
|----|-------|
| §c | {1 in} |

| found cells_§n (§c): | §c | st_1 (§c) |
|----|----|----|
| §c | §c | 1-2-3 |
| row_§n | {§c} | 12 mm |

§l
: §l

text[^n§n]

[^n§n]: §l

` + "```calc" + `
length_§n = 3 in   # §l
§l = 3 in
text_§n = "§t"
part piece_§n: 2 of 3/4" by 7" by 2 ft in §l
part piece_x§n: 2 of 3/4" by 7" by length_§n in larch, within 1/16"   # §l
made piece_x§n: 1   # §l
revise length_§n = 4 in   # §l
settle piece_x§n: left   # §l
work 2 h on §l
spend 4 USD on §l   # §l
check length_§n < 2 in   # §l
length_§n + §l
length_§n to §l
` + "```" + `

` + "```§l" + `
§l
` + "```" + `

- [ ] §l
- §l

> §l

> §q

> <div>§q

- <details><summary>§l</summary>
`

// raw is the string as it is; it may swallow the rest of the file.
const raw = `
§s

<div>§s

§s
`

// hostile writes a journal whose entries hold some attacks each, also in the name of the
// file.
func hostile(t testing.TB, list []string, each int) string {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("journal.md", front("title", list[0], "boat", list[1], "author", list[2], "licence", list[3], "description", list[4], "canonical", "https://boats.test/x/", "language", `en" onload="trap()`)+"\nThe title page.\n")
	write("other.md", "Another text.\n")
	f, err := os.Create(filepath.Join(dir, "boat.png"))
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, image.NewGray(image.Rect(0, 0, 4, 4))); err != nil {
		t.Fatal(err)
	}
	f.Close()
	day := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := 0; i < len(list); i += each {
		group := list[i:min(i+each, len(list))]
		lines := make([]string, len(group))
		text := ""
		for k, s := range group {
			lines[k] = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' }), " ")
			text += filled(everywhere, s, lines[k], i+k)
		}
		for k, s := range group {
			text += filled(raw, s, lines[k], i+k)
		}
		write(fmt.Sprintf("%03d %s.md", i, fileName(group[0])), front("title", strings.Join(group, " "), "date", day.AddDate(0, 0, i).Format(time.DateOnly), "subjects", lines[0], "summary", strings.Join(group, " "))+text)
	}
	return dir
}

// some are the attacks that stand on pages of their own: one in six, since the file that is
// sent by mail holds them all; SCARPH_LONG takes all.
func some(list []string) []string {
	if os.Getenv("SCARPH_LONG") != "" {
		return list
	}
	var out []string
	for i := 0; i < len(list); i += 6 {
		out = append(out, list[i])
	}
	return out
}

// filled puts an attack into a text.
func filled(text, s, line string, number int) string {
	return strings.NewReplacer("§s", s, "§q", strings.ReplaceAll(s, "\n", "\n> "), "§l", line, "§c", strings.ReplaceAll(line, "|", `\|`), "§t", strings.ReplaceAll(line, `"`, `'`), "§n", fmt.Sprint(number)).Replace(text)
}

// together is how many attacks stand in one entry; SCARPH_LONG gives each its own.
func together() int {
	if os.Getenv("SCARPH_LONG") != "" {
		return 1
	}
	return 8
}

// front is front matter; its texts are written as YAML allows any text to be.
func front(pairs ...string) string {
	var b strings.Builder
	b.WriteString("---\n")
	for i := 0; i < len(pairs); i += 2 {
		j, _ := json.Marshal(pairs[i+1])
		b.WriteString(pairs[i] + ": " + string(j) + "\n")
	}
	return b.String() + "---\n"
}

// fileName makes an attack the name of a file, as far as a disk takes it.
func fileName(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == '/' || r == 0 || r == utf8.RuneError {
			return '_'
		}
		return r
	}, s)
	for len(s) > 200 {
		_, w := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-w]
	}
	return s
}
