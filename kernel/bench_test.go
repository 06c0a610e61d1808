package kernel

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"scarph/calc/lang"
)

// generated is a journal made to size: chains of sums, fans, tables, readings with
// and without ±, spread over entries. touched is what one revision of base_7 moves.
func generated(statements, entries int, spread bool) []Entry {
	list := make([]Entry, entries)
	per := statements / entries
	n := 0
	for i := range list {
		var b strings.Builder
		for k := 0; k < per; k++ {
			switch {
			case n < 100:
				u := ""
				if spread {
					u = " ± 1/32 in"
				}
				fmt.Fprintf(&b, "base_%d = %d in%s\n", n, n+10, u)
			case n%10 == 0: // a link of a chain of ten
				fmt.Fprintf(&b, "v_%d = base_%d * 2 + 1/4 in\n", n, n%100)
			default:
				fmt.Fprintf(&b, "v_%d = (v_%d + base_%d) / 2 - 1/8 in\n", n, max(n-1, 100), n*7%100)
			}
			n++
		}
		list[i] = entryOf(fmt.Sprintf("e%05d", i), fmt.Sprintf("%04d-01-01", 1000+i), b.String())
	}
	return list
}

// revised gives one base another value, in a new set of lines for its entry.
func revised(list []Entry, name, value string) []Entry {
	out := append([]Entry(nil), list...)
	for i, e := range out {
		for k, l := range e.Lines {
			if l.Stmt != nil && l.Stmt.Name == name {
				lines := append([]Line(nil), e.Lines...)
				text := name + " = " + value
				lines[k].Text = text
				lines[k].Stmt, lines[k].Err = lang.Parse(text)
				out[i].Lines = lines
				return out
			}
		}
	}
	return out
}

var benchSizes = []int{1_000, 10_000, 100_000}

// BenchmarkOpenCold links and works out a whole journal whose statements are parsed.
func BenchmarkOpenCold(b *testing.B) {
	for _, n := range benchSizes {
		list := generated(n, max(1, n/100), false)
		b.Run(fmt.Sprintf("statements=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				open(list...)
			}
		})
	}
}

// BenchmarkRevision changes one reading on which ten statements hang, whatever the
// size of the journal: its cost should not grow.
func BenchmarkRevision(b *testing.B) {
	for _, n := range benchSizes {
		list := generated(n, max(1, n/100), false)
		name := fmt.Sprintf("v_%d", n-10)
		other := revised(list, name, "99 in")
		s := open(list...)
		b.Run(fmt.Sprintf("statements=%d", n), func(b *testing.B) {
			before := s.Work().Evaluated
			runs := 0
			for b.Loop() {
				s.Update(context.Background(), other)
				s.Update(context.Background(), list)
				runs += 2
			}
			b.ReportMetric(float64(s.Work().Evaluated-before)/float64(runs), "evaluated/op")
		})
	}
}

// BenchmarkWhatIf tries another number for a base that a hundredth of the journal reads.
func BenchmarkWhatIf(b *testing.B) {
	for _, n := range benchSizes {
		s := open(generated(n, max(1, n/100), false)...)
		name := fmt.Sprintf("v_%d", n-10)
		b.Run(fmt.Sprintf("statements=%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := s.WhatIf(map[string]string{name: "98 in"}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAsOfEveryEntry shows the last value as of each entry.
func BenchmarkAsOfEveryEntry(b *testing.B) {
	list := generated(10_000, 100, false)
	for b.Loop() {
		b.StopTimer()
		s := open(list...)
		b.StartTimer()
		for k := range list {
			s.Value("v_9999", k)
		}
	}
}
