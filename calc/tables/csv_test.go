package tables

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// TestSplitCSV reads every table as the standard library does.
func TestSplitCSV(t *testing.T) {
	texts := []string{
		"a,\"b \"\"c\"\", d\",e\r\n,,\n\"x\ny\",1,2", "one,two\n", "one,", "one,\ntwo,\"\"\n",
		"\"\"\"quoted\"\"\",\"\"\"\"\r\n\"a,\"\"\",b\r\n", aliasesCSV, sourcesCSV,
	}
	for _, csv := range csvOfShelf(t) {
		texts = append(texts, csv)
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

// csvOfShelf gives the text of each file that is a table, by the table's name.
func csvOfShelf(t *testing.T) map[string]string {
	files, err := filepath.Glob("data/*.csv")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	texts := map[string]string{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.ReplaceAll(strings.TrimSuffix(filepath.Base(f), ".csv"), "_", " ")
		if name != "aliases" && name != "sources" {
			texts[name] = string(b)
		}
	}
	return texts
}

// TestEveryFileIsOnTheShelf holds the shelf to the files: each is a table, under its name.
func TestEveryFileIsOnTheShelf(t *testing.T) {
	texts := csvOfShelf(t)
	if len(texts) != len(shelf) {
		t.Errorf("%d files are tables; %d stand on the shelf", len(texts), len(shelf))
	}
	for _, table := range shelf {
		if texts[table.Name] != *table.file.csv {
			t.Errorf("%s does not hold its file", table.Name)
		}
	}
}
