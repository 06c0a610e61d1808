package docs

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"scarph/calc"
	"scarph/calc/tables"
	"scarph/calc/trade"
)

// uses is what was taken from a source.
type uses struct {
	functions, units []string
	figures          map[string]map[string]int // table → how → figures
	checks           map[string]int            // file of published values → rows
}

// sourcesPage lists every source with what was taken from it.
func sourcesPage(t *testing.T) string {
	from := map[string]*uses{}
	of := func(source string) *uses {
		u := from[source]
		if u == nil {
			u = &uses{figures: map[string]map[string]int{}, checks: map[string]int{}}
			from[source] = u
		}
		return u
	}
	for _, f := range trade.All() {
		for _, s := range strings.Split(f.Source, "; ") {
			u := of(s)
			u.functions = append(u.functions, f.Name)
		}
	}
	for _, x := range calc.Units() {
		u := of(x.Source)
		u.units = append(u.units, x.Symbol)
	}
	for _, tab := range tables.List() {
		for _, r := range tab.Rows() {
			u := of(r.Source)
			if u.figures[tab.Name] == nil {
				u.figures[tab.Name] = map[string]int{}
			}
			u.figures[tab.Name][r.How]++
		}
	}
	memory := publishedValues(t, of)

	p := head("Sources", `What the program knows, and from where. A rule that has no one published source is *common practice*; what anyone can derive is *geometry*, *statics* and
the like. What was recalled and not read again in a copy of its source is marked **from memory**: check it before you lean on it. Published values that the functions
do not give, with the reason, stand in `+"`testdata/reference/disagreements`.")
	names := make([]string, 0, len(from))
	for s := range from {
		names = append(names, s)
	}
	sort.Slice(names, func(i, j int) bool { return strings.ToLower(names[i]) < strings.ToLower(names[j]) })
	p.line("")
	p.line("## Publications and standards")
	p.table("source", "what was taken from it")
	for _, s := range names {
		if !general(s) {
			p.row(strings.ReplaceAll(plain(s), "(from memory)", "(**from memory**)"), from[s].told())
		}
	}
	p.line("")
	p.line("## Common practice, and what anyone can derive")
	p.table("kind", "what rests on it")
	for _, s := range names {
		if general(s) {
			p.row(plain(s), from[s].told())
		}
	}
	p.line("")
	p.line("## From memory")
	p.line("")
	p.line(fmt.Sprintf("%d published values in `testdata/reference` that the functions are tested against are from memory. So are these figures of the [reference tables](tables.md):", memory))
	p.table("table", "figures", "of them from memory")
	for _, tab := range tables.List() {
		n := 0
		for _, r := range tab.Rows() {
			if r.How == "from memory" {
				n++
			}
		}
		p.row(code(tab.Name), fmt.Sprint(len(tab.Rows())), fmt.Sprint(n))
	}
	p.line("")
	p.line("And the sources of these functions, or a part of them, were cited from memory:")
	p.line("")
	for _, f := range trade.All() {
		if strings.Contains(f.Source, "from memory") {
			p.line(fmt.Sprintf("- [%s](functions.md#%s): %s", plain(f.Name), anchor(f.Name), plain(f.Source)))
		}
	}
	return p.String()
}

// general reports whether a source is no publication.
func general(s string) bool {
	for _, w := range []string{"common practice", "geometry", "statics", "arithmetic", "beam theory", "definition", "statistics", "trigonometry", "mechanics", "mathematics", "trade", "Archimedes"} {
		if strings.HasPrefix(s, w) {
			return true
		}
	}
	return false
}

// told says what was taken.
func (u *uses) told() string {
	var parts []string
	if len(u.functions) > 0 {
		list := make([]string, len(u.functions))
		for i, f := range u.functions {
			list[i] = fmt.Sprintf("[%s](functions.md#%s)", plain(f), anchor(f))
		}
		parts = append(parts, "functions "+strings.Join(list, ", "))
	}
	if len(u.units) > 0 {
		list := make([]string, len(u.units))
		for i, s := range u.units {
			list[i] = code(s)
		}
		parts = append(parts, "units "+strings.Join(list, " "))
	}
	for _, tab := range sorted(u.figures) {
		var hows []string
		for _, how := range sorted(u.figures[tab]) {
			hows = append(hows, fmt.Sprintf("%d %s", u.figures[tab][how], strings.Replace(how, "from memory", "**from memory**", 1)))
		}
		parts = append(parts, "table "+code(tab)+": "+strings.Join(hows, ", "))
	}
	for _, file := range sorted(u.checks) {
		parts = append(parts, fmt.Sprintf("%d values to test against, %s", u.checks[file], code(file)))
	}
	return strings.Join(parts, "; ")
}

func sorted[V any](m map[string]V) []string {
	var list []string
	for k := range m {
		list = append(list, k)
	}
	sort.Strings(list)
	return list
}

// publishedValues enters the values that the functions are tested against, and counts
// those from memory.
func publishedValues(t *testing.T, of func(string) *uses) (memory int) {
	files, err := filepath.Glob("../testdata/reference/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatal("the published values were not found", err)
	}
	for _, path := range files {
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		column := map[string]int{}
		for i, h := range rows[0] {
			column[h] = i
		}
		for _, r := range rows[1:] {
			of(r[column["source"]]).checks[filepath.Base(path)]++
			if r[column["how"]] == "from memory" {
				memory++
			}
		}
	}
	return memory
}
