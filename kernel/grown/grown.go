// Package grown makes journals of any size and shape to measure with, always the same
// for the same shape and seed.
//
// A grown journal has base readings, chains of sums that hang on one another, a hub that
// many sums read, a data table, readings that are given again from one entry to the next,
// pieces that are made and settled, and a ledger that is summed up. How much of each is
// said by a Shape.
package grown

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// Shape is the size and the form of a journal.
type Shape struct {
	Statements int // in all, cells of the table apart
	Entries    int // at least 1
	Chain      int // statements of a chain, each hanging on the one before; 10 when 0
	Fan        int // statements that read the hub
	Rows       int // of the data table; none when 0
	Columns    int
	Readings   int  // later readings of long, each in an entry of its own while there are any
	Made       int  // lines that say what was made of one part, and what was done about it
	Ledger     int  // lines that spend, and sums of what has been spent
	Spread     bool // base readings carry a ±
	Seed       uint64
}

// Day is one entry of a grown journal.
type Day struct {
	Date, Title string
	Statements  []string
	// Head and Rows are the data table of the day, if it has one.
	Head []string
	Rows [][]string
}

// Bases is how many base readings a shape has.
func (s Shape) Bases() int { return max(1, min(100, s.Statements/10)) }

// chain is the length of a chain.
func (s Shape) chain() int {
	if s.Chain > 0 {
		return s.Chain
	}
	return 10
}

// Head names the head of the last whole chain of a shape, on which the rest of that
// chain hangs and nothing else.
func (s Shape) Head() string {
	own := s.Statements - s.Bases() - s.hub() - s.later()
	whole := own / s.chain()
	return fmt.Sprintf("v_%d", max(0, whole-1)*s.chain())
}

// Last names the last statement of the same chain.
func (s Shape) Last() string {
	var n int
	fmt.Sscanf(s.Head(), "v_%d", &n)
	return fmt.Sprintf("v_%d", n+s.chain()-1)
}

func (s Shape) hub() int {
	if s.Fan > 0 {
		return s.Fan + 1
	}
	return 0
}

// later is how many statements stand in entries of their own while there are any.
func (s Shape) later() int { return s.Readings + s.Made + s.Ledger }

// Journal grows the days of a shape.
func Journal(s Shape) []Day {
	r := rand.New(rand.NewPCG(s.Seed, 1))
	bases := s.Bases()
	var list []string
	spread := ""
	if s.Spread {
		spread = " ± 1/32 in"
	}
	for i := range bases {
		list = append(list, fmt.Sprintf("base_%d = %d in%s", i, 10+r.IntN(90), spread))
	}
	if s.Fan > 0 {
		list = append(list, "hub = 3 in"+spread)
	}
	for i := range s.Fan {
		list = append(list, fmt.Sprintf("fan_%d = hub + base_%d", i, r.IntN(bases)))
	}
	for i := 0; len(list) < s.Statements-s.later(); i++ {
		if i%s.chain() == 0 {
			list = append(list, fmt.Sprintf("v_%d = base_%d * 2 + 1/4 in", i, r.IntN(bases)))
		} else {
			list = append(list, fmt.Sprintf("v_%d = (v_%d + base_%d) / 2 - 1/8 in", i, i-1, r.IntN(bases)))
		}
	}
	days := share(list, max(1, s.Entries))
	add := func(i int, text string) {
		d := &days[min(i, len(days)-1)]
		d.Statements = append(d.Statements, text)
	}
	for i := range s.Readings {
		kind := "revise"
		if i == 0 {
			kind = "found"
		}
		add(i, fmt.Sprintf("%s long = %d in%s", kind, 20+r.IntN(400), spread))
	}
	for i := range s.Made {
		switch {
		case i == 0:
			add(0, fmt.Sprintf("part rib: %d of 1 in by 2 in by base_0 in oak", s.Made))
		case i%2 == 1:
			add(i/2, "made rib: 1")
		default:
			add((i-1)/2, fmt.Sprintf("settle rib: 1 trimmed to length = base_0 - %d in", 1+r.IntN(3)))
		}
	}
	for i := range s.Ledger {
		if i%2 == 0 {
			add(i/2, fmt.Sprintf("spend %d USD on fastenings", 1+r.IntN(40)))
		} else {
			add(i/2, fmt.Sprintf("so_far_%d = sum(spent())", i))
		}
	}
	table(&days[0], s, r)
	return days
}

// share deals the statements out to so many days, in their order.
func share(list []string, entries int) []Day {
	days := make([]Day, entries)
	for i := range days {
		days[i] = Day{
			Date:       fmt.Sprintf("%04d-%02d-%02d", 1000+i/336, 1+i/28%12, 1+i%28),
			Title:      fmt.Sprintf("Day %d", i+1),
			Statements: list[i*len(list)/entries : (i+1)*len(list)/entries : (i+1)*len(list)/entries],
		}
	}
	return days
}

func table(d *Day, s Shape, r *rand.Rand) {
	if s.Rows == 0 || s.Columns == 0 {
		return
	}
	d.Head = []string{"offsets:"}
	for c := range s.Columns {
		d.Head = append(d.Head, fmt.Sprintf("st_%d", c+1))
	}
	for i := range s.Rows {
		row := []string{fmt.Sprintf("line_%d", i+1)}
		for range s.Columns {
			row = append(row, fmt.Sprintf("%d-%d-%d", r.IntN(4), r.IntN(12), r.IntN(8)))
		}
		d.Rows = append(d.Rows, row)
	}
}

// FileName is the name of a day's file.
func (d Day) FileName() string { return d.Date + "-day.md" }

// words is what a grown day tells: as long as a writer's paragraph.
const words = "Planed the plank and looked along its edge. The stem came out of the clamps, and the bevel was tried against the first mould. "

// Markdown is the day as its writer would have kept it: text with slots around the
// working.
func (d Day) Markdown() string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: %s\ndate: %s\n---\n", d.Title, d.Date)
	if d.Head != nil {
		fmt.Fprintf(&b, "\n| %s |\n|%s\n", strings.Join(d.Head, " | "), strings.Repeat("---|", len(d.Head)))
		for _, row := range d.Rows {
			fmt.Fprintf(&b, "| %s |\n", strings.Join(row, " | "))
		}
	}
	for len(d.Statements) > 0 || b.Len() == 0 {
		block := d.Statements[:min(10, len(d.Statements))]
		d.Statements = d.Statements[len(block):]
		b.WriteString("\n" + strings.Repeat(words, 3))
		for _, x := range block {
			if name, _, ok := strings.Cut(x, " ="); ok && !strings.Contains(name, ":") {
				fmt.Fprintf(&b, "It measures {%s} now.", name[strings.LastIndexByte(name, ' ')+1:])
				break
			}
		}
		b.WriteString("\n\n```calc\n" + strings.Join(block, "\n") + "\n```\n")
	}
	return b.String()
}
