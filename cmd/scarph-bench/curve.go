package main

import (
	"context"
	"fmt"
	"math"

	"scarph/kernel"
	"scarph/kernel/grown"
)

// sizes grow ten-thousandfold.
var sizes = []int{10, 100, 1_000, 10_000, 100_000}

// slope is the least-squares power with which costs grow with sizes: 0 is flat, 1 grows
// as the size does, 2 as its square.
func slope(sizes []int, costs []float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for i, c := range costs {
		x, y := math.Log(float64(sizes[i])), math.Log(c)
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}

// curves measures cost against size for each shape that a journal can take.
func curves(b *bench) error {
	pace := b.pace
	defer func() { b.pace = pace }()
	b.pace /= 4
	grow := func(what string, from int, budget float64, cost func(n int) float64) {
		at := sizes[from:]
		var costs []float64
		told := ""
		for _, n := range at {
			c := cost(n)
			costs = append(costs, c)
			if told != "" {
				told += " · "
			}
			told += span(c)
		}
		p := slope(at, costs)
		b.table.add(row{what: what, ours: told, yardstick: fmt.Sprintf("%d to %d", at[0], at[len(at)-1]), ratio: "size^" + fmt.Sprintf("%.2f", p), budget: fmt.Sprintf("power ≤ %g", budget), kept: p <= budget})
	}
	open := func(shape func(n int) grown.Shape) func(n int) float64 {
		return func(n int) float64 {
			list := entries(grown.Journal(shape(n)))
			return b.race(func() { session(list) })[0]
		}
	}
	grow("a revision that moves ten", 1, 0.15, func(n int) float64 {
		shape := grown.Shape{Statements: n, Entries: max(1, n/100), Chain: 10}
		list := entries(grown.Journal(shape))
		other := given(list, shape.Head(), "99 in")
		s := session(list)
		return b.race(func() {
			s.Update(context.Background(), other)
			s.Update(context.Background(), list)
		})[0] / 2
	})
	grow("a value that most read, under another name", 0, 1.2, func(n int) float64 {
		list := entries(grown.Journal(grown.Shape{Statements: n, Entries: max(1, n/100), Fan: n * 8 / 10}))
		other := restated(list, "hub", "nave = 3 in")
		s := session(list)
		return b.race(func() {
			s.Update(context.Background(), other)
			s.Update(context.Background(), list)
		})[0] / 2
	})
	grow("nine entries of ten go, and come back", 1, 1.2, func(n int) float64 {
		list := entries(grown.Journal(grown.Shape{Statements: n, Entries: min(n/10, 5_000), Fan: n * 3 / 10, Readings: n * 2 / 10, Made: n * 2 / 10, Ledger: n / 10}))
		s := session(list)
		return b.race(func() {
			s.Update(context.Background(), list[:len(list)/10])
			s.Update(context.Background(), list)
		})[0] / 2
	})
	grow("opening: chains of ten", 0, 1.2, open(func(n int) grown.Shape { return grown.Shape{Statements: n, Entries: max(1, n/100)} }))
	grow("opening: one chain", 0, 1.2, open(func(n int) grown.Shape { return grown.Shape{Statements: n, Entries: 1, Chain: n} }))
	grow("opening: a fan", 0, 1.2, open(func(n int) grown.Shape { return grown.Shape{Statements: n, Fan: n * 8 / 10} }))
	grow("opening: one reading given again", 0, 1.2, open(func(n int) grown.Shape {
		return grown.Shape{Statements: n, Entries: min(n, 5_000), Readings: n * 8 / 10}
	}))
	grow("showing all entries: one reading given again", 1, 1.2, func(n int) float64 {
		list := entries(grown.Journal(grown.Shape{Statements: n, Entries: min(n/10, 5_000), Readings: n * 8 / 10}))
		s := session(list)
		return b.race(func() {
			for i := range list {
				s.Outcomes(list[i].Key, kernel.Now)
			}
		})[0]
	})
	grow("opening: one part made and settled", 0, 1.2, open(func(n int) grown.Shape {
		return grown.Shape{Statements: n, Entries: min(n, 5_000), Made: n * 8 / 10}
	}))
	grow("opening: a ledger, summed up in every entry", 0, 1.2, open(func(n int) grown.Shape {
		return grown.Shape{Statements: n, Entries: max(1, min(n/10, 5_000)), Ledger: max(1, n/10)}
	}))
	grow("opening: a table of so many cells", 0, 1.2, open(func(n int) grown.Shape { return grown.Shape{Statements: 10, Rows: n / 10, Columns: 10} }))
	grow("opening: with ±", 0, 1.2, open(func(n int) grown.Shape { return grown.Shape{Statements: n, Entries: max(1, n/100), Spread: true} }))
	var kept []float64
	told := ""
	for _, n := range sizes[2:] {
		list := entries(grown.Journal(grown.Shape{Statements: n, Entries: max(1, n/100)}))
		k := held(func() *kernel.Session { return session(list) })
		kept = append(kept, k)
		if told != "" {
			told += " · "
		}
		told += size(k)
	}
	p := slope(sizes[2:], kept)
	b.table.add(row{what: "memory", ours: told, yardstick: "1000 to 100000", ratio: fmt.Sprintf("size^%.2f", p), budget: "power ≤ 1.1", kept: p <= 1.1})
	return nil
}
