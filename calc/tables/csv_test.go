package tables

import (
	"encoding/csv"
	"reflect"
	"strings"
	"testing"
)

// TestSplitCSV reads every table as the standard library does.
func TestSplitCSV(t *testing.T) {
	list, err := files.ReadDir("data")
	if err != nil || len(list) < 5 {
		t.Fatal(list, err)
	}
	texts := []string{"a,\"b \"\"c\"\", d\",e\r\n,,\n\"x\ny\",1,2", "one,two\n"}
	for _, f := range list {
		b, err := files.ReadFile("data/" + f.Name())
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(b))
	}
	for _, text := range texts {
		want, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if got := splitCSV(text); !reflect.DeepEqual(got, want) {
			t.Errorf("%.60q reads differently", text)
		}
	}
}
