package kernel

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"scarph/calc"
)

// TestLedgerInSums: worked() and spent() follow the lines of the ledger as they come,
// change and go, in the journal as it stands and as it stood.
func TestLedgerInSums(t *testing.T) {
	first := entryOf("journal", "2027-01-02", `
		all = sum(worked())
		framing = sum(worked("framing"))
		paid = spent("bronze screws")
		so_far = then(all)
		half = all / 2
		work 3 h on framing
		|worked()`)
	second := entryOf("second", "2027-02-01", `
		work 90 min on framing
		work 2 h on paint
		spend 31.40 EUR on bronze screws`)
	s := open(first, second)
	hours := func(name string, asOf int) float64 {
		t.Helper()
		r, ok := s.Value(name, asOf)
		if !ok || !r.OK() {
			t.Fatalf("%s: %+v", name, r)
		}
		return r.Value.V / 3600
	}
	for _, w := range []struct {
		name string
		asOf int
		want float64
	}{{"all", Now, 6.5}, {"framing", Now, 4.5}, {"all", 0, 3}, {"half", Now, 3.25}, {"so_far", Now, 3}} {
		near(t, w.name, hours(w.name, w.asOf), w.want)
	}
	if r, _ := s.Value("paid", Now); len(r.Value.Items()) != 1 || r.Value.Labels()[0] != "2027-02-01" || (calc.Style{}).Text(r.Value.Items()[0]) != "31.40 EUR" {
		t.Errorf("paid %v %v", r.Value.Labels(), (calc.Style{}).Text(r.Value))
	}
	if r, _ := s.Value("paid", 0); !r.OK() || len(r.Value.Items()) != 0 {
		t.Errorf("nothing was paid at first: %+v", r)
	}

	// an amount changes, a line comes, an entry goes to another day
	second = entryOf("second", "2027-02-03", `
		work 2 h on framing
		work 2 h on paint
		work 1 h on framing
		spend 31.40 EUR on bronze screws`)
	ripple := s.Update(context.Background(), []Entry{first, second})
	near(t, "all", hours("all", Now), 8)
	near(t, "half", hours("half", Now), 4)
	moved := ""
	for _, m := range ripple.Moved {
		moved += m.Name + " "
	}
	if moved != "all framing half paid " && !strings.Contains(moved, "half") {
		t.Errorf("moved: %s", moved)
	}
	if r, _ := s.Value("paid", Now); r.Value.Labels()[0] != "2027-02-03" {
		t.Errorf("the day of the entry has changed, but not of the list: %v", r.Value.Labels())
	}
	s.Update(context.Background(), []Entry{first})
	near(t, "all", hours("all", Now), 3)
	if r, _ := s.Value("paid", Now); r.OK() || r.Err.Code != calc.CodeUnknownItem {
		t.Errorf("a subject that no line has: %+v", r)
	}
	// an update that touches nothing of it works nothing of it out again
	before := s.Work().Evaluated
	s.Update(context.Background(), []Entry{first, entryOf("third", "2027-03-01", `x = 3 in`)})
	if n := s.Work().Evaluated - before; n > 8 {
		t.Errorf("%d statements worked out", n)
	}
}

// TestLedgerTried: a number that is tried moves what is summed of lines that hang on it,
// where the journal itself sums nothing and where it does.
func TestLedgerTried(t *testing.T) {
	for _, sums := range []string{"", "\nb = sum(worked())\nc = sum(worked(\"paint\"))\ncheck b < 8 h"} {
		s := open(entryOf("journal", "", "x = 2 h\nwork 3 h on framing\nwork x on paint"+sums))
		h := s.NewSheet()
		for _, w := range []struct {
			text string
			want float64
		}{{"sum(worked())", 5}, {"revise x = 7 h", 7}, {"sum(worked())", 10}, {"sum(worked(\"paint\"))", 7}, {"sum(worked(\"framing\"))", 3}} {
			a, _ := h.Line(context.Background(), w.text, Now)
			if !a.Result.OK() {
				t.Fatalf("%s: %v", w.text, a.Result.Err)
			}
			near(t, w.text, a.Result.Value.V/3600, w.want)
		}
		if sums == "" {
			continue
		}
		ripple, err := s.WhatIf(map[string]string{"x": "7 h"})
		if err != nil || len(ripple.Moved) != 3 || len(ripple.Checks) != 1 || ripple.Checks[0].Holds {
			t.Errorf("%v %+v", err, ripple)
		}
	}
}

// TestLedgerReadInEveryEntry: entries that each sum the ledger share the list of its lines.
func TestLedgerReadInEveryEntry(t *testing.T) {
	var list []Entry
	for i := range 60 {
		n := string(rune('a'+i/26)) + string(rune('a'+i%26))
		list = append(list, entryOf(n, "", "work 1 h on hull\nspend 2 EUR on nails\nall_"+n+" = sum(worked())\npaid_"+n+" = sum(spent(\"nails\"))"))
	}
	s := open(list...)
	links := 0
	for _, e := range s.entries {
		for _, r := range e.stmts {
			links += len(r.links) + len(r.node.users)
		}
	}
	if links > 6*len(list) {
		t.Errorf("%d links in %d entries", links, len(list))
	}
	for k := range list {
		r, ok := s.Value("all_ac", k)
		if want := float64(k + 1); k >= 2 && (!ok || r.Value.V != want*3600) {
			t.Errorf("as of entry %d: %v h", k+1, r.Value.V/3600)
		}
	}
	before := s.Work()
	list[7] = entryOf("ah", "", "work 3 h on hull\nspend 2 EUR on nails\nall_ah = sum(worked())\npaid_ah = sum(spent(\"nails\"))")
	s.Update(context.Background(), list)
	if r, _ := s.Value("all_ac", Now); r.Value.V != 62*3600 {
		t.Errorf("%v h", r.Value.V/3600)
	}
	if n := s.Work().Evaluated - before.Evaluated; n > 61+2 {
		t.Errorf("%d statements worked out", n)
	}
}

// TestLedgerSlips: what is wrong with a sum of the ledger is said with what to write.
func TestLedgerSlips(t *testing.T) {
	s := open(entryOf("journal", "2027-01-02", `
		work 3 h on framing
		work x on framing
		a = worked("framng")
		b = sum(worked())
		work sum(worked()) on thinking`))
	r, _ := s.Value("a", Now)
	if r.OK() || r.Err.Hint != "did you mean framing?" {
		t.Errorf("%+v", r)
	}
	lines := s.Outcomes("journal", Now)
	if r = lines[len(lines)-1].Result; r.Err == nil || r.Err.Code != calc.CodeCircle {
		t.Errorf("a line that counts itself: %+v", r)
	}
	s = open(entryOf("journal", "", "work 3 h on framing\nwork x on framing\nb = worked()"))
	if r, _ = s.Value("b", Now); len(r.Value.Items()) != 1 || r.Value.Labels()[0] != "entry_1" || len(r.Warnings) != 1 {
		t.Errorf("%+v", r)
	}
	for text, want := range map[string]string{"worked(framing)": "in quotes", "spent(": "", "worked() as of entry 1": "as of follows a name", `sum(worked(""))`: "in quotes"} {
		x := open(entryOf("journal", "", "work 1 h on framing\nb = "+text)).Outcomes("journal", Now)
		if err := x[len(x)-1].Result.Err; err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// TestLinesThatCountThemselves: a line of the ledger that hangs on the sum it would be part
// of is wrong, whatever was asked for first, and nothing else is.
func TestLinesThatCountThemselves(t *testing.T) {
	lines := []string{
		"work v0 on hull", "v0 = sum(worked())", "work 2 h on hull", "work v4 on paint", "v4 = sum(worked())",
		`work sum(worked("rig")) on spars`, `work sum(worked("spars")) on rig`, "work 1 h on rig", "spend 3 EUR on glue",
		`bill = sum(spent("glue"))`, "spend bill on glue", "twice = 2 * v4",
	}
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 7))
		s := open()
		var list []string
		for _, i := range r.Perm(len(lines)) { // line by line, each at some place
			list = slices.Insert(list, r.IntN(len(list)+1), lines[i])
			s.Update(context.Background(), []Entry{entryOf("journal", "2027-01-02", strings.Join(list, "\n"))})
		}
		var wrong []string
		for i, o := range s.Outcomes("journal", Now) {
			if o.Result == nil || o.Result.OK() {
				continue
			}
			wrong = append(wrong, list[i])
			if o.Result.Err.Code != calc.CodeCircle || !strings.Contains(o.Result.Err.Hint, "count itself") {
				t.Errorf("%s: %v", list[i], o.Result.Err)
			}
		}
		slices.Sort(wrong)
		if got, want := strings.Join(wrong, "|"), `spend bill on glue|work sum(worked("rig")) on spars|work sum(worked("spars")) on rig|work v0 on hull|work v4 on paint`; got != want {
			t.Errorf("%s are wrong, of\n%s", got, strings.Join(list, "\n"))
		}
		for name, hours := range map[string]float64{"v0": 3, "v4": 3, "twice": 6} {
			v, ok := s.Value(name, Now)
			if !ok || !v.OK() || math.Abs(v.Value.V/3600-hours) > 1e-9 {
				t.Errorf("%s is %v, of\n%s", name, v, strings.Join(list, "\n"))
			}
		}
	}
}
