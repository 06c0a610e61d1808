package kernel

import (
	"context"
	"encoding/json"
	"strings"
	"sync"
	"testing"
	"time"

	"scarph/calc"
)

// FuzzRequests sends a desk anything under the name of each of its requests. Every one is
// answered once, by something that can be written as JSON, and the journal stays as it was.
func FuzzRequests(f *testing.F) {
	for _, p := range []string{`{"text":"x = inside / 2\nx * 2"}`, `{"name":"beam"}`, `{"text":"hopper_miter(4, ","at":12}`, `{"set":{"beam":"5 ft"}}`, `{"since":0}`, `{"number":-1}`, `{"as_of":99999999999}`, `[]`, `{"text":"sum(1..900, sum(map(1..1000, it)))"}`, `{"id":"1"}`} {
		for i := range methods {
			f.Add(uint8(i), p)
		}
	}
	f.Fuzz(func(t *testing.T, which uint8, params string) {
		s := scratched()
		d := NewDesk(s, DeskOptions{HTML: func(r *Result, st calc.Style) string { return st.Text(r.Value) }})
		defer d.Close()
		before := allValues(s)
		var answers []any
		var mu sync.Mutex
		done := make(chan bool, 2)
		m := methods[int(which)%len(methods)].name
		ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
		defer cancel()
		d.Take(ctx, Request{ID: "1", Method: m, Decode: decoder(params)}, func(z any, f *Fault) {
			mu.Lock()
			defer mu.Unlock()
			answers = append(answers, z)
			if f != nil && f.Message == "" {
				t.Errorf("%s %q: a fault without words", m, params)
			}
			done <- true
		})
		select {
		case <-done:
		case <-time.After(30 * time.Second):
			t.Fatalf("%s %q is not answered", m, params)
		}
		mu.Lock()
		defer mu.Unlock()
		if _, err := json.Marshal(answers); err != nil {
			t.Errorf("%s %q: %v", m, params, err)
		}
		if allValues(s) != before {
			t.Errorf("%s %q changed the journal", m, params)
		}
	})
}

// allValues writes what every name of a session stands for.
func allValues(s *Session) string {
	var b strings.Builder
	for _, name := range s.Names() {
		if r, ok := s.Value(name, Now); ok && r.OK() {
			b.WriteString(name + " = " + calc.Style{}.Text(r.Value) + "\n")
		}
	}
	return b.String()
}
