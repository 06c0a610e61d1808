package kernel

import (
	"context"
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
