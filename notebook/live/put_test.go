package live_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// TestWhereATextIsPut presses keys that write into a text in which the caret was
// placed, or never was: nothing lands above the head of an entry or among its lines.
func TestWhereATextIsPut(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("SCARPH_NEEDS_NODE") != "" {
			t.Fatal("node is not there")
		}
		t.Skip("node is not there; it runs the page's script in this test")
	}
	type event struct {
		Type string `json:"type"`
		Key  string `json:"key,omitempty"`
		At   int    `json:"at"`
	}
	type asked struct {
		Text   string   `json:"text"`
		Tail   int      `json:"tail,omitempty"`
		Events []event  `json:"events,omitempty"`
		Put    []string `json:"put"`
	}
	const head, calc = "---\ntitle: A\nprivate: true\n---\n", "\n```calc\n\n```\n"
	at := func(n int) []event { return []event{{Type: "click", At: n}} }
	cases := []struct {
		asked
		want string
	}{
		{asked{Text: head + "Text.\n", Put: []string{calc}}, head + "Text.\n" + calc},
		{asked{Text: head + "Text.\n", Put: []string{"½", "°"}}, head + "Text.\n½°"},
		{asked{Text: head + "Text.\n", Put: []string{calc}, Events: []event{{Type: "keydown", Key: "Tab"}, {Type: "focus"}}}, head + "Text.\n" + calc},
		{asked{Text: head + "Text.\n", Put: []string{calc}, Events: at(0)}, head + calc + "Text.\n"},
		{asked{Text: head + "Text.\n", Put: []string{calc}, Events: at(9)}, head + calc + "Text.\n"},
		{asked{Text: head + "Text.\n", Put: []string{"½"}, Events: at(12)}, strings.Replace(head, "A", "A½", 1) + "Text.\n"},
		{asked{Text: head + "Text.\n", Put: []string{"½"}, Events: at(0)}, head + "½Text.\n"},
		{asked{Text: head + "Text.\n", Put: []string{calc}, Events: at(len(head) + 5)}, head + "Text." + calc + "\n"},
		{asked{Text: head + "Text.\n", Put: []string{"°"}, Events: []event{{Type: "keydown", Key: "ArrowDown", At: len(head)}}}, head + "°Text.\n"},
		{asked{Text: "Text.\n", Put: []string{"°"}, Events: at(0)}, "°Text.\n"},
		{asked{Text: "---\nno head\n", Put: []string{"°"}, Events: at(0)}, "°---\nno head\n"},
		{asked{Text: "## 2027-01-01\nA.\n## 2027-01-02\nB.\n", Tail: 17, Put: []string{calc}}, "## 2027-01-01\nA.\n" + calc + "## 2027-01-02\nB.\n"},
		{asked{Text: "", Put: []string{"½"}}, "½"},
	}
	var list []asked
	for _, c := range cases {
		list = append(list, c.asked)
	}
	in, err := json.Marshal(list)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, "testdata/put.mjs")
	var said bytes.Buffer
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err, said.String())
	}
	var got []string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for i, c := range cases {
		if got[i] != c.want {
			t.Errorf("%q with %q after %v is %q, want %q", c.Text, c.Put, c.Events, got[i], c.want)
		}
	}
}
