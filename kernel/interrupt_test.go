package kernel

import (
	"context"
	"strings"
	"testing"
	"time"

	"scarph/calc"
)

// TestInterrupt stops a long evaluation and asks that the session goes on.
func TestInterrupt(t *testing.T) {
	s := open(entryOf("a", "", "beam = 4 in"))
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Millisecond)
	defer cancel()
	text := "sum(1..900, sum(map(1..1000, it + 1)))"
	r, err := s.Eval(ctx, text, Now)
	if err != nil || r.Err == nil || r.Err.Code != calc.CodeInterrupted && r.Err.Code != calc.CodeLimit || r.Err.Span.End == 0 {
		t.Fatalf("a long sum gives %+v %v", r, err)
	}
	done, stop := context.WithCancel(context.Background())
	stop()
	s.Update(done, []Entry{entryOf("a", "", "beam = 5 in")})
	if r, _ := s.Value("beam", Now); r.Err == nil || r.Err.Code != calc.CodeInterrupted {
		t.Errorf("an update that was stopped gives %+v", r)
	}
	s.Update(context.Background(), []Entry{entryOf("a", "", "beam = 5 in ")})
	near(t, "beam", inches(t, s, "beam", Now), 5)
}

// back is a journal whose first entry can be asked for as it was.
func back() []Entry {
	return []Entry{
		entryOf("a", "2027-01-01", "beam = 4 in\nhalf = beam / 2\nquarter = half / 2"),
		entryOf("b", "2027-01-02", "revise beam = 8 in"),
	}
}

// TestLookingBackEnds gives no time to what is asked of an earlier day: it says so, in
// words, until the next change; the journal as it stands is untouched.
func TestLookingBackEnds(t *testing.T) {
	s := open(back()...)
	s.limits.most = -time.Second
	if r, _ := s.Value("quarter", 0); r.Err == nil || r.Err.Code != calc.CodeInterrupted || !strings.Contains(r.Err.Message, "more than a minute") || r.Err.Span.End == 0 {
		t.Errorf("without time, the day before gives %+v", r)
	}
	if o := s.Outcomes("a", 0); o[1].Result.Err == nil {
		t.Errorf("a line of the day before gives %+v", o[1].Result)
	}
	near(t, "quarter", inches(t, s, "quarter", Now), 2)
	s.limits.most = time.Minute
	if r, _ := s.Value("quarter", 0); r.OK() {
		t.Error("a day that took too long is begun again")
	}
	list := back()
	list = append(list, entryOf("c", "2027-01-03", "more = 1 in"))
	s.Update(context.Background(), list)
	near(t, "quarter, then", inches(t, s, "quarter", 0), 1)
	if _, err := s.WhatIf(map[string]string{"beam": "12 in"}); err != nil {
		t.Error(err)
	}
	s.limits.most = -time.Second
	if _, err := s.WhatIf(map[string]string{"beam": "16 in"}); err == nil || err.Code != calc.CodeInterrupted {
		t.Errorf("a number that is tried without time: %v", err)
	}
}

// TestLookingBackIsInterrupted has a client take back what it asked of an earlier day: who
// asks the same afterwards gets it.
func TestLookingBackIsInterrupted(t *testing.T) {
	s := open(back()...)
	ctx, stop := context.WithCancel(context.Background())
	answered := s.Asks(ctx)
	stop()
	if r, _ := s.Value("quarter", 0); r.Err == nil || r.Err.Code != calc.CodeInterrupted {
		t.Errorf("what was taken back gives %+v", r)
	}
	answered()
	near(t, "quarter, then", inches(t, s, "quarter", 0), 1)
	near(t, "half, then", inches(t, s, "half", 0), 2)
}

// TestWhatWasStoppedIsNotKept interrupts an update that looks back: the days it looked at
// are right after the next.
func TestWhatWasStoppedIsNotKept(t *testing.T) {
	s := open(back()...)
	list := append(back()[:1], entryOf("b", "2027-01-02", "revise beam = 8 in\nwas = quarter as of entry 1"))
	ctx, stop := context.WithCancel(context.Background())
	stop()
	s.Update(ctx, list)
	if r, _ := s.Value("was", Now); r.OK() {
		t.Error("an update that was stopped has worked")
	}
	s.Update(context.Background(), list)
	near(t, "was", inches(t, s, "was", Now), 1)
	near(t, "quarter, then", inches(t, s, "quarter", 0), 1)
}
