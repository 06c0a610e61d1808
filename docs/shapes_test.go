package docs

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// smallJournal is the journal that the shapes are taken from.
var smallJournal = map[string]string{
	"journal.md":            "---\ntitle: Wren\n---\n# Wren\n\n```calc\ndrawn beam = 4' 1 1/2\"       # from the plan\nplanking = 7/16\"\ninside = beam - 2 * planking\npart thwart: 2 of 3/4\" by 7\" by inside in larch, within 1/16\"\nstock 1 of 3/4\" by 7 1/2\" by 10 ft in larch\n```\n",
	"2027-04-18-thwarts.md": "```calc\nmade thwart: 1\n```\n",
	"2027-05-02-wider.md":   "```calc\nfound beam = 4' 1 3/4\" ± 1/16\"\ncheck inside < 4' 2\"\nlength = beam + 3 lb\n```\n",
}

// laidOut writes the small journal into a folder of its own.
func laidOut(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range smallJournal {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// smallJournal shows the files of the small journal.
func (p *page) smallJournal() {
	for _, name := range []string{"journal.md", "2027-04-18-thwarts.md", "2027-05-02-wider.md"} {
		p.line("")
		p.line(code(name))
		p.line("")
		p.line("````markdown")
		p.WriteString(smallJournal[name])
		p.line("````")
	}
}

// shapesPage shows what other programs read, as it comes out.
func shapesPage(t *testing.T) string {
	dir := laidOut(t)
	p := head("Shapes for other programs", `What the verbs print with `+code("--json")+`, and what the answers of the kernel ([kernel.md](kernel.md)) are made of. Numbers under `+code("si")+` are in SI base units (metres, kilograms,
seconds, kelvins, radians, units of the currency), an array for a list, null for a text; `+code("text")+` is what a person reads. Fields may be added; those that are here keep
their meaning. All examples are of this journal, whose last line is wrong on purpose:`)
	p.smallJournal()
	for _, s := range []struct {
		title, about string
		args         []string
	}{
		{"A value", "`kind` is `quantity`, `list`, `text`, `truth`, `record` or `drawing`. `dimension` is a word: `length`, `angle`, `mass`, `area`, `volume`, `number`, `money:USD`. A record has `fields`, a list of a table's cells `labels`, a drawing its `svg`.", []string{"calc", "--json", "-j", ".", "beam"}},
		{"A list", "", []string{"calc", "--json", "[1 in, 2 in ± 1/16 in]"}},
		{"A record", "", []string{"calc", "--json", "hopper_miter(4, 16°)"}},
		{"An error", "`column` is counted from 1, in characters. The program exits with 1.", []string{"calc", "--json", "beam + 1"}},
		{"dimensions", "`kind` is that of the reading that counts, or `derived`.", []string{"dimensions", ".", "--json"}},
		{"check", "", []string{"check", ".", "--json"}},
		{"cutlist", "", []string{"cutlist", ".", "--json"}},
		{"history", "", []string{"history", ".", "beam", "--json"}},
		{"ripple", "", []string{"ripple", ".", "planking=3/8 in", "--json"}},
		{"functions", "", []string{"functions", "frame_spacing", "--json"}},
	} {
		p.line("")
		p.line("## " + s.title)
		if s.about != "" {
			p.line("")
			p.line(s.about)
		}
		p.line("")
		p.line("```")
		p.line("$ scarph " + shown(s.args))
		p.line(strings.TrimSpace(scarph(t, dir, "", s.args...)))
		p.line("```")
	}
	return p.String()
}

// shown quotes arguments as a shell wants them.
func shown(args []string) string {
	list := make([]string, len(args))
	for i, a := range args {
		if list[i] = a; strings.ContainsAny(a, " (*[°") {
			list[i] = "'" + a + "'"
		}
	}
	return strings.Join(list, " ")
}
