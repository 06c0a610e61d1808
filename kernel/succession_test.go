package kernel

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"scarph/calc/lang"
)

// countsAt goes through the readings up to an entry one by one: the latest counts, unless
// it is weaker than one before it.
func countsAt(n *node, upTo int) *statement {
	var w *statement
	strength := 0
	for _, r := range n.readings {
		if r.entry.order > upTo {
			break
		}
		if r.refused != nil || r.line.Empty && w != nil {
			continue
		}
		k := r.kind().Strength()
		if r.kind() == lang.Revised && w != nil {
			k = max(k, strength)
		}
		if w == nil || k >= strength {
			w, strength = r, k
		}
	}
	return w
}

// TestSuccession gives values readings of all kinds at random, some refused, and compares
// what counts when, and what took the place of what, with what a plain walk finds.
func TestSuccession(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	words := []string{"", "drawn ", "found ", "built ", "guess ", "revise "}
	for round := range 300 {
		var entries []Entry
		for k := range 1 + random.IntN(8) {
			text := ""
			for range random.IntN(4) {
				unit := "in"
				if random.IntN(8) == 0 {
					unit = "kg" // refused where the first is a length
				}
				text += fmt.Sprintf("%sx = %d %s\n", words[random.IntN(len(words))], random.IntN(20), unit)
			}
			entries = append(entries, entryOf(fmt.Sprintf("e%d", k), fmt.Sprintf("2027-01-%02d", k+1), text))
		}
		s := told(entries...)
		n := s.nodes["x"]
		if n == nil {
			continue
		}
		v := s.now()
		for order := -1; order <= len(entries); order++ {
			if got, want := n.reading(order), countsAt(n, order); got != want {
				t.Fatalf("round %d: as of %d counts %v, not %v", round, order, got, want)
			}
		}
		for _, r := range n.readings {
			var next *statement
			if countsAt(n, r.entry.order) == r {
				for _, x := range n.readings {
					if next == nil && r.before(x) && countsAt(n, x.entry.order) != r {
						next = x
					}
				}
			}
			if u := s.until(n, r, v); (u == nil) != (next == nil) || u != nil && *u != next.entry.ref() {
				t.Fatalf("round %d: %q counts until %v, not %v", round, r.line.Text, u, next)
			}
			var before *statement
			for _, x := range n.readings {
				if !x.before(r) {
					break
				}
				if x.refused == nil && (before == nil || x.kind().Strength() >= n.strengthBefore(x) || x.kind() == lang.Revised) {
					before = x
				}
			}
			if got := displacedBy(r); got != before {
				t.Fatalf("round %d: %q displaced %v, not %v", round, r.line.Text, got, before)
			}
		}
	}
}

// strengthBefore is the greatest strength among the readings before one.
func (n *node) strengthBefore(r *statement) int {
	k := 0
	for _, x := range n.readings {
		if x.before(r) && x.refused == nil {
			k = max(k, x.kind().Strength())
		}
	}
	return k
}

// TestManyReadings: of very many readings between the first and the last, the first and
// the last few are told.
func TestManyReadings(t *testing.T) {
	entries := []Entry{entryOf("e0", "", "found x = 10 in")}
	for k := 1; k < 500; k++ {
		entries = append(entries, entryOf(fmt.Sprintf("e%d", k), "", fmt.Sprintf("found x = %d in", 10+k)))
	}
	o := told(entries...).Outcomes("e0", Now)[0]
	if len(o.Steps) != mostSteps || o.Skipped != 498-mostSteps {
		t.Fatalf("%d steps and %d skipped", len(o.Steps), o.Skipped)
	}
	if a, b := o.Steps[mostSteps/2-1].Entry.Number, o.Steps[mostSteps/2].Entry.Number; b-a-1 != o.Skipped || o.Displaced.Entry.Number != 500 {
		t.Errorf("after entry %d, entry %d; %d are said to lie between", a, b, o.Skipped)
	}
	for readings, want := range map[int][2]int{6: {4, 0}, mostSteps + 2: {mostSteps, 0}, mostSteps + 3: {mostSteps + 1, 0}, mostSteps + 4: {mostSteps, 2}} {
		o := told(entries[:readings]...).Outcomes("e0", Now)[0]
		if got := [2]int{len(o.Steps), o.Skipped}; got != want {
			t.Errorf("of %d readings %v told and skipped, not %v", readings, got, want)
		}
	}
}
