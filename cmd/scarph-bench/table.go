package main

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"time"
)

// row is one line of the table: what was measured, ours, the yardstick and how the two
// compare, and what was promised of it.
type row struct {
	what, ours, yardstick, ratio string
	budget                       string
	kept                         bool
}

type group struct {
	name string
	rows []row
}

type table struct{ groups []group }

func (t *table) begin(name string) { t.groups = append(t.groups, group{name: name}) }

func (t *table) add(r row) {
	g := &t.groups[len(t.groups)-1]
	g.rows = append(g.rows, r)
}

// atMost adds a row whose ratio is to stay at or under a budget; 0 is no budget.
func (t *table) atMost(what, ours, yardstick string, ratio, budget float64) {
	r := row{what: what, ours: ours, yardstick: yardstick, ratio: figure(ratio) + "×", kept: ratio <= budget}
	if budget > 0 {
		r.budget = "≤ " + figure(budget) + "×"
	}
	t.add(r)
}

// atLeast adds a row that says how many times better ours is.
func (t *table) atLeast(what, ours, yardstick string, times, budget float64) {
	r := row{what: what, ours: ours, yardstick: yardstick, ratio: figure(times) + "× less", kept: times >= budget}
	if budget > 0 {
		r.budget = "≥ " + figure(budget) + "× less"
	}
	t.add(r)
}

// under adds a row that has a bound of its own and no yardstick.
func (t *table) under(what, ours string, value, bound float64, budget string) {
	t.add(row{what: what, ours: ours, budget: budget, kept: value <= bound})
}

// plain adds a figure that nothing was promised of.
func (t *table) plain(what, ours, ratio string) { t.add(row{what: what, ours: ours, ratio: ratio}) }

// figure writes a number to three places that count.
func figure(x float64) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Sprint(x)
	}
	places := max(0, 2-int(math.Floor(math.Log10(math.Abs(x)))))
	s := fmt.Sprintf("%.*f", places, x)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// span writes nanoseconds for people.
func span(ns float64) string {
	for _, u := range []struct {
		ns   float64
		name string
	}{{1e9, "s"}, {1e6, "ms"}, {1e3, "µs"}} {
		if ns >= u.ns {
			return figure(ns/u.ns) + " " + u.name
		}
	}
	return figure(ns) + " ns"
}

// size writes bytes for people.
func size(bytes float64) string {
	switch {
	case bytes >= 1e6:
		return figure(bytes/1e6) + " MB"
	case bytes >= 1e3:
		return figure(bytes/1e3) + " kB"
	}
	return figure(bytes) + " B"
}

// markdown is the table as a page of the docs.
func (t *table) markdown(machine string) string {
	var b strings.Builder
	b.WriteString("# How fast it is\n\n<!-- Written by make bench-page. Do not edit. -->\n\n")
	b.WriteString("Each row was measured in turn with its yardstick, in one run on one machine, and the least\ntime of many counts: the ratios say more than the times. Any machine can measure its own:\n`make bench` prints this table.\n\n")
	b.WriteString(machine + "\n")
	for _, g := range t.groups {
		fmt.Fprintf(&b, "\n## %s\n\n| what | ours | yardstick | ratio | budget |\n|---|--:|--:|--:|---|\n", g.name)
		for _, r := range g.rows {
			budget := r.budget
			if budget != "" && r.kept {
				budget += ", kept"
			} else if budget != "" {
				budget += ", **not kept**"
			}
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", r.what, r.ours, r.yardstick, r.ratio, budget)
		}
	}
	return b.String()
}

// machine describes where it was measured.
func machine() string {
	cpu := "an unnamed processor"
	if info, err := os.ReadFile("/proc/cpuinfo"); err == nil {
		for _, line := range strings.Split(string(info), "\n") {
			if name, ok := strings.CutPrefix(line, "model name"); ok {
				cpu = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(name), ":"))
				break
			}
		}
	}
	commit := "an unknown commit"
	if out, err := exec.Command("git", "rev-parse", "--short", "HEAD").Output(); err == nil {
		commit = "commit " + strings.TrimSpace(string(out))
	}
	return fmt.Sprintf("Measured on %s: %s/%s, %d cores, %s, %s, at %s.", time.Now().Format(time.DateOnly), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), cpu, runtime.Version(), commit)
}
