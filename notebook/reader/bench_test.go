package reader

import (
	"context"
	"testing"

	"scarph/calc"
	"scarph/calc/lang"
	"scarph/kernel"
	"scarph/kernel/grown"
	"scarph/notebook/cargo"
)

// grownCargo is what a journal of so many statements carries.
func grownCargo(shape grown.Shape) string {
	j := &cargo.Journal{}
	var list []kernel.Entry
	for _, d := range grown.Journal(shape) {
		e, c := kernel.Entry{Key: d.FileName(), Date: d.Date}, cargo.Entry{Key: d.FileName(), Date: d.Date}
		for _, text := range d.Statements {
			line := kernel.Line{Text: text}
			line.Stmt, line.Err = lang.Parse(text)
			e.Lines, c.Lines = append(e.Lines, line), append(c.Lines, cargo.Line{Text: text})
		}
		list, j.Entries = append(list, e), append(j.Entries, c)
	}
	s := kernel.NewOnDemand(calc.Style{})
	s.Update(context.Background(), list)
	web := s.Web()
	j.Names, j.Reads = web.Names, web.Reads
	for i := range j.Entries {
		j.Entries[i].Of = web.Of[i]
	}
	return string(j.Encode())
}

// BenchmarkFirstNumber opens a published journal of 10,000 statements and tries a number
// that moves ten, with what it reaches read and with everything read.
func BenchmarkFirstNumber(b *testing.B) {
	shape := grown.Shape{Statements: 10_000, Entries: 100}
	text := grownCargo(shape)
	for _, whole := range []bool{false, true} {
		name := "read=reached"
		if whole {
			name = "read=whole"
		}
		b.Run(name, func(b *testing.B) {
			for range b.N {
				r, ok := Open(text)
				if !ok {
					b.Fatal("the cargo cannot be read")
				}
				if whole {
					r.need(r.web.readAll())
				}
				if moved, err := r.Try([]Number{{shape.Head(), "99 in"}}, false); err != nil || len(moved) != 10 {
					b.Fatal(len(moved), err)
				}
			}
		})
	}
}
