package cargo

import (
	"bytes"
	"encoding/json"
	"testing"
	"unicode/utf8"
)

// FuzzDecode reads anything as a cargo. What is JSON reads as the standard library reads
// it (but for null and empty lists, which are one to us), and what is taken comes out the
// same after it has been written and read once more.
func FuzzDecode(f *testing.F) {
	for _, s := range []string{`{"entries":[{"key":"a","lines":[{"text":"beam = 4 ft"}]}]}`, `{"entries":[{"lines":[{"text":"x","seals":[[0,1]]}]}]}`, `[[[[`, `{"a":"\ud83d"}`, `{"style":{"nearest":1e999}}`, "{\"\x00\":1}", `{"entries":{}}`, `-`, `01`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var want any
		if got, ok := parse(s); ok && utf8.ValidString(s) && json.Unmarshal([]byte(s), &want) == nil {
			a, _ := json.Marshal(got)
			b, _ := json.Marshal(want)
			if string(a) != string(b) && !bytes.Contains(append(a, b...), []byte("null")) && !bytes.Contains(b, []byte("[]")) {
				t.Errorf("%q reads as %s, to the standard library as %s", s, a, b)
			}
		}
		j, ok := Decode(s)
		if !ok {
			return
		}
		once := j.Encode()
		if !json.Valid(once) {
			t.Fatalf("%q is written as %s", s, once)
		}
		again, ok := Decode(string(once))
		if !ok {
			t.Fatalf("%s cannot be read back", once)
		}
		if twice := again.Encode(); string(twice) != string(once) {
			t.Errorf("%s\nis then\n%s", once, twice)
		}
	})
}
