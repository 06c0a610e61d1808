package kernel

import (
	"context"
	"errors"
	"time"

	"scarph/calc"
)

// MaxWork is how long one change, or one question, is worked on; what is not reached by
// then says so.
const MaxWork = time.Minute

// limits bound what is worked out while a session is read: the journal as it was on some
// day, a number that is tried. An update has its own context.
type limits struct {
	most   time.Duration   // of one reading
	until  time.Time       // when the reading that runs is stopped
	asking context.Context // of the client whose request is answered, nil for none
	cut    bool            // something was stopped since the last update
	halted bool            // by the client, not by the clock
}

// enter begins a reading of the session; s.mu.Unlock ends it.
func (s *Session) enter() {
	s.mu.Lock()
	if s.limits.halted { // another may ask the same and wait for the answer
		s.dropPast()
	}
	s.limits.until = time.Now().Add(s.limits.most)
}

// Asks tells the session that a client waits for an answer until ctx ends; the returned
// function takes that back. It is for a session with one client at a time.
func (s *Session) Asks(ctx context.Context) (answered func()) {
	set := func(ctx context.Context) {
		s.mu.Lock()
		s.limits.asking = ctx
		s.mu.Unlock()
	}
	set(ctx)
	return func() { set(nil) }
}

// dropPast drops what was kept of earlier days since the last update, where some of it
// may hang on what was stopped.
func (s *Session) dropPast() {
	s.limits.cut, s.limits.halted = false, false
	s.beginDays()
	s.turn++
}

// stop reports whether the work that runs has to end.
func (s *Session) stop() bool {
	l := &s.limits
	switch {
	case s.ctx != nil:
		if s.ctx.Err() == nil {
			return false
		}
	case l.asking != nil && l.asking.Err() != nil:
		l.halted = true
	case time.Now().Before(l.until):
		return false
	}
	l.cut = true
	return true
}

// stop reports whether the work in this view has to end. A day that has once taken too
// long is not begun again before the next update.
func (v *view) stop() bool {
	if v.spent {
		v.s.limits.cut = true
		return true
	}
	if !v.s.stop() {
		return false
	}
	v.spent = v.spent || v.s.ctx == nil && !v.s.limits.halted && !v.now && v.over == nil
	return true
}

// interruption is the error of a statement that was not worked out to its end.
func (v *view) interruption() *calc.Error {
	late := v.spent || v.s.ctx == nil && !v.s.limits.halted
	if ctx := v.s.ctx; ctx != nil {
		late = errors.Is(ctx.Err(), context.DeadlineExceeded)
	}
	if !late {
		return calc.Errorf(calc.CodeInterrupted, "the evaluation was interrupted")
	}
	return calc.Errorf(calc.CodeInterrupted, "this was stopped: working it out took more than a minute").
		WithHint("long ranges and lists in lists take long")
}

// Stopped reports whether the last update was interrupted before it had reached every
// statement.
func (s *Session) Stopped() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.stopped) > 0
}
