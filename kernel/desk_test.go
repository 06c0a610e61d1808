package kernel

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"sync"
	"testing"
	"time"

	"scarph/calc"
)

// carry asks a desk one request, with parameters written as JSON, and waits.
func carry(d *Desk, method, params string) (string, *Fault) {
	type pair struct {
		z any
		f *Fault
	}
	c := make(chan pair, 1)
	d.Take(context.Background(), Request{ID: "1", Method: method, Decode: decoder(params)}, func(z any, f *Fault) { c <- pair{z, f} })
	p := <-c
	b, _ := json.Marshal(p.z)
	return string(b), p.f
}

func decoder(params string) func(any) error {
	return func(into any) error {
		if params == "" {
			return nil
		}
		j := json.NewDecoder(bytes.NewReader([]byte(params)))
		j.DisallowUnknownFields()
		return j.Decode(into)
	}
}

var unescaped = strings.NewReplacer(`\u003c`, "<", `\u003e`, ">", `\"`, `"`)

func TestDesk(t *testing.T) {
	d := NewDesk(scratched(), DeskOptions{Title: "Wren", Version: "1", HTML: func(r *Result, st calc.Style) string { return "<b>" + st.Text(r.Value) + "</b>" }})
	defer d.Close()
	for _, c := range []struct{ method, params, has string }{
		{"about", "", `"title":"Wren","show":"feet-inches","number":0`},
		{"about", "{}", `"number":2,"key":"b","title":"b","date":"2027-02-01"`},
		{"evaluate", `{"text":"x = inside / 2\nx * 2\n2 in + 3"}`, `"name":"x"`},
		{"evaluate", `{"text":"x"}`, `"text/html":"\u003cb\u003e`},
		{"evaluate", `{"text":"3 in + 19"}`, `"error":{"code":"bare-number"`},
		{"evaluate", `{"text":"\n\n3 in"}`, `"line":3`},
		{"evaluate", `{"text":"lost * 2"}`, `"waits":["lost"]`},
		{"evaluate", `{"text":"check beam < 1 in"}`, `"holds":false,"data":{`},
		{"evaluate", `{"text":"check beam < 1 in"}`, `✗ does not hold (4' 1 3/4\" ± 1/16\", 1\")`},
		{"evaluate", `{"text":"scarf_length(5/8 in, 8)"}`, `\ncaution B: A bench figure`},
		{"evaluate", `{"text":"check scarf_length(5/8 in, 8) > 1 in"}`, `"text/plain":"· holds (5\", 1\")\ncaution B`},
		{"evaluate", `{"text":"beam","as_of":"2027-01-15"}`, `4' 1 1/2`},
		{"evaluate", `{"text":"beam","as_of":"1"}`, `4' 1 1/2`},
		{"evaluate", `{"text":"x","fresh":true}`, `"code":"unknown-name"`},
		{"describe", `{"name":"beam"}`, `"kind":"value"`},
		{"describe", `{"name":"frame_spacing"}`, `"source":`},
		{"complete", `{"text":"insi"}`, `"start":0,"end":4,"proposals":[{"text":"inside","kind":"value"`},
		{"complete", `{"text":"é insi + 2","cursor":6}`, `"start":2,"end":6`},
		{"what_if", `{"values":{"beam":"4'"}}`, `"unchanged":["planking"`},
		{"what_if", `{"values":{"beam":"4'"}}`, `"name":"thwart"`},
		{"ripple", `{"since":0}`, `"since":0,"number":0,"ripple":{"changed":[]`},
		{"history", `{"name":"beam"}`, `"readings":[{"kind":"drawn"`},
		{"history", `{}`, `"name":"beam"`},
		{"dimensions", `{}`, `"dimensions":[{"name":"beam"`},
		{"subscribe", `{}`, `{"number":0}`},
		{"unsubscribe", ``, `{"number":0}`},
		{"interrupt", `{}`, `{"interrupted":0}`},
	} {
		got, f := carry(d, c.method, c.params)
		plain := unescaped.Replace(got)
		want := unescaped.Replace(c.has)
		if f != nil || !strings.Contains(plain, want) {
			t.Errorf("%s %s\n got %s %+v\nwant %s", c.method, c.params, plain, f, want)
		}
	}
}

func TestDeskRefuses(t *testing.T) {
	d := NewDesk(scratched(), DeskOptions{})
	defer d.Close()
	for _, c := range []struct{ method, params, code, hint string }{
		{"evaluat", "{}", FaultMethod, "evaluate"},
		{"evaluate", "{}", FaultParameters, ""},
		{"evaluate", `{"text":3}`, FaultParameters, ""},
		{"evaluate", `{"txt":"3"}`, FaultParameters, ""},
		{"evaluate", `{"text":"beam","as_of":"3/4"}`, "date", "entry"},
		{"evaluate", `{"text":"beam","as_of":"1999-01-01"}`, "date", ""},
		{"evaluate", `{"text":"` + strings.Repeat("x", MaxText+1) + `"}`, FaultParameters, ""},
		{"describe", `{}`, FaultParameters, ""},
		{"describe", `{"name":"beem"}`, "unknown-name", "beam"},
		{"describe", `{"name":"beam","as_of":"x"}`, "date", ""},
		{"complete", `{"text":"abc","cursor":4}`, FaultParameters, ""},
		{"complete", `{"text":"abc","cursor":-1}`, FaultParameters, ""},
		{"what_if", `{}`, FaultParameters, ""},
		{"what_if", `{"values":{"beem":"1 in"}}`, "unknown-name", "beam"},
		{"what_if", `{"values":{"beam":"3"}}`, "bare-number", ""},
		{"what_if", `{"values":{"beam":"3 kg","planking":"1 in"}}`, "dimension", ""},
		{"ripple", `{}`, FaultParameters, ""},
		{"ripple", `{"since":7}`, FaultGone, ""},
		{"history", `{"name":"beem"}`, "unknown-name", ""},
		{"history", `{"as_of":"x"}`, "date", ""},
		{"dimensions", `{"as_of":"x"}`, "date", ""},
		{"about", `{"x":1}`, FaultParameters, ""},
		{"subscribe", `{"x":1}`, FaultParameters, ""},
		{"interrupt", `{"x":1}`, FaultParameters, ""},
		{"shutdown", `{"x":1}`, FaultParameters, ""},
	} {
		_, f := carry(d, c.method, c.params)
		if f == nil || f.Code != c.code || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s %.60s: %+v", c.method, c.params, f)
		}
	}
}

// TestDeskTellsRipples revises the journal under a client that listens.
func TestDeskTellsRipples(t *testing.T) {
	s := open(entryOf("a", "2027-01-01", "a = 1 in\nb = a * 2\nc = 5 in"))
	told := make(chan RippleResult, 10)
	d := NewDesk(s, DeskOptions{Tell: func(name string, data any) {
		if name == "moved" {
			told <- data.(RippleResult)
		}
	}})
	defer d.Close()
	update := func(a string) {
		s.Update(context.Background(), []Entry{entryOf("a", "2027-01-01", "a = "+a+"\nb = a * 2\nc = 5 in")})
	}
	update("2 in") // before the client listens
	carry(d, "subscribe", "")
	update("3 in")
	r := <-told
	if r.Number != 2 || r.Since != 1 || len(r.Ripple.Changed) != 2 {
		t.Errorf("%+v", r)
	}
	got, _ := carry(d, "ripple", `{"since":0}`)
	if !strings.Contains(got, `"from":{"kind":"quantity","text":"1\""`) || !strings.Contains(got, `"to":{"kind":"quantity","text":"3\""`) || strings.Contains(got, `"c"`) {
		t.Errorf("since 0: %s", got)
	}
	update("1 in")
	<-told
	if got, _ := carry(d, "ripple", `{"since":0}`); !strings.Contains(got, `"changed":[]`) {
		t.Errorf("there and back again moved %s", got)
	}
	carry(d, "unsubscribe", "")
	update("9 in")
	select {
	case r := <-told:
		t.Errorf("told after unsubscribing: %+v", r)
	case <-time.After(20 * time.Millisecond):
	}
	for i := range KeptRipples + 5 {
		update(calc.Style{}.Text(calc.Number(float64(i+20))) + " in")
	}
	if _, f := carry(d, "ripple", `{"since":1}`); f == nil || f.Code != FaultGone {
		t.Errorf("an old ripple: %+v", f)
	}
	if _, f := carry(d, "ripple", `{"since":10}`); f != nil {
		t.Errorf("a kept ripple: %+v", f)
	}
}

// TestDeskInterrupts stops requests that run and wait, and no other.
func TestDeskInterrupts(t *testing.T) {
	d := NewDesk(scratched(), DeskOptions{})
	defer d.Close()
	long := `{"text":"` + strings.Repeat(`sum(map(1..100000, it * it))\n`, 400) + `"}`
	type answer struct {
		id string
		f  *Fault
	}
	c := make(chan answer, 10)
	take := func(id, method, params string) {
		d.Take(context.Background(), Request{ID: id, Method: method, Decode: decoder(params)}, func(_ any, f *Fault) { c <- answer{id, f} })
	}
	take("long", "evaluate", long)
	take("waits", "evaluate", long)
	take("short", "evaluate", `{"text":"1 in"}`)
	for _, id := range []string{"long", "waits"} {
		got, f := carry(d, "interrupt", `{"request":"`+id+`"}`)
		if f != nil || got != `{"interrupted":1}` {
			t.Errorf("%s: %s %+v", id, got, f)
		}
	}
	codes := map[string]string{}
	for range 3 {
		a := <-c
		codes[a.id] = "answered"
		if a.f != nil {
			codes[a.id] = a.f.Code
		}
	}
	if codes["long"] != FaultInterrupted || codes["waits"] != FaultInterrupted || codes["short"] != "answered" {
		t.Errorf("%v", codes)
	}
}

// TestDeskShutsDown answers what waits, refuses what comes after.
func TestDeskShutsDown(t *testing.T) {
	d := NewDesk(scratched(), DeskOptions{})
	var order []string
	var mu sync.Mutex
	done := make(chan bool)
	take := func(id, method, params string) {
		d.Take(context.Background(), Request{ID: id, Method: method, Decode: decoder(params)}, func(_ any, f *Fault) {
			mu.Lock()
			defer mu.Unlock()
			if f != nil {
				id += " " + f.Code
			}
			if order = append(order, id); len(order) == 3 {
				close(done)
			}
		})
	}
	take("1", "evaluate", `{"text":"1 in"}`)
	take("2", "evaluate", `{"text":"2 in"}`)
	take("3", "shutdown", "")
	<-done
	<-d.Done()
	if got := strings.Join(order, ", "); got != "1, 2, 3" {
		t.Errorf("answered %s", got)
	}
	if _, f := carry(d, "evaluate", `{"text":"1 in"}`); f == nil || f.Code != FaultClosed {
		t.Errorf("after the end: %+v", f)
	}
	d.Close() // again does no harm
}

// TestDeskBoundsItsQueue refuses more than can wait, and answers the rest.
func TestDeskBoundsItsQueue(t *testing.T) {
	s := scratched()
	d := NewDesk(s, DeskOptions{})
	s.mu.Lock() // nothing is answered meanwhile
	var wg sync.WaitGroup
	var mu sync.Mutex
	busy := 0
	for range MaxWaiting + 50 {
		wg.Add(1)
		d.Take(context.Background(), Request{Method: "history", Decode: decoder("")}, func(_ any, f *Fault) {
			mu.Lock()
			defer mu.Unlock()
			if f != nil && f.Code == FaultBusy {
				busy++
			}
			wg.Done()
		})
	}
	s.mu.Unlock()
	wg.Wait()
	if busy < 45 || busy > 50 {
		t.Errorf("%d were refused", busy)
	}
	d.Close()
}
